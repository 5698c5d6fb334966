"""What was tried becomes the plan exactly, or is refused with the reason."""

from collections.abc import Iterator
from datetime import UTC, datetime
from math import isclose
from random import Random

import catalogue
import learning_ponds
import pytest
from random_ponds import random_pond

from pondapp import units
from pondapp.answers.plumbing.network import size_names
from pondapp.answers.plumbing.path import assumed_lift
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.what_if.apply import Applied, Refused, applied
from pondapp.answers.what_if.changes import NOTHING, POND, Changes, pipe_of
from pondapp.answers.what_if.start import as_entered, as_read
from pondapp.answers.what_if.trial import Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
LINE, BOG, FALL = "line", "to-bog", "to-fall"
TELL = 0.005  # a share of a flow that nobody can tell


def example() -> Trial:
    return as_entered(WorkedPond(example_pond()))


def read_example() -> Trial:
    return as_read(WorkedPond(example_pond()), example_readings(NOW), {}, NOW)


def stored(pond: Pond) -> Pond:
    return Pond.model_validate_json(pond.model_dump_json())


def assert_same(found: TriedState, tried: TriedState) -> None:
    assert found.flows.keys() == tried.flows.keys()
    for key, flow in tried.flows.items():
        assert isclose(found.flows[key], flow, rel_tol=TELL), key
    for one, other in zip(found.lines, tried.lines, strict=True):
        assert isclose(one.speed, other.speed, abs_tol=TELL)
        assert one.pump == other.pump
    assert found.sheets.keys() == tried.sheets.keys()
    for key, sheet in tried.sheets.items():
        assert isclose(found.sheets[key].thickness, sheet.thickness, rel_tol=TELL)


def random_changes(trial: Trial, dice: Random) -> Changes:
    """Some changes of what can be saved, and a condition now and then."""
    worked, found = trial.worked, NOTHING
    for line in worked.lines:
        others = [pump.id for pump in worked.pond.pumps if pump.id != line.pump_id]
        if others and dice.random() < 0.2:
            found = found.put("pump", line.id, dice.choice(others))
        if dice.random() < 0.1:
            found = found.put("clean", line.id, 0.8)
        if dice.random() < 0.1:
            found = found.put("speed", line.id, round(dice.uniform(0.6, 1.0), 2))
        for branch in line.branches:
            if branch.valve != "none" and dice.random() < 0.4:
                stands = trial.opening(branch, NOTHING)
                turned = min(1.0, max(0.0, stands + dice.choice((-0.1, -0.05, 0.05, 0.1))))
                found = found.put("opened", branch.id, turned)
            if dice.random() < 0.2:
                lift = assumed_lift(worked.pond, branch)[0] + dice.choice((-0.1, 0.1))
                found = found.put("lift", branch.id, max(0.0, lift))
            pipe = pipe_of(worked, line, branch.id)
            if pipe is not None and dice.random() < 0.2:
                found = found.put("hose", branch.id, dice.choice(size_names(pipe.series)))
    return found


def trials() -> Iterator[Trial]:
    """The example both ways, random ponds as entered, simulated ones as their readings tell."""
    for _ in range(8):
        yield example()
        yield read_example()
    for number in range(60):
        yield as_entered(WorkedPond(random_pond(number).pond))
    for number in range(8):
        made = learning_ponds.truth(number, readings=5)
        yield as_read(WorkedPond(made.pond), made.log, {}, learning_ponds.NOW)


def test_after_200_random_changes_now_is_what_was_tried_or_the_reason_is_told() -> None:
    dice, tried, kept = Random(7), 0, 0
    known = {message.id for message in catalogue.template()}
    while tried < 200:
        for trial in trials():
            try:
                changes = random_changes(trial, dice)
                if not changes.saved.values:
                    continue
                state, made = trial.state(changes.saved), applied(trial, changes)
            except PondError:
                continue
            tried += 1
            if isinstance(made, Refused):
                assert made.reasons
                for one in made.reasons:
                    assert one.template in known
                    assert "{" not in units.tell(one, "metric")
                continue
            kept += 1
            worked = WorkedPond(stored(made.pond))
            assert worked.pond == made.pond
            if made.as_planned:
                assert_same(as_entered(worked).now, state)
    assert kept > 0.3 * tried


CHANGES: dict[str, Changes] = {
    "pump": NOTHING.put("pump", LINE, "large").put("opened", BOG, 0.45),
    "hose": NOTHING.put("hose", FALL, "50 mm").put("opened", BOG, 0.45),
    "lift": NOTHING.put("lift", FALL, 0.6).put("opened", BOG, 0.45),
    "lip": NOTHING.put("width", "lip", 0.4),
    "valve": NOTHING.put("opened", BOG, 0.5).put("opened", FALL, 0.9),
    "all": NOTHING.put("pump", LINE, "large").put("opened", BOG, 0.45).put("width", "lip", 0.45),
}


@pytest.mark.parametrize("name", CHANGES)
def test_what_is_applied_opens_as_it_was_shown(name: str) -> None:
    trial, changes = example(), CHANGES[name]
    made = applied(trial, changes)
    assert isinstance(made, Applied)
    assert_same(as_entered(WorkedPond(stored(made.pond))).now, trial.state(changes))


def test_conditions_are_not_saved() -> None:
    trial = example()
    conditions = NOTHING.put("clean", LINE, 0.6).put("rest", BOG, 1.0).put("warmth", POND, 30.0)
    assert applied(trial, conditions) == Applied(trial.worked.pond, as_planned=True)
    both = Changes({**conditions.values, **CHANGES["valve"].values})
    assert applied(trial, both) == applied(trial, CHANGES["valve"])


def test_a_flow_that_a_place_cannot_take_is_refused() -> None:
    made = applied(example(), NOTHING.put("opened", BOG, 1.0))
    assert isinstance(made, Refused)
    said = [units.tell(one, "metric") for one in made.reasons]
    assert any(one.startswith("Bog filter can take 3,000 L/h at most") for one in said), said


def test_a_shut_valve_is_refused_where_something_needs_its_water() -> None:
    made = applied(example(), NOTHING.put("opened", FALL, 0.0))
    assert isinstance(made, Refused)
    assert "needs" in units.tell(made.reasons[0], "metric")


def test_a_lip_alone_leaves_the_aims_and_the_readings_as_they_are() -> None:
    trial = read_example()
    made = applied(trial, NOTHING.put("width", "lip", 0.45))
    assert isinstance(made, Applied)
    assert not made.as_planned
    assert [one.band for one in made.pond.fed] == [None, None, None]
    again = as_read(WorkedPond(made.pond), example_readings(NOW), {}, NOW)
    assert_same(again.now, trial.state(NOTHING.put("width", "lip", 0.45)))


def test_what_the_readings_tell_is_refused_where_the_pump_as_entered_cannot_do_it() -> None:
    weak = tuple(
        one.model_copy(update={"max_flow_m3_s": 0.62 * (one.max_flow_m3_s or 0.0)})
        for one in example_pond().pumps
    )
    pond = example_pond().model_copy(update={"pumps": weak})
    trial = as_read(WorkedPond(pond), example_readings(NOW), {}, NOW)
    made = applied(trial, NOTHING.put("opened", BOG, 0.9 * trial.now.opened[BOG]))
    assert isinstance(made, Refused)


def test_without_a_pump_a_lift_can_be_saved_and_nothing_is_aimed_for() -> None:
    lines = tuple(line.model_copy(update={"pump_id": None}) for line in example_pond().lines)
    pond = example_pond().model_copy(update={"lines": lines})
    made = applied(as_entered(WorkedPond(pond)), NOTHING.put("lift", BOG, 0.5))
    assert isinstance(made, Applied)
    assert [one.band for one in made.pond.fed] == [None, None, None]
    assert made.pond.lines[0].branches[0].lift_m == 0.5


def test_a_lip_that_nothing_can_suit_any_more_is_refused_though_it_moves_no_water() -> None:
    for trial in (example(), read_example()):
        made = applied(trial, NOTHING.put("width", "lip", 1.4))
        assert isinstance(made, Refused)
        assert made.reasons[0].template
    said = units.tell(made.reasons[0], "metric")
    assert "Slate lip needs" in said, said
