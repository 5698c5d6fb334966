"""Fields of a row line up, whatever their names; what stands side by side is level."""

from typing import Any

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp import words
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.ui.keeping.water_change import WaterChangePage
from pondapp.ui.parts import labels, layout
from pondapp.ui.parts.labels import LINE, Label, level, lines_of
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.shell import theme


def rooms(control: Any) -> dict[str, float]:
    """The least height of each name on a screen."""
    return {
        one.words: one.controls[0].height for one in parts_of(control) if isinstance(one, Label)
    }


@pytest.mark.parametrize(
    ("text", "room", "lines"),
    [
        ("Length (m)", 173, 1),
        ("Water through the lamp (L/h)", 173, 2),
        ("Wasser zu wechseln (L)", 138, 2),
        ("Anteil des Teichs (%)", 138, 1),
        ("Most that its maker allows (L/h)", 90, 3),
        ("Überschwemmungsgefahrenabschätzung", 90, 3),  # broken inside: no line holds it
    ],
)
def test_lines_that_a_name_takes(text: str, room: float, lines: int) -> None:
    assert lines_of(text, room / theme.SMALL) == lines


def test_the_shorter_name_of_a_row_gets_the_room_of_the_longer() -> None:
    short, long, alone = map(labels.label, ("Slope", "Water through the lamp (L/h)", "Depth"))
    level([short, long], 173.0)
    assert short.controls[0].height == long.controls[0].height == 2 * theme.SMALL * LINE
    assert short.alignment == ft.Alignment.BOTTOM_LEFT  # its field is what it stays near
    level([alone], 173.0)
    assert not alone.controls[0].height
    level([short, long], 0.0)  # before the width is known
    assert not short.controls[0].height


def test_fields_of_a_pair_line_up_on_the_narrowest_phone(screen: Screen) -> None:
    words.set_language("de")
    screen.open(WaterChangePage, pond_id=EXAMPLE)
    ft.context.page.width = 320
    found = rooms(screen.look())
    assert found["Anteil des Teichs (%)"] == found["Wasser zu wechseln (L)"] == 40
    ft.context.page.width = 390
    found = rooms(screen.look())
    assert not found["Anteil des Teichs (%)"]


def test_large_text_has_one_in_a_row_and_no_room_to_spare(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    words.set_language("de")
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)
    screen.open(WaterChangePage, pond_id=EXAMPLE)
    assert not rooms(screen.look())["Anteil des Teichs (%)"]


def test_least_and_good_are_level(screen: Screen) -> None:
    words.set_language("de")
    screen.open(PlanPage, pond_id=EXAMPLE)
    ft.context.page.width = 320
    found = rooms(screen.look())
    assert found["Überall das Mindeste"] == found["Überall gut"] == 40


def test_what_unfolds_inside_a_block_begins_where_its_lines_do() -> None:
    (words_of_it,) = [
        one for one in parts_of(layout.aside("Show the working", lambda _: None))
        if isinstance(one, ft.Text)
    ]  # fmt: skip
    assert words_of_it.text_align == ft.TextAlign.START


def test_a_caution_begins_with_a_capital_wherever_its_words_are_from() -> None:
    (told,) = [
        one for one in parts_of(layout.caution("mains and water kill.")) if isinstance(one, ft.Text)
    ]
    assert told.value == "Caution: Mains and water kill."
    (told,) = [
        one for one in parts_of(layout.caution("pond/a is lost.")) if isinstance(one, ft.Text)
    ]
    assert "pond/" in told.value.replace("\ufeff", "")
