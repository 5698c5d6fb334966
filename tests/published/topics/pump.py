"""Pumps: every row of the topic, found by the core or excused."""

from math import pi

import fluids
from rows import FOOT, LITRE_AN_HOUR, US_GALLON, Check, Row

from pondapp.core.assumptions.pumps import KILOWATT_HOUR
from pondapp.core.base.constants import GRAVITY, HOUR
from pondapp.core.hydraulics import energy
from pondapp.core.hydraulics.bores import bore_of
from pondapp.core.hydraulics.fittings import FITTINGS
from pondapp.core.hydraulics.network import (
    OperatingPoint,
    Outlet,
    PipeNetwork,
    operating_point,
    system_head,
)
from pondapp.core.hydraulics.pump_curve import LabelCurve, at_speed, power_at_speed
from pondapp.core.hydraulics.run import Run
from pondapp.core.hydraulics.water import kinematic_viscosity

TOPIC = "5 pump"
GALLON_A_MINUTE = US_GALLON / 60.0  # m3/s
HORSEPOWER = 745.6998715822702  # W


def label(row: Row) -> LabelCurve:
    given = row.numbers()
    return LabelCurve(given["H0"], given["Qmax_m3h"] / HOUR, 2.0)


def quadratic(row: Row) -> OperatingPoint:
    """The system's losses as one fitting: K v² / 2g = k Q²."""
    given, bore = row.numbers(), 0.04
    area = pi * bore**2 / 4.0
    loss = given["k"] * HOUR**2 * 2.0 * GRAVITY * area**2
    circuit = PipeNetwork(None, (Outlet("out", Run(0.0, bore, 0.0, loss), given["Hs"]),))
    return operating_point(label(row), circuit, 1e-6)


def real_hose(row: Row) -> float:
    given = row.numbers()
    bore = given["D"]
    # EPANET's own viscosity where the row names it.
    nu = given.get("viscosity", 1.022e-6) if row.id == 295 else kinematic_viscosity(293.15)
    run = Run(given["L"], bore, given["roughness"] / bore, given["K"])
    circuit = PipeNetwork(None, (Outlet("out", run, given["Hs"]),))
    return operating_point(label(row), circuit, nu).flow * HOUR


def speed(row: Row) -> float:
    return row.numbers()["N2"] / row.numbers()["N1"]


def slow_flow(row: Row) -> float:
    full = LabelCurve(1.0, row.numbers()["Q1"])
    return at_speed(full, speed(row)).most_flow / GALLON_A_MINUTE


def slow_head(row: Row) -> float:
    full = LabelCurve(row.numbers()["H1"], 1.0)
    return at_speed(full, speed(row)).head_at(0.0) / FOOT


def slow_power(row: Row) -> float:
    return power_at_speed(row.numbers()["P1"], speed(row)) / HORSEPOWER


def slow_pressure(row: Row) -> float:
    given, weight = row.numbers(), 1000.0 * GRAVITY  # Pa/m; it drops out
    full = LabelCurve(given["p1"] / weight, 1.0)
    return at_speed(full, given["speed_ratio"]).head_at(0.0) * weight / 1000.0


def crane_7_34(row: Row) -> float:
    given = row.numbers()
    power = energy.power_for(given["Q"], given["H"], given["rho"], given["eff_total"])
    tariff = given["price"] / KILOWATT_HOUR
    return energy.costs(0.0, power, given["hours"] * HOUR, tariff, 1.0).total


def crane_7_15(row: Row) -> float:
    """The worked example says more than the row: the check valve's seat is one size narrower.

    Its losses are multiples of the friction factor of turbulent flow in clean steel.
    """
    given = row.numbers()
    bore, seat = (bore_of("PVC pipe, schedule 40", name) for name in ("3 in", "2 1/2 in"))
    beta = seat / bore
    turbulent = fluids.friction.ft_Crane(bore)
    step = 0.5 * (1.0 - beta**2) + (1.0 - beta**2) ** 2
    check_valve = (600.0 * turbulent + beta * step) / beta**4
    loss = (4 * 30 + 8) * turbulent + check_valve + FITTINGS["outlet"].loss
    steel = Run(given["L"], bore, 0.0022 * 0.0254 / bore, loss)
    circuit = PipeNetwork(None, (Outlet("out", steel, given["H_static"]),))
    return system_head(circuit, given["Q"], kinematic_viscosity(294.26)) / FOOT  # 70 °F


def power(row: Row) -> float:
    given = row.numbers()
    return energy.hydraulic_power(given["Q_L_per_h"] * LITRE_AN_HOUR, given["H"], given["rho"])


def share(row: Row) -> float:
    given = row.numbers()
    # The row does not repeat the density of the row before it.
    flow = given["Q_L_per_h"] * LITRE_AN_HOUR
    return energy.efficiency(flow, given["H"], 998.2, given["P_electric"])


def yearly_energy(row: Row) -> float:
    given = row.numbers()
    return energy.energy_per_year(given["P"], given["hours"] * HOUR) / KILOWATT_HOUR


def yearly_cost(row: Row) -> float:
    given = row.numbers()
    tariff = given["price"] / KILOWATT_HOUR
    return energy.costs(0.0, given["P"], given["hours"] * HOUR, tariff, 1.0).per_year


FORMULAS: dict[int, Check] = {
    291: lambda row: quadratic(row).flow * HOUR,
    292: lambda row: quadratic(row).head,
    293: real_hose,
    295: real_hose,
    296: slow_flow,
    297: slow_head,
    298: slow_power,
    300: slow_pressure,
    302: crane_7_34,
    303: crane_7_15,
    305: power,
    306: share,
    307: yearly_energy,
    308: yearly_cost,
}
NOT_APPLICABLE: dict[int, str] = {
    309: "a range from memory; it is the default of pumps.efficiency_low and efficiency_high",
}
