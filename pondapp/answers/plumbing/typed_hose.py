"""A hose known by its lift, bore and length only, as the first water path of a pond."""

from dataclasses import dataclass

from pondapp.answers.plumbing.network import RIBBED
from pondapp.answers.plumbing.path import lines_of
from pondapp.core.hydraulics.bores import SIZES
from pondapp.models.circuit import Pipe
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class TypedHose:
    """What was typed of a hose; None where it was not."""

    lift: float | None
    """Height of its end above the water [m]."""
    bore: float | None
    """Inner diameter [m]."""
    length: float | None
    """Length [m]."""
    ribbed: bool


def with_hose(pond: Pond, hose: TypedHose, feature_id: str | None = None) -> Pond:
    """The pond with this hose and lift on the branch of a feature, or on every branch."""
    if hose.lift is None and (hose.bore is None or hose.length is None):
        return pond
    change: dict[str, object] = {}
    if hose.lift is not None:
        change["lift_m"] = hose.lift
    if hose.bore is not None and hose.length is not None:
        change["pipe"] = _nearest(hose.bore, hose.length, hose.ribbed)
    lines = tuple(
        line.model_copy(
            update={
                "branches": tuple(
                    b.model_copy(update=change) if feature_id in (None, *b.feeds) else b
                    for b in line.branches
                )
            }
        )
        for line in lines_of(pond)
    )
    return pond.model_copy(update={"lines": lines})


def _nearest(bore: float, length: float, ribbed: bool) -> Pipe:
    """The hose in the shops whose bore comes nearest."""
    hoses = [size for size in SIZES if size.series.startswith("hose")]
    size = min(hoses, key=lambda size: abs(size.bore - bore))
    return Pipe(
        series=f"{RIBBED}{size.series}" if ribbed else size.series, size=size.name, length_m=length
    )
