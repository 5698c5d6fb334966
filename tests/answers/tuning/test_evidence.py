"""A flow that cannot be, or that something changed since, is right on no screen."""

from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.care.glance import pump_against_new
from pondapp.answers.care.open_matters import measured, open_matters
from pondapp.answers.log.log import LogItem, newest_first
from pondapp.answers.picture.states import states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_entries, example_pond, example_readings
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.tuning.evidence import DOUBTS, Doubt
from pondapp.answers.tuning.tune import states
from pondapp.answers.what_if.start import as_read
from pondapp.models.entry import Cleaning, Entry, PumpChange, What
from pondapp.models.reading import MeterReading, Reading

NOW = datetime(2026, 6, 20, 12, tzinfo=UTC)
WORKED = WorkedPond(example_pond())
LPH = 1e-3 / 3600.0


def read(place: str, flow: float, hours: float = 24.0) -> Reading:
    """A flow in L/h."""
    return Reading(
        id=f"{place}-{abs(hours):.0f}",
        pond_id=WORKED.pond.id,
        place_id=place,
        place_name=place,
        taken_at=NOW - timedelta(hours=hours),
        method=MeterReading(flow_m3_s=flow * LPH, tolerance=0.03),
        band=None,
    )


def done(what: What, hours: float) -> Entry:
    when = NOW - timedelta(hours=hours)
    return Entry(id=f"done-{abs(hours):.0f}", pond_id=WORKED.pond.id, when=when, what=what)


def held(*log: LogItem) -> dict[str, Doubt | None]:
    """Why the flow of each place does not tell how it is now, the same for every screen."""
    log = tuple(newest_first(log))
    seen = states_of(WORKED, log, NOW)
    words = {word: doubt for doubt, word in DOUBTS.items()}
    found = {key: words.get(one.word) for key, one in seen.items()}
    for key, one in seen.items():
        assert (one.severity == "unknown") == (found[key] is not None), (key, one.word)
    (line,) = WORKED.lines
    for state in states(WORKED, line, log, {}, NOW):
        if state.seen:
            doubt = found[state.place.branch.id]
            assert (state.state == doubt) if doubt else (state.state not in DOUBTS)
    told = {one.sentence.template for one in open_matters(WORKED, log, NOW).matters}
    printed = plan_page(WORKED, log, "metric", NOW)
    if any(found.values()):
        assert measured(WORKED, log, NOW).proved == frozenset()
        assert not told & {"Every flow is as wanted.", "{name} is enough, as measured."}
        assert pump_against_new(WORKED, log, NOW).severity == "unknown"
    for key, doubt in found.items():
        if doubt:
            assert DOUBTS[doubt] in printed
            assert key not in as_read(WORKED, log, {}, NOW).seen
    return found


RIGHT = (read("box", 5500), read("bog", 1500))


def test_what_is_right_stays_so() -> None:
    assert set(held(*RIGHT).values()) == {None}


def test_one_flow_beyond_the_pump_is_none_and_neither_is_their_sum() -> None:
    found = held(read("box", 25_000), read("bog", 1500))
    assert found["box"] == found["line"] == "too much"


def test_branches_that_are_too_much_together_are_none() -> None:
    found = held(read("box", 13_000), read("bog", 2900))
    assert found["box"] == found["bog"] == found["line"] == "too much"
    assert set(held(read("box", 7000), read("bog", 2900)).values()) <= {None}


def test_readings_of_other_days_are_not_summed() -> None:
    assert set(held(read("box", 9000), read("bog", 9000, 60.0)).values()) <= {None}


@pytest.mark.parametrize("part", ["pump", "all"])
def test_a_cleaned_pump_asks_for_all_flows_again(part: str) -> None:
    found = held(*RIGHT, done(Cleaning(part=part), 3.0))
    assert set(found.values()) == {"cleaned"}
    again = held(*RIGHT, done(Cleaning(part=part), 30.0))
    assert set(again.values()) == {None}


def test_a_cleaned_filter_asks_for_its_own_branch() -> None:
    found = held(*RIGHT, done(Cleaning(part="bog"), 3.0))
    assert found["bog"] == found["line"] == "cleaned"
    assert found["box"] is None


def test_what_is_only_planned_to_be_cleaned_changes_nothing() -> None:
    assert set(held(*RIGHT, done(Cleaning(part="pump"), -3.0)).values()) == {None}


def test_a_pump_change_in_the_log_is_one() -> None:
    found = held(*RIGHT, done(PumpChange(what="a bigger one"), 3.0))
    assert set(found.values()) == {"replaced"}


def test_the_example_keeps_its_story() -> None:
    assert not {*DOUBTS} & set(held(*example_readings(NOW), *example_entries(NOW)).values())
