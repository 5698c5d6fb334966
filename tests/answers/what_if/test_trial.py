"""What is tried on a pond, on random ponds: the same physics as everywhere, and nothing saved."""

from collections.abc import Iterator
from math import isclose

import catalogue
import pytest
from random_ponds import random_pond

from pondapp.answers.plumbing.network import size_names
from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import operating_flow
from pondapp.answers.sharing.example import example_pond
from pondapp.answers.what_if.changes import (
    NOTHING,
    POND,
    Changes,
    What,
    changes_of,
    pipe_of,
    texts_of,
)
from pondapp.answers.what_if.told import differences
from pondapp.answers.what_if.trial import Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.core.base.errors import PondError

PONDS = range(60)
LINE, BOG, FALL = "line", "to-bog", "to-fall"


def trials() -> Iterator[tuple[int, Trial]]:
    """Every random pond whose numbers can be, with a pump whose curve is known somewhere."""
    for number in PONDS:
        trial = Trial(WorkedPond(random_pond(number).pond))
        try:
            _ = trial.now
        except PondError:
            continue
        yield number, trial


def example() -> Trial:
    return Trial(WorkedPond(example_pond()))


def whole(state: TriedState, line_id: str) -> float | None:
    (line,) = (one for one in state.lines if one.line.id == line_id)
    return line.flow.flow if line.flow else None


def test_no_change_is_no_difference() -> None:
    told = 0
    for number, trial in trials():
        state = trial.state(NOTHING)
        assert differences(trial.now, state) == (), number
        told += bool(state.branches)
    assert told > 20


def test_now_has_the_flows_that_the_plan_sets_the_valves_to() -> None:
    flows = example().now.flows
    planned = WorkedPond(example_pond()).planned.flows
    assert all(isclose(flows[key], planned[key], rel_tol=1e-6) for key in planned)


def test_wide_open_it_is_the_flow_that_the_pump_delivers_by_all_other_screens() -> None:
    """Two ways to ask, one circuit: with its valves open, a pump gives what its shelf says."""
    compared = 0
    for number, trial in trials():
        for line in trial.worked.lines:
            open_ = Changes({("opened", one.id): 1.0 for one in line.branches
                             if one.valve != "none"})  # fmt: skip
            open_ = Changes({**open_.values, ("speed", line.id): 1.0})
            found = whole(trial.state(open_), line.id)
            (state,) = (one for one in trial.now.lines if one.line.id == line.id)
            if found is None or state.pump is None or state.network is None:
                continue
            elsewhere = operating_flow(state.network, state.pump)
            if any(one.valve == "none" and not trial.worked.planned.flows.get(one.id)
                   for one in line.branches):  # fmt: skip
                continue
            assert elsewhere is not None
            assert isclose(found, elsewhere, rel_tol=1e-6), number
            compared += 1
    assert compared > 15


def test_a_wider_hose_never_delivers_less() -> None:
    tried = 0
    for number, trial in trials():
        for line in trial.worked.lines:
            for key in (line.id, *(one.id for one in line.branches)):
                pipe = pipe_of(trial.worked, line, key)
                if pipe is None:
                    continue
                names = size_names(pipe.series)
                for wider in names[names.index(pipe.size) + 1 :][:2]:
                    state = trial.state(NOTHING.put("hose", key, wider))
                    before, after = whole(trial.now, line.id), whole(state, line.id)
                    if before is None or after is None:
                        continue
                    assert after >= before * (1 - 1e-9), (number, key, wider)
                    own, then = trial.now.branches.get(key), state.branches.get(key)
                    if own and then:
                        assert then.flow >= own.flow * (1 - 1e-9), (number, key, wider)
                    tried += 1
    assert tried > 40


@pytest.mark.parametrize("left", [0.8, 0.6])
def test_clogging_never_delivers_more(left: float) -> None:
    tried = 0
    for number, trial in trials():
        for line in trial.worked.lines:
            before = whole(trial.now, line.id)
            keys: list[tuple[What, str]] = [("clean", line.id)]
            keys += [("foam", one.id) for one in line.branches]
            for what, key in keys:
                state = trial.state(NOTHING.put(what, key, left))
                after = whole(state, line.id)
                if before is None or after is None:
                    continue
                assert after <= before * (1 + 1e-9), (number, what, key)
                if what == "foam":
                    own, then = trial.now.branches[key].flow, state.branches[key].flow
                    assert then <= own * (1 + 1e-9), (number, key)
                tried += 1
    assert tried > 40


def test_a_branch_at_rest_is_dry_and_in_danger_where_bacteria_live() -> None:
    state = example().state(NOTHING.put("rest", BOG, 1.0))
    assert state.branches[BOG].flow == 0.0
    assert state.places["bog"].severity == "danger"
    assert state.branches[FALL].flow > example().now.branches[FALL].flow


def test_no_calculated_flow_is_called_right() -> None:
    for number, trial in trials():
        severities = {one.severity for one in trial.now.places.values()}
        assert "right" not in severities, number


def test_the_ends_of_a_flow_hold_it() -> None:
    for number, trial in trials():
        for one in trial.now.branches.values():
            assert one.low <= one.flow <= one.high, number


def all_moves(trial: Trial) -> Changes:
    """One of each kind of change, on the first line."""
    line = trial.worked.lines[0]
    branch = line.branches[0]
    found = NOTHING.put("lift", branch.id, 0.7).put("clean", line.id, 0.8)
    found = found.put("foam", branch.id, 0.6).put("warmth", POND, 25.0)
    if branch.valve != "none":
        found = found.put("opened", branch.id, 0.6)
    return found


def test_a_draft_gives_back_what_was_tried() -> None:
    for number, trial in trials():
        moves = all_moves(trial)
        back = changes_of(texts_of(moves), trial.worked.pond, trial.worked.lines)
        assert back == moves, number


@pytest.mark.parametrize(
    "text",
    ["opened.to-bog", "opened.nowhere", "clean.line", "pump.line", "hose.gone", "odd", "warmth."],
)
@pytest.mark.parametrize("value", ["", "nan", "inf", "-4", "1e99", "words", "0.123"])
def test_a_draft_that_does_not_fit_the_pond_is_left_out(text: str, value: str) -> None:
    trial = example()
    found = changes_of({text: value}, trial.worked.pond, trial.worked.lines)
    assert found.only("warmth", "clean", "pump", "hose").values == {}
    trial.state(found)


def test_the_pond_is_as_it_was_until_it_is_applied() -> None:
    for number, trial in trials():
        before = random_pond(number).pond
        trial.state(all_moves(trial))
        assert trial.worked.pond == before, number


CHANGES: dict[str, Changes] = {
    "pump": NOTHING.put("pump", LINE, "large"),
    "hose": NOTHING.put("hose", FALL, "50 mm").put("opened", BOG, 0.45),
    "lift": NOTHING.put("lift", FALL, 0.6).put("opened", BOG, 0.45),
    "lip": NOTHING.put("width", "lip", 0.5),
    "valve": NOTHING.put("opened", BOG, 0.5).put("opened", FALL, 0.9),
    "all": NOTHING.put("pump", LINE, "large").put("opened", BOG, 0.45).put("width", "lip", 0.45),
}


def test_every_sentence_of_a_difference_is_in_the_catalogue() -> None:
    trial = example()
    texts = [one for changes in CHANGES.values()
             for one in differences(trial.now, trial.state(changes))]  # fmt: skip
    known = {message.id for message in catalogue.template()}
    assert {one.template for one in texts} <= known


def test_a_pump_that_was_chosen_elsewhere_meanwhile_is_no_other_one() -> None:
    worked = WorkedPond(example_pond())
    texts = texts_of(NOTHING.put("pump", LINE, "large"))
    assert changes_of(texts, worked.pond, worked.lines).values
    pond = with_line(worked.pond, LINE, pump_id="large")
    assert not changes_of(texts, pond, pond.lines).values
