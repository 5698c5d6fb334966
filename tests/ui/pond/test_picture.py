"""The picture on the pond's screen: a row for each part, in words, that opens what it names."""

import asyncio
import re
from datetime import UTC, datetime

import flet as ft
import pytest
from drawn import Screen, parts_of, words_of

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.circuit import Branch, Line
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume
from pondapp.ui.pond.picture import PondPicture, of_plan
from pondapp.ui.pond.small_picture import small_picture


def shown(monkeypatch: pytest.MonkeyPatch, pond: Pond, *, readings: bool = False) -> Screen:
    screen = Screen(monkeypatch)
    asyncio.run(screen.session.ponds.save(pond))
    for one in example_readings(datetime.now(UTC)) if readings else ():
        asyncio.run(screen.session.logs.save_reading(one))
    screen.open(lambda: PondPicture(pond))
    return screen


def test_each_part_says_what_was_measured_against_what_is_wanted(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = shown(monkeypatch, example_pond(), readings=True)
    text = screen.text()
    lines = text.split("\n")
    names = [line for line in lines if line in ("Pump", "Mid-size pump", "Bog filter", "Filter box",
                                                "Slate lip")]  # fmt: skip
    assert names == ["Mid-size pump", "Bog filter", "Filter box", "Slate lip"]
    assert re.fullmatch(
        r"Right: 7,050 L/h\. Sum over its branches, measured at Bog filter, Filter box\. "
        r"Wanted [\d,]+ L/h or more",
        lines[lines.index("Mid-size pump") + 1],
    )
    assert re.fullmatch(
        r"Right: [\d,]+ L/h\. Wanted [\d,]+ to [\d,]+ L/h", lines[lines.index("Bog filter") + 1]
    )
    assert "The water is drawn to scale; 0.8 m at its deepest." in text


def test_what_lies_on_a_branch_of_conflicting_demands_is_not_called_right_or_too_little(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    pond = example_pond()
    bog, box, lip = pond.fed
    wide = lip.model_copy(update={"width_m": 0.6})
    row = pond.lines[0].branches[0].model_copy(update={"feeds": ("bog", "lip")})
    line = pond.lines[0].model_copy(update={"branches": (row,)})
    pond = pond.model_copy(update={"fed": (bog, wide, box), "lines": (line,)})
    screen = shown(monkeypatch, pond, readings=True)
    lines = screen.text().split("\n")
    for name in ("Bog filter", "Slate lip"):
        said = lines[lines.index(name) + 1]
        assert said.startswith("This can't all work: ")
        assert "On the branch To the bog, Slate lip needs " in said


def test_a_row_and_its_mark_open_what_they_name(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = shown(monkeypatch, example_pond())
    screen.press("Bog filter")
    touches = [
        one for one in parts_of(screen.look())
        if isinstance(one, ft.Container) and one.on_click and one.left is not None
    ]  # fmt: skip
    assert len(touches) == 4
    assert all(one.width >= 48 and one.height >= 48 for one in touches)
    touches[1].on_click(None)
    assert screen.went == [f"/pond/{EXAMPLE}/at/bog"] * 2


def test_a_branch_that_feeds_nothing_opens_on_the_path(monkeypatch: pytest.MonkeyPatch) -> None:
    line = Line(id="l", name="L", branches=(Branch(id="b", name="Straight"),))
    bare = Pond(id="p", name="P", water=TypedVolume(volume_m3=1.0), lines=(line,))
    screen = shown(monkeypatch, bare)
    screen.press("Straight")
    assert screen.went == ["/pond/p/path/b"]
    assert "Only its volume is known" in screen.text()


def test_a_shape_that_cannot_be_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    basin = Basin(id="b", name="B", outline=Rectangle(length_m=1.0, width_m=1.0), depth_m=1.0,
                  side_slope=5.0)  # fmt: skip
    screen = shown(monkeypatch, Pond(id="p", name="P", water=Drawn(basins=(basin,))))
    assert "Caution" in words_of(screen.look())


def test_the_small_picture_waits_for_the_log_and_opens_the_pond(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = shown(monkeypatch, example_pond())
    screen.open(lambda: ft.Column(small_picture(example_pond())))
    touches = [
        one for one in parts_of(screen.look()) if isinstance(one, ft.Container) and one.on_click
    ]
    assert len(touches) == 1
    touches[0].on_click(None)
    assert screen.went == [f"/pond/{EXAMPLE}"]
    monkeypatch.setattr(screen.session.logs, "is_read", lambda _: False)
    assert small_picture(example_pond()) == []


def test_a_shared_plan_has_the_picture_with_its_names(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = shown(monkeypatch, example_pond())
    screen.open(lambda: ft.Column(of_plan(example_pond())))
    assert "1 Mid-size pump, 2 Bog filter, 3 Filter box, 4 Slate lip" in screen.text()


def test_a_pond_that_cannot_be_has_no_small_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    basin = Basin(id="b", name="B", outline=Rectangle(length_m=1.0, width_m=1.0), depth_m=1.0,
                  side_slope=5.0)  # fmt: skip
    odd = Pond(id="p", name="P", water=Drawn(basins=(basin,)))
    shown(monkeypatch, odd)
    assert small_picture(odd) == of_plan(odd) == []


def test_water_moves_some_seconds_and_only_where_motion_is_free(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = shown(monkeypatch, example_pond())

    def shimmers() -> list[ft.Shimmer]:
        return [one for one in parts_of(screen.look()) if isinstance(one, ft.Shimmer)]

    assert shimmers() == []
    screen.session.device.moves = True
    (moving,) = shimmers()
    assert moving.loop
    assert moving.loop * moving.period <= 5000  # longer, and a reader must be able to stop it
