"""The pump's health: what it gives against what it should, and against its own best day."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.answers.care.severity import Severity
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health_words import Verdict, judged, judged_dry, tells
from pondapp.answers.pumps.lost_since import Since, baseline, is_baseline
from pondapp.answers.pumps.lost_since import since as lost_since
from pondapp.answers.pumps.pumped import Pumped, pumped
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.answers.tuning.line_flow import LineFlow, line_flow
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.core.hydraulics.network import operating_point
from pondapp.core.hydraulics.pump_condition import PumpCondition, pump_condition
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

Valves = Literal["open", "kept", "other"]


@dataclass(frozen=True, slots=True)
class Health:
    """What can be said of a pump."""

    now: LineFlow
    verdict: Verdict
    expected: float | None
    """Flow [m3/s] of the pump as new here with every valve wide open."""
    condition: PumpCondition | None
    """Against the pump as new; none where the flow is too far from its curve, or no curve is."""
    since: Since | None
    tells: tuple[Message, ...]
    """What to do, and what would tell more."""
    notes: tuple[Message, ...]

    @property
    def severity(self) -> Severity:
        """How bad it is."""
        if self.now.dry:
            return "wrong"
        # More than the pump could give: what is entered of it is not so, and what is, nobody knows.
        stronger = self.condition is not None and self.condition.state == "strong"
        if self.verdict.state in ("clean it", "look") and not stronger:
            return "wrong"
        return "right" if self.verdict.state == "good" else "unknown"


def has_valves(pond: Pond, line: Line) -> bool:
    """Whether a valve or a speed can hold water back; who knows while the path is only assumed."""
    valves = any(branch.valve != "none" for branch in line.branches)
    return not pond.lines or valves or can_be_slowed(pond, line)


def usual_valves(pond: Pond, line: Line) -> Valves:
    """How the valves stand where nobody says so: as they were kept, if they ever were."""
    return "kept" if baseline(pond, line) else "other"


def can_be_slowed(pond: Pond, line: Line) -> bool:
    """Whether the speed of a line's pump can be set."""
    pump = pump_of(pond, line)
    return pump is not None and pump.adjustable


def _condition(parts: Pumped, now: LineFlow, rules: Assumptions) -> PumpCondition | Message:
    try:
        return pump_condition(
            parts.curve,
            parts.circuit,
            parts.viscosity,
            now.spread,
            rules.pumps.worn_share,
            certainty(rules.measuring),
            parts.as_new(),
        )
    except PondError as problem:
        return problem.message


def health(worked: WorkedPond, line: Line, log: Sequence[Reading], valves: Valves) -> Health | None:
    """What the newest flow says of a line's pump; nothing while there is none.

    Args:
        worked: The pond.
        line: One of its lines.
        log: The pond's readings.
        valves: Wide open and the pump at full speed, as they were at the baseline, or otherwise.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    pond, now = worked.pond, line_flow(worked, line, log)
    if now is None:
        return None
    if now.dry:
        verdict = judged_dry(now.dry, everywhere=now.flow == 0.0)
        return Health(now, verdict, None, None, None, (), ())
    places = branch_places(worked, line)
    rules = worked.rules
    parts: Pumped | None = None
    condition: PumpCondition | None = None
    expected: float | None = None
    notes: list[Message] = []
    try:
        parts = pumped(worked, line, places)
        expected = operating_point(parts.curve, parts.circuit, parts.viscosity).flow
        found = _condition(parts, now, rules)
        if isinstance(found, PumpCondition):
            condition = found
        else:
            notes.append(found)
        notes += parts.doubts()
    except PondError as problem:
        notes.append(problem.message)
    throttled = has_valves(pond, line) and valves != "open"
    compared = valves == "kept" or not has_valves(pond, line)
    since = lost_since(pond, line, now, parts, places) if compared else None
    itself = is_baseline(pond, line, now)
    slow = can_be_slowed(pond, line)
    verdict = judged(throttled, itself, condition, since, rules.pumps.worn_share, slow=slow)
    if verdict.state == "good" and since is None and parts and condition and parts.assumed:
        share = {"share": f"{100.0 * condition.share:.0f}"}
        words = "{share} % of what it should give here, if lift and hose are as assumed."
        verdict = Verdict("not decided", Message(words, share))
    return Health(
        now, verdict, expected, condition, since,
        tells(verdict.state, throttled, now.summed, parts, condition, since), tuple(notes),
    )  # fmt: skip
