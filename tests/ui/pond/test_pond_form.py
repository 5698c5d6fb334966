"""The pond form's texts become a pond, or sentences beside their fields."""

import asyncio
from math import pi

import flet as ft
import pytest
from drawn import Screen
from hypothesis import given
from hypothesis import strategies as st

from pondapp.answers.plumbing.path import assumed_of, branch_of, lines_of
from pondapp.answers.water.volume import found_basin, water_volume
from pondapp.models.circuit import Lip
from pondapp.models.preferences import Draft
from pondapp.models.water import Drawn, TypedVolume
from pondapp.ui.parts.missing import place_of
from pondapp.ui.pond.new_pond import (
    FORM,
    LIFTS,
    NEW_POND,
    SIDES,
    asked_of_water,
    read_new_pond,
    with_sides,
)
from pondapp.ui.pond.pond_form import PondFormPage
from pondapp.ui.water.water import WaterPage

FULL = {
    "name": "Invented", "shape": "typed", "volume": "1000", "bog": "100", "high_flow": "yes",
    "lip": "30", "pump_name": "Pump A", "pump_flow": "4000", "pump_head": "2,5", "pump_watts": "45",
    "bog_lift": "0.2", "lip_lift": "0.8", "hose_length": "3", "bore": "25",
}  # fmt: skip
OVAL = {
    "name": "Oval", "shape": "ellipse", "length": "3.5", "width": "2.4", "depth": "0.9",
    "sides": "shelf", "shelf_depth": "30", "shelf_width": "40",
}  # fmt: skip


def test_a_full_form_is_a_pond() -> None:
    read = read_new_pond(FULL, "metric", "p")
    assert read.errors == {}
    pond = read.pond
    assert pond is not None
    assert pond.water == TypedVolume(volume_m3=1.0)
    assert {feature.kind for feature in pond.fed} == {"bog", "high_flow", "lip"}
    assert next(feature for feature in pond.fed if isinstance(feature, Lip)).width_m == 0.3


def asked(texts: dict[str, str]) -> list[str]:
    """The fields that a form with these texts shows."""
    drawn = [*asked_of_water(texts), "bog", "lip", "bog_lift", "lip_lift", "hose_length", "bore"]
    if texts["shape"] != "typed":
        drawn += ["shelf_depth", "shelf_width", "slope"]
    return drawn


@pytest.mark.parametrize("wrong", ["wet", "-3", "0", "5 kg kg", "99999999999"])
@pytest.mark.parametrize("shape", ["typed", "ellipse", "circle", "l_shape"])
def test_each_field_says_what_is_wrong_with_it(shape: str, wrong: str) -> None:
    sizes = {"length": "3", "width": "2", "diameter": "3", "cut_length": "1", "cut_width": "1",
             "depth": "0.9", "shelf_depth": "30", "shelf_width": "20", "slope": "0.1",
             "sides": "shelf_sloping"}  # fmt: skip
    texts = {**FULL, **sizes, "shape": shape}
    assert read_new_pond(texts, "metric", "p").pond is not None
    for key in asked(texts):
        if wrong == "0" and key in ("bog_lift", "lip_lift", "slope"):
            continue  # an outlet may lie at the water line, and a side may be upright
        read = read_new_pond({**texts, key: wrong}, "metric", "p")
        assert read.pond is None, key
        assert set(read.errors) == {key}
        assert len(read.errors[key]) > 15


def test_empty_fields_are_no_errors_and_all_of_them_are_named() -> None:
    texts = {"name": "", "shape": "rectangle"}
    asked = (
        ("name", "A", "Name of the pond"), ("length", "4", "Length"), ("width", "3", "Width"),
        ("depth", "1", "Deepest"), ("sides", "upright", "How its sides go down"),
    )  # fmt: skip
    for number, (key, value, _) in enumerate(asked):
        read = read_new_pond(texts, "metric", "p")
        still = tuple(label for _, _, label in asked[number:])
        assert (read.pond, read.errors, read.missing) == (None, {}, still)
        texts[key] = value
    assert read_new_pond(texts, "metric", "p").pond is not None
    shelf = {**texts, "sides": "shelf", "shelf_depth": "", "shelf_width": ""}
    assert read_new_pond(shelf, "metric", "p").missing == ("Below water", "Reaches in")


def test_each_thing_that_is_missing_is_a_way_to_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = shown(monkeypatch, {"name": "", "shape": "rectangle", "width": "3"})
    drawn = screen.look()
    labels = read_new_pond({"shape": "rectangle", "width": "3"}, "metric", "p").missing
    assert labels == ("Name of the pond", "Length", "Deepest", "How its sides go down")
    found = [place_of(drawn, label) for label in labels]
    assert [isinstance(one, ft.TextField) for one in found] == [True, True, True, False]
    assert all(not one.value for one in found if isinstance(one, ft.TextField))
    assert len({id(one) for one in found}) == len(labels)
    assert isinstance(found[-1], ft.Container)
    assert place_of(drawn, "Width") is None  # it is filled in
    for label in labels:
        assert label in screen.buttons()


def test_lift_and_hose_are_asked_and_unknown_while_empty() -> None:
    nothing = dict.fromkeys(("bog_lift", "lip_lift", "hose_length", "bore"), "")
    pond = read_new_pond({**FULL, **nothing}, "metric", "p").pond
    assert pond is not None
    assert pond.lines == ()  # nothing is entered, so nothing is claimed
    told = [one.message.template for one in assumed_of(pond, lines_of(pond)[0])]
    assert all("of lift and {length} of hose" in text for text in told)
    pond = read_new_pond(FULL, "metric", "p").pond
    assert pond is not None
    assert {b.feeds: b.lift_m for b in pond.lines[0].branches} == {
        ("bog",): 0.2,
        ("high_flow", "lip"): 0.8,
    }
    for branch in pond.lines[0].branches:
        assert branch.pipe is not None
        assert branch.pipe.length_m == 3.0


@pytest.mark.parametrize("kind", LIFTS)
@pytest.mark.parametrize("typed", ["", "0", "0.4"])
def test_a_lift_is_what_was_typed_and_assumed_where_nothing_was(kind: str, typed: str) -> None:
    texts = {"name": "A", "shape": "typed", "volume": "1000", LIFTS[kind]: typed}
    texts["high_flow"] = "yes" if kind == "high_flow" else "no"
    texts |= {"bog": "100"} if kind == "bog" else {"lip": "30"} if kind == "lip" else {}
    pond = read_new_pond(texts, "metric", "p").pond
    assert pond is not None
    branch = branch_of(pond, kind)
    assert branch is not None
    assert branch.lift_m == (float(typed) if typed else None)
    (told,) = assumed_of(pond, lines_of(pond)[0])
    assert ("{lift}" in told.message.template) == (not typed)


def test_one_lift_of_an_early_draft_is_that_of_each_feature() -> None:
    early = {key: text for key, text in FULL.items() if not key.endswith("_lift")}
    pond = read_new_pond({**early, "lift": "0.7"}, "metric", "p").pond
    assert pond is not None
    assert {branch.lift_m for branch in pond.lines[0].branches} == {0.7}
    cleared = read_new_pond({**early, "lift": "0.7", "bog_lift": ""}, "metric", "p").pond
    assert cleared is not None
    bog = branch_of(cleared, "bog")
    assert bog is not None
    assert bog.lift_m is None
    bare = {"name": "A", "shape": "typed", "volume": "1000", "lift": "0.7"}
    stirred = read_new_pond(bare, "metric", "p").pond
    assert stirred is not None
    assert stirred.lines[0].branches[0].lift_m == 0.7


def test_half_a_hose_is_told_at_the_other_field() -> None:
    read = read_new_pond({**FULL, "hose_length": ""}, "metric", "p")
    assert read.pond is None
    assert list(read.errors) == ["hose_length"]


def test_an_oval_with_a_shelf_holds_what_it_holds() -> None:
    """3.5 x 2.4 m, 0.9 m deep, a shelf of 40 cm at 30 cm: two elliptic cylinders, by hand."""
    pond = read_new_pond(OVAL, "metric", "p").pond
    assert pond is not None
    by_hand = pi / 4 * (3.5 * 2.4 * 0.3 + 2.7 * 1.6 * 0.6)
    assert water_volume(pond) == pytest.approx(by_hand, rel=1e-9)
    assert water_volume(pond) == pytest.approx(4.01, abs=0.01)


sizes = st.integers(min_value=20, max_value=120)


@given(length=sizes, width=sizes, depth=st.integers(4, 30), shelf=st.integers(1, 3),
       reach=st.integers(1, 5))  # fmt: skip
def test_typed_numbers_give_the_volume_reckoned_by_hand(
    length: int, width: int, depth: int, shelf: int, reach: int
) -> None:
    """All in decimetres."""
    texts = {
        **OVAL, "length": f"{length / 10}", "width": f"{width / 10}", "depth": f"{depth / 10}",
        "shelf_depth": f"{shelf * 10}", "shelf_width": f"{reach * 10}",
    }  # fmt: skip
    read = read_new_pond(texts, "metric", "p")
    assert read.pond is not None
    assert isinstance(read.pond.water, Drawn)
    (basin,) = read.pond.water.basins
    assert (basin.side_slope, len(basin.shelves)) == (0.0, 1)
    assert found_basin(basin).volume == water_volume(read.pond)
    inner = max(0, length - 2 * reach) * max(0, width - 2 * reach)
    by_hand = pi / 4 * (length * width * shelf + inner * (depth - shelf)) / 1000
    assert water_volume(read.pond) == pytest.approx(by_hand, rel=1e-9)


def shown(monkeypatch: pytest.MonkeyPatch, texts: dict[str, str]) -> Screen:
    screen = Screen(monkeypatch)
    asyncio.run(screen.session.drafts.save(Draft(id=NEW_POND, texts=texts)))
    screen.open(PondFormPage)
    return screen


def test_the_screen_draws_it_says_its_shelf_and_saves_what_was_typed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = shown(monkeypatch, OVAL)
    told = screen.text()
    assert "The pond holds\n4,010 L" in told
    assert "With a shelf 40 cm wide, 30 cm below the water; its sides go straight down." in told
    assert "5940" not in told
    screen.press("Save the pond")
    pond = next(one for one in screen.session.ponds.values() if one.name == "Oval")
    screen.open(WaterPage, pond_id=pond.id)
    again = screen.text()
    assert "The pond holds\n4,010 L" in again
    assert "Shelf 1" in again


def test_nothing_is_assumed_of_the_sides(monkeypatch: pytest.MonkeyPatch) -> None:
    """A draft of an early version, whose depth was a mean one, is asked for its sides."""
    early = {key: OVAL[key] for key in ("name", "shape", "length", "width", "depth")}
    screen = shown(monkeypatch, early)
    told = screen.text()
    assert "The pond holds at most\n5,940 L" in told
    assert "Still missing:\nHow its sides go down\n" in told
    assert screen.buttons()["Save the pond"].disabled


@pytest.mark.parametrize("sides", [key for key, _ in SIDES])
@pytest.mark.parametrize("system", ["metric", "us", "imperial"])
def test_usual_amounts_are_put_into_empty_fields_only(sides: str, system: str) -> None:
    texts = with_sides({"name": "A", "shape": "ellipse", "slope": "0.5"}, sides, system)
    assert texts["slope"] == "0.5"
    if "shelf" in sides:
        assert (
            texts["shelf_depth"] == texts["shelf_width"] == ("30" if system == "metric" else "12")
        )
    else:
        assert "shelf_depth" not in texts


def test_a_shape_that_cannot_be_says_why(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = shown(monkeypatch, {**OVAL, "depth": "0.2"})
    assert "a shelf at 30 cm lies below the bottom at 20 cm" in screen.text().lower()
    assert screen.buttons()["Save the pond"].disabled
    assert [one.key for one in FORM.fields].count("depth") == 1
