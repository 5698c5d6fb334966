"""The steps of building a pond, in order, and how far each is by what is known.

A step is done by what was entered, measured or bought, and by nothing else: what is assumed, or
was never said, leaves it open. Whether pump, plan and flows are right is asked where it is decided.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import Literal

from pondapp.answers.care.open_matters import Goal, open_matters
from pondapp.answers.care.severity import Severity
from pondapp.answers.log.log import LogItem
from pondapp.answers.plumbing.path import assumed_of, left_dry
from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.shopping import bill
from pondapp.answers.tuning.flow_sets import InHand
from pondapp.answers.tuning.tune import states
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message, counted

Part = Literal[
    "water", "fish", "things", "path", "plumbing", "pumps", "plan", "tune", "shopping"
]  # fmt: skip
State = Literal["done", "open", "wrong"]


@dataclass(frozen=True, slots=True)
class Step:
    """One step.

    Attributes:
        part: What it is about.
        state: Whether it is done, still open, or cannot stay as it is.
        sentence: What is known of it.
    """

    part: Part
    state: State
    sentence: Message


Found = tuple[State, Message]
STATES: Mapping[Severity, State] = {
    "danger": "wrong", "wrong": "wrong", "unknown": "open", "right": "done",
}  # fmt: skip
NOT_ENTERED = Message("Not entered")


def building_steps(
    worked: WorkedPond,
    log: Sequence[LogItem],
    now: datetime,
    turned_at: Mapping[str, datetime] | None = None,
    in_hand: InHand | None = None,
) -> tuple[Step, ...]:
    """Every step of building a pond.

    Args:
        worked: The pond.
        log: Its whole log, newest first. What is dated after now is no evidence.
        now: The time of now.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        in_hand: What is filled at each place, on which its aim depends a little.
    """
    matters = open_matters(worked, log, now).matters

    def decided(goal: Goal) -> Found:
        """What is said of it wherever the pond is looked at."""
        if not worked.pond.fed:
            return "open", Message("Nothing to feed yet")
        worst = next((one for one in matters if one.goal == goal), None)
        if worst is None:
            return "open", Message("Not known yet")
        return STATES[worst.severity], worst.sentence

    tuned = partial(_tuned, worked, log, now, turned_at or {}, in_hand)
    asked: Mapping[Part, Callable[[], Found]] = {
        "water": partial(_water, worked),
        "fish": partial(_fish, worked),
        "things": partial(_things, worked),
        "path": partial(_path, worked),
        "plumbing": partial(_plumbing, worked),
        "pumps": partial(decided, "pumps"),
        "plan": partial(decided, "plan"),
        "tune": tuned,
        "shopping": partial(_shopping, worked),
    }
    return tuple(_steps(asked))


def _steps(asked: Mapping[Part, Callable[[], Found]]) -> Iterator[Step]:
    for part, ask in asked.items():
        try:
            state, sentence = ask()
        except PondError as problem:
            state, sentence = "wrong", problem.message
        yield Step(part, state, sentence)


def water_held(worked: WorkedPond) -> Message:
    """How much water the pond holds, and how that is known.

    Raises:
        PondError: The drawing of the pond gives no volume.
    """
    values = {"volume": Amount(water_volume(worked.pond), "m3")}
    if worked.pond.measured_volume:
        return Message("{volume}, measured", values)
    if worked.pond.water.kind == "drawn":
        return Message("{volume}, from its drawing", values)
    return Message("{volume}, as entered", values)


def _water(worked: WorkedPond) -> Found:
    return "done", water_held(worked)


def _fish(worked: WorkedPond) -> Found:
    count = sum(group.count for group in worked.pond.fish)
    if not count:
        return "open", NOT_ENTERED
    return "done", counted("{count} fish", "{count} fish", count)


def _things(worked: WorkedPond) -> Found:
    if not worked.pond.fed:
        return "open", NOT_ENTERED
    return "done", Message("{names}", {"names": ", ".join(worked.names.features.values())})


def _path(worked: WorkedPond) -> Found:
    pond = worked.pond
    dry = left_dry(pond)
    if dry:
        return "wrong", Message("{name}: no branch brings it water.", {"name": dry[0].name})
    if not pond.fed:
        return "open", NOT_ENTERED
    if not pond.lines:
        return "open", Message("Assumed: one pump for everything")
    branches = sum(len(line.branches) for line in pond.lines)
    return "done", counted("{count} branch", "{count} branches", branches)


def _plumbing(worked: WorkedPond) -> Found:
    if not worked.pond.fed:
        return "open", NOT_ENTERED
    found = [one for line in worked.lines for one in assumed_of(worked.pond, line)]
    runs = [one.message for one in found if one.what == "run"]
    if not runs:
        return "done", Message("Entered")
    return "open", runs[0] if len(runs) == 1 else counted(
        "Assumed at {count} branch", "Assumed at {count} branches", len(runs)
    )  # fmt: skip


def _tuned(
    worked: WorkedPond,
    log: Sequence[LogItem],
    now: datetime,
    turned_at: Mapping[str, datetime],
    in_hand: InHand | None,
) -> Found:
    found = [
        state
        for line in worked.lines
        for state in states(worked, line, log, turned_at, now, in_hand)
    ]
    if not found:
        return "open", Message("Nothing is planned for this pump yet.")
    right = sum(state.state == "in" for state in found)
    values = {"count": str(right), "all": str(len(found))}
    words = Message("Right so far: {count} of {all} branches.", values)
    return ("done" if right == len(found) else "open"), words


def _shopping(worked: WorkedPond) -> Found:
    items = bill(worked).items
    if not items:
        return "open", Message("Nothing on the list yet")
    bought = sum(item.ticked for item in items)
    words = Message("{count} of {all} bought", {"count": str(bought), "all": str(len(items))})
    return ("done" if bought == len(items) else "open"), words
