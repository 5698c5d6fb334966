"""Bog filters: how large, and what flow."""

from dataclasses import dataclass

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand, bog_band


@dataclass(frozen=True, slots=True)
class BogSize:
    """How large a bog should be.

    Attributes:
        volume: Outside volume of the bed [m3].
        area: Area of the bed [m2].
        pond_volume: The pond's volume [m3].
        share: Share of it that the rule asks for [-].
        depth: Depth of the gravel [m].
    """

    volume: float
    area: float
    pond_volume: float
    share: float
    depth: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        pond = Term("V", "water in the pond", self.pond_volume, "m3")
        share = Term("s", "share of the pond's volume", self.share, "-")
        bed = Term("Vb", "outside volume of the bed", self.volume, "m3")
        depth = Term("d", "depth of the gravel", self.depth, "m")
        area = Term("A", "area of the bed", self.area, "m2")
        return (
            Step(bed, "Vb = s V", (share, pond), COMMON_PRACTICE),
            Step(area, "A = Vb / d", (bed, depth), COMMON_PRACTICE),
        )


def bog_size(pond_volume: float, share: float, depth: float) -> BogSize:
    """Size of a bog filter as a share of the pond.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        share: Bog volume over pond volume [-], above 0 to 2; larger for many fish.
        depth: Depth of the gravel [m], 0.01 to 5.

    Returns:
        Outside volume of the bed [m3] and its area [m2].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Vb = s V and A = Vb / d; share and depth are common practice.

    Example:
        A tenth of a pond of 5 m³, half a metre deep:

        >>> bog = bog_size(5.0, 0.10, 0.5)
        >>> bog.volume, bog.area
        (0.5, 1.0)
    """
    require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
    require_above("bog volume as a share of the pond's", share, 0.0, 2.0, "-")
    require_within("depth of the gravel", depth, 0.01, 5.0, "m")
    volume = share * pond_volume
    return BogSize(volume, volume / depth, pond_volume, share, depth)


@dataclass(frozen=True, slots=True)
class BogFlow:
    """The flow that a bog wants, and the times it comes from.

    Attributes:
        band: Wanted flow [m3/s].
        bog_volume: Outside volume of the bed [m3].
        retention_min: Shortest time [s].
        retention_target: Best time [s].
        retention_max: Longest time [s].
    """

    band: FlowBand
    bog_volume: float
    retention_min: float
    retention_target: float
    retention_max: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        bed = Term("Vb", "outside volume of the bed", self.bog_volume, "m3")
        lines = (
            ("least flow", self.retention_max, "longest time"),
            ("best flow", self.retention_target, "best time"),
            ("most flow", self.retention_min, "shortest time"),
        )
        return tuple(
            Step(
                Term("Q", name, self.bog_volume / time, "m3/s"),
                "Q = Vb / t",
                (bed, Term("t", phrase("{what} through the bed", what=meaning), time, "s")),
                COMMON_PRACTICE,
            )
            for name, time, meaning in lines
        )


def bog_flow(
    bog_volume: float, retention_min: float, retention_target: float, retention_max: float
) -> BogFlow:
    """The band of bog_band together with its working.

    Args:
        bog_volume: Outside volume of the bed [m3], above 0 to 1e4.
        retention_min: Shortest time [s], 1 to 1e6.
        retention_target: Best time [s], from the shortest to 1e6.
        retention_max: Longest time [s], from the best to 1e6.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or the times are out of order.

    Source:
        Q = Vb / t, retention time is volume over flow (definition); the times are common practice.

    Example:
        A bed of 100 L, best passed in 10 minutes:

        >>> bog = bog_flow(0.1, 300.0, 600.0, 900.0)
        >>> round(3.6e6 * bog.band.target)  # L/h
        600
    """
    band = bog_band(bog_volume, retention_min, retention_target, retention_max)
    return BogFlow(band, bog_volume, retention_min, retention_target, retention_max)
