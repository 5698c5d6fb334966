"""Aims: flows and fill times so far inside a band that a few fills can tell they are right."""

from dataclasses import dataclass
from functools import lru_cache

from pondapp.answers.measuring.certainty import certainty, expected_scatter
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.aim import Aim, PlannedFills, aim_within
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.models.reading import Container, Steadiness

ENOUGH_FILLS = 3
CONTAINERS = (0.005, 0.01, 0.015, 0.02, 0.03, 0.05, 0.08, 0.1, 0.2)
"""Containers [m3] that people have or can borrow, from a bucket to a barrel."""
USUAL_TIME = 15.0  # s; a fill that is neither hurried nor dull, where no container is chosen yet


@dataclass(frozen=True, slots=True)
class FillAim:
    """The fill times to aim for in a container.

    Attributes:
        aim: The time to aim for [s].
        shortest: Shortest time that would be found right [s]; none where more does no harm.
        longest: Longest time that would be found right [s].
        sure: Whether so few fills of this container can find anything right; if not, the times
            are those of the band itself.
        fills: Fills of this container that can [-]; none if so many that nobody times them.
        volume: The smallest usual container [m3] of which three fills can; none if none can.
    """

    aim: float
    shortest: float | None
    longest: float
    sure: bool
    fills: int | None = None
    volume: float | None = None


def guarded(
    band: FlowBand,
    volume: float,
    tolerance: float,
    expected: ExpectedScatter,
    rules: MeasuringAssumptions,
    fills: int = ENOUGH_FILLS,
) -> Aim:
    """The flow to aim for [m3/s] in a band, for fills of a container of a volume [m3]."""
    planned = PlannedFills(volume, tolerance, fills, expected, certainty(rules))
    return aim_within(band.low, band.target, band.high, planned)


@lru_cache(maxsize=64)
def aimed(
    band: FlowBand,
    container: Container | None,
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None = None,
) -> Aim:
    """The flow to aim for [m3/s]; without a container, for one that takes a usual time to fill.

    A container that is too small to tell anything is no reason to aim elsewhere: the aim is that of
    one that suits the flow, and not sure.
    """
    expected = expected_scatter(rules, steadiness)
    if container is not None:
        volume, tolerance = container.volume_m3, container.tolerance_m3 / container.volume_m3
        aim = guarded(band, volume, tolerance, expected, rules)
        if aim.sure:
            return aim
    volume, tolerance = USUAL_TIME * band.target, rules.container_tolerance
    aim = guarded(band, volume, tolerance, expected, rules)
    if container is None:
        return aim
    return Aim(aim.flow, band.low, band.high, sure=False)


@lru_cache(maxsize=64)
def fill_aim(
    container: Container,
    band: FlowBand,
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None = None,
) -> FillAim:
    """The fill time to aim for in this container, and what else would be found right.

    It is kept: a screen asks at each press.
    """
    expected = expected_scatter(rules, steadiness)
    volume, tolerance = container.volume_m3, container.tolerance_m3 / container.volume_m3
    aim = aimed(band, container, rules, steadiness)
    times = (volume / aim.flow, aim.most and volume / aim.most, volume / aim.least)
    if aim.sure:
        return FillAim(*times, sure=True)
    most = int(rules.most_runs)
    fills: int | None = None
    if guarded(band, volume, tolerance, expected, rules, most).sure:
        more = range(ENOUGH_FILLS + 1, most + 1)
        fills = next(n for n in more if guarded(band, volume, tolerance, expected, rules, n).sure)
    larger = next(
        (v for v in CONTAINERS if v > volume and guarded(band, v, tolerance, expected, rules).sure),
        None,
    )
    return FillAim(*times, sure=False, fills=fills, volume=larger)
