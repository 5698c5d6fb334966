"""What a change brings, in words, and what the numbers of both states rest on."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.log.water_tests import Standing, read_test
from pondapp.answers.plumbing.path import assumed_of
from pondapp.answers.what_if.changes import POND, Changes
from pondapp.answers.what_if.trial import Trial, TriedState
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.messages import Amount, Message
from pondapp.models.pond import Pond

HARDLY = 0.005  # a share of a flow that nobody can tell

DRY = Message("{name}: no water any more.")
FLOW_MOVED = {True: Message("{name}: {flow} more."), False: Message("{name}: {flow} less.")}
WATTS_MOVED = {True: Message("{watts} more."), False: Message("{watts} less.")}
"""By whether it is more."""


@dataclass(frozen=True, slots=True)
class ToxicAmmonia:
    """The toxic part of the ammonia of the newest test, in the water as it is and as it is tried.

    Attributes:
        now: In the water of the test [kg/m3].
        tried: With as much ammonia and the same pH in water of the temperature tried [kg/m3].
        limit_passed: Whether that is more than fish can take.
        read_at: When the ammonia was read.
    """

    now: float
    tried: float
    limit_passed: bool
    read_at: datetime


def toxic_ammonia(pond: Pond, found: Standing, changes: Changes) -> ToxicAmmonia | None:
    """What the newest test that still stands says of toxic ammonia; None without one.

    Raises:
        PondError: A changed rule cannot be.
    """
    if found.test is None or "ammonia" not in found.read_at:
        return None
    before = read_test(found.test, pond)
    warmth = changes.number("warmth", POND)
    test = found.test
    if warmth is not None:
        test = test.model_copy(update={"temperature_c": warmth})
    after = read_test(test, pond)
    if before.toxic is None or after.toxic is None:
        return None
    bad = any(one.key == "ammonia" and one.severity == "danger" for one in after.remarks)
    return ToxicAmmonia(before.toxic, after.toxic, bad, found.read_at["ammonia"])


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
    yield Message(
        "All flows here are calculated. Now is the pond as it is saved, its pump, hoses and lifts "
        "as all readings tell."
        if trial.worked.learned
        else "All flows here are calculated. Now is the pond as it is saved, with clean pump and "
        "foam."
    )
    yield Message(
        "Its valves stand so that what was measured last comes out of each branch."
        if trial.measured
        else "Its valves stand as the plan sets them."
    )
    if any(line.pump and line.pump.adjustable for line in trial.now.lines):
        yield Message("The speed of a pump begins as the plan has it.")
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
