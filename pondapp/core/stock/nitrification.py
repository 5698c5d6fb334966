"""What the bacteria on the filter's media can do, and what they use up."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.dosing.molar_masses import CALCIUM_CARBONATE, NITROGEN, OXYGEN_GAS
from pondapp.core.stock.span import NOTHING, Span

_FAO = Source(
    "FAO Fisheries Technical Paper 589 (2014), table 4.1, as copied in public data", "published"
)
_PLASTIC = Source("range of plastic media in an aquaculture standard, as quoted", "published")
RATES = Source("geometric between a cold and a warm rate per area", "rule of thumb")


@dataclass(frozen=True, slots=True)
class Media:
    """What bacteria grow on.

    Attributes:
        name: In words.
        surface: Area over volume of the filled bed [m2/m3].
        source: Where it is from.
    """

    name: str
    surface: Span
    source: Source


def _media(name: str, low: float, high: float, source: Source) -> Media:
    # A range was printed and no likely value: the geometric middle is off by one factor at most.
    return Media(name, Span(low, sqrt(low * high), high), source)


MEDIA = {
    "tuff": _media("volcanic gravel, tuff", 300.0, 400.0, _FAO),
    "pumice": _media("volcanic gravel, pumice", 200.0, 300.0, _FAO),
    "limestone": _media("limestone gravel", 150.0, 200.0, _FAO),
    "expanded_clay": _media("expanded clay", 250.0, 300.0, _FAO),
    "bottle_caps": _media("plastic bottle caps", 50.0, 100.0, _FAO),
    "plastic": _media("plastic filter media", 100.0, 1000.0, _PLASTIC),
}


@dataclass(frozen=True, slots=True)
class MediaBed:
    """A filled part of a filter that water passes all day.

    Attributes:
        volume: Volume of the filled bed [m3].
        surface: Area over volume [m2/m3].
    """

    volume: float
    surface: Span


def nitrification_rate(temperature: float, rules: StockAssumptions) -> Span:
    """Ammonia nitrogen that an area of media takes out.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15. Above the warm one of the rules the
            warm rate stands: hotter water does no more.
        rules: The assumptions in force.

    Returns:
        Ammonia nitrogen per area [kg/m2/s]. The least falls to nothing from the cold one of the
        rules down to where bacteria rest: below that no filter is surely enough.

    Raises:
        OutOfRange: The temperature is outside its range, or the rules do not rise.

    Source:
        r = r_c (r_w / r_c)^((T - Tc) / (Tw - Tc)), as in theta^(T - T0); rates from memory.

    Example:
        At 25 °C, in g of nitrogen from each m² a day:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> rate = nitrification_rate(298.15, StockAssumptions())
        >>> [round(one * 86400.0 * 1000.0, 2) for one in (rate.low, rate.high)]
        [0.2, 1.0]
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    cold = Span(
        rules.nitrification_cold_low,
        rules.nitrification_cold_likely,
        rules.nitrification_cold_high,
    )
    warm = Span(
        rules.nitrification_warm_low,
        rules.nitrification_warm_likely,
        rules.nitrification_warm_high,
    )
    between = rules.nitrification_warm_at - rules.nitrification_cold_at
    require_above("warm less cold water of the filter's rates", between, 0.0, 40.0, "K")
    place = min(1.0, (temperature - rules.nitrification_cold_at) / between)
    awake = 1.0 if temperature >= rules.nitrification_rest else 0.0
    if rules.nitrification_rest <= temperature < rules.nitrification_cold_at:
        awake = (temperature - rules.nitrification_rest) / (
            rules.nitrification_cold_at - rules.nitrification_rest
        )
    return Span(
        awake * cold.low * (warm.low / cold.low) ** place,
        cold.likely * (warm.likely / cold.likely) ** place,
        cold.high * (warm.high / cold.high) ** place,
    )


@dataclass(frozen=True, slots=True)
class FilterCapacity:
    """Ammonia nitrogen that the filters can take out.

    Attributes:
        capacity: Ammonia nitrogen [kg/s].
        area: Area of all media [m2].
        rate: Ammonia nitrogen per area [kg/m2/s].
        temperature: Water temperature [K].
        warnings: What makes it less sure.
    """

    capacity: Span
    area: Span
    rate: Span
    temperature: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        heat = Term("T", "water temperature", self.temperature, "K")
        rate = Term("r", "ammonia nitrogen per area of media", self.rate.likely, "kg/m2/s")
        area = Term("A", "area of all media", self.area.likely, "m2")
        capacity = Term("N", "ammonia nitrogen the filters take out", self.capacity.likely, "kg/s")
        return (
            Step(rate, "r = rc (rw / rc)^((T - Tc) / (Tw - Tc))", (heat,), RATES),
            Step(capacity, "N = r A", (rate, area), ARITHMETIC),
        )


def filter_capacity(
    beds: Sequence[MediaBed], temperature: float, rules: StockAssumptions
) -> FilterCapacity:
    """Ammonia nitrogen that the filters can take out once they have matured.

    Args:
        beds: Filled parts of the filters; volumes 0 to 1e4 m3, areas per volume to 1e5
            m2/m3; may be empty.
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force.

    Returns:
        Ammonia nitrogen [kg/s], with a warning in water near freezing.

    Raises:
        OutOfRange: A number is outside its range, or the rules do not rise.

    Source:
        P = r A, rate by nitrification_rate.

    Example:
        30 L of media with 300 m² in each m³, at 20 °C:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> from pondapp.core.stock.span import exactly
        >>> bed = MediaBed(0.030, exactly(300.0))
        >>> found = filter_capacity([bed], 293.15, StockAssumptions())
        >>> round(found.area.likely, 1), round(found.capacity.likely * 86.4e6, 1)  # m², g a day
        (9.0, 2.3)
    """
    rate = nitrification_rate(temperature, rules)
    area = NOTHING
    for bed in beds:
        require_within("volume of the media", bed.volume, 0.0, 1e4, "m3")
        require_within("area of the media over their volume", bed.surface.high, 0.0, 1e5, "m2/m3")
        area = area.plus(bed.surface.times(bed.volume))
    warnings: tuple[Message, ...] = ()
    if temperature < rules.nitrification_rest:
        warnings = (
            Message(
                "below {limit} a filter's bacteria all but rest: do not count on it",
                {"limit": Amount(rules.nitrification_rest, "K")},
            ),
        )
    return FilterCapacity(area.times(rate), area, rate, temperature, warnings)


def oxygen_for_nitrification(ammonia: float) -> float:
    """Oxygen that turns ammonia into nitrate.

    Args:
        ammonia: Ammonia nitrogen [kg/s], 0 to 1.

    Returns:
        Oxygen [kg/s], 4.57 times the nitrogen; growing bacteria use some 8 % less.

    Raises:
        OutOfRange: The ammonia is outside its range.

    Source:
        NH4+ + 2 O2 -> NO3- + 2 H+ + H2O, standard atomic weights.

    Example:
        >>> round(oxygen_for_nitrification(1.0), 3)
        4.569
    """
    require_within("ammonia", ammonia, 0.0, 1.0, "kg/s")
    return ammonia * 2.0 * OXYGEN_GAS / NITROGEN


def alkalinity_for_nitrification(ammonia: float) -> float:
    """Alkalinity that is used up where ammonia turns into nitrate.

    Args:
        ammonia: Ammonia nitrogen [kg/s], 0 to 1.

    Returns:
        Alkalinity, counted as calcium carbonate [kg/s], 7.15 times the nitrogen.

    Raises:
        OutOfRange: The ammonia is outside its range.

    Source:
        Two equivalents of acid for each nitrogen, standard atomic weights.

    Example:
        >>> round(alkalinity_for_nitrification(1.0), 3)
        7.146
    """
    require_within("ammonia", ammonia, 0.0, 1.0, "kg/s")
    return ammonia * CALCIUM_CARBONATE / NITROGEN
