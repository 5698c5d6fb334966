"""How much oxygen water can hold, and how much a fall or the surface brings in."""

from dataclasses import dataclass
from math import exp

from pondapp.core.base.constants import COLDEST, WARMEST, ZERO_CELSIUS
from pondapp.core.base.errors import require_within
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.hydraulics.water import density
from pondapp.core.stock.air import (
    LEAST_PRESSURE,
    MOST_PRESSURE,
    SEA_LEVEL_PRESSURE,
    standard_pressure,
)
from pondapp.core.stock.span import Span

MILLIGRAM_A_LITRE = 1e-3  # kg/m3
SALT_ADDS = 0.75  # kg/m3 of density for each kg/m3 of salt, as in sea water
TALLEST_FALL = 4.0  # m; the formula turns over at 4.5 m

BENSON_KRAUSE = Source("Benson and Krause 1984, Limnol. Oceanogr. 29, 620-632", "published")
PRESSURE_FORM = Source("Benson and Krause 1984, eq. 24, as in Standard Methods 4500-O", "published")
ICAO = Source("standard atmosphere of ICAO and the US (1976), as in fluids 1.3.1", "published")
FALL = Source("aeration of a fall by Butts and Evans (1983), as in SWAT+, 7:3.5.12", "published")
TRANSFER = Source("transfer in proportion to what is missing from saturation", "computed")


def oxygen_saturation(temperature: float) -> float:
    """Oxygen in fresh water that stands in moist air at 1 atm.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.

    Returns:
        Concentration at saturation [kg/m3].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        B. B. Benson, D. Krause, The concentration and isotopic fractionation of oxygen dissolved in
        freshwater and seawater in equilibrium with the atmosphere, Limnol. Oceanogr. 29 (1984)
        620-632, as in Standard Methods, 16th ed. (APHA 1985).

    Example:
        At 20 °C:

        >>> round(1000.0 * oxygen_saturation(293.15), 2)  # mg/L
        9.09
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    t = temperature
    logarithm = -139.34411 + 1.575701e5 / t - 6.642308e7 / t**2 + 1.2438e10 / t**3
    return MILLIGRAM_A_LITRE * exp(logarithm - 8.621949e11 / t**4)


def oxygen_saturation_at_pressure(temperature: float, pressure: float) -> float:
    """Oxygen in fresh water that stands in moist air of any pressure.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.
        pressure: Pressure of the air [Pa], 50000 to 110000.

    Returns:
        Concentration at saturation [kg/m3].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        C = C0 P ((1 - Pw / P) (1 - θ P)) / ((1 - Pw) (1 - θ)), P in atmospheres: APHA, AWWA and
        WEF, Standard Methods for the Examination of Water and Wastewater, 4500-O G, with water
        vapour Pw and second virial term θ; Benson and Krause (1984), equation 24.

    Example:
        At 10 °C and 0.95 atmospheres:

        >>> round(1000.0 * oxygen_saturation_at_pressure(283.15, 0.95 * 101325.0), 2)  # mg/L
        10.72
    """
    require_within("pressure of the air", pressure, LEAST_PRESSURE, MOST_PRESSURE, "Pa")
    at_one = oxygen_saturation(temperature)
    p = pressure / SEA_LEVEL_PRESSURE
    vapour = exp(11.8571 - 3840.70 / temperature - 216961.0 / temperature**2)
    celsius = temperature - ZERO_CELSIUS
    theta = 0.000975 - 1.426e-5 * celsius + 6.436e-8 * celsius**2
    moist = p * (1.0 - vapour / p) * (1.0 - theta * p)
    return at_one * moist / ((1.0 - vapour) * (1.0 - theta))


def salt_water_share(temperature: float, salt: float) -> float:
    """Oxygen that salt water holds over what fresh water holds.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.
        salt: Salt in the water [kg/m3], 0 to 40.

    Returns:
        Share [-], 1 without salt.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        B. B. Benson, D. Krause, The concentration and isotopic fractionation of oxygen dissolved in
        freshwater and seawater in equilibrium with the atmosphere, Limnol. Oceanogr. 29 (1984)
        620-632, term of the salinity, as in Standard Methods, 16th ed. (APHA 1985); the salinity in
        parts per thousand from the mass of salt in the volume.

    Example:
        3 g/L of salt at 20 °C:

        >>> round(salt_water_share(293.15, 3.0), 3)
        0.982
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    require_within("salt in the water", salt, 0.0, 40.0, "kg/m3")
    t = temperature
    salinity = 1000.0 * salt / (density(t) + SALT_ADDS * salt)
    return exp(-salinity * (1.7674e-2 - 10.754 / t + 2140.7 / t**2))


@dataclass(frozen=True, slots=True)
class Saturation:
    """How much oxygen the water of a pond can hold.

    Attributes:
        concentration: At saturation [kg/m3].
        temperature: Water temperature [K].
        altitude: Height above the sea [m].
        pressure: Mean pressure of the air there [Pa].
    """

    concentration: float
    temperature: float
    altitude: float
    pressure: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        heat = Term("T", "water temperature", self.temperature, "K")
        height = Term("z", "altitude", self.altitude, "m")
        air = Term("p", "pressure of the air", self.pressure, "Pa")
        sea = Term("C0", "saturation at 1 atm", oxygen_saturation(self.temperature), "kg/m3")
        full = Term("Cs", "saturation here", self.concentration, "kg/m3")
        return (
            Step(air, "p = p0 (1 - 0.0065 H / 288.15)^5.2559", (height,), ICAO),
            Step(sea, "ln C0 = polynomial in 1/T", (heat,), BENSON_KRAUSE),
            Step(
                full,
                "Cs = C0 p (1 - u/p) (1 - θ p) / ((1 - u) (1 - θ)), p in atm",
                (sea, air),
                PRESSURE_FORM,
            ),
        )


def saturation_at_altitude(temperature: float, altitude: float) -> Saturation:
    """Oxygen at saturation in a pond somewhere.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.
        altitude: Height above the sea [m], -500 to 5000.

    Returns:
        Concentration at saturation [kg/m3] with its working.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Benson and Krause (1984), see oxygen_saturation; APHA, AWWA and WEF, Standard Methods for
        the Examination of Water and Wastewater, 4500-O G; ICAO Doc 7488, Manual of the ICAO
        Standard Atmosphere.

    Example:
        At 20 °C, 1000 m up:

        >>> round(1000.0 * saturation_at_altitude(293.15, 1000.0).concentration, 2)  # mg/L
        8.04
    """
    air = standard_pressure(altitude)
    full = oxygen_saturation_at_pressure(temperature, air)
    return Saturation(full, temperature, altitude, air)


def fall_aeration(height: float, temperature: float, factor: float) -> float:
    """Share of what is missing from saturation that one fall makes up.

    Args:
        height: Height of the fall [m], 0 to 4.
        temperature: Water temperature [K], 273.15 to 313.15.
        factor: Quality of the water times shape of the fall [-], 0 to 5.

    Returns:
        Share [-], 0 to below 1.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Share = 1 - 1 / r, deficit ratio r = 1 + 0.38 a b h (1 - 0.11 h) (1 + 0.046 t), t in degrees
        Celsius: T. A. Butts, R. L. Evans (1983), as in the documentation of SWAT+, eq. 7:3.5.12.

    Example:
        A fall of half a metre at 20 °C makes up for a fifth of what is missing:

        >>> round(fall_aeration(0.5, 293.15, 0.8), 3)
        0.216
    """
    require_within("height of the fall", height, 0.0, TALLEST_FALL, "width")
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    require_within("aeration factor of the fall", factor, 0.0, 5.0, "-")
    warmth = 1.0 + 0.046 * (temperature - ZERO_CELSIUS)
    ratio = 1.0 + 0.38 * factor * height * (1.0 - 0.11 * height) * warmth
    return 1.0 - 1.0 / ratio


@dataclass(frozen=True, slots=True)
class OxygenSupply:
    """Oxygen that falls and surface bring in while the water holds a wanted amount.

    Attributes:
        supply: All of it [kg/s].
        by_fall: What the fall brings [kg/s].
        by_surface: What the surface brings [kg/s].
        per_flow: What a flow over the fall brings [kg/m3].
        saturation: How much the water can hold.
        wanted: Concentration to keep [kg/m3].
    """

    supply: Span
    by_fall: Span
    by_surface: Span
    per_flow: Span
    saturation: Saturation
    wanted: float

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        full = Term("Cs", "saturation here", self.saturation.concentration, "kg/m3")
        wanted = Term("C", "oxygen to keep", self.wanted, "kg/m3")
        per_flow = Term("ΔC", "gain of the water in one fall", self.per_flow.likely, "kg/m3")
        fall = Term("Mf", "oxygen by the fall", self.by_fall.likely, "kg/s")
        surface = Term("Ms", "oxygen by the surface", self.by_surface.likely, "kg/s")
        total = Term("M", "oxygen supply", self.supply.likely, "kg/s")
        return (
            *self.saturation.steps(),
            Step(per_flow, "ΔC = (1 - 1/r) (Cs - C)", (full, wanted), FALL),
            Step(fall, "Mf = Q ΔC", (per_flow,), TRANSFER),
            Step(surface, "Ms = k A (Cs - C)", (full, wanted), TRANSFER),
            Step(total, "M = Mf + Ms", (fall, surface), TRANSFER),
        )


def oxygen_supply(
    saturation: Saturation,
    wanted: float,
    flow: float,
    fall_height: float,
    fall_factor: Span,
    water_area: float,
    surface_exchange: Span,
) -> OxygenSupply:
    """Oxygen that a fall and the surface bring in at night, when plants bring none.

    Args:
        saturation: How much the water can hold [kg/m3], from saturation_at_altitude.
        wanted: Concentration to keep [kg/m3], 0 to 0.02.
        flow: Flow over the fall [m3/s], 0 to 10.
        fall_height: Height of the fall [m], 0 to 4.
        fall_factor: Quality of the water times shape of the fall [-], 0 to 5.
        water_area: Open surface [m2], 0 to 1e5.
        surface_exchange: Transfer velocity of the surface [m/s], 0 to 0.001.

    Returns:
        Supply [kg/s]; none where the water cannot even hold what is wanted.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Q (C* - C) s + k A (C* - C): two-film gas transfer in proportion to the deficit; the share s
        of the fall by fall_aeration.

    Example:
        2000 L/h over a fall of half a metre into a pond of 10 m², held at 6 mg/L at 20 °C:

        >>> from pondapp.core.stock.span import exactly
        >>> full = saturation_at_altitude(293.15, 0.0)
        >>> found = oxygen_supply(full, 6e-3, 2.0 / 3600, 0.5, exactly(0.8), 10.0, exactly(5e-6))
        >>> round(found.supply.likely * 3600.0 * 1e6)  # mg/h
        1894
    """
    require_within("oxygen to keep", wanted, 0.0, 0.02, "kg/m3")
    require_within("flow over the fall", flow, 0.0, 10.0, "m3/s")
    require_within("open water", water_area, 0.0, 1e5, "m2")
    require_within("exchange at the surface", surface_exchange.high, 0.0, 1e-3, "m/s")
    missing = max(0.0, saturation.concentration - wanted)
    shares = Span(
        *(
            fall_aeration(fall_height, saturation.temperature, factor)
            for factor in (fall_factor.low, fall_factor.likely, fall_factor.high)
        )
    )
    per_flow = shares.times(missing)
    fall = per_flow.times(flow)
    surface = surface_exchange.times(water_area * missing)
    return OxygenSupply(fall.plus(surface), fall, surface, per_flow, saturation, wanted)
