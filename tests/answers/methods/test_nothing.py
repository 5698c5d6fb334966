"""A place where nothing comes: recorded like any flow, and never divided by or weighed."""

import csv
import io
from datetime import UTC, datetime, timedelta
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ponds import LINE, LPH, TWO_BRANCHES

from pondapp import units
from pondapp.answers.fish.stock import stock
from pondapp.answers.log.charts import flow_chart
from pondapp.answers.log.log import newest_first
from pondapp.answers.log.log_table import log_table
from pondapp.answers.log.trend import place_trend
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.compare import beside
from pondapp.answers.measuring.methods import measured_by, measured_reading
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import Health, health
from pondapp.answers.tuning.flow_sets import (
    branch_places,
    change_of,
    flow_set,
    newest_at,
    with_tuned,
)
from pondapp.answers.tuning.tune import deviation, states, valve_effect
from pondapp.answers.waterfall.lip_setting import lips_of
from pondapp.core.assumptions import Assumptions
from pondapp.models.circuit import Lip
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, MeterReading, Method, NothingComes, Reading

NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
RULES = Assumptions()
SURE = certainty(RULES.measuring)
FALLING = Lip(id="lip", name="Lip", width_m=0.15, fall_m=0.5)
POND = TWO_BRANCHES.model_copy(update={"fed": (TWO_BRANCHES.fed[0], FALLING)})
WANTED = Band(low_m3_s=400 * LPH, target_m3_s=400 * LPH, high_m3_s=1200 * LPH)


def reading(place: str, flow: float, minutes: float = 0.0, method: Method | None = None) -> Reading:
    if method is None and flow > 0.0:
        method = MeterReading(flow_m3_s=flow, tolerance=0.05)
    return Reading(
        id=f"{place}{minutes:.0f}", pond_id="p", place_id=place, place_name=place.title(),
        taken_at=NOW + timedelta(minutes=minutes), method=method or NothingComes(), band=WANTED,
    )  # fmt: skip


def test_it_is_too_little_with_no_interval_and_says_how_it_was_seen() -> None:
    found = measured_reading(reading("bog", 0.0))
    assert found is not None
    assert found.dry
    assert (found.kind, found.flow.flow, found.accuracy) == ("below", 0.0, None)
    assert units.tell(found.verdict, "metric") == "Nothing comes; 400 L/h or more is wanted here."
    assert "not measured" in str(found.limits[0])
    assert "kink" in str(found.advice[0])
    assert found.flow.steps() == ()


def test_without_a_demand_it_is_only_told() -> None:
    found = measured_by(NothingComes(), None)
    assert found is not None
    assert (found.kind, found.verdict.template) == ("no target", "")


def test_a_meter_that_shows_nothing_is_no_water_and_may_miss_a_trickle() -> None:
    method = METHODS["meter"].entered(Entered({"meter_flow": 0.0}), RULES)
    assert method == NothingComes(seen="meter")
    found = measured_by(method, None)
    assert found is not None
    assert "trickle" in str(found.limits[0])
    assert METHODS["nothing"].entered(Entered({}), RULES) == NothingComes()


def test_it_is_stored_and_read_back() -> None:
    dry = reading("bog", 0.0)
    assert Reading.model_validate_json(dry.model_dump_json()) == dry


DOUBT = st.just(0.0) | st.floats(1e-9, 0.1)


@given(st.floats(1e-6, 1.0), DOUBT, st.floats(1e-6, 1.0), DOUBT)
def test_a_change_has_the_interval_of_a_ratio(
    then: float, d_then: float, now: float, d_now: float
) -> None:
    found = change_of("", then, d_then, now, d_now, SURE)
    relative = sqrt((d_now / now) ** 2 + (d_then / then) ** 2)
    assert found.high - found.share == pytest.approx(
        found.share * relative, rel=1e-6, abs=1e-9 * found.share
    )


def test_a_change_to_nothing_is_told() -> None:
    found = change_of("", 500 * LPH, 20 * LPH, 0.0, 0.0, SURE)
    assert (found.share, found.low, found.high, found.told) == (0.0, 0.0, 0.0, True)


def test_tuning_says_what_to_look_for_and_keeps_the_branch_off() -> None:
    log = [reading("bog", 0.0), reading("lip", 800 * LPH)]
    found = states(WorkedPond(POND), LINE, log, {}, NOW)
    assert found[0].state == "off"
    assert found[0].seen is not None
    off = deviation(found[0].seen.found, found[0].place)
    # 400 L/h is the least; the aim lies so far above it that a few fills can tell.
    assert units.tell(off.sentence, "metric") == "Nothing comes out; the aim is 422 L/h."
    assert "Open the ball valve" in str(off.turn)
    assert off.state == "off"


@pytest.mark.parametrize("other", [None, 0.0, 800 * LPH])
def test_opening_a_dry_branch_is_foretold_whatever_is_known_of_the_other(
    other: float | None,
) -> None:
    log = [] if other is None else [reading("lip", other)]
    found = valve_effect(WorkedPond(POND), LINE, log, "a", 0.0, NOW)
    assert [moved.name for moved in found.others] == ([] if other == 0.0 else ["To lip"])
    for moved in found.others:
        assert moved.high < moved.before  # what the bog takes, the lip loses
    assert found.opening.template


def asked(log: list[Reading], pond: Pond = POND) -> Health:
    found = health(WorkedPond(pond), LINE, log, "kept")
    assert found is not None
    return found


def test_a_dry_branch_keeps_the_pump_from_being_judged() -> None:
    found = asked([reading("bog", 0.0), reading("lip", 800 * LPH)])
    assert units.tell(found.verdict.sentence, "metric") == "Nothing comes out at Bog."
    assert (found.verdict.state, found.condition, found.since) == ("look", None, None)
    before = [reading("bog", 500 * LPH), reading("lip", 800 * LPH)]
    seen = [
        one for place in ("bog", "lip") if (one := newest_at(before, (place,), RULES.measuring))
    ]
    tuned = with_tuned(POND, flow_set(LINE, seen, NOW))
    assert asked([reading("bog", 0.0, 9), reading("lip", 900 * LPH, 9)], tuned).now.dry == ("Bog",)


def test_a_pump_that_gives_nothing_is_told_so() -> None:
    assert str(asked([reading("line", 0.0)]).verdict.sentence) == "No water at all."
    assert "plugged in" in str(asked([reading("bog", 0.0), reading("lip", 0.0)]).verdict.why)


def test_no_method_is_held_against_no_water() -> None:
    rules = RULES.measuring
    wet, dry = measured_by(MeterReading(flow_m3_s=1e-4, tolerance=1), None), NothingComes()
    nothing = measured_by(dry, None)
    assert wet is not None
    assert nothing is not None
    log = [reading("bog", 0.0)]
    assert beside(wet.flow, "meter", log, "bog", NOW, None, rules) is None
    log = [reading("bog", 1e-4)]
    assert beside(nothing.flow, "nothing", log, "bog", NOW, None, rules) is None


def test_a_trend_leaves_it_out_and_says_so() -> None:
    wet = [reading("lip", (900 - 0.01 * m) * LPH, m) for m in range(0, 60_000, 10_000)]
    plain = place_trend(POND, "lip", "Lip", None, newest_first(wet))
    amid = newest_first([*wet, reading("lip", 0.0, 25_000)])
    found = place_trend(POND, "lip", "Lip", None, amid)
    assert found.sentences[:-1] == plain.sentences
    assert str(found.sentences[-1]) == "One reading of no water is left out."
    last = place_trend(POND, "lip", "Lip", None, newest_first([*wet, reading("lip", 0.0, 90_000)]))
    assert last.way == "outside"
    assert "that is no trend" in str(last.sentences[0])
    few = newest_first([reading("lip", 0.0), reading("lip", 0.0, 1), reading("lip", 9e-5, 2)])
    assert "2 readings" in str(place_trend(POND, "lip", "Lip", None, few).sentences[-1])


def test_a_chart_draws_it_at_nothing() -> None:
    log = newest_first([reading("lip", 900 * LPH), reading("lip", 0.0, 9)])
    last = flow_chart(WorkedPond(POND), "lip", log, None).points[-1]
    assert (last.value, last.low, last.high) == (0.0, 0.0, 0.0)


def test_the_table_holds_nothing_but_no_interval() -> None:
    text = log_table([reading("lip", 0.0)], {}, "metric").decode("utf-8-sig")
    (row,) = csv.DictReader(io.StringIO(text, newline=""))
    assert row["How"] == "Nothing comes out"
    assert (row["Flow (L/h)"], row["Interval from (L/h)"], row["Interval to (L/h)"]) == (
        "0",
        "",
        "",
    )
    assert row["Verdict"].startswith("Nothing comes")


def test_a_dry_fall_brings_no_oxygen_and_no_old_flow_takes_its_place() -> None:
    log = [reading("lip", 0.0, 9), reading("lip", 900 * LPH)]
    flows = standing_flows(WorkedPond(POND), log, NOW + timedelta(hours=1))
    assert flows["lip"] == 0.0
    falls = [
        stock(WorkedPond(POND), grown=False, flows=known).usual
        for known in ({"lip": 900 * LPH}, flows)
    ]
    assert falls[1].oxygen_supply.low < falls[0].oxygen_supply.low


def test_a_lip_knows_that_it_is_dry() -> None:
    (lip,) = lips_of(
        WorkedPond(POND),
        [reading("lip", 0.0, 9), reading("lip", 900 * LPH)],
        NOW + timedelta(hours=1),
    )
    assert lip.measured is not None
    assert lip.measured.dry


def test_each_valve_has_its_words() -> None:
    dry = measured_by(NothingComes(), None)
    assert dry is not None
    for valve in ("none", "ball", "gate"):
        branch = LINE.branches[0].model_copy(update={"valve": valve})
        line = LINE.model_copy(update={"branches": (branch, LINE.branches[1])})
        place = branch_places(WorkedPond(POND.model_copy(update={"lines": (line,)})), line)[0]
        assert "the pump runs" in str(deviation(dry, place).turn)
