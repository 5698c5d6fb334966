"""The verdict on a pump in words: what is said first, what to do, and what would tell more."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.answers.log.dates import day_text
from pondapp.answers.pumps.lost_since import Since
from pondapp.answers.pumps.pumped import Pumped
from pondapp.core.base.messages import Amount, Message
from pondapp.core.hydraulics.pump_condition import PumpCondition

State = Literal["good", "clean it", "look", "not decided", "cannot be told"]

OPEN_ALL = Message(
    "Open every valve for one round of fills: then the pump alone decides. Turn them back after."
)
FULL_SPEED = Message(
    "Turn the pump to full speed first, and open every valve, for one round of fills: then the "
    "pump alone decides. Turn them back after."
)
KEEP_CLEAN = Message(
    "Clean it once, time the branches, and save that as the clean pump: later flows are "
    "compared with it."
)
MORE_FILLS = Message("Time more fills, or use a bigger container: the flow is not known well yet.")
EACH_BRANCH = Message("Time a fill at every branch: their pattern tells the pump from a blockage.")
CLEAN = Message("Unplug the pump, clean its inlet, foam and impeller, then measure again.")


@dataclass(frozen=True, slots=True)
class Verdict:
    """What is said first, and what explains it."""

    state: State
    sentence: Message
    why: Message | None = None


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f}"


def judged(
    throttled: bool,
    itself: bool,
    condition: PumpCondition | None,
    since: Since | None,
    worn_share: float,
    *,
    slow: bool,
) -> Verdict:
    """The verdict: against the baseline if there is one, else against the pump as new."""
    if since is not None:
        return _judged_since(since, worn_share)
    if condition is None:
        return Verdict("cannot be told", Message("What this pump should give here is not known."))
    share = {"share": _percent(condition.share)}
    if condition.state == "strong":
        return Verdict(
            "look",
            Message("More than it should give here, by what is entered: {share} %.", share),
            Message("Pump, lift or hose are not as entered."),
        )
    if condition.state == "as expected":
        return Verdict("good", Message("Healthy: {share} % of what it should give here.", share))
    if throttled:
        why = Message("So this says nothing of wear.")
        if itself:
            why = Message(
                "This is what later flows are compared with: time the branches again in some "
                "weeks, and what the pump has lost shows here."
            )
        told = "{share} % of what it gives with every valve open: valves may take the rest."
        if slow:
            told = (
                "{share} % of what it gives at full speed with every valve open: its speed or a "
                "valve may take the rest."
            )
        return Verdict("cannot be told", Message(told, share), why)
    if condition.state == "worn":
        return Verdict("clean it", Message("Only {share} % of what it should give here.", share))
    if condition.state == "weak":
        return Verdict(
            "good",
            Message("A little low: {share} % of what it should give here.", share),
            Message("Clean it at the next round."),
        )
    if condition.state == "print":
        return Verdict(
            "not decided",
            Message("Not decided: about {share} % of what it should give here.", share),
            condition.advice,
        )
    return Verdict(
        "not decided",
        Message("Not decided yet: about {share} % of what it should give here.", share),
        Message("The flow is not known well enough."),
    )


def judged_dry(names: Sequence[str], everywhere: bool) -> Verdict:
    """The verdict while no water comes at some branches: the pump has to wait for it."""
    if everywhere:
        return Verdict(
            "look",
            Message("No water at all."),
            Message(
                "See that the pump is plugged in and runs, that its inlet is under water and free, "
                "and that its valves are open."
            ),
        )
    return Verdict(
        "look",
        Message("Nothing comes out at {names}.", {"names": ", ".join(names)}),
        Message(
            "See that its valve is open, and look for a kink, a clog or air in the hose. How well "
            "the pump is shows once water comes everywhere."
        ),
    )


def _judged_since(since: Since, worn_share: float) -> Verdict:
    """The verdict against the baseline."""
    change = since.change
    values = {
        "share": _percent(change.share),
        "names": since.blocked,
        "day": day_text(since.kept.at),
    }
    left = Message("{share} % of the flow on {day}.", values)
    if since.where == "branch":
        return Verdict(
            "look",
            Message("Less water at {names} than on {day}.", values),
            Message("The pump pushes as it did: something is in the way there."),
        )
    if not change.told and since.where in (None, "nowhere"):
        if not change.at_least(worn_share):
            return Verdict("not decided", Message("Not decided yet."), left)
        return Verdict(
            "good", Message("Nothing lost since {day}, as far as can be measured.", values)
        )
    if not change.told and since.where == "unclear":
        return Verdict("not decided", Message("Not decided yet."), left)
    if change.share > 1.0:
        return Verdict("look", left, Message("A valve was opened since, or the pump was cleaned."))
    why = {
        "pump side": "All branches fell together: it is the pump, its inlet or the hose up to the "
        "T-piece.",
        "both": "The pump's side has lost flow, and something is in the way at {names} too.",
    }
    alone = "Whether pump or hose took it, this flow alone does not tell."
    return Verdict("clean it", left, Message(why.get(since.where or "", alone), values))


def tells(
    state: State,
    throttled: bool,
    summed: bool,
    parts: Pumped | None,
    condition: PumpCondition | None,
    since: Since | None,
) -> tuple[Message, ...]:
    """What to do first, and which measurement would tell more."""
    if state == "good":
        return ()
    if state == "cannot be told" and throttled:
        return (FULL_SPEED if parts is not None and parts.adjustable else OPEN_ALL,)
    if state == "not decided":
        by_print = since is None and condition is not None and condition.state == "print"
        return (KEEP_CLEAN if by_print else MORE_FILLS,)
    tells: list[Message] = []
    if since is not None and since.where == "branch":
        tells.append(
            Message(
                "At {names}: look for clogged foam or gravel, roots, a kink, or a valve that was "
                "touched.",
                {"names": since.blocked},
            )
        )
        return tuple(tells)
    if state == "clean it":
        tells.append(CLEAN)
        if since is not None and since.where is None and not summed:
            tells.append(EACH_BRANCH)
    if parts is not None and state in ("clean it", "look"):
        tells += _more(parts, condition if since is None else None)
    return tuple(tells)


def _more(parts: Pumped, condition: PumpCondition | None) -> list[Message]:
    """Measurements that tell the pump from the circuit."""
    tells = []
    if parts.curve.least_flow == 0.0:
        # At no flow nothing is lost in hoses, so only the pump decides how high the water stands.
        tells.append(
            Message(
                "To tell pump from hose: raise the end of one hose, all others shut, until no "
                "water comes. A sound pump stops at about {head}, kink or not; a worn one lower.",
                {"head": Amount(parts.curve.head_at(0.0), "m")},
            )
        )
    if condition is not None and condition.head_missing > 0.0:
        tells.append(
            Message(
                "If cleaning changes nothing, the pipes take {missing} more than was entered: "
                "measure the lift again, and look for a kink or a half shut valve.",
                {"missing": Amount(condition.head_missing, "m")},
            )
        )
    return tells
