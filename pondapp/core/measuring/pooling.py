"""Several answers to one question: do they agree, and what do they say together."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.student_t import normal_factor

WEIGHTED = Source("weighted mean, inverse squares of the uncertainties", "published")


@dataclass(frozen=True, slots=True)
class Pooled:
    """Several flows as one.

    Attributes:
        flow: Weighted mean [m3/s].
        standard_uncertainty: Of the mean [m3/s], stretched where the flows disagree.
        low: Lower end of the interval [m3/s], never negative.
        high: Upper end of the interval [m3/s].
        stretch: By how much the uncertainties had to be stretched [-], 1 and up.
        warnings: A warning where the flows disagree; mostly empty.
        flows: What went in [m3/s].
        uncertainties: Their standard uncertainties [m3/s].
        coverage: Share of cases that the interval holds [-].
    """

    flow: float
    standard_uncertainty: float
    low: float
    high: float
    stretch: float
    warnings: tuple[Message, ...]
    flows: tuple[float, ...]
    uncertainties: tuple[float, ...]
    coverage: float

    @property
    def spread(self) -> Spread:
        """What is known of the flow, as a distribution."""
        return Spread(self.flow, self.standard_uncertainty)

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        terms = tuple(
            term
            for number, (flow, uncertainty) in enumerate(
                zip(self.flows, self.uncertainties, strict=True), start=1
            )
            for term in (
                Term(f"Q{number}", phrase("flow {number}", number=str(number)), flow, "m3/s"),
                Term(
                    f"u{number}",
                    phrase("its standard uncertainty {number}", number=str(number)),
                    uncertainty,
                    "m3/s",
                ),
            )
        )
        mean = Term("Q", "flow of all together", self.flow, "m3/s")
        stretch = Term("R", "stretch of the uncertainties", self.stretch, "-")
        uncertainty = Term("u", "standard uncertainty", self.standard_uncertainty, "m3/s")
        return (
            Step(mean, "Q = Σ(Qi / ui²) / Σ(1 / ui²)", terms, WEIGHTED),
            Step(stretch, "R = max(1, √(Σ((Qi - Q)² / ui²) / (n - 1)))", (*terms, mean), WEIGHTED),
            Step(uncertainty, "u = R / √Σ(1 / ui²)", (*terms, stretch), WEIGHTED),
        )


def pooled(flows: Sequence[float], uncertainties: Sequence[float], coverage: float) -> Pooled:
    """Weighted mean of independent flows, say by bucket and by level drop.

    Args:
        flows: Flows [m3/s], one or more, each 0 to 1e6.
        uncertainties: Their standard uncertainties [m3/s], each above 0 to 1e6.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The common flow [m3/s] with its interval, and a warning if the flows differ by more than
        their uncertainties explain.

    Raises:
        NotEnoughReadings: There is no flow.
        OutOfRange: The lists differ in length or a value is outside its range.

    Source:
        Mean with weights 1 / u², stretched where the readings scatter by more than their
        uncertainties: R. T. Birge, The calculation of errors by the method of least squares, Phys.
        Rev. 40 (1932) 207-227, from memory.

    Example:
        Two readings, the second of half the doubt: it weighs four times as much.

        >>> found = pooled([1.00e-3, 1.05e-3], [4e-5, 2e-5], 0.95)
        >>> round(1e3 * found.flow, 3)  # L/s
        1.04
    """
    if not flows:
        raise NotEnoughReadings("there is no flow to pool")
    if len(flows) != len(uncertainties):
        raise OutOfRange("each flow needs its uncertainty")
    for flow, uncertainty in zip(flows, uncertainties, strict=True):
        require_within("flow", flow, 0.0, 1e6, "m3/s")
        require_above("standard uncertainty", uncertainty, 0.0, 1e6, "m3/s")
    # Weights relative to the best reading, so that tiny uncertainties do not overflow.
    best = min(uncertainties)
    weights = [(best / uncertainty) ** 2 for uncertainty in uncertainties]
    total = sum(weights)
    mean = sum(w * flow for w, flow in zip(weights, flows, strict=True)) / total
    spread = hypot(*((flow - mean) / u for flow, u in zip(flows, uncertainties, strict=True)))
    stretch = max(1.0, spread / sqrt(len(flows) - 1)) if len(flows) > 1 else 1.0
    uncertainty = stretch * best / sqrt(total)
    factor = normal_factor(coverage)
    warnings: tuple[Message, ...] = ()
    if stretch > factor:
        warnings = (
            Message(
                "These flows differ by {times} times what measuring explains: one of them is "
                "wrong, or the flow changed in between",
                {"times": Amount(stretch, "-")},
            ),
        )
    half_width = factor * uncertainty
    return Pooled(
        mean, uncertainty, max(0.0, mean - half_width), mean + half_width, stretch, warnings,
        tuple(flows), tuple(uncertainties), coverage,
    )  # fmt: skip


def differ(
    flow: float, uncertainty: float, other_flow: float, other_uncertainty: float, coverage: float
) -> bool:
    """Say whether two flows differ by more than their uncertainties explain.

    Args:
        flow: One flow [m3/s], 0 to 1e6.
        uncertainty: Its standard uncertainty [m3/s], 0 to 1e6.
        other_flow: The other flow [m3/s], 0 to 1e6.
        other_uncertainty: Its standard uncertainty [m3/s], 0 to 1e6.
        coverage: Share of equal flows that are found equal [-], 0.5 to 0.999.

    Returns:
        Whether they differ [-].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        |Q1 - Q2| > k √(u1² + u2²): JCGM 100:2008, Guide to the expression of uncertainty in
        measurement, 5.1.2.

    Example:
        Known to 4 %, and to 1 %:

        >>> [differ(1.00e-3, u, 1.05e-3, u, 0.95) for u in (4e-5, 1e-5)]
        [False, True]
    """
    for value in (flow, other_flow):
        require_within("flow", value, 0.0, 1e6, "m3/s")
    for value in (uncertainty, other_uncertainty):
        require_within("standard uncertainty", value, 0.0, 1e6, "m3/s")
    half_width = normal_factor(coverage) * hypot(uncertainty, other_uncertainty)
    return abs(flow - other_flow) > half_width
