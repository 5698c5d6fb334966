"""From a measurement by any method to a flow, a verdict, and what to do next."""

from pondapp.answers.features.targets import band_of
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.methods.kinds import METHODS
from pondapp.core.assumptions import Assumptions as Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions as MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.models.pond import Pond
from pondapp.models.reading import Method, Reading, Steadiness


def rules_for(pond: Pond | None) -> Assumptions:
    """All assumptions, as the owner of the pond changed them.

    Raises:
        OutOfRange: A changed assumption is unknown or outside its range.
    """
    return Assumptions().with_overrides(pond.assumptions) if pond else Assumptions()


def measured_by(
    method: Method,
    band: FlowBand | None,
    rules: MeasuringAssumptions | None = None,
    steadiness: Steadiness | None = None,
) -> Measured | None:
    """What a measurement says, or nothing while nothing counts.

    Args:
        method: What was read.
        band: What is wanted there.
        rules: The rules of the pond; else the app's own.
        steadiness: What earlier fills there had taught about their scatter.

    Raises:
        PondError: The numbers cannot be; the message says why.
    """
    rules = rules or Assumptions().measuring
    return METHODS[method.kind].measured(method, band, rules, steadiness)


def measured_reading(
    reading: Reading, rules: MeasuringAssumptions | None = None, band: FlowBand | None = None
) -> Measured | None:
    """What a reading says, against the band that was wanted when it was taken, or another one.

    Args:
        reading: The reading.
        rules: The rules of its pond; else the app's own.
        band: What is wanted there now, in place of what was wanted then.

    Raises:
        PondError: Its numbers cannot be; the message says why.
    """
    then = band_of(reading.band) if reading.band else None
    return measured_by(reading.method, band or then, rules, reading.steadiness)
