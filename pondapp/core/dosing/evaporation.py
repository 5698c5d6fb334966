"""Water that the air takes, so that a falling level is not called a leak."""

from dataclasses import dataclass

from pondapp.core.base.constants import COLDEST, DAY, HOUR, WARMEST, ZERO_CELSIUS
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.stock.span import Span

FASTEST = 1e-6  # m/s, 86 mm a day: more than any open water loses
MILLIMETRE_A_DAY = 1e-3 / DAY  # m/s

LINACRE = Source("Linacre 1977, Agric. Meteorol. 18, 409-424, abstract", "published")


@dataclass(frozen=True, slots=True)
class WaterLoss:
    """Water that evaporates from a pond.

    Attributes:
        rate: Fall of the level [m/s].
        flow: Water lost [m3/s].
        area: Open surface [m2].
        source: Where the rate is from.
        warnings: What it leaves out.
    """

    rate: Span
    flow: Span
    area: float
    source: Source
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        area = Term("A", "open surface", self.area, "m2")
        rate = Term("E", "fall of the level", self.rate.likely, "m/s")
        flow = Term("Q", "water lost", self.flow.likely, "m3/s")
        return (
            Step(rate, "E from the weather", (), self.source),
            Step(flow, "Q = E A", (rate, area), ARITHMETIC),
        )


def pond_evaporation_from_pan(pan: float, coefficient: float) -> float:
    """Evaporation of a small pond from that of a class A pan nearby.

    Args:
        pan: Fall of the level in the pan [m/s], 0 to 1e-6.
        coefficient: Pond over pan [-], 0 to 1.5.

    Returns:
        Fall of the level in the pond [m/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        E = k E_pan; k of about 0.7 over a year: R. K. Farnsworth, E. S. Thompson, E. L. Peck,
        Evaporation Atlas for the Contiguous 48 United States, NOAA Technical Report NWS 33 (1982),
        from memory.

    Example:
        A pan loses 7 mm a day; a small pond beside it:

        >>> rate = pond_evaporation_from_pan(7.0 * MILLIMETRE_A_DAY, 0.7)
        >>> round(rate / MILLIMETRE_A_DAY, 2)  # mm a day
        4.9
    """
    require_within("evaporation of the pan", pan, 0.0, FASTEST, "m/s")
    require_within("pond over pan", coefficient, 0.0, 1.5, "-")
    return pan * coefficient


def evaporation_linacre(
    temperature: float, dew_point: float, latitude: float, altitude: float
) -> float:
    """Evaporation of open water from monthly means of the weather; rough, and rather high.

    Args:
        temperature: Mean air temperature of the month [K], 273.15 to 313.15.
        dew_point: Mean dew point of the month [K], 243.15 to the temperature.
        latitude: Degrees from the equator, either way [-], 0 to 65.
        altitude: Height above the sea [m], -500 to 5000.

    Returns:
        Fall of the level [m/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        E = (700 Tm / (100 - A) + 15 (T - Td)) / (80 - T) mm/d with Tm = T + 0.006 h, as its
        abstract prints it: E. T. Linacre, A simple formula for estimating evaporation rates in
        various climates, using temperature data alone, Agric. Meteorol. 18 (1977) 409-424.

    Example:
        Sea level at the equator, 25 °C with a dew point of 20 °C:

        >>> rate = evaporation_linacre(298.15, 293.15, 0.0, 0.0)
        >>> round(rate / MILLIMETRE_A_DAY, 3)  # mm a day
        4.545
    """
    require_within("air temperature", temperature, COLDEST, WARMEST, "K")
    require_within("dew point", dew_point, 243.15, temperature, "K")
    require_within("latitude", latitude, 0.0, 65.0, "-")
    require_within("altitude", altitude, -500.0, 5000.0, "m")
    t = temperature - ZERO_CELSIUS
    at_sea = max(0.0, t + 0.006 * altitude)  # below the sea in frost the formula dips under 0
    by_sun = 700.0 * at_sea / (100.0 - latitude)
    by_air = 15.0 * (temperature - dew_point)
    return MILLIMETRE_A_DAY * (by_sun + by_air) / (80.0 - t)


def evaporation_in_month(annual: float, share: float) -> float:
    """Evaporation of one month from that of the year.

    Args:
        annual: Evaporation of the year [m], 0 to 5.
        share: The month's share of it [-], 0 to 1.

    Returns:
        Fall of the level in that month [m].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        E_month = s E_year, proportion; shares for shallow ponds: M. Molnau et al., ASAE paper PNW
        92-111 (1992).

    Example:
        Of 762 mm a year 15 % go in June:

        >>> round(1000.0 * evaporation_in_month(0.762, 0.15), 1)  # mm
        114.3
    """
    require_within("evaporation of the year", annual, 0.0, 5.0, "m")
    require_within("share of the month", share, 0.0, 1.0, "-")
    return annual * share


def water_loss(rate: Span, area: float, waterfall: bool, source: Source) -> WaterLoss:
    """Water that a pond loses to the air.

    Args:
        rate: Fall of the level [m/s], 0 to 1e-6.
        area: Open surface [m2], 0 to 1e5.
        waterfall: Whether there is a fall or stream, whose splash is not counted [-].
        source: Where the rate is from [-].

    Returns:
        Water lost [m3/s], with a warning that splash is left out.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Q = E A (definition).

    Example:
        5 mm a day off 20 m²:

        >>> from pondapp.core.base.working import ENTERED
        >>> from pondapp.core.stock.span import exactly
        >>> loss = water_loss(exactly(5.0 * MILLIMETRE_A_DAY), 20.0, False, ENTERED)
        >>> round(loss.flow.likely * 1000.0 * DAY)  # L a day
        100
    """
    require_within("evaporation", rate.high, 0.0, FASTEST, "m/s")
    require_within("open water", area, 0.0, 1e5, "m2")
    warnings: tuple[Message, ...] = ()
    if waterfall:
        warnings = (
            Message("a fall or a stream loses more by splash and wind; nobody can compute it"),
        )
    return WaterLoss(rate, rate.times(area), area, source, warnings)


@dataclass(frozen=True, slots=True)
class LeakCheck:
    """A fall of the level that was seen, beside what the air may have taken.

    Attributes:
        seen: Fall of the level [m/s].
        expected: Fall of the level by evaporation [m/s].
        unexplained: Water beyond the most that evaporates [m3/s]; 0 if the air explains it.
        verdict: What to make of it.
        area: Open surface [m2].
    """

    seen: float
    expected: Span
    unexplained: float
    verdict: Message
    area: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        seen = Term("Es", "fall of the level seen", self.seen, "m/s")
        most = Term("E", "most that evaporates", self.expected.high, "m/s")
        area = Term("A", "open surface", self.area, "m2")
        left = Term("Q", "water unexplained", self.unexplained, "m3/s")
        return (Step(left, "Q = (Es - E) A, not below 0", (seen, most, area), ARITHMETIC),)


def check_for_leak(drop: float, time: float, area: float, expected: Span) -> LeakCheck:
    """Whether evaporation explains how far the level fell.

    Args:
        drop: Fall of the level without rain or topping up [m], 0 to 2.
        time: Time it took [s], 3600 to 1e8.
        area: Open surface [m2], 0 to 1e5.
        expected: Fall of the level by evaporation [m/s], 0 to 1e-6.

    Returns:
        Water that evaporation does not explain [m3/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Q = (Δh / t - E) A, mass balance of the pond.

    Example:
        20 mm in two days, where 3 to 7 mm a day are to be expected:

        >>> from pondapp.core.stock.span import Span
        >>> rates = Span(3.0, 5.0, 7.0).times(MILLIMETRE_A_DAY)
        >>> found = check_for_leak(0.020, 2.0 * DAY, 20.0, rates)
        >>> str(found.verdict)[:41]
        'evaporation explains no more than 0.014 m'
    """
    require_within("fall of the level", drop, 0.0, 2.0, "m")
    require_within("time", time, HOUR, 1e8, "s")
    require_within("open water", area, 0.0, 1e5, "m2")
    require_within("evaporation", expected.high, 0.0, FASTEST, "m/s")
    seen = drop / time
    left = max(0.0, seen - expected.high) * area
    if left > 0.0:
        verdict = Message(
            "evaporation explains no more than {most} of the {drop}; stop the pump for a day: if "
            "the level then holds, look at the fall, stream and hoses, else at the liner",
            {"most": Amount(expected.high * time, "m"), "drop": Amount(drop, "m")},
        )
    else:
        verdict = Message("the air alone may have taken the {drop}", {"drop": Amount(drop, "m")})
    return LeakCheck(seen, expected, left, verdict, area)
