"""Whether a plan holds: by the chosen pumps, and only as far as all of it is known."""

from collections.abc import Collection

from pondapp.answers.care.severity import Severity
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.plumbing.path import assumed_of, pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import answers_for
from pondapp.core.base.messages import Amount, Message
from pondapp.models.circuit import Line

SURE = ("enough", "strong")
"""States of a pump that gives a plan its flow for certain."""


def verdict_of(
    worked: WorkedPond,
    plan: PondPlan,
    proved: Collection[str] = (),
    short: Collection[str] = (),
    doubted: Collection[str] = (),
) -> tuple[Severity, Message]:
    """Whether a plan holds.

    Args:
        worked: The pond.
        plan: Its plan.
        proved: Ids of the lines whose flows were measured as wanted: better evidence than a curve.
        short: Ids of the lines whose pump was measured to give less than is wanted of it.
        doubted: Ids of the lines whose readings do not go with their pump's label.

    Raises:
        PondError: A circuit cannot be counted; the message says why.
    """
    pond, total = worked.pond, {"total": Amount(plan.total, "m3/s")}
    if plan.notes:
        return "wrong", Message("{total} would be enough, but less than that arrives", total)
    if not pond.fed:
        return "unknown", Message(
            "Nothing yet. The water goes straight back to the pond until "
            "you add a filter or a fall."
        )
    lines = [line for line in worked.lines if line.branches]
    pumped = [line for line in lines if pump_of(pond, line)]
    if len(pumped) < len(lines):
        words = "{total} is enough for everything, once there is a pump for it"
        return "unknown", Message(words, total)
    if any(one.what == "run" for line in pumped for one in assumed_of(pond, line)):
        return "unknown", Message("{total} is enough, if lift and hose are as assumed", total)
    less = [pump.name for line in pumped if line.id in short and (pump := pump_of(pond, line))]
    if less:
        words = "{total} would be enough, but less was measured behind {pumps}"
        return "wrong", Message(words, {**total, "pumps": ", ".join(less)})
    unsure = [
        name
        for line in pumped
        if line.id not in proved and (name := _unsure(worked, plan, line, line.id in doubted))
    ]
    if unsure:
        words = "{total} is enough for everything, if {pumps} can give it"
        return "unknown", Message(words, {**total, "pumps": ", ".join(unsure)})
    return "right", Message("{total} is enough for everything", total)


def _unsure(worked: WorkedPond, plan: PondPlan, line: Line, doubted: bool) -> str:
    """The pump of a line, if it may be too weak for the plan; else nothing."""
    pump = pump_of(worked.pond, line)
    if pump is None or plan.lines[line.id] <= 0.0:
        return ""
    if doubted:  # then its label says nothing for sure
        return pump.name
    (answer,) = answers_for(worked.network(line, plan.branches), (pump,))
    return "" if answer.state in SURE else pump.name
