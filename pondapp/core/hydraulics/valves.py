"""How far a valve is to be opened: a rough guide, since no two valves are alike."""

from collections.abc import Mapping
from math import log
from types import MappingProxyType

from pondapp.core.base.errors import NoSolution, OutOfRange, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import Source
from pondapp.core.hydraulics.fittings import HANDBOOK, TOOLBOX

Points = tuple[tuple[float, float], ...]

VALVES: Mapping[str, tuple[Points, Source]] = MappingProxyType(
    {
        # opening as a share of full travel, loss coefficient on the speed in the full bore
        "ball": (((1 / 3, 200.0), (2 / 3, 5.5), (1.0, 0.05)), TOOLBOX),
        "gate": (((0.25, 17.0), (0.5, 2.1), (0.75, 0.26), (1.0, 0.15)), TOOLBOX),
        "gate, handbook": (((0.25, 24.0), (0.5, 4.5), (0.75, 0.9), (1.0, 0.17)), HANDBOOK),
    }
)
"""Kinds of valve. Half open, the two gate valves differ by a factor of two: so do the sources."""


def _points(kind: str) -> Points:
    if kind not in VALVES:
        raise OutOfRange("there is no valve of the kind {kind}", kind=kind)
    return VALVES[kind][0]


def valve_opening(kind: str, loss: float) -> float:
    """How far to open a valve for a wanted loss: a first setting before measuring.

    Args:
        kind: Kind of valve, a key of VALVES.
        loss: Wanted loss coefficient on the speed in the full bore [-], 0 to 1e12.

    Returns:
        Share of the full travel [-]; 1 where even the open valve takes more.

    Raises:
        OutOfRange: There is no such valve, or the loss is outside its range.
        NoSolution: The valve would be nearly closed, where no table reaches.

    Source:
        Tables named in VALVES; interpolation in log K is this project's own.

    Example:
        A ball valve that has to take a loss of 20, and one that has nothing to take:

        >>> round(valve_opening("ball", 20.0), 2), valve_opening("ball", 0.0)
        (0.55, 1.0)
    """
    points = _points(kind)
    require_within("wanted loss coefficient", loss, 0.0, 1e12, "-")
    if loss <= points[-1][1]:
        return 1.0
    if loss > points[0][1]:
        raise NoSolution(
            "the valve would be less than {share} open, where its setting is guesswork: open it "
            "a crack and measure, or take a smaller hose",
            share=Amount(points[0][0], "share"),
        )
    at = next(i for i, (_, k) in enumerate(points) if k < loss)
    (x0, k0), (x1, k1) = points[at - 1], points[at]
    return x0 + (x1 - x0) * (log(loss) - log(k0)) / (log(k1) - log(k0))
