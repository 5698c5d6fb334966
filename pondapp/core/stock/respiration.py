"""Oxygen that the fish breathe."""

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.errors import require_within
from pondapp.core.base.working import Source
from pondapp.core.stock.span import Span

REFERENCE = 293.15  # K: the temperature that the rules of oxygen use are given for

RESPIRATION = Source("carp at 20 °C, doubling about every 10 °C", "rule of thumb")


def respiration(fish: Span, temperature: float, rules: StockAssumptions) -> Span:
    """Oxygen that fish use, resting to fed.

    Args:
        fish: All fish [kg], 0 to 1e6.
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force.

    Returns:
        Oxygen [kg/s].

    Raises:
        OutOfRange: A number is outside its range, or the rules do not rise.

    Source:
        Rate at 20 degrees times Q10^((T - 293.15 K) / 10 K); the rates are rules of thumb.

    Example:
        5 kg of fish at 20 °C:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> from pondapp.core.stock.span import exactly
        >>> used = respiration(exactly(5.0), 293.15, StockAssumptions())
        >>> round(used.likely * 3600.0 * 1e6)  # mg/h
        1000
    """
    require_within("mass of all fish", fish.high, 0.0, 1e6, "kg")
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    rate = Span(rules.respiration_low, rules.respiration_likely, rules.respiration_high)
    warmth = rules.respiration_q10 ** ((temperature - REFERENCE) / 10.0)
    return fish.times(rate).times(warmth)
