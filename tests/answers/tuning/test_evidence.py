"""A flow that cannot be, or that something changed since, is right on no screen."""

from datetime import UTC, datetime, timedelta

import pytest

from pondapp import units
from pondapp.answers.care.glance import pump_against_new
from pondapp.answers.care.open_matters import measured, open_matters
from pondapp.answers.learning.page import told_of
from pondapp.answers.log.log import LogItem, newest_first
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.answers.picture.states import states_of
from pondapp.answers.plumbing.path_edits import with_branch
from pondapp.answers.plumbing.pump_history import with_changes_noted
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_entries, example_pond, example_readings
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.tuning.evidence import DOUBTS, Doubt
from pondapp.answers.tuning.tune import states
from pondapp.answers.what_if.start import as_read
from pondapp.models.entry import Cleaning, Entry, PumpChange, What
from pondapp.models.reading import FillSet, MeterReading, NothingComes, Reading

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
            assert (DOUBTS[doubt] if doubt != "differs" else "Nobody can tell which") in printed
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


def test_two_readings_of_an_hour_that_differ_by_half_tell_nothing_of_now() -> None:
    log = (read("box", 5500, 2.0), read("box", 2750, 1.0), read("bog", 1500))
    found = held(*log)
    assert found["box"] == found["line"] == "differs"
    assert found["bog"] is None
    told = [units.tell(one.sentence, "metric") for one in open_matters(WORKED, log, NOW).matters]
    (one,) = [sentence for sentence in told if "time it once more" in sentence]
    assert "5,500 L/h on" in one
    assert "2,750 L/h on" in one


@pytest.mark.parametrize(
    "between",
    [Cleaning(part="pump"), Cleaning(part="all"), PumpChange(what="another")],
)
def test_what_was_done_between_explains_it(between: What) -> None:
    log = (read("box", 5500, 4.0), done(between, 3.0), read("box", 2750, 1.0), read("bog", 1500, 1))
    assert set(held(*log).values()) == {None}


def test_a_valve_that_was_turned_between_explains_it() -> None:
    turned = FillSet(fills=(), until=NOW - timedelta(hours=3.0))
    after = read("bog", 1500, 1.0).model_copy(update={"before_turn": (turned,)})
    found = held(read("box", 5500, 4.0), read("box", 2750, 2.0), after)
    assert set(found.values()) == {None}


def test_what_clogs_in_a_month_is_a_change_and_no_contradiction() -> None:
    assert held(read("box", 5500, 24 * 29), read("box", 4600, 24.0))["box"] is None
    assert held(read("box", 5500, 26.0), read("box", 4600, 24.0))["box"] == "differs"


def test_one_more_that_agrees_with_the_newest_decides() -> None:
    earlier = [read("box", flow, 24.0 + hours) for hours, flow in ((9, 5500), (6, 4500), (3, 3700))]
    assert held(*earlier, read("box", 2750, 3.0))["box"] == "differs"
    assert held(*earlier, read("box", 2750, 3.0), read("box", 2800, 1.0))["box"] is None


def test_no_water_is_told_whatever_came_before() -> None:
    none = read("box", 5500, 1.0).model_copy(update={"method": NothingComes()})
    log = (read("box", 5500, 2.0), none)
    assert states_of(WORKED, log, NOW)["box"].severity == "danger"


def test_the_learned_screen_says_it_too_and_no_screen_ticks_what_it_leaves_open() -> None:
    (line,) = WORKED.lines
    log = (read("box", 5500, 2.0), read("box", 2750, 1.0), read("bog", 1500))
    found = told_of(WORKED, line, log, {}, NOW)
    assert any("Nobody can tell which holds" in one.template for one in found.misfits)
    assert {one.key for one in found.now if one.open} == {"to-fall"}
    mine = [one for one in found.now if one.key in ("", "to-fall")]
    assert {one.stands for one in mine} <= {None, "undecided"}
    assert all(one.state is None or one.state.severity == "unknown" for one in mine)


def test_the_fish_count_no_flow_that_is_contradicted() -> None:
    log = (read("box", 5500, 2.0), read("box", 2750, 1.0), read("bog", 1500))
    assert standing_flows(WORKED, log, NOW).keys() == {"bog", "to-bog"}


def test_a_hose_that_was_changed_since_leaves_all_flows_of_its_pump_open() -> None:
    pond = with_branch(WORKED.pond, "to-fall", lift_m=1.7)
    built = with_changes_noted(pond, WORKED.pond, NOW - timedelta(hours=3))
    seen = states_of(WorkedPond(built), RIGHT, NOW)
    assert {one.word for one in seen.values()} == {DOUBTS["rebuilt"]}
    told = open_matters(WorkedPond(built), RIGHT, NOW).matters
    names = {one.sentence.template for one in told}
    assert "Measured before the water path was changed: {names}." in names
    later = (read("box", 5500, 1.0), read("bog", 1500, 1.0))
    assert {one.word for one in states_of(WorkedPond(built), later, NOW).values()} == {"Right"}
    corrected = with_changes_noted(pond, WORKED.pond, NOW, corrected=True)
    assert {one.word for one in states_of(WorkedPond(corrected), RIGHT, NOW).values()} == {"Right"}
    first = with_branch(WORKED.pond, "to-fall", lift_m=None)
    assert with_changes_noted(WORKED.pond, first, NOW).lines[0].rebuilt_at is None


def test_flows_of_another_hose_are_not_held_against_that_of_now() -> None:
    pond = with_branch(WORKED.pond, "to-fall", lift_m=2.2)
    built = with_changes_noted(pond, WORKED.pond, NOW - timedelta(hours=3))
    log = (*RIGHT, read("box", 3000, 1.0), read("bog", 1500, 1.0))
    found = told_of(WorkedPond(built), built.lines[0], log, {}, NOW)
    assert found.misfits == ()
    fall = next(one for one in found.now if one.key == "to-fall")
    assert fall.flow == pytest.approx(3000 * LPH, rel=0.05)


def test_the_example_keeps_its_story() -> None:
    assert not {*DOUBTS} & set(held(*example_readings(NOW), *example_entries(NOW)).values())
