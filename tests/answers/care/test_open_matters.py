"""What is open about a pond: the worst on top, and nothing right that is not known."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.care.due import with_days
from pondapp.answers.care.glance import pump_against_new
from pondapp.answers.care.open_matters import Matter, OpenMatters, measured, open_matters
from pondapp.answers.care.severity import WORST_FIRST
from pondapp.answers.log.log import LogItem, newest_first
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.planning.verdict import verdict_of
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.models.circuit import Band, BogFilter, Branch, HighFlowFilter, Line, Lip, Pump
from pondapp.models.entry import Cleaning, Entry, WaterTest
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.reading import MeterReading, NothingComes, Reading
from pondapp.models.tuned import FlowAt, FlowSet
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume
from pondapp.ui.pond.matters import ROUTES

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
POND = example_pond().model_copy(update={"warmest_temperature_c": 26.0})
POISON = {"total_ammonia_kg_m3": 2e-3, "ph": 8.6, "temperature_c": 25.0}
(LINE,) = POND.lines
GOOD = {"total_ammonia_kg_m3": 0.0, "ph": 7.6, "nitrite_kg_m3": 0.0, "temperature_c": 18.0}


def a_test(days_ago: float, **values: float) -> Entry:
    return Entry(
        id=f"test{days_ago}".replace(".", "-"), pond_id=POND.id,
        when=NOW - timedelta(days=days_ago), what=WaterTest.model_validate(values),
    )  # fmt: skip


def cleaned(days_ago: float) -> Entry:
    return Entry(id="c", pond_id=POND.id, when=NOW - timedelta(days=days_ago),
                 what=Cleaning(part="all"))  # fmt: skip


def flow(place_id: str, wanted: float | None, days_ago: float = 1.0) -> Reading:
    method: Any = (
        NothingComes() if wanted is None else MeterReading(flow_m3_s=wanted, tolerance=0.02)
    )
    return Reading(
        id=f"{place_id}-{days_ago}".replace(".", "-"), pond_id=POND.id, place_id=place_id,
        place_name=place_id, taken_at=NOW - timedelta(days=days_ago), method=method, band=None,
    )  # fmt: skip


def middle(pond: Pond) -> list[Reading]:
    """A reading inside the band of each branch, as the pump would give it."""
    found = []
    for line in lines_of(pond):
        for place in branch_places(WorkedPond(pond), line):
            found.append(flow(place.place_id, 1.1 * place.band.target))
    return found


def matters(log: Sequence[LogItem], pond: Pond = POND) -> OpenMatters:
    return open_matters(WorkedPond(pond), newest_first(log), NOW)


def told(matter: Matter) -> str:
    return units.tell(matter.sentence, "metric")


def about(found: OpenMatters, word: str) -> Matter:
    return next(one for one in found.matters if word in told(one))


ALL_WELL: list[LogItem] = [*middle(POND), a_test(2, **GOOD), cleaned(5)]


def test_all_that_matters_known_recent_and_right_is_right() -> None:
    found = matters(ALL_WELL)
    assert found.worst.severity == "right"
    assert found.open == ()


@pytest.mark.parametrize("number", range(len(ALL_WELL)))
def test_without_any_one_piece_of_evidence_it_is_not_right(number: int) -> None:
    found = matters([item for place, item in enumerate(ALL_WELL) if place != number])
    assert found.worst.severity == "unknown"


def test_a_pond_without_any_readings_is_not_known_yet() -> None:
    for pond in (POND, Pond(id="new", name="New", water=TypedVolume(volume_m3=1))):
        assert matters([], pond).worst.severity == "unknown"


def test_poisonous_ammonia_is_danger_on_top_and_goes_with_the_test() -> None:
    test = a_test(1, **POISON)
    found = matters([*ALL_WELL, test])
    assert found.worst.severity == "danger"
    assert told(found.worst).startswith("Toxic ammonia is 0.368 mg/L, 18 % of the total, above")
    assert (found.worst.goal, found.worst.at) == ("log_item", test.id)
    assert matters(ALL_WELL).worst.severity == "right"


def test_water_that_is_too_warm_for_fish_is_danger_on_top_until_it_has_cooled() -> None:
    hot = a_test(1, **{**GOOD, "temperature_c": 38.0})
    found = matters([hot, *middle(POND), cleaned(3)])
    assert found.worst.severity == "danger"
    assert told(found.worst).startswith("38 °C is too warm for fish, above 32 °C: do not feed")
    assert (found.worst.goal, found.worst.at) == ("log_item", hot.id)
    cooled = matters([a_test(0.5, temperature_c=24.0), hot, *middle(POND), cleaned(3)])
    assert all(one.severity != "danger" for one in cooled.matters)
    # A pond's own rule says where it begins.
    hardy = POND.model_copy(update={"assumptions": {"stock.warmth_danger": 313.15}})
    warm = matters([hot, *middle(hardy), cleaned(3)], hardy)
    assert about(warm, "38 °C is warm").severity == "wrong"


def test_a_pump_that_gives_no_water_is_danger_on_top_until_some_comes_again() -> None:
    line = lines_of(POND)[0].id
    stopped = matters([*ALL_WELL, flow(line, None, days_ago=0.5)])
    assert stopped.worst.severity == "danger"
    assert "no water comes out" in told(stopped.worst)
    assert (stopped.worst.goal, stopped.worst.at) == ("place", line)
    assert not [one for one in stopped.matters if "Every flow is as wanted" in told(one)]
    again = matters([*ALL_WELL, flow(line, None, days_ago=2)])
    assert again.worst.severity == "right"


def test_a_pump_measured_as_too_little_for_its_branches_is_not_right() -> None:
    line = lines_of(POND)[0].id
    found = matters([*ALL_WELL, flow(line, 1e-3, days_ago=0.5)])
    assert found.worst.severity == "wrong"
    assert told(found.worst).endswith("is too little.")


@pytest.mark.parametrize("at_pump", [None, 1e-3])
def test_no_tick_on_a_pump_whose_own_reading_says_otherwise(at_pump: float | None) -> None:
    """Its branches were right; then the pump as a whole gave nothing, or too little."""
    line = lines_of(POND)[0].id
    before = [told(one) for one in matters(ALL_WELL).matters]
    assert any("is enough, as measured" in one for one in before)
    found = matters([*ALL_WELL, flow(line, at_pump, days_ago=0.5)])
    after = [told(one) for one in found.matters if one.goal == "pumps"]
    assert not [one for one in after if "is enough" in one], after


def test_a_pump_that_was_measured_short_is_enough_nowhere() -> None:
    """Its curve says enough, the bucket does not: valves, dirt or hose take the rest."""
    places = branch_places(WorkedPond(POND), LINE)
    low = [flow(one.place_id, 0.6 * one.band.low) for one in places]
    log = newest_first([*low, a_test(2, **GOOD), cleaned(5)])
    found = matters(log)
    assert about(found, "gave less than is wanted").severity == "unknown"
    assert not [one for one in found.matters if "enough" in told(one) and one.severity == "right"]
    seen = measured(WorkedPond(POND), log, NOW)
    assert seen.short == {LINE.id}
    plan = WorkedPond(POND).plan
    assert isinstance(plan, PondPlan)
    severity, words = verdict_of(WorkedPond(POND), plan, seen.proved, seen.short)
    assert severity == "wrong"
    assert "less was measured behind Mid-size pump" in units.tell(words, "metric")


def test_branches_that_are_right_prove_no_pump_whose_sum_is_too_little_for_the_pond() -> None:
    """Water has to go round as a whole, also where no place wants that much."""
    own = Band(low_m3_s=2e-4, target_m3_s=4e-4, high_m3_s=None)
    lip = Lip(id="lip", name="Sheet", width_m=0.1, band=own)
    line = LINE.model_copy(update={"branches": (Branch(id="b", name="B", feeds=("lip",)),)})
    pond = with_pump(60_000.0, 5.0).model_copy(
        update={"water": TypedVolume(volume_m3=60.0), "fed": (lip,), "lines": (line,)}
    )
    worked = WorkedPond(pond)
    band, pump = worked.wanted.place("lip"), worked.wanted.place(LINE.id)
    assert band
    assert pump
    between = 0.5 * (max(band.band.low, 0.0) + pump.band.low)
    assert band.band.low < between < pump.band.low
    found = matters([flow("lip", between), a_test(2, **GOOD), cleaned(5)], pond)
    assert not [one for one in found.matters if "as measured" in told(one)]
    assert any("is too little" in told(one) for one in found.matters)


def test_a_filter_on_a_way_round_that_stands_still_is_danger() -> None:
    way = lines_of(POND)[0]
    past = tuple(one.model_copy(update={"bypass": one.feeds}) for one in way.branches)
    pond = POND.model_copy(update={"lines": (way.model_copy(update={"branches": past}),)})
    assert pond.fish
    found = matters([flow("bog", None)], pond)
    assert found.worst.severity == "danger"
    assert "no water comes out" in told(found.worst)


def test_a_dry_filter_is_danger_while_demands_conflict_too() -> None:
    row = Branch(id="row", name="Row", feeds=("bog", "lip"))
    pond = Pond(
        id=POND.id, name="At odds", water=TypedVolume(volume_m3=1.0),
        fish=(FishGroup(id="f", name="F", count=3, length_m=0.1),),
        fed=(
            BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),
            Lip(id="lip", name="Lip", width_m=0.6),
        ),
        lines=(Line(id="line", name="Pump", branches=(row,)),),
    )  # fmt: skip
    assert WorkedPond(pond).planned.conflict is not None
    assert matters([flow("bog", 0.001)], pond).worst.severity == "wrong"
    assert matters([flow("bog", None)], pond).worst.severity == "danger"
    # Nor is a pump told to give too little of what cannot all be; without water it still is.
    pump = lines_of(pond)[0].id
    found = matters([flow(pump, 0.0005)], pond)
    assert not any("too little" in told(one) for one in found.matters)
    assert measured(WorkedPond(pond), [flow(pump, 0.0005)], NOW).short == frozenset()
    assert matters([flow(pump, None)], pond).worst.severity == "danger"


def test_a_pump_that_lost_flow_since_a_day_that_was_kept_is_told_as_its_tile_tells_it() -> None:
    line = lines_of(POND)[0]
    log = newest_first(ALL_WELL)
    flows = [one for one in log if isinstance(one, Reading)]
    seen = [
        FlowAt(
            place_id=one.place_id, place_name=one.place_name, reading_id="old",
            flow_m3_s=1.8 * one.method.flow_m3_s, half_width_m3_s=1e-5,
        )
        for one in flows if isinstance(one.method, MeterReading)
    ]  # fmt: skip
    kept = FlowSet(line_id=line.id, at=NOW - timedelta(days=60), places=tuple(seen))
    pond = POND.model_copy(update={"clean": (kept,)})
    tile = pump_against_new(WorkedPond(pond), log, NOW)
    assert tile.severity == "wrong"
    found = matters(log, pond)
    assert (found.worst.severity, found.worst.goal) == ("wrong", "health")
    assert found.worst.sentence == tile.sentence


def test_a_later_test_of_something_else_does_not_hide_the_danger() -> None:
    later = a_test(0.5, nitrate_kg_m3=0.01)
    assert matters([*middle(POND), a_test(1, **POISON), later]).worst.severity == "danger"
    better = a_test(0.25, total_ammonia_kg_m3=0.0)
    assert matters([*middle(POND), a_test(1, **POISON), later, better]).worst.severity != "danger"


def test_a_cool_day_long_ago_does_not_hide_what_a_test_alone_calls_a_danger() -> None:
    warm = POND.model_copy(update={"water_temperature_c": 28.0})
    ammonia = {"total_ammonia_kg_m3": 1.5e-3, "ph": 8.0, "nitrite_kg_m3": 0.0}
    newest, before = a_test(1, **ammonia), a_test(25, temperature_c=5.0)
    alone = matters([*middle(warm), cleaned(5), newest], warm).worst
    assert alone.severity == "danger"
    both = matters([*middle(warm), cleaned(5), newest, before], warm).worst
    assert (both.severity, both.at) == ("danger", newest.id)
    hot = a_test(3, temperature_c=28.0)
    cool = POND.model_copy(update={"water_temperature_c": 5.0})
    found = matters([*middle(cool), cleaned(5), newest, hot], cool).worst
    assert found.severity == "danger", "and the other way round"


def test_a_test_ages_into_not_known_and_so_does_a_flow() -> None:
    rest = [*middle(POND), cleaned(1)]
    assert matters([*rest, a_test(29, **POISON)]).worst.severity == "danger"
    old = matters([*rest, a_test(31, **POISON)])
    assert old.worst.severity == "unknown"
    assert told(old.worst) == "The last water test is 31 days old, too old to go by."
    assert old.worst.goal == "new_test"
    patient = POND.model_copy(update={"assumptions": {"care.test_valid": 60 * 86400.0}})
    assert matters([*rest, a_test(31, **POISON)], patient).worst.severity == "danger"
    flows = [one.model_copy(update={"taken_at": NOW - timedelta(days=16)}) for one in middle(POND)]
    stale = matters([*flows, a_test(1, **GOOD), cleaned(1)])
    assert told(stale.worst).startswith("Measured too long ago: ")
    monthly = with_days(POND, "measure", 30)
    assert matters([*flows, a_test(1, **GOOD), cleaned(17)], monthly).worst.severity == "right"


def test_what_is_dated_in_the_future_is_no_evidence() -> None:
    ahead = [item.model_copy(update={"taken_at" if isinstance(item, Reading) else "when":
                                     NOW + timedelta(days=1)}) for item in ALL_WELL]  # fmt: skip
    found = matters(ahead)
    assert found.worst.severity == "unknown"
    assert about(found, "dated in the future").goal == "log_item"
    assert not any(one.severity == "right" and "test" in told(one) for one in found.matters)
    assert matters([*ALL_WELL, ahead[-2]]).worst.severity == "unknown"


def test_missing_values_are_named() -> None:
    found = matters([*middle(POND), cleaned(1), a_test(1, total_ammonia_kg_m3=2e-4)])
    assert told(about(found, "Not tested")) == "Not tested, or too long ago: pH, Nitrite."
    assert "cannot be told" in told(about(found, "The pH is missing"))
    assert found.worst.severity == "unknown"


def test_a_flow_that_is_off_is_not_right_and_leads_to_its_place() -> None:
    bog, *others = middle(POND)
    low = flow("bog", 1e-5)
    found = matters([low, *others, a_test(2, **GOOD), cleaned(5)])
    assert (found.worst.severity, found.worst.goal, found.worst.at) == ("wrong", "place", "bog")
    assert told(found.worst) == "Bog filter: 36 L/h is too little."
    assert bog.place_id == "bog"


def test_a_dry_filter_with_fish_is_danger_and_a_dry_lip_is_not_right() -> None:
    _, *others = middle(POND)
    found = matters([flow("bog", None), *others, a_test(2, **GOOD), cleaned(5)])
    assert found.worst.severity == "danger"
    assert "poisons the pond" in told(found.worst)
    no_fish = POND.model_copy(update={"fish": ()})
    assert about(matters([flow("bog", None), *others], no_fish), "no water").severity == "wrong"


def test_a_plan_without_anything_to_feed_is_not_known() -> None:
    bare = example_pond().model_copy(update={"fed": (), "lines": ()})
    of_plan = [one for one in open_matters(WorkedPond(bare), [], NOW).matters if one.goal == "plan"]
    assert [(one.severity, str(one.sentence)) for one in of_plan] == [
        (
            "unknown",
            "Nothing yet. The water goes straight back to the pond until you add a "
            "filter or a fall.",
        )
    ]


def test_demands_that_exclude_each_other_are_not_right() -> None:
    pond = Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=1.0),
        fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.05),
             Lip(id="lip", name="Lip", width_m=1.0)),
        lines=(Line(id="line", name="Pump",
                    branches=(Branch(id="a", name="All", feeds=("bog", "lip")),)),),
    )  # fmt: skip
    found = matters([], pond)
    assert (found.worst.severity, found.worst.goal) == ("wrong", "plan")
    assert about(found, "choose a pump first").severity == "unknown"


def test_what_no_branch_feeds_is_not_right() -> None:
    more = (*POND.fed, Lip(id="dry", name="Old lip", width_m=0.3))
    found = matters(ALL_WELL, POND.model_copy(update={"fed": more}))
    assert (found.worst.severity, found.worst.goal) == ("wrong", "path")


def with_pump(max_flow: float, max_head: float) -> Pond:
    pump = Pump(id="middle", name="Other", max_flow_m3_s=max_flow / 3.6e6, max_head_m=max_head)
    return POND.model_copy(update={"pumps": (pump,)})


def test_a_pump_that_cannot_is_not_right_until_it_was_measured() -> None:
    weak = with_pump(2000.0, 1.0)
    assert about(matters([], weak), "too weak").severity == "wrong"
    unknown = POND.model_copy(update={"pumps": (Pump(id="middle", name="Other"),)})
    assert about(matters([], unknown), "not known yet").severity == "unknown"
    assert about(matters(ALL_WELL), "as measured").severity == "right"


def test_too_many_fish_are_not_right_and_missing_media_not_known() -> None:
    koi = FishGroup(id="k", name="Koi", count=300, length_m=0.5)
    found = matters(ALL_WELL, POND.model_copy(update={"fish": (koi,)}))
    assert (found.worst.severity, found.worst.goal) == ("wrong", "fish")
    assert "In the warmest week" in told(found.worst)
    box = tuple(
        one.model_copy(update={"media_volume_m3": None}) if isinstance(one, HighFlowFilter) else one
        for one in POND.fed
        if one.kind != "bog"
    )
    bare = POND.model_copy(update={"fed": box, "lines": ()})
    assert about(matters([], bare), "Whether").severity == "unknown"


def test_overdue_cleaning_is_not_right_and_a_test_that_is_due_not_known() -> None:
    late = matters([*middle(POND), a_test(2, **GOOD), cleaned(60)])
    assert (late.worst.severity, late.worst.goal) == ("wrong", "new_cleaning")
    due = matters([*middle(POND), a_test(9, **GOOD), cleaned(2)])
    assert told(due.worst) == "Test the water: last done 9 days ago."
    assert due.worst.severity == "unknown"


def test_without_fish_and_reminder_nobody_asks_for_a_test_but_a_bad_one_is_heard() -> None:
    pond = with_days(POND.model_copy(update={"fish": ()}), "test", None)
    rest = [*middle(pond), cleaned(1)]
    assert matters(rest, pond).worst.severity == "right"
    assert matters([*rest, a_test(1, **POISON)], pond).worst.severity == "danger"


def test_a_shape_that_cannot_be_is_said_once_and_nothing_is_right() -> None:
    steep = Basin(id="b", name="Pool", outline=Rectangle(length_m=2, width_m=1), depth_m=1,
                  side_slope=2.0)  # fmt: skip
    broken = POND.model_copy(update={"water": Drawn(basins=(steep,))})
    found = matters([a_test(1, **POISON)], broken)
    assert found.worst.severity == "danger"
    assert not any(one.severity == "right" for one in found.matters)
    sentences = [told(one) for one in found.matters]
    assert len(sentences) == len(set(sentences))
    assert any(one.goal == "water" for one in found.matters)


def test_each_goal_is_a_screen_and_the_example_leads_somewhere() -> None:
    for one in matters(list(example_readings(NOW))).matters:
        assert one.at or "{at}" not in ROUTES[one.goal]


values = st.fixed_dictionaries(
    {},
    optional={
        "temperature_c": st.floats(0, 35),
        "ph": st.floats(4, 11),
        "total_ammonia_kg_m3": st.floats(0, 0.01),
        "nitrite_kg_m3": st.floats(0, 0.005),
        "oxygen_kg_m3": st.floats(0, 0.015),
    },
).filter(bool)
ages = st.integers(-5, 60).map(float)


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(ages, values), max_size=3), st.lists(ages, max_size=2),
    st.lists(st.tuples(ages, st.floats(0, 5e-3)), max_size=3), st.booleans(),
)  # fmt: skip
def test_worst_first_never_empty_and_right_only_with_evidence(
    tests: list[tuple[float, dict[str, float]]], cleanings: list[float],
    flows: list[tuple[float, float]], fishless: bool,
) -> None:  # fmt: skip
    log: list[LogItem] = [a_test(days, **read) for days, read in tests]
    log += [cleaned(days) for days in cleanings]
    log += [flow("bog", amount or None, days) for days, amount in flows]
    pond = POND.model_copy(update={"fish": ()}) if fishless else POND
    found = matters(log, pond)
    ranks = [WORST_FIRST.index(one.severity) for one in found.matters]
    assert ranks == sorted(ranks)
    assert found.worst.severity != "right"  # the lip was never measured
    assert all("{" not in told(one) for one in found.matters)
    recent = [read for days, read in tests if 0 <= days <= 30]
    if not any("total_ammonia_kg_m3" in read for read in recent):
        assert not any("Toxic ammonia" in told(one) for one in found.matters)


def test_of_many_places_that_were_never_measured_two_are_named() -> None:
    fed = tuple(Lip(id=f"lip{one}", name=f"Lip {one}", width_m=0.2) for one in range(8))
    branches = tuple(
        Branch(id=f"b{one}", name=f"To lip {one}", lift_m=0.3, feeds=(f"lip{one}",))
        for one in range(8)
    )
    line = Line(id="line", name="Pump", branches=branches)
    pond = POND.model_copy(update={"fed": fed, "lines": (line,)})
    told = [
        units.tell(one.sentence, "metric") for one in open_matters(WorkedPond(pond), [], NOW).open
    ]
    assert "Not measured yet: Lip 0, Lip 1 and 6 more." in told
