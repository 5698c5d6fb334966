"""Flow from fills that were weighed, each with its own amount of water."""

from collections.abc import Sequence

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above
from pondapp.core.measuring.other_methods import weighed_volume
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow


def weighed_fills_flow(
    times: Sequence[float],
    full_masses: Sequence[float],
    empty: float,
    scale_half_width: float,
    density: float,
    expected: ExpectedScatter,
    coverage: float,
) -> TimedFlow:
    """Mean flow of fills that were weighed and need not be equally full.

    Each time is brought to the mean mass of water, as if every fill had stopped there; what is
    left is timing. The scale's error is taken to be the same in every fill, so that more fills do
    not shrink it.

    Args:
        times: Fill times [s], each above 0 to 86400.
        full_masses: What the scale showed after each [kg], container and all, above the empty
            one to 1e5.
        empty: What it shows for the empty container [kg], 0 to 1e5; 0 on a scale set to zero.
        scale_half_width: Half width of the range in which each reading is right [kg], 0 to 100.
        density: Density of the water [kg/m3], 900 to 1100.
        expected: The scatter of one fill [s] that is expected beforehand.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s]; its volume is that of the mean mass, its times are those for that volume.

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: A value is outside its range, or not every fill has its weight.

    Source:
        Q = m / (ρ t) (definition); uncertainty as in timed_flow.

    Example:
        Three fills of 10 kg in 20 s each:

        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> times, full = [20.1, 19.8, 20.0], [10.5, 10.4, 10.5]
        >>> found = weighed_fills_flow(times, full, 0.5, 0.01, 998.2, expected, 0.95)
        >>> round(3.6e6 * found.flow)  # L/h
        1800
    """
    if not times:
        raise NotEnoughReadings("time and weigh at least one fill")
    if len(times) != len(full_masses):
        raise OutOfRange("each fill needs its weight")
    for full in full_masses:
        require_above("weight of the full container", full, empty, 1e5, "kg")
    mean_full = sum(full_masses) / len(full_masses)
    holds = weighed_volume(mean_full, empty, scale_half_width, density)
    even = [
        time * (mean_full - empty) / (full - empty)
        for time, full in zip(times, full_masses, strict=True)
    ]
    return timed_flow(even, holds.volume, holds.half_width, expected, coverage)
