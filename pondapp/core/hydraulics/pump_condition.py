"""A measured flow against the pump's curve: is the pump tired, or was the circuit entered wrong?"""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.hydraulics.network import PipeNetwork, operating_point, system_head
from pondapp.core.hydraulics.pump_curve import SPEED, PumpCurve, SlowedCurve
from pondapp.core.hydraulics.run import MOST_FLOW
from pondapp.core.hydraulics.solve import root
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Certainty, decide

State = Literal["as expected", "worn", "weak", "strong", "not decided", "print"]

_FASTEST = 2.0  # a pump that seems twice as fast as new has been entered wrong


@dataclass(frozen=True, slots=True)
class PumpCondition:
    """What a measured flow says of a pump.

    Attributes:
        measured: Measured flow [m3/s].
        predicted: Flow of the pump as new in this circuit [m3/s].
        share: Measured over predicted flow [-].
        head_taken: Head that the circuit as entered takes at the measured flow [m].
        head_as_new: Head that the pump as new makes at the measured flow [m].
        curve_left: Speed at which the pump as new would give the measured flow here, as a share
            of full speed [-]: how much of its curve is left.
        state: In a word; "not decided" where the interval reaches over the border, "print" where
            label or print leave open what the pump gives as new.
        advice: What to try first.
        source: Where the pump's curve is from.
    """

    measured: float
    predicted: float
    share: float
    head_taken: float
    head_as_new: float
    curve_left: float
    state: State
    advice: Message
    source: Source

    @property
    def head_missing(self) -> float:
        """Head that the circuit takes more than was entered, were the pump as new [m]."""
        return self.head_as_new - self.head_taken

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        measured = Term("Q", "measured flow", self.measured, "m3/s")
        predicted = Term("Q_p", "flow of the pump as new", self.predicted, "m3/s")
        share = Term("s", "measured over predicted flow", self.share, "-")
        new = Term("H_new", "head of the pump as new at Q", self.head_as_new, "m")
        taken = Term("H", "head the pipes as entered take at Q", self.head_taken, "m")
        missing = Term("ΔH", "head not accounted for", self.head_missing, "m")
        left = Term("n", "share of the curve that is left", self.curve_left, "-")
        return (
            Step(share, "s = Q / Q_p", (measured, predicted), ARITHMETIC),
            Step(new, "H_new of the pump's curve at Q", (measured,), self.source),
            Step(missing, "ΔH = H_new - H", (new, taken), ARITHMETIC),
            Step(left, "n² H_new(Q / n) = H", (measured, taken), SPEED),
        )


def pump_condition(
    curve: PumpCurve,
    circuit: PipeNetwork,
    viscosity: float,
    flow: Spread,
    worn_share: float,
    rule: Certainty,
    as_new: tuple[float, float] | None = None,
) -> PumpCondition:
    """Compare a measured total flow with what the pump as new would give.

    Args:
        curve: Curve of the pump as new.
        circuit: Everything behind the pump, valves as they stood.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        flow: What is known of the measured flow [m3/s], above 0 to 10.
        worn_share: Share of the predicted flow below which a pump wants cleaning [-], 0.3 to 0.99.
        rule: What it takes to decide.
        as_new: Least and most that the pump may give as new here [m3/s], as far as its label or
            print tells; None where the curve is as sure as can be.

    Returns:
        Share [-], heads [m] and what to try first.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: The pump as new gives no flow here, or the measured flow is so far from its
            curve that pump or circuit were entered wrong.

    Source:
        Share = Q measured / Q as new; n² H(Q / n) = head taken, affinity laws, Q ~ n and H ~ n²;
        any textbook of pumps; decided as every flow is.

    Example:
        Half of what a new pump would give:

        >>> from pondapp.core.hydraulics.network import Outlet
        >>> from pondapp.core.hydraulics.run import Run
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> pump, rule = LabelCurve(4.0, 10.0 / 3600), Certainty(0.95, 0.10, 0.95)
        >>> new = operating_point(pump, circuit, 1.0034e-6).flow
        >>> measured = Spread(0.5 * new, 0.01 * new)
        >>> found = pump_condition(pump, circuit, 1.0034e-6, measured, 0.8, rule)
        >>> round(found.share, 2), found.state
        (0.5, 'worn')
    """
    measured = flow.centre
    require_above("measured flow", measured, 0.0, MOST_FLOW, "m3/s")
    require_within("share below which a pump is worn", worn_share, 0.3, 0.99, "-")
    predicted = operating_point(curve, circuit, viscosity).flow
    share = measured / predicted
    taken = system_head(circuit, measured, viscosity)

    def excess(speed: float) -> float:
        return SlowedCurve(curve, speed).head_at(measured) - taken

    slowest = 0.01
    if excess(_FASTEST) < 0.0 or excess(slowest) > 0.0:
        raise NoSolution(
            "{measured} was measured where the pump as new gives {predicted}: that is no wear; "
            "check the pump's curve, the lift and the hoses as entered",
            measured=Amount(measured, "m3/s"),
            predicted=Amount(predicted, "m3/s"),
        )
    left = root(excess, slowest, _FASTEST, 0.0)
    head_as_new = curve.head_at(measured)
    low, high = as_new or (predicted, predicted)
    values = {
        "share": Amount(share, "share"),
        "left": Amount(left, "share"),
        "missing": Amount(head_as_new - taken, "m"),
        "low": Amount(low, "m3/s"),
        "high": Amount(high, "m3/s"),
    }
    state, advice = _judged(flow, (low, predicted, high), worn_share, rule)
    return PumpCondition(
        measured,
        predicted,
        share,
        taken,
        head_as_new,
        left,
        state,
        Message(advice, values),
        curve.source,
    )


def _judged(
    flow: Spread, as_new: tuple[float, float, float], worn_share: float, rule: Certainty
) -> tuple[State, str]:
    """State and advice from how likely the flow is below that of a new and of a worn pump.

    A pump is worn when it would be so even if it gave the least that it may as new, and sound when
    it is so even if it gave the most.
    """
    low, likely, high = as_new
    if decide(flow, worn_share * low, None, rule).kind == "below":
        return (
            "worn",
            "the pump gives {share} of the flow it would as new: unplug it, clean inlet, foam "
            "and impeller and measure again; if that changes nothing, the pipes take {missing} "
            "more than was entered: look for a kink, a half shut valve or more lift",
        )
    if low == high and decide(flow, worn_share * likely, None, rule).kind == "undecided":
        return (
            "not decided",
            "the measured flow is too uncertain to tell: measure more fills or a longer one",
        )
    if decide(flow, worn_share * high, None, rule).kind != "within":
        half = flow.half_width(rule.coverage)
        if half > min(high - likely, rule.widest * flow.centre):
            return (
                "not decided",
                "the measured flow is too uncertain to tell: measure more fills or a longer one",
            )
        return (
            "print",
            "as new it may give {low} to {high} here, as far as is known: that leaves open "
            "whether it is worn; points of its printed curve tell more",
        )
    against_new = decide(flow, low, high, rule).kind
    if against_new == "below":
        return (
            "weak",
            "the flow is a little low, {share} of a new pump's: clean it at the next round",
        )
    if against_new == "above":
        return (
            "strong",
            "the flow is {share} of what was predicted: the lift is less or the hose wider than "
            "entered, or the pump better than its label",
        )
    return "as expected", "the pump gives what it should: {share} of the predicted flow"
