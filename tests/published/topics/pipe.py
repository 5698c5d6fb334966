"""Pipes and hoses: every row of the topic, found by the core or excused."""

from math import pi

from rows import LITRE_AN_HOUR, Check, Row, kelvin

from pondapp.core.assumptions.plumbing import PlumbingAssumptions
from pondapp.core.hydraulics import fittings
from pondapp.core.hydraulics.bores import bore_of
from pondapp.core.hydraulics.friction import friction_factor
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point, system_head
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run, RunLoss, run_loss, velocity_in
from pondapp.core.hydraulics.valves import VALVES
from pondapp.core.hydraulics.water import density, dynamic_viscosity, kinematic_viscosity

TOPIC = "4 pipe"
MILLI = 1000.0
G_PRINTED = 9.80665 / 9.81  # for the row that was worked with 9.81


def milli_viscosity(row: Row) -> float:
    return MILLI * dynamic_viscosity(kelvin(row))


def friction(row: Row) -> float:
    given = row.numbers()
    return friction_factor(given["Re"], given.get("eD", 0.0))


def crane_7_1(row: Row) -> float:
    given = row.numbers()
    speed = velocity_in(given["D"], given["Q"])
    return friction_factor(speed * given["D"] / kinematic_viscosity(kelvin(row)), 0.0)


def hose(row: Row) -> RunLoss:
    given = row.numbers()
    run = Run(given["L"], given["D"], given["roughness"] / given["D"])
    flow = given["Q_L_per_h"] * LITRE_AN_HOUR
    return run_loss(run, flow, kinematic_viscosity(kelvin(row)), 5.0)


def bore(series: str) -> Check:
    def check(row: Row) -> float:
        size = row.inputs.partition("=")[2].replace("-", " ")
        return MILLI * bore_of(series, size)

    return check


def outside(row: Row) -> float:
    size = row.inputs.partition("=")[2].partition(";")[0]
    return MILLI * bore_of("PVC pressure pipe, mm outside", size)


def part(key: str) -> Check:
    return lambda _: fittings.FITTINGS[key].loss


def valve(kind: str, opening: float) -> Check:
    return lambda _: dict(VALVES[kind][0])[opening]


def valve_head(row: Row) -> float:
    given = row.numbers()
    run = Run(0.0, 0.05, 0.0, given["K"])
    return run_loss(run, given["v"] * pi * 0.05**2 / 4.0, 1e-6, 5.0).fittings


def three_pipes(row: Row) -> tuple[PipeNetwork, float]:
    """Pipes whose friction factor is given: their wall counts as one fitting."""
    given = row.numbers()
    pipes = tuple(
        Outlet(name, Run(0.0, float(name), 0.0, given["f"] * given["L"] / float(name)), 0.0)
        for name in row.given()["D"].split("|")
    )
    circuit = PipeNetwork(None, pipes)
    return circuit, system_head(circuit, given["Q"], 1e-6)


def flow_share(row: Row) -> float:
    circuit, head = three_pipes(row)
    # A pump that makes this head at the given flow; its shape does not matter.
    curve = LabelCurve(2.0 * head, 2.0**0.5 * row.numbers()["Q"], 2.0)
    return operating_point(curve, circuit, 1e-6).flow_in("0.25")


def two_branches(row: Row) -> float:
    total = row.numbers()["Q_L_per_h"] * LITRE_AN_HOUR
    nu = kinematic_viscosity(293.15)
    circuit = PipeNetwork(
        None,
        (
            Outlet("1", Run(6.0, 0.040, 1.5e-6 / 0.040, 3.0), 0.0),
            Outlet("2", Run(4.0, 0.032, 1.5e-6 / 0.032, 5.0), 0.0),
        ),
    )
    curve = LabelCurve(2.0 * system_head(circuit, total, nu), 2.0**0.5 * total, 2.0)
    return operating_point(curve, circuit, nu).flow_in("1") / LITRE_AN_HOUR


SCHEDULE = bore("PVC pipe, schedule 40")
FORMULAS: dict[int, Check] = {
    **dict.fromkeys((119, 122, 125, 128, 134), lambda row: density(kelvin(row))),
    **dict.fromkeys((120, 129, 132, 135, 138), lambda row: dynamic_viscosity(kelvin(row))),
    **dict.fromkeys(
        (121, 124, 127, 130, 133, 136, 139), lambda row: kinematic_viscosity(kelvin(row))
    ),
    **dict.fromkeys((140, 142, 144, 146, 148, 152), lambda row: density(kelvin(row))),
    **dict.fromkeys((141, 143, 145, 147, 151, 153, 154, 155, 156), milli_viscosity),
    **dict.fromkeys((158, 159, 160, 165, 167, 172, 173, 178), friction),
    **dict.fromkeys((181, 182, 183, 184, 185, 186), friction),
    188: crane_7_1,
    233: valve_head,
    **dict.fromkeys((253, 257, 261, 265), lambda row: hose(row).velocity),
    **dict.fromkeys((254, 258, 262), lambda row: hose(row).reynolds),
    **dict.fromkeys((255, 259, 267, 271, 273), lambda row: hose(row).total),
    277: flow_share,
    279: lambda row: three_pipes(row)[1] * G_PRINTED,
    280: two_branches,
}

TABLES: dict[int, Check] = {
    **dict.fromkeys((192, 193, 194, 195, 197, 198, 200, 201), SCHEDULE),
    207: valve("ball", 1.0),
    208: valve("ball", 2 / 3),
    209: valve("ball", 1 / 3),
    210: valve("gate", 1.0),
    211: valve("gate", 0.75),
    212: valve("gate", 0.5),
    215: part("tee_branch_threaded"),
    216: part("elbow_90_flanged"),
    217: part("tee_through"),
    218: part("tee_branch"),
    220: part("elbow_90_threaded"),
    221: part("elbow_90_threaded_long"),
    223: part("check_valve"),
    224: valve("gate, handbook", 0.75),
    226: valve("gate, handbook", 0.25),
    227: part("elbow_90"),
    228: part("elbow_90_long"),
    229: part("elbow_45"),
    1001: valve("gate", 0.25),
    1002: part("globe_valve"),
    1003: part("tee_through_threaded"),
    1004: part("elbow_45_threaded"),
    1005: part("check_valve_disc"),
    1006: part("coupling"),
    1007: part("union_threaded"),
    1008: part("meter"),
    1009: part("strainer"),
    1010: part("wye_through"),
    1011: part("wye_branch"),
    1012: part("foot_valve"),
    1013: part("foot_valve_disc"),
    1014: part("hose_tail"),
    1015: part("reducer"),
    1016: part("widening"),
    **dict.fromkeys(range(1017, 1021), outside),
    **dict.fromkeys((236, 239, 240), part("inlet")),
    241: part("outlet"),
    **dict.fromkeys((285, 286, 287, 289), bore("hose, in")),
    290: lambda _: PlumbingAssumptions().velocity_max,
}

APPROXIMATION = "an explicit approximation; the core solves Colebrook's equation itself"
TRANSITION = "Churchill's bridge from laminar to turbulent; the core has its own, see friction"
FITTING = "found by a formula of its own; the app has a table of fittings and does not compute this"
HAZEN = "Hazen and Williams; the core uses Darcy and Weisbach alone"
OUTSIDE = "an outside diameter; the core keeps bores"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((161, 162, 163, 168, 170, 171, 174, 175, 176), APPROXIMATION),
    179: TRANSITION,
    **dict.fromkeys((190, 234, 235, 242, 243, *range(245, 253)), FITTING),
    **dict.fromkeys((203, 204, 205, 206), OUTSIDE),
    **dict.fromkeys((264, 268, 272, 284), HAZEN),
}
