"""How much water a dose goes by: the pond's volume, with its doubt."""

from dataclasses import dataclass

from pondapp.answers.pond import WorkedPond
from pondapp.answers.water.fill import likely_range
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount, Message, Range
from pondapp.core.stock.span import Span

SHALLOWEST, DEEPEST = 0.1, 6.0  # m: mean depth of a garden pond with its falls; beyond is a slip
LEAST_SHARE = 0.5  # of the likely volume: with less of it sure, no dose is told


@dataclass(frozen=True, slots=True)
class PondVolume:
    """How much water a pond holds, and how well that is known.

    Attributes:
        span: Least, likely and most [m3].
        measured: Whether it was measured.
        doubted: Whether its doubt was measured too, and not taken from the rule.
    """

    span: Span
    measured: bool
    doubted: bool


def area_in_doubt(worked: WorkedPond, area: float | None) -> tuple[Message, ...]:
    """What there is to say of an area of open water that does not fit the pond's volume.

    Raises:
        PondError: The pond's shape cannot be.
    """
    if not area:
        return ()
    volume = water_volume(worked.pond)
    depth = volume / area
    if SHALLOWEST <= depth <= DEEPEST:
        return ()
    words = Message(
        "{area} of open water does not fit {volume}: the pond would be {depth} deep. One of the "
        "two is wrong, and what follows from it too.",
        {"area": Amount(area, "m2"), "volume": Amount(volume, "m3"), "depth": Amount(depth, "m")},
    )
    return (words,)


def volume_span(worked: WorkedPond) -> PondVolume:
    """The volume with its doubt: as measured, or else as the rule has it.

    Raises:
        PondError: The pond's shape cannot be, or the volume is hardly known.
    """
    likely = water_volume(worked.pond)
    found = worked.pond.measured_volume
    if found is not None and found.standard_uncertainty_m3 is not None:
        low, high = likely_range(likely, found.standard_uncertainty_m3)
        if low < LEAST_SHARE * likely:
            raise NoSolution(
                "the measured volume is too doubtful for a dose: {range}; measure the "
                "water again first",
                range=Range(low, high, "m3"),
            )
        return PondVolume(Span(low, likely, high), True, True)
    off = worked.rules.stock.volume_tolerance
    span = Span((1.0 - off) * likely, likely, (1.0 + off) * likely)
    return PondVolume(span, found is not None, False)
