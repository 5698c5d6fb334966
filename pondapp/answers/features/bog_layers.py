"""What lies in a bog filter, from its floor up."""

from dataclasses import dataclass
from math import sqrt

from pondapp.core.assumptions import Assumptions
from pondapp.models.circuit import BogFilter


@dataclass(frozen=True, slots=True)
class BogLayers:
    """The layers of a bog, in metres, and its area [m2].

    Attributes:
        area: Seen from above.
        coarse: Coarse stones round the pipes.
        gravel: Gravel over them.
        over: Water over the gravel, up to the overflow.
        edge: From there up to the edge.
    """

    area: float
    coarse: float
    gravel: float
    over: float
    edge: float

    @property
    def side(self) -> float:
        """Side of a square of its area [m]."""
        return sqrt(self.area)

    @property
    def bed(self) -> float:
        """Depth of all stones [m]."""
        return self.coarse + self.gravel

    @property
    def whole(self) -> float:
        """From the floor to the edge [m]."""
        return self.bed + self.over + self.edge


def bog_layers(bog: BogFilter, rules: Assumptions) -> BogLayers:
    """The layers of a bog by the rules: no more coarse stones than half of its depth."""
    f = rules.filters
    coarse = min(f.bog_coarse, f.bog_depth / 2)
    area = bog.bed_volume_m3 / f.bog_depth
    return BogLayers(area, coarse, f.bog_depth - coarse, f.bog_water_over, f.bog_edge)
