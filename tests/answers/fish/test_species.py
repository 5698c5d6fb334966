"""The list of common pond fish: whole, and honest about what does not fit."""

from typing import Any

import pytest

from pondapp import units
from pondapp.answers.fish.species import SPECIES, Picked, remarks
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume, Water


def drawn(length: float, depth: float) -> Drawn:
    outline = Rectangle(length_m=length, width_m=length)
    return Drawn(basins=(Basin(id="b", name="Pool", outline=outline, depth_m=depth),))


LAKE = drawn(10, 2)


def said(water: Water, **kinds: int | None) -> dict[str, str]:
    groups = [Picked(SPECIES[key], count) for key, count in kinds.items()]
    found = remarks(Pond(id="p", name="Invented", water=water), groups)
    return {
        key: " ".join(units.tell(line, "metric") for line in lines)
        for key, lines in zip(kinds, found, strict=True)
    }


def test_each_kind_can_be_stored_and_says_how_it_wants_to_live() -> None:
    assert len({kind.name for kind in SPECIES.values()}) == len(SPECIES) >= 12
    for key, kind in SPECIES.items():
        FishGroup(id="g", name=kind.name, species=key, count=1, length_m=kind.grown)
        assert kind.shoal >= 1
        assert kind.depth >= 0.5
        assert kind.volume >= 0.5
        assert kind.care.endswith(".")
        # Nothing is wrong with enough of one kind alone in a lake.
        assert said(LAKE, **{key: 20}) == {key: ""}


def test_a_pond_too_small_or_too_shallow_is_said_with_both_numbers() -> None:
    found = said(drawn(2, 0.9), koi=3)["koi"]
    assert "wants 10,000 L of water or more; the pond holds 3,600 L" in found
    assert "a place 150 cm deep or deeper; the pond is 90 cm deep" in found


def test_a_depth_that_nobody_drew_is_asked_for() -> None:
    found = said(TypedVolume(volume_m3=50), tench=4)["tench"]
    assert "is not known: draw its shape" in found
    assert "holds" not in found


def test_a_shape_that_cannot_be_is_left_to_its_own_screen() -> None:
    crossed = Basin(
        id="b", name="Pool", outline=Rectangle(length_m=1, width_m=1), depth_m=2, side_slope=2
    )
    assert said(Drawn(basins=(crossed,)), goldfish=5) == {"goldfish": ""}


@pytest.mark.parametrize(
    ("kinds", "alone"),
    [
        ({"orfe": 2}, True),
        ({"orfe": 5}, False),
        ({"goldfish": 1, "shubunkin": 2}, False),  # one shoal
        ({"goldfish": 1, "koi": 2}, True),
        ({"orfe": None}, False),  # still to be typed
        ({"goldfish": None, "comet": 1}, False),
    ],
)
def test_a_shoal_that_is_not_whole_is_said(kinds: dict[str, int | None], alone: bool) -> None:
    assert any("company" in line for line in said(LAKE, **kinds).values()) is alone


def test_kinds_that_do_not_fit_each_other_are_named() -> None:
    found = said(LAKE, sterlet=2, koi=5)
    assert "before it finds it: Koi." in found["sterlet"]
    assert found["koi"] == ""
    found = said(LAKE, stickleback=6, minnow=12, koi=5)
    assert "Here with it: Minnow, Koi." in found["stickleback"]
    assert "may eat it: Koi." in found["stickleback"]
    assert "may eat it: Koi." in found["minnow"]
    assert all("Sticklebacks bite" in found[other] for other in ("minnow", "koi"))
    found = said(LAKE, fancy=2, comet=5)
    assert "Quicker at the food: Comet." in found["fancy"]
    assert found["comet"] == ""


def test_what_was_typed_without_the_list_is_not_judged() -> None:
    pond = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=0.01))
    assert remarks(pond, [Picked(None, 1)]) == ((),)
    assert remarks(pond, []) == ()


def test_fish_stored_before_there_was_a_list_open_as_they_were() -> None:
    old: dict[str, Any] = {"id": "g", "name": "Koi", "count": 3, "length_m": 0.4}
    group = FishGroup.model_validate(old)
    assert group.species is None
    assert FishGroup.model_validate(group.model_dump()) == group
