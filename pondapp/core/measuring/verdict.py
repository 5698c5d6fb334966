"""One rule of decision: whether a measured flow lies in the wanted band."""

from dataclasses import dataclass, replace
from typing import Literal

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.spread import Spread

Kind = Literal["within", "below", "above", "undecided"]
CONFORMITY = Source("JCGM 106:2012, 7.2 to 7.5 and 8.3 (conformance probability)", "from memory")


@dataclass(frozen=True, slots=True)
class Certainty:
    """What it takes to decide.

    Attributes:
        sure: Chance from which something counts as so [-], 0.8 to 0.999.
        widest: Half width of an interval over the flow, beyond which nothing is decided [-],
            0.01 to 1.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.
    """

    sure: float
    widest: float
    coverage: float


@dataclass(frozen=True, slots=True)
class Decision:
    """Where a flow lies, and how sure that is.

    Attributes:
        kind: In a word.
        below: Chance that the true flow is less than the least wanted [-].
        inside: Chance that it lies in the band [-].
        above: Chance that it is more than the most wanted [-].
        share: Half width of the interval over the flow [-].
        rule: What it took to decide.
    """

    kind: Kind
    below: float
    inside: float
    above: float
    share: float
    rule: Certainty

    @property
    def wide(self) -> bool:
        """Whether the flow is not known well enough for any verdict."""
        return self.share > self.rule.widest

    @property
    def likely(self) -> Kind:
        """Where the flow lies by its chances alone, however wide its interval is."""
        chances: tuple[tuple[Kind, float], ...] = (
            ("within", self.inside), ("below", self.below), ("above", self.above)
        )  # fmt: skip
        return next((name for name, chance in chances if chance >= self.rule.sure), "undecided")

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        chance = {"within": self.inside, "below": self.below, "above": self.above}
        what = {
            "within": "chance that the flow lies in the wanted range",
            "below": "chance that it is less than wanted",
            "above": "chance that it is more than wanted",
        }
        most = max(chance, key=lambda key: chance[key])
        found = Term("P", phrase(what[most]), chance[most], "-")
        sure = Term("P0", "chance that is asked for", self.rule.sure, "-")
        share = Term("w", "half width of the interval over the flow", self.share, "-")
        widest = Term("w0", "the most of that", self.rule.widest, "-")
        formula = "decided if P ≥ P0 and w ≤ w0"
        return (Step(found, formula, (sure, share, widest), CONFORMITY),)


@dataclass(frozen=True, slots=True)
class FillWindow:
    """Fill times [s] that mean a flow in the band."""

    shortest: float | None
    aim: float
    longest: float


def decide(flow: Spread, band_low: float, band_high: float | None, rule: Certainty) -> Decision:
    """Say whether a flow lies in the band, from how likely that is.

    It lies in the band, below it or above it when that has at least the chance that is asked for.
    Nothing is decided of a flow whose interval is wider than agreed, however far away the band
    lies: such a number is hardly a measurement.

    Args:
        flow: What is known of the flow [m3/s].
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.
        rule: The chance and the width that are asked for [-].

    Returns:
        The decision, with all three chances [-].

    Raises:
        OutOfRange: A value is outside its range.

    Source:
        JCGM 106:2012, The role of measurement uncertainty in conformity assessment, 7.2 to 7.5
        (conformance probability) and 8.3 (acceptance where it is high enough), from memory; the
        bound of the width is this project's own choice.

    Example:
        13.6 ± 1.8 between 12.5 and 16.3: not sure enough.

        >>> rule = Certainty(sure=0.95, widest=0.50, coverage=0.95)
        >>> found = decide(Spread(13.6, 1.8), 12.5, 16.3, rule)
        >>> round(found.inside, 4), found.kind
        (0.6626, 'undecided')
    """
    require_within("least wanted flow", band_low, 0.0, 1e6, "m3/s")
    require_within("chance that is asked for", rule.sure, 0.8, 0.999, "-")
    require_within("widest interval", rule.widest, 0.01, 1.0, "-")
    if band_high is not None:
        require_within("most wanted flow", band_high, band_low, 1e6, "m3/s")
    below = flow.less_than(band_low)
    above = flow.more_than(band_high) if band_high is not None else 0.0
    inside = max(0.0, 1.0 - below - above)
    half = flow.half_width(rule.coverage)
    share = half / flow.centre if flow.centre > 0.0 else 0.0
    found = Decision("undecided", below, inside, above, share, rule)
    return found if found.wide else replace(found, kind=found.likely)


def fill_time_window(
    volume: float, band_low: float, target: float, band_high: float | None
) -> FillWindow:
    """Fill times of a container that mean a flow in the band.

    Args:
        volume: What the container holds [m3], above 0 to 100.
        band_low: Least wanted flow [m3/s], above 0.
        target: Best flow [m3/s], above 0.
        band_high: Most wanted flow [m3/s], above 0, or none.

    Returns:
        Fill times [s].

    Raises:
        OutOfRange: The volume or a flow is outside its range.

    Source:
        t = V / Q (definition).

    Example:
        A bucket of 10 L under 900 to 1500 L/h, best 1200:

        >>> window = fill_time_window(0.010, 0.25e-3, 0.333e-3, 0.417e-3)
        >>> round(window.shortest, 1), round(window.aim, 1), round(window.longest, 1)  # s
        (24.0, 30.0, 40.0)
    """
    require_above("volume", volume, 0.0, 100.0, "m3")
    for flow in (band_low, target, band_high):
        if flow is not None:
            require_above("flow", flow, 0.0, 1e6, "m3/s")
    return FillWindow(volume / band_high if band_high else None, volume / target, volume / band_low)
