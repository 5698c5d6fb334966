"""The turns of a valve in one visit: the flow at each setting of it."""

from pondapp.answers.measuring.flow import Measured, measured
from pondapp.answers.measuring.methods import MeasuringAssumptions
from pondapp.core.base.errors import PondError
from pondapp.core.filters.bands import FlowBand
from pondapp.models.reading import FillSet, Steadiness


def flow_of_set(
    one: FillSet,
    rules: MeasuringAssumptions,
    band: FlowBand | None = None,
    steadiness: Steadiness | None = None,
) -> Measured | None:
    """The flow of what was timed at one setting of a valve.

    Args:
        one: The fills of the setting.
        rules: The rules of the pond.
        band: What is wanted there.
        steadiness: What earlier fills there had taught about their scatter.

    Returns:
        The flow and its verdict; None where no fill counts, what was filled was not noted, or the
        numbers are those of no flow.
    """
    if one.container is None:
        return None
    try:
        return measured(one.container, one.fills, band, rules, steadiness)
    except PondError:
        return None
