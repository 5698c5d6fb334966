"""A flow that is a product of powers of measured quantities, with its uncertainty."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.core.base.errors import NotEnoughReadings, require_above, require_within
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.student_t import normal_factor
from pondapp.core.measuring.uncertainty import combined

COMBINED = Source("JCGM 100:2008, 5.1.2, for products of powers", "published")


@dataclass(frozen=True, slots=True)
class Factor:
    """One measured quantity in the product.

    Attributes:
        term: The quantity with its value, above 0.
        power: Its exponent in the product [-].
        uncertainty: Its standard uncertainty, in the unit of the quantity.
    """

    term: Term
    power: float
    uncertainty: float


@dataclass(frozen=True, slots=True)
class FlowEstimate:
    """A flow found by another way than timed fills.

    Attributes:
        flow: Flow [m3/s].
        standard_uncertainty: Of the flow [m3/s].
        low: Lower end of the interval [m3/s], never negative.
        high: Upper end of the interval [m3/s].
        warnings: What makes the result rougher than its interval says; mostly empty.
        formula: How the flow was found.
        factors: What went in.
        source: Where the formula is from.
        coverage: Share of cases that the interval holds [-].
    """

    flow: float
    standard_uncertainty: float
    low: float
    high: float
    warnings: tuple[Message, ...]
    formula: str
    factors: tuple[Factor, ...]
    source: Source
    coverage: float

    @property
    def spread(self) -> Spread:
        """What is known of the flow, as a distribution."""
        return Spread(self.flow, self.standard_uncertainty)

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        terms = tuple(factor.term for factor in self.factors)
        parts = tuple(
            Term(
                f"u({factor.term.symbol})",
                phrase("standard uncertainty of the {what}", what=factor.term.meaning),
                factor.uncertainty,
                factor.term.unit,
            )
            for factor in self.factors
        )
        flow = Term("Q", "flow", self.flow, "m3/s")
        uncertainty = Term("u", "standard uncertainty", self.standard_uncertainty, "m3/s")
        return (
            Step(flow, self.formula, terms, self.source),
            Step(uncertainty, "u = Q √(Σ (power × u(x) / x)²)", (*terms, *parts), COMBINED),
        )


def flow_estimate(
    flow: float,
    factors: Sequence[Factor],
    coverage: float,
    formula: str,
    source: Source,
    warnings: Sequence[Message] = (),
) -> FlowEstimate:
    """Give a flow the interval that follows from what it was made of.

    Args:
        flow: Flow [m3/s], above 0 to 1e6.
        factors: The measured quantities, one or more, each above 0.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.
        formula: How the flow was found, in symbols.
        source: Where that is from.
        warnings: What else to say.

    Returns:
        The flow [m3/s] with its interval, whose lower end is never negative.

    Raises:
        NotEnoughReadings: There is no factor.
        OutOfRange: A value is outside its range.

    Source:
        (u / Q)² = Σ (p_i u_i / x_i)² for a product of powers p_i: JCGM 100:2008, Guide to the
        expression of uncertainty in measurement, 5.1.2, with uncertainties that are known
        beforehand.

    Example:
        A volume of 10 L, known to 1 %, over a time of 20 s, known to 2 %:

        >>> volume = Factor(Term("V", "volume", 0.010, "m3"), 1.0, 0.0001)
        >>> time = Factor(Term("t", "time", 20.0, "s"), -1.0, 0.4)
        >>> found = flow_estimate(5e-4, [volume, time], 0.95, "Q = V / t", COMBINED)
        >>> round(100.0 * found.standard_uncertainty / found.flow, 2)  # %
        2.24
    """
    require_above("flow", flow, 0.0, 1e6, "m3/s")
    require_within("coverage", coverage, 0.5, 0.999, "-")
    if not factors:
        raise NotEnoughReadings("nothing was measured")
    for factor in factors:
        require_above(factor.term.meaning, factor.term.value, 0.0, 1e12, factor.term.unit)
    uncertainty = flow * combined(
        [abs(factor.power) * factor.uncertainty / factor.term.value for factor in factors]
    )
    half_width = normal_factor(coverage) * uncertainty
    return FlowEstimate(
        flow, uncertainty, max(0.0, flow - half_width), flow + half_width,
        tuple(warnings), formula, tuple(factors), source, coverage,
    )  # fmt: skip
