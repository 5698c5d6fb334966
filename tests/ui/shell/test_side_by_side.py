"""A form and its answer, a list and its detail: beside each other where there is room."""

import asyncio
from datetime import UTC, datetime
from typing import Any

import flet as ft
import pytest
from drawn import Screen, parts_of, words_of

from pondapp.answers.sharing.example import EXAMPLE, example_readings
from pondapp.models.entry import Entry, FreeNote
from pondapp.ui.about.settings import SettingsPage
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.log.log import LogPage
from pondapp.ui.planning.build import BuildPage
from pondapp.ui.plumbing.run_form import RunFormPage
from pondapp.ui.pond.home import HomePage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pond.pond_form import PondFormPage
from pondapp.ui.pumps.pump_form import PumpFormPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.pumps.size import SizePage
from pondapp.ui.shell import theme
from pondapp.ui.waterfall.waterfall import WaterfallPage

TABLET, PHONE, TURNED = (1180, 820), (390, 844), (844, 390)
SCREENS: tuple[tuple[Any, dict[str, str]], ...] = (
    (HomePage, {}),
    (PondPage, {"pond_id": EXAMPLE}),
    (PondFormPage, {}),
    (BuildPage, {"pond_id": EXAMPLE}),
    (PumpsPage, {"pond_id": EXAMPLE}),
    (PumpFormPage, {"pond_id": EXAMPLE, "pump_id": "middle"}),
    (FeaturePage, {"pond_id": EXAMPLE, "thing_id": "bog"}),
    (RunFormPage, {"pond_id": EXAMPLE, "line_id": "line", "run_key": "to-bog"}),
    (SizePage, {}),
    (WaterfallPage, {}),
    (SettingsPage, {}),
)


def of_size(size: tuple[int, int]) -> None:
    ft.context.page.width, ft.context.page.height = size


def columns(screen: Screen) -> list[Any]:
    """The parts of a screen that scroll by themselves, but not the four places."""
    view = screen.look()
    inside = [
        one
        for one in parts_of(view)
        if isinstance(one, ft.Column) and one.scroll == ft.ScrollMode.AUTO
    ]
    return inside or [view]


def said(screen: Screen) -> list[str]:
    """All that it says, but for the scale of a drawing, which is that of its width."""
    lines = screen.text().split("\n")
    return sorted(line for line in lines if not line.startswith("The water is drawn to scale"))


@pytest.fixture(autouse=True)
def _measured(screen: Screen) -> None:
    for reading in example_readings(datetime.now(UTC)):
        asyncio.run(screen.session.logs.save_reading(reading))


@pytest.mark.parametrize(("page", "params"), SCREENS, ids=lambda one: getattr(one, "__name__", ""))
def test_two_columns_on_a_tablet_and_one_on_a_phone_that_say_the_same(
    screen: Screen, page: Any, params: dict[str, str]
) -> None:
    of_size(TABLET)
    screen.open(page, **params)
    left, right = columns(screen)
    assert words_of(left)
    assert words_of(right)
    beside = said(screen)
    of_size(PHONE)
    screen.open(page, **params)
    assert len(columns(screen)) == 1
    assert said(screen) == beside


@pytest.mark.parametrize(("page", "params"), SCREENS, ids=lambda one: getattr(one, "__name__", ""))
def test_a_turned_phone_has_the_same_boxes_round_what_is_in_hand(
    screen: Screen, page: Any, params: dict[str, str]
) -> None:
    screen.open(page, **params)
    shapes = []
    for size in (PHONE, TURNED, TABLET):
        of_size(size)
        (across,) = screen.look().controls
        places, scrolled = across.controls
        (row,) = scrolled.controls
        column = row.controls[0]
        (padded,) = column.controls
        shapes.append([type(one) for one in (across, places, scrolled, row, column, padded)])
        # In a row of this kind a thing keeps its state also when what is round it is another.
        assert isinstance(padded.content, ft.ResponsiveRow)
    assert shapes[0] == shapes[1] == shapes[2]


def test_large_text_needs_all_of_the_width(screen: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)
    of_size(TABLET)
    screen.open(WaterfallPage)
    assert len(columns(screen)) == 1


@pytest.mark.parametrize("width", [820, 1180, 1600, 2560])
def test_no_column_is_wider_than_one_can_read(screen: Screen, width: int) -> None:
    of_size((width, 900))
    screen.open(WaterfallPage)
    for one in columns(screen):
        padding = one.controls[0].padding
        room = (width - theme.RAIL) / 2 - padding.left - padding.right
        assert 300 < room <= theme.WIDTHS["column"]


def test_a_reading_opens_beside_the_log_and_on_a_phone_on_its_own_screen(screen: Screen) -> None:
    of_size(TABLET)
    screen.open(LogPage, pond_id=EXAMPLE)
    _, newest = columns(screen)
    assert "1,560 L/h: " in words_of(newest), "never an empty half"
    screen.press("Filter box: 4,350 L/h")
    assert screen.went == []
    text = words_of(columns(screen)[1])
    assert "4,350 L/h: " in text
    assert "Correct what was measured" in text
    (marked,) = [
        one for one in parts_of(screen.look()) if isinstance(one, ft.Semantics) and one.selected
    ]
    assert "4,350 L/h" in words_of(marked)
    of_size(PHONE)
    screen.open(LogPage, pond_id=EXAMPLE)
    assert len(columns(screen)) == 1
    screen.press("Filter box: 4,350 L/h")
    (went,) = screen.went
    assert went.startswith(f"/pond/{EXAMPLE}/log/")


def test_another_entry_of_the_log_and_one_that_is_deleted(screen: Screen) -> None:
    of_size(TABLET)
    note = Entry(id="n", pond_id=EXAMPLE, when=datetime.now(UTC), note="Ice", what=FreeNote())
    asyncio.run(screen.session.logs.save_entry(note))
    screen.open(LogPage, pond_id=EXAMPLE)
    screen.press("Ice")
    screen.press("Delete this entry")
    assert "Ice" not in screen.text()
    assert "Flow reading" in words_of(columns(screen)[1])


def test_the_uses_are_pictures_and_the_first_has_a_row_of_its_own(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    uses = ("Measure a flow", "Choose a pump", "Check a waterfall")
    screen.open(HomePage)
    shown = [screen.buttons()[use].content for use in uses]
    assert [type(one) for one in shown] == [ft.Row, ft.Column, ft.Column]
    assert all(isinstance(one.controls[0], ft.Stack) for one in shown)
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)
    screen.look()
    assert all(isinstance(screen.buttons()[use].content, ft.Row) for use in uses)


def test_the_example_is_looked_at_at_once_on_the_first_screen(screen: Screen) -> None:
    screen.session.deletion.mark_deleted(EXAMPLE)
    screen.open(HomePage)
    screen.press("Look round an example pond")
    text = screen.text()
    assert "Reading the log." not in text
    assert "Measured without a pond" not in text


def test_a_new_pond_is_asked_on_the_left_and_drawn_on_the_right(screen: Screen) -> None:
    of_size(TABLET)
    screen.open(PondFormPage)
    asked, follows = (words_of(one) for one in columns(screen))
    for name in ("Name of the pond", "Its shape from above", "Length (m)", "What the pump feeds"):
        assert name in asked
    assert follows.index("is drawn here") < follows.index("Save the pond")


def test_a_title_is_large_wherever_there_is_room_for_it(screen: Screen) -> None:
    def letters(size: tuple[int, int]) -> float:
        of_size(size)
        screen.open(BuildPage, pond_id=EXAMPLE)
        return screen.look().appbar.title.size

    assert letters(TABLET) == theme.TITLE
    assert letters((320, 568)) < theme.TITLE
