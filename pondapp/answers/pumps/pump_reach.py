"""How much a pump can deliver where it stands: at the lift alone, and with hose and fittings."""

from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import assumed_lift, pump_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.core.hydraulics.network import operating_flow as flow_of
from pondapp.core.hydraulics.pump_curve import (
    LabelCurve,
    PumpCurve,
    curve_through,
    flow_at_no_head,
)
from pondapp.core.hydraulics.solve import root
from pondapp.models.circuit import Line, Pump
from pondapp.models.pond import Pond


def curve_of(pump: Pump) -> PumpCurve | None:
    """The pump's curve, by its points or else by its label; none while too little is known.

    Raises:
        PondError: The points are no curve of a pump; the message says why.
    """
    flow, head = pump.max_flow_m3_s, pump.max_head_m
    if len(pump.points) > 1:
        return curve_through(pump.points, (flow, head) if flow and head else None)
    return LabelCurve(head, flow) if flow and head else None


def most_of(curve: PumpCurve, rules: Assumptions) -> float:
    """What a pump can give at most [m3/s], by its label and how far it may be off that.

    Raises:
        PondError: Its curve is no number somewhere.
    """
    return flow_at_no_head(curve) * (1.0 + rules.pumps.flow_tolerance)


def most_given(pond: Pond, line: Line, rules: Assumptions) -> float | None:
    """What the pump of a line can give at no head [m3/s]; None where nobody knows."""
    pump = pump_of(pond, line)
    try:
        curve = curve_of(pump) if pump else None
        return most_of(curve, rules) if curve else None
    except PondError:  # its own screen says why
        return None


def most_at_lift(pump: Pump, lift: float) -> float | None:
    """Flow [m3/s] beyond which the pump cannot go at this lift [m]; 0 if it cannot lift so high.

    None while too little of the pump is known, or its printed points end before.

    Raises:
        PondError: The points are no curve of a pump; the message says why.
    """
    curve = curve_of(pump)
    if curve is None:
        return pump.max_flow_m3_s
    if curve.head_at(curve.least_flow) <= lift:
        return 0.0
    if curve.head_at(curve.most_flow) > lift:
        return curve.most_flow if curve.estimate else None  # its points end before it does
    return root(lambda flow: curve.head_at(flow) - lift, curve.least_flow, curve.most_flow, 0.0)


def operating_flow(network: LineNetwork, pump: Pump) -> float | None:
    """Flow [m3/s] that a pump delivers on a line with all valves open: lift, hose and fittings.

    Where its printed curve ends before, what it delivers at least; 0 where it cannot lift so high;
    None while too little of the pump is known.

    Args:
        network: The circuit behind the line.
        pump: The pump.

    Raises:
        PondError: The points are no curve of a pump.
    """
    curve = curve_of(pump)
    if curve is None:
        return None
    return flow_of(curve, network.circuit, network.viscosity)


def highest_outlet(pond: Pond, line: Line) -> float:
    """Height [m] of the highest outlet that a line's pump feeds, as entered or assumed."""
    return max(assumed_lift(pond, branch)[0] for branch in line.branches)
