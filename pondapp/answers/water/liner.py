"""The sheet of liner that each basin needs."""

from pondapp.answers.water.volume import found_basin, outline_points
from pondapp.core.assumptions import Assumptions
from pondapp.core.volume.liner import LinerSize as LinerSize
from pondapp.core.volume.liner import liner_size, sloped_liner_size
from pondapp.models.water import Basin


def basin_liner(drawn: Basin, rules: Assumptions) -> LinerSize:
    """A rectangular sheet that lines a basin, with the overlap of the rules.

    Raises:
        PondError: The shape cannot be; the message says why.
    """
    found_basin(drawn)
    points = outline_points(drawn.outline)
    length, width = (max(side) - min(side) for side in zip(*points, strict=True))
    overlap = rules.materials.liner_overlap
    if drawn.shelves:  # the worst profile: a shelf costs as much liner as an upright side
        return liner_size(length, width, drawn.depth_m, overlap)
    return sloped_liner_size(length, width, drawn.depth_m, drawn.side_slope, overlap)
