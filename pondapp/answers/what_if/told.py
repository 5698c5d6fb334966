"""What a change brings, in words, and what the numbers of both states rest on."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.log.water_tests import Standing, read_test
from pondapp.answers.plumbing.path import assumed_of
from pondapp.answers.what_if.changes import POND, Changes
from pondapp.answers.what_if.trial import HARDLY, Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.messages import Amount, Message, Value
from pondapp.models.pond import Pond

DRY = Message("{name}: no water any more.")
SAME_WARMTH = 0.05
"""So little warmer [K], nobody sees another number."""
FLOW_MOVED = {True: Message("{name}: {flow} more."), False: Message("{name}: {flow} less.")}
WATTS_MOVED = {True: Message("{watts} more."), False: Message("{watts} less.")}
"""By whether it is more."""


@dataclass(frozen=True, slots=True)
class ToxicAmmonia:
    """The toxic part of the ammonia of the newest test, at the temperatures of both states.

    Attributes:
        now: With as much ammonia and the same pH in the pond's usual water [kg/m3].
        tried: The same in water of the temperature that is tried [kg/m3].
        limit_passed: Whether that is more than fish can take.
        read_at: When the ammonia was read.
        now_at: The usual temperature [K].
        tried_at: The one that is tried [K].
        tested_at: That of the water when it was tested [K]; None where nobody read it.
    """

    now: float
    tried: float
    limit_passed: bool
    read_at: datetime
    now_at: float
    tried_at: float
    tested_at: float | None

    def about(self) -> tuple[Message, ...]:
        """In which water that is."""
        values: dict[str, Value] = {"now": Amount(self.now_at, "K")}
        words = "As much ammonia and the same pH in water of {now}."
        if self.tried_at != self.now_at:
            values["tried"] = Amount(self.tried_at, "K")
            words = "As much ammonia and the same pH in water of {now} now and {tried} then."
        found = [Message(words, values)]
        if self.tested_at is not None and abs(self.tested_at - self.now_at) >= SAME_WARMTH:
            tested = Amount(self.tested_at, "K")
            found.append(Message("The water of the test itself had {tested}.", {"tested": tested}))
        return tuple(found)


def toxic_ammonia(pond: Pond, found: Standing, changes: Changes) -> ToxicAmmonia | None:
    """What the newest test that still stands says of toxic ammonia; None without one.

    Raises:
        PondError: A changed rule cannot be.
    """
    test = found.test
    if test is None or "ammonia" not in found.read_at:
        return None
    now, tried = pond.water_temperature_c + ZERO_CELSIUS, warmth_of(pond, changes)
    before, after = (
        read_test(test.model_copy(update={"temperature_c": at - ZERO_CELSIUS}), pond)
        for at in (now, tried)
    )
    if before.toxic is None or after.toxic is None:
        return None
    bad = any(one.key == "ammonia" and one.severity == "danger" for one in after.remarks)
    read = test.temperature_c
    return ToxicAmmonia(
        before.toxic, after.toxic, bad, found.read_at["ammonia"], now, tried,
        None if read is None else read + ZERO_CELSIUS,
    )  # fmt: skip


def differences(now: TriedState, tried: TriedState) -> tuple[Message, ...]:
    """What the change brings: each flow that becomes another, and the watts."""
    return (*_flows(now, tried), *_watts(now, tried))


def _flows(now: TriedState, tried: TriedState) -> Iterator[Message]:
    names = now.worked.names.branches
    for key, before in now.branches.items():
        after = tried.branches.get(key)
        if after is None:
            continue
        more = after.flow - before.flow
        if abs(more) <= HARDLY * max(before.flow, after.flow):
            continue
        words = DRY if after.flow <= 0.0 else FLOW_MOVED[more > 0.0]
        yield Message(words.template, {"name": names[key], "flow": Amount(abs(more), "m3/s")})


def _watts(now: TriedState, tried: TriedState) -> Iterator[Message]:
    if now.power is None or tried.power is None:
        return
    more = tried.power - now.power
    if abs(more) > HARDLY * max(now.power, tried.power):
        yield Message(WATTS_MOVED[more > 0.0].template, {"watts": Amount(abs(more), "W")})


def rests_on(trial: Trial, changes: Changes) -> tuple[Message, ...]:
    """What is assumed: how the valves stand, what nobody entered, and what clogging means."""
    return tuple(_assumptions(trial, changes))


def _assumptions(trial: Trial, changes: Changes) -> Iterator[Message]:
    yield Message("All flows here are calculated.")
    if trial.read:
        yield Message(
            "Pump, hoses, lifts and valves are as all readings tell. A place that was measured "
            "keeps its word until something is changed there."
        )
    if len(trial.read) < len(trial.now.lines):
        yield Message(
            "What no reading tells is as entered, clean, its valves as the plan sets them."
        )
    if any(line.pump and line.pump.adjustable for line in trial.now.lines):
        yield Message(
            "The speed of a pump begins as the readings tell, or else as the plan has it."
        )
    for line in trial.now.worked.lines:
        yield from (one.message for one in assumed_of(trial.worked.pond, line))
    if changes.only("opened").values:
        yield Message("Valves are counted by a table: yours may differ by half or double.")
    if changes.only("clean").values:
        yield Message(
            "A clogged pump is counted to give that share of its flow at the same head, and to "
            "take its watts all the same."
        )
    if changes.only("foam").values:
        yield Message("Of clogged foam that share of the water comes through at the same head.")


def warmth_of(pond: Pond, changes: Changes) -> float:
    """The water's temperature as it is tried [K]."""
    tried = changes.number("warmth", POND)
    return (pond.water_temperature_c if tried is None else tried) + ZERO_CELSIUS
