"""How a flow of now stands against what is wanted, by the one rule of decision."""

from pondapp.answers.learning.intervals import Bounds
from pondapp.answers.learning.learning import Learning
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.flow import FlowBand
from pondapp.core.calibration.calibrated import Predicted
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Kind, decide


def band_at(found: Learning, key: str) -> FlowBand | None:
    """What is wanted of a branch, or with no key of the pump; None where nothing can suit.

    Raises:
        PondError: The pond's shape or a changed rule cannot be.
    """
    model = found.model
    for place in model.places:
        if place.branch.id == key:
            return None if place.conflict else place.band
    target = None if key else model.worked.wanted.place(model.line.id)
    return target.band if target else None


def ever_read(found: Learning, key: str) -> bool:
    """Whether anybody caught that water, fitted or not."""
    times = found.model.times
    return key in times.dry or any(read.branch_id == key for read in times.reads)


def stands(found: Learning, key: str, one: Predicted, its: Bounds) -> Kind | None:
    """How it stands; None where nothing is wanted, or it was not read as its valves stand.

    What was read too long ago, or is contradicted, decides nothing of now.

    Raises:
        PondError: The pond's shape or a changed rule cannot be.
    """
    band = band_at(found, key)
    if band is None or its.open or not its.told or one.flow <= 0.0:
        return None
    states = {datum.state for datum in found.fitted.data}
    of_now = [place.branch.id for place in found.model.places]
    if found.model.state(key, found.now) in states:
        of_now = [key]
    elif key or not found.read_now.issuperset(of_now):
        return None
    newest = {read.branch_id: read.reading for read in found.reads}
    if found.model.evidence.doubt_of([newest[branch_id] for branch_id in of_now]):
        return "undecided"
    rule = certainty(found.model.worked.rules.measuring)
    return decide(Spread(one.flow, one.uncertainty), band.low, band.high, rule).kind
