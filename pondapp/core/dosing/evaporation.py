"""Water that the air takes, so that a falling level is not called a leak."""

from dataclasses import dataclass
from math import exp, hypot

from pondapp.core.base.constants import COLDEST, WARMEST, ZERO_CELSIUS
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.stock.span import Span

COLDEST_AIR, HOTTEST_AIR = ZERO_CELSIUS - 20.0, ZERO_CELSIUS + 50.0
STRONGEST_WIND = 15.0  # m/s
WATER = 1000.0  # kg/m3

VAPOUR = Source("FAO Irrigation and Drainage Paper 56 (1998), eq. 11", "published")
TRANSFER_TO_AIR = Source(
    "Carrier's formula as in ASHRAE Transactions 104 (1998), pt. 1A: swimming pools", "published"
)


def vapour_pressure(temperature: float) -> float:
    """Pressure of the vapour in air that is full of it, over water.

    Args:
        temperature: Of the air or of the water's surface [K], 253.15 to 323.15.

    Returns:
        Saturation pressure [Pa].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        e = 0.6108 exp(17.27 t / (t + 237.3)) kPa, t in degrees Celsius: R. G. Allen et al., Crop
        evapotranspiration, FAO Irrigation and Drainage Paper 56 (1998), eq. 11.

    Example:
        >>> round(vapour_pressure(273.15 + 24.5) / 1000.0, 3)  # kPa
        3.075
    """
    require_within("temperature", temperature, COLDEST_AIR, HOTTEST_AIR, "K")
    t = temperature - ZERO_CELSIUS
    return 610.8 * exp(17.27 * t / (t + 237.3))


def heat_of_evaporation(temperature: float) -> float:
    """Heat that it takes to evaporate water.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.

    Returns:
        Heat over mass [J/kg].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        2.501 - 0.002361 t MJ/kg, t in degrees Celsius: R. G. Allen et al., FAO Irrigation and
        Drainage Paper 56 (1998), annex 3, from memory; 2.45 MJ/kg at 20 °C is its own rounding.

    Example:
        >>> round(heat_of_evaporation(293.15) / 1e6, 3)  # MJ/kg
        2.454
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    return 1e6 * (2.501 - 0.002361 * (temperature - ZERO_CELSIUS))


def evaporation(water: float, air: float, humidity: float, wind: float, stillness: float) -> float:
    """How fast the air takes water from an open surface.

    Args:
        water: Temperature of the water's surface [K], 273.15 to 313.15.
        air: Temperature of the air [K], 253.15 to 323.15.
        humidity: Vapour in the air over what it can hold [-], 0 to 1.
        wind: Speed of the air over the water [m/s], 0 to 15.
        stillness: Share of the formula that a pond of this kind gives off [-], 0 to 2.

    Returns:
        Fall of the level [m/s]; 0 where dew forms.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        W = (95 + 0.425 v) (pw - pa) / Y in lb/(h ft²), ft/min, inHg and Btu/lb, which is (0.089 +
        0.0782 V) (pw - pa) / Y in kW/(m² kPa) and m/s: W. H. Carrier, as in ASHRAE Transactions 104
        (1998), part 1A, where undisturbed pools gave off 74 % of it.

    Example:
        Water and air of 25 °C, half full of vapour, 1.5 m/s, four fifths of the formula:

        >>> rate = evaporation(298.15, 298.15, 0.5, 1.5, 0.8)
        >>> round(1e3 * 86400.0 * rate, 1)  # mm a day
        9.2
    """
    require_within("humidity of the air", humidity, 0.0, 1.0, "-")
    require_within("wind", wind, 0.0, STRONGEST_WIND, "m/s")
    require_within("share of the formula", stillness, 0.0, 2.0, "-")
    missing = vapour_pressure(water) - humidity * vapour_pressure(air)  # Pa
    by_wind = 0.089 + 0.0782 * wind  # W/(m2 Pa)
    heat = heat_of_evaporation(water)
    return max(0.0, stillness * by_wind * missing / heat / WATER)


@dataclass(frozen=True, slots=True)
class Weather:
    """The air over a pond.

    Attributes:
        water: Temperature of the water [K].
        air: Temperature of the air [K].
        humidity: Vapour in the air over what it can hold [-], the most humid as `low`.
        wind: Speed of the air over the water [m/s].
    """

    water: float
    air: float
    humidity: tuple[float, float, float]
    wind: Span


@dataclass(frozen=True, slots=True)
class WaterLoss:
    """Water that evaporates from a pond.

    Attributes:
        rate: Fall of the level [m/s].
        flow: Water lost [m3/s].
        area: Open surface [m2].
        weather: The air over it.
        stillness: Share of the formula [-].
        warnings: What it leaves out.
    """

    rate: Span
    flow: Span
    area: float
    weather: Weather
    stillness: Span
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        weather = self.weather
        water = Term("Tw", "water temperature", weather.water, "K")
        air = Term("Ta", "temperature of the air", weather.air, "K")
        damp = Term("φ", "humidity of the air", weather.humidity[1], "share")
        wind = Term("V", "wind", weather.wind.likely, "m/s")
        share = Term("k", "share of the formula", self.stillness.likely, "share")
        at_water = Term("pw", "vapour pressure at the water", vapour_pressure(weather.water), "Pa")
        in_air = Term(
            "pa", "vapour pressure in the air",
            weather.humidity[1] * vapour_pressure(weather.air), "Pa",
        )  # fmt: skip
        rate = Term("E", "fall of the level", self.rate.likely, "m/s")
        area = Term("A", "open surface", self.area, "m2")
        flow = Term("Q", "water lost", self.flow.likely, "m3/s")
        formula = "E = k (0.089 + 0.0782 V) (pw - pa) / (Y ρ)"
        return (
            Step(at_water, "pw = 0.6108 exp(17.27 t / (t + 237.3)) kPa", (water,), VAPOUR),
            Step(in_air, "pa = φ p(Ta)", (damp, air), VAPOUR),
            Step(rate, formula, (share, wind, at_water, in_air), TRANSFER_TO_AIR),
            Step(flow, "Q = E A", (rate, area), ARITHMETIC),
        )


def water_loss(weather: Weather, stillness: Span, area: float, waterfall: bool) -> WaterLoss:
    """Water that a pond loses to the air.

    Args:
        weather: The air over it, with its ranges.
        stillness: Share of the formula that a pond gives off [-], 0 to 2.
        area: Open surface [m2], 0 to 1e5.
        waterfall: Whether there is a fall or stream, whose splash is not counted [-].

    Returns:
        Water lost [m3/s], with a warning that splash is left out.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Q = E A (definition); E by evaporation. Its range: what humidity, wind and share do each
        alone, squares added (JCGM 100:2008, 5.1.2, the three independent).

    Example:
        20 m² at 25 °C, half full of vapour, 1.5 m/s:

        >>> from pondapp.core.stock.span import exactly
        >>> weather = Weather(298.15, 298.15, (0.5, 0.5, 0.5), exactly(1.5))
        >>> loss = water_loss(weather, exactly(0.8), 20.0, False)
        >>> round(loss.flow.likely * 1000.0 * 86400.0)  # L a day
        185
    """
    require_within("open water", area, 0.0, 1e5, "m2")
    damp, wind, share = weather.humidity[1], weather.wind.likely, stillness.likely
    likely = evaporation(weather.water, weather.air, damp, wind, share)

    def off(end: int) -> float:
        """How far the three together may be off to one side: each alone, added as variances."""
        ends = (
            (weather.humidity[end], wind, share),
            (damp, (weather.wind.low, wind, weather.wind.high)[end], share),
            (damp, wind, (stillness.low, share, stillness.high)[end]),
        )
        return hypot(*(evaporation(weather.water, weather.air, *one) - likely for one in ends))

    rate = Span(max(0.0, likely - off(0)), likely, likely + off(2))
    warnings: tuple[Message, ...] = ()
    if waterfall:
        warnings = (
            Message("a fall or a stream loses more by splash and wind; nobody can compute it"),
        )
    return WaterLoss(rate, rate.times(area), area, weather, stillness, warnings)
