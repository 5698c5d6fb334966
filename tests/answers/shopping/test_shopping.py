"""The shopping list against the pond that it follows from."""

from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.answers.shopping.shopping import (
    Bill,
    Item,
    bill,
    with_left_out,
    with_own,
    with_price,
    with_tick,
    without_own,
)
from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, Shelf, TypedVolume

POND = example_pond()
KEYS = [item.key for item in bill(WorkedPond(POND)).items]


def line_of(found: Bill, key: str) -> Item | None:
    return next((one for one in (*found.items, *found.left_out) if one.key == key), None)


def quantity(pond: Pond, key: str) -> float:
    item = line_of(bill(WorkedPond(pond)), key)
    assert item is not None
    return item.need.quantity


def bog(volume: float, **more: object) -> Pond:
    return Pond(
        id="p",
        name="P",
        water=TypedVolume(volume_m3=1.0),
        fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=volume),),
        **more,  # type: ignore[arg-type]
    )


@settings(max_examples=40)
@given(st.floats(0.01, 100))
def test_bags_hold_the_gravel_and_no_whole_bag_too_many(volume: float) -> None:
    """By hand: volume, a twentieth to spare, 1520 kg/m3, bags of 20 kg; 15 of 50 cm are coarse."""
    for key, share in (("gravel.bog", 0.7), ("stones.bog", 0.3)):
        bags = quantity(bog(volume), key)
        assert bags == pytest.approx(ceil(volume * share * 1.05 * 1520 / 20 - 1e-6))


def test_a_rule_that_was_changed_changes_the_list() -> None:
    assert quantity(bog(0.1, assumptions={"materials.bag_mass": 40.0}), "gravel.bog") == 3


def test_runs_of_one_size_are_one_line_and_those_of_two_are_two() -> None:
    hose = Pipe(series="hose, mm", size="25 mm", length_m=2.0, fittings={"elbow_90": 2})
    first = Branch(id="a", name="A", pipe=hose, feeds=("bog",), valve="ball")
    second = Branch(id="b", name="B", pipe=hose.model_copy(update={"length_m": 3.5}))
    main = Pipe(series="hose, mm", size="40 mm", length_m=1.0)
    line = Line(id="l", name="Line", main=main, branches=(first, second))
    pond = bog(0.1, lines=(line,))
    assert quantity(pond, "pipe.hose, mm.25 mm") == pytest.approx(5.5)
    assert quantity(pond, "pipe.hose, mm.40 mm") == pytest.approx(1.0)
    assert quantity(pond, "part.elbow_90.hose, mm.25 mm") == 4
    assert quantity(pond, "part.ball_valve.hose, mm.25 mm") == 1
    assert quantity(pond, "part.tee_branch.hose, mm.40 mm") == 1
    entered = main.model_copy(update={"fittings": {"tee_branch": 1}})
    same = line.model_copy(update={"main": entered})
    assert quantity(bog(0.1, lines=(same,)), "part.tee_branch.hose, mm.40 mm") == 1


def two_branches(valve: str, pump: str | None, lift: float = 0.9) -> Pond:
    """The example with such a valve on both branches."""
    pond = example_pond()
    line = pond.lines[0]
    ends = tuple(
        one.model_copy(update={"valve": valve, "lift_m": lift if number else 0.4})
        for number, one in enumerate(line.branches)
    )
    line = line.model_copy(update={"branches": ends, "pump_id": pump})
    return pond.model_copy(update={"lines": (line,)})


def valves(pond: Pond) -> list[str]:
    keys = (item.key for item in bill(WorkedPond(pond)).items)
    return [key for key in keys if key.startswith("valve-for.")]


@pytest.mark.parametrize("pump", ["small", None])
def test_a_valve_is_bought_for_the_branch_that_takes_the_water_of_the_other(
    pump: str | None,
) -> None:
    assert valves(two_branches("none", pump)) == ["valve-for.to-bog"]
    item = line_of(bill(WorkedPond(two_branches("none", pump))), "valve-for.to-bog")
    assert item is not None
    assert units.tell(item.need.name, "metric") == "Valve for To the bog, 25 mm"
    assert item.need.remark is not None


def test_a_pump_that_gives_more_than_is_wanted_wants_a_valve_on_each_branch() -> None:
    assert valves(two_branches("none", "large")) == ["valve-for.to-bog", "valve-for.to-fall"]


def test_no_valve_is_bought_twice_nor_where_one_branch_has_all() -> None:
    assert valves(two_branches("ball", "large")) == []
    pond = two_branches("none", "large")
    hose = pond.lines[0].branches[0].pipe
    assert hose is not None
    fitted = hose.model_copy(update={"fittings": {"globe_valve": 1}})
    first = pond.lines[0].branches[0].model_copy(update={"pipe": fitted})
    line = pond.lines[0].model_copy(update={"branches": (first, pond.lines[0].branches[1])})
    assert valves(pond.model_copy(update={"lines": (line,)})) == ["valve-for.to-fall"]
    one = pond.lines[0].model_copy(update={"branches": pond.lines[0].branches[:1]})
    fed = tuple(feature for feature in pond.fed if feature.id == "bog")
    assert valves(pond.model_copy(update={"lines": (one,), "fed": fed})) == []


def test_no_pump_yet_says_what_it_must_give() -> None:
    item = line_of(bill(WorkedPond(bog(0.1))), "pump-for.pump")
    assert item is not None
    assert item.need.remark is not None
    assert "0.0002778 m3/s" in str(item.need.remark)  # 1000 L/h turn the pond over


def test_liner_of_a_plain_basin() -> None:
    """Length and width, twice the depth, twice the overlap of 0.3 m."""
    box = Basin(id="b", name="B", outline=Rectangle(length_m=3, width_m=2), depth_m=0.5)
    pond = Pond(id="p", name="P", water=Drawn(basins=(box,)))
    assert quantity(pond, "liner.b") == pytest.approx((3 + 1 + 0.6) * (2 + 1 + 0.6))


def test_what_cannot_be_worked_out_hides_nothing_else() -> None:
    wrong = Basin(
        id="b", name="B", outline=Rectangle(length_m=3, width_m=2), depth_m=0.5,
        shelves=(Shelf(depth_m=0.9, width_m=0.2),),
    )  # fmt: skip
    pond = bog(0.1).model_copy(update={"water": Drawn(basins=(wrong,))})
    found = bill(WorkedPond(pond))
    assert found.troubles
    assert line_of(found, "gravel.bog") is not None
    assert line_of(found, "liner.b") is None


def test_more_than_any_shop_has_is_told_and_not_listed() -> None:
    rules = {"materials.bag_mass": 1.0}
    pond = Pond(
        id="p", name="P", water=TypedVolume(volume_m3=1e5), assumptions=rules,
        fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=1e4),),
    )  # fmt: skip
    found = bill(WorkedPond(pond))
    assert line_of(found, "gravel.bog") is None
    assert any("quantity" in str(trouble) for trouble in found.troubles)


def test_braces_in_a_name_do_no_harm() -> None:
    pond = with_own(bog(0.1), "x", "Sand {fine}", 2)
    assert "Sand {fine}" in str(bill(WorkedPond(pond)).items[-1].need.name)


prices = st.dictionaries(st.sampled_from(KEYS), st.floats(0, 1e6), max_size=12)


@settings(max_examples=30)
@given(prices, st.sets(st.sampled_from(KEYS)), st.sets(st.sampled_from(KEYS)))
def test_the_total_is_the_sum_of_what_is_listed_and_priced(
    known: dict[str, float], ticked: set[str], left_out: set[str]
) -> None:
    pond = POND
    for key, price in known.items():
        pond = with_price(pond, key, price)
    for key in ticked:
        pond = with_tick(pond, key, True)
    for key in left_out:
        pond = with_left_out(pond, key, True)
    pond = Pond.model_validate_json(pond.model_dump_json())  # as it is kept on the device
    found = bill(WorkedPond(pond))
    price = {"pump.middle": 140.0, **known}
    listed = [key for key in KEYS if key not in left_out]
    costs = {key: price[key] * quantity(POND, key) for key in listed if key in price}
    assert found.total == pytest.approx(sum(costs.values()))
    assert found.to_pay == pytest.approx(sum(c for key, c in costs.items() if key not in ticked))
    assert found.unpriced == len(listed) - len(costs)
    assert {item.key for item in found.left_out} == left_out


def test_every_edit_can_be_taken_back() -> None:
    key = "liner.basin"
    assert with_price(with_price(POND, key, 9.0), key, None) == POND
    assert with_tick(with_tick(POND, key, True), key, False) == POND
    assert with_left_out(with_left_out(POND, key, True), key, False) == POND
    own = with_own(POND, "mine", "Sand", 3)
    assert without_own(with_tick(with_price(own, "own.mine", 4.0), "own.mine", True),
                       "own.mine") == POND  # fmt: skip


def test_a_lip_is_stone_and_not_on_the_list() -> None:
    pond = bog(0.1).model_copy(update={"fed": (Lip(id="lip", name="Lip", width_m=0.3),)})
    assert not bill(WorkedPond(pond)).group("filters")


def drawn(*fish: FishGroup, **rules: float) -> Pond:
    basin = Basin(
        id="b",
        name="Pond",
        outline=Rectangle(length_m=4.0, width_m=2.5),
        depth_m=1.0,
        side_slope=0.0,
    )
    return Pond(
        id="p", name="P", water=Drawn(basins=(basin,)), fish=fish,
        assumptions={f"materials.{key}": value for key, value in rules.items()},
    )  # fmt: skip


def test_submerged_plants_stand_in_open_water_and_not_before_koi() -> None:
    """By hand: half of 10 m2 is open, 4.5 bunches a square metre are 22.5."""
    assert quantity(drawn(), "bunches.b") == 23
    assert quantity(drawn(cover_min=0.7), "bunches.b") == 14  # 3 m2
    assert line_of(bill(WorkedPond(drawn(cover_min=1.0, cover_max=1.0))), "bunches.b") is None
    small = FishGroup(id="g", name="Goldfish", count=5, length_m=0.12)
    assert quantity(drawn(small), "bunches.b") == 23
    koi = small.model_copy(update={"name": "Koi", "grown_length_m": 0.6})
    assert line_of(bill(WorkedPond(drawn(koi))), "bunches.b") is None
    assert quantity(drawn(koi, plant_eater_length=1.0), "bunches.b") == 23


def test_a_part_that_this_version_does_not_know_is_on_the_list_by_its_own_name() -> None:
    line = POND.lines[0]
    branch = line.branches[0]
    assert branch.pipe is not None
    pipe = branch.pipe.model_copy(update={"fittings": {"swirl": 2}})
    branches = (branch.model_copy(update={"pipe": pipe}), *line.branches[1:])
    pond = POND.model_copy(update={"lines": (line.model_copy(update={"branches": branches}),)})
    parts = [item for item in bill(WorkedPond(pond)).group("parts") if "swirl" in item.key]
    assert [item.need.quantity for item in parts] == [2.0]
