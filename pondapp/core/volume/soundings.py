"""Volume of a pond that is already full, from depths taken with a stick."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above, require_within
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.volume.layers import DEEPEST
from pondapp.core.volume.outline import area_by_simpson

MEAN_DEPTH = Source(
    "area times mean depth: Virginia Department of Wildlife Resources, pond size", "published"
)
LEAST_DEPTHS = 3


@dataclass(frozen=True, slots=True)
class SoundedVolume:
    """Volume from depths on a grid.

    Attributes:
        volume: Volume [m3].
        area: Area of the water [m2].
        mean_depth: Mean of all depths, the zeros of the edge included [m].
        count: Number of depths [-].
        warnings: What makes the result doubtful; mostly empty.
    """

    volume: float
    area: float
    mean_depth: float
    count: int
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("A", "area of the water", self.area, "m2"),
            Term(
                "d", phrase("mean of {count} depths", count=str(self.count)), self.mean_depth, "m"
            ),
        )
        volume = Term("V", "water in the pond", self.volume, "m3")
        return (Step(volume, "V = A d", inputs, MEAN_DEPTH),)


def volume_by_soundings(area: float, depths: Sequence[float]) -> SoundedVolume:
    """Volume from depths taken at even distances all over the pond.

    Args:
        area: Area of the water [m2], above 0 to 250000.
        depths: Three or more depths [m], 0 to 50; where a line starts and ends at the edge,
            the depth there belongs in, mostly 0.

    Returns:
        Volume [m3], with a warning when no depth is from the edge.

    Raises:
        NotEnoughReadings: There are fewer than three depths.
        OutOfRange: The area or a depth is outside its range, or all depths are 0.

    Source:
        Area times mean depth along transects: Virginia Department of Wildlife Resources,
        advice on determining pond size.
    """
    require_above("area of the water", area, 0.0, 250000.0, "m2")
    if len(depths) < LEAST_DEPTHS:
        raise NotEnoughReadings("take the depth at three places or more")
    for depth in depths:
        require_within("depth", depth, 0.0, DEEPEST, "m")
    mean = sum(depths) / len(depths)
    if mean <= 0.0:
        raise OutOfRange("all depths are 0: there is no water")
    warnings: tuple[Message, ...] = ()
    if min(depths) > 0.5 * mean:
        warnings = (
            Message("no depth is from near the edge: right for upright sides, too much for others"),
        )
    return SoundedVolume(area * mean, area, mean, len(depths), warnings)


def volume_by_sections(sections: Sequence[float], spacing: float) -> float:
    """Volume from the areas of upright cuts across the pond at equal steps.

    Args:
        sections: Three or more areas of the cuts, in order [m2], each 0 to 500; the ends may
            be 0.
        spacing: Distance from one cut to the next [m], above 0 to 500.

    Returns:
        Volume [m3].

    Raises:
        NotEnoughReadings: There are fewer than three cuts.
        OutOfRange: An area or the distance is outside its range.

    Source:
        Simpson's 1/3 rule with a trapezoid on an odd last bay (area_by_simpson).
    """
    for section in sections:
        require_within("area of a cut", section, 0.0, 500.0, "m2")
    return area_by_simpson(sections, spacing)
