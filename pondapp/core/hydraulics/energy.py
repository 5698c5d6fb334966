"""What moving the water takes: power, energy, money."""

from dataclasses import dataclass

from pondapp.core.base.constants import DAY, GRAVITY
from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import ARITHMETIC, ENTERED, Step, Term

YEAR = 366.0 * DAY
"""The longest year [s]."""


def hydraulic_power(flow: float, head: float, density: float) -> float:
    """Power that reaches the water.

    Args:
        flow: Flow [m3/s], 0 to 10.
        head: Head at the pump [m], 0 to 500.
        density: Density of the water [kg/m3], 900 to 1100.

    Returns:
        Power [W].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        P = ρ g Q H; any textbook of hydraulics.

    Example:
        8000 L/h lifted by 2.5 m:

        >>> round(hydraulic_power(8.0 / 3600, 2.5, 998.2), 2)
        54.38
    """
    require_within("flow", flow, 0.0, 10.0, "m3/s")
    require_within("head", head, 0.0, 500.0, "m")
    require_within("density of the water", density, 900.0, 1100.0, "kg/m3")
    return density * GRAVITY * flow * head


def efficiency(flow: float, head: float, density: float, power: float) -> float:
    """Share of the power from the mains that reaches the water.

    Args:
        flow: Flow [m3/s], 0 to 10.
        head: Head at the pump [m], 0 to 500.
        density: Density of the water [kg/m3], 900 to 1100.
        power: Power from the mains [W], above 0 to 1e6.

    Returns:
        Efficiency from wire to water [-], 0 to 1.

    Raises:
        OutOfRange: A number is outside its range, or more would come out than goes in.

    Source:
        η = ρ g Q H / P (definition).

    Example:
        The same from a pump of 200 W:

        >>> round(efficiency(8.0 / 3600, 2.5, 998.2, 200.0), 3)
        0.272
    """
    require_above("power", power, 0.0, 1e6, "W")
    useful = hydraulic_power(flow, head, density)
    if useful > power:
        raise OutOfRange(
            "the water gets {useful}, more than the pump's {power}: watts, flow or head are wrong",
            useful=Amount(useful, "W"),
            power=Amount(power, "W"),
        )
    return useful / power


def power_for(flow: float, head: float, density: float, efficiency: float) -> float:
    """Power from the mains for a flow at a head.

    Args:
        flow: Flow [m3/s], 0 to 10.
        head: Head at the pump [m], 0 to 500.
        density: Density of the water [kg/m3], 900 to 1100.
        efficiency: Efficiency from wire to water [-], 0.01 to 1.

    Returns:
        Power [W].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        P = ρ g Q H / η (definition).

    Example:
        The same with an efficiency of a quarter:

        >>> round(power_for(8.0 / 3600, 2.5, 998.2, 0.25))
        218
    """
    require_within("efficiency", efficiency, 0.01, 1.0, "-")
    return hydraulic_power(flow, head, density) / efficiency


def energy_per_year(power: float, running_time: float) -> float:
    """Energy that a pump takes in a year.

    Args:
        power: Power from the mains [W], 0 to 1e6.
        running_time: Time it runs in a year [s], 0 to 366 days.

    Returns:
        Energy [J]; 3.6e6 J are 1 kWh.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        E = P t (definition).

    Example:
        200 W all year:

        >>> energy_per_year(200.0, 8760 * 3600.0) / 3.6e6  # kWh
        1752.0
    """
    require_within("power", power, 0.0, 1e6, "W")
    require_within("running time in a year", running_time, 0.0, YEAR, "s")
    return power * running_time


@dataclass(frozen=True, slots=True)
class Costs:
    """What a pump costs. Money is in the owner's own currency.

    Attributes:
        purchase: Price of the pump [-].
        power: Power from the mains [W].
        running_time: Time it runs in a year [s].
        tariff: Price of energy [1/J].
        years: Years counted [-].
    """

    purchase: float
    power: float
    running_time: float
    tariff: float
    years: float

    @property
    def energy_per_year(self) -> float:
        """Energy in a year [J]."""
        return self.power * self.running_time

    @property
    def per_year(self) -> float:
        """Price of a year's energy [-]."""
        return self.energy_per_year * self.tariff

    @property
    def total(self) -> float:
        """Purchase and the energy of all years [-]."""
        return self.purchase + self.years * self.per_year

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        power = Term("P", "power from the mains", self.power, "W")
        time = Term("t", "running time in a year", self.running_time, "s")
        tariff = Term("c", "price of energy", self.tariff, "1/J")
        years = Term("N", "years", self.years, "-")
        price = Term("A", "price of the pump", self.purchase, "-")
        energy = Term("E", "energy in a year", self.energy_per_year, "J")
        yearly = Term("C", "energy costs in a year", self.per_year, "-")
        total = Term("T", "purchase and energy", self.total, "-")
        return (
            Step(energy, "E = P t", (power, time), ARITHMETIC),
            Step(yearly, "C = E c", (energy, tariff), ENTERED),
            Step(total, "T = A + N C", (price, years, yearly), ARITHMETIC),
        )


def costs(purchase: float, power: float, running_time: float, tariff: float, years: float) -> Costs:
    """What a pump costs to buy and to run. Two pumps cost the sum of both.

    Args:
        purchase: Price of the pump in the owner's currency [-], 0 to 1e9.
        power: Power from the mains [W], 0 to 1e6.
        running_time: Time it runs in a year [s], 0 to 366 days.
        tariff: Price of energy in the owner's currency [1/J], 0 to 1; 1/kWh over 3.6e6.
        years: Years to count [-], 0 to 100.

    Returns:
        Energy [J] and costs [-] a year and in all.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        C = C0 + P t k n; no interest, repair or rise of prices.

    Example:
        A pump of 120, its 200 W running all year at 0.30 for a kWh, over five years:

        >>> found = costs(120.0, 200.0, 8760 * 3600.0, 0.30 / 3.6e6, 5.0)
        >>> round(found.total, 2)
        2748.0
    """
    require_within("price of the pump", purchase, 0.0, 1e9, "-")
    energy_per_year(power, running_time)
    require_within("price of energy", tariff, 0.0, 1.0, "1/J")
    require_within("years", years, 0.0, 100.0, "-")
    return Costs(purchase, power, running_time, tariff, years)
