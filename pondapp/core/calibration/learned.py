"""What was learned of a circuit, as a value that others put in place of what was entered."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pondapp.core.hydraulics.network import PipeNetwork
from pondapp.core.hydraulics.odds import MAIN
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, ScaledCurve
from pondapp.core.hydraulics.run import Run

LEAST_BEND, MOST_BEND = 0.5, 4.0


@dataclass(frozen=True, slots=True)
class Learned:
    """How a circuit differs from what was entered; as made, it does not.

    Attributes:
        losses: Times the loss that was worked out for a run [-], by the end's key or MAIN.
        lifts: Height of an end over what was entered [m], by its key.
        valves: Loss coefficient of a valve as it stands [-], by the end's key.
        flow: Times the flow of the pump's curve [-].
        head: Times the head of the pump's curve [-].
        bend: Bend of a curve that is known by its label only [-]; None as usual.
    """

    losses: Mapping[str, float] = field(default_factory=dict)
    lifts: Mapping[str, float] = field(default_factory=dict)
    valves: Mapping[str, float] = field(default_factory=dict)
    flow: float = 1.0
    head: float = 1.0
    bend: float | None = None


NOTHING = Learned()


def scaled_run(run: Run, times: float) -> Run:
    """A run that loses so many times as much.

    Args:
        run: The run.
        times: Times its loss [-], 0.001 to 1000.

    Returns:
        The run with a length [m] and fittings [-] that lose so much.

    Raises:
        OutOfRange: The length would be outside its range.

    Source:
        Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g, in which f depends on neither L nor K.

    Example:
        >>> scaled_run(Run(4.0, 0.040, 4e-5, 3.0), 1.5).length
        6.0
    """
    return run if times == 1.0 else replace(
        run, length=run.length * times, fittings=run.fittings * times
    )  # fmt: skip


def learned_circuit(circuit: PipeNetwork, learned: Learned, *, standing: bool) -> PipeNetwork:
    """A circuit as it was learned to be.

    Args:
        circuit: As entered.
        learned: How it differs.
        standing: Whether the valves stand as learned; else as they do in the circuit.

    Returns:
        The circuit with other losses [-] and lifts [m].

    Raises:
        OutOfRange: A number would be outside its range.

    Source:
        Definition.

    Example:
        >>> from pondapp.core.hydraulics.network import Outlet
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> found = learned_circuit(circuit, Learned(lifts={"fall": 0.1}), standing=False)
        >>> found.branches[0].lift
        1.1
    """
    if learned == NOTHING:
        return circuit
    main = circuit.main and scaled_run(circuit.main, learned.losses.get(MAIN, 1.0))
    ends = []
    for end in circuit.branches:
        valve = learned.valves.get(end.key, end.valve) if standing else end.valve
        ends.append(
            replace(
                end,
                run=scaled_run(end.run, learned.losses.get(end.key, 1.0)),
                lift=end.lift + learned.lifts.get(end.key, 0.0),
                valve=valve,
            )
        )
    return PipeNetwork(main, tuple(ends))


def learned_curve(curve: PumpCurve, learned: Learned) -> PumpCurve:
    """A pump's curve as it was learned to be.

    Args:
        curve: By its label or its printed points.
        learned: How it differs.

    Returns:
        Head [m] over flow [m3/s].

    Raises:
        OutOfRange: The bend is outside its range.

    Source:
        H = h H0(Q / q), with the factors q and h that were learned (definition).

    Example:
        >>> learned_curve(LabelCurve(4.0, 2e-3), Learned(head=0.9)).head_at(0.0)
        3.6
    """
    if learned.bend is not None and isinstance(curve, LabelCurve):
        curve = replace(curve, bend=learned.bend)
    if learned.flow == learned.head == 1.0:
        return curve
    return ScaledCurve(curve, learned.flow, learned.head)
