"""A line with its pump: the curve, and a circuit in which what rests behind a valve is shut."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from pondapp.answers.plumbing.network import LineNetwork, doubt_of
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.tuning.flow_sets import BranchPlace
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount, Message
from pondapp.core.calibration.learned import learned_curve
from pondapp.core.hydraulics.network import PipeNetwork
from pondapp.core.hydraulics.odds import bounds_as_new
from pondapp.core.hydraulics.pump_curve import PumpCurve
from pondapp.models.circuit import Line


@dataclass(frozen=True, slots=True)
class Pumped:
    """A pump's curve as new, and the circuit behind it with every valve that is used wide open."""

    curve: PumpCurve
    network: LineNetwork
    circuit: PipeNetwork
    adjustable: bool

    @property
    def viscosity(self) -> float:
        """Kinematic viscosity of the water [m2/s]."""
        return self.network.viscosity

    def names(self, keys: Iterable[str]) -> str:
        """What to call the branches of these ids."""
        called = {counted.key: counted.name for counted in self.network.branches}
        return ", ".join(called[key] for key in keys)

    def as_new(self) -> tuple[float, float]:
        """Least and most flow [m3/s] that it may give as new, by all that is known of it.

        Raises:
            PondError: A rule is out of range, or every valve is shut.
        """
        doubt, rules = doubt_of(self.network), self.network.rules.pumps
        return bounds_as_new(self.curve, self.circuit, doubt, self.viscosity, rules)

    @property
    def assumed(self) -> bool:
        """Whether lift or hose of a branch is only assumed."""
        return any(counted.assumed or counted.lift_assumed for counted in self.network.branches)

    def doubts(self) -> tuple[Message, ...]:
        """What is guessed about pump and hoses."""
        doubts: list[Message] = []
        if self.curve.estimate:
            doubts.append(Message("The pump's curve is estimated from its label."))
        if self.adjustable:
            doubts.append(Message("What it should give is at full speed."))
        assumed = [counted.name for counted in self.network.branches if counted.assumed]
        if assumed:
            doubts.append(
                Message(
                    "No hose is entered for {names}: one is assumed.",
                    {"names": ", ".join(assumed)},
                )
            )
        guessed = [counted for counted in self.network.branches if counted.lift_assumed]
        doubts += [
            Message(
                "{branch}: assuming {lift} of lift",
                {"branch": counted.name, "lift": Amount(counted.lift, "m")},
            )
            for counted in guessed
        ]
        return tuple(doubts)


def pumped(worked: WorkedPond, line: Line, places: Sequence[BranchPlace]) -> Pumped:
    """A line with its pump.

    Args:
        worked: The pond.
        line: One of its lines.
        places: Its branches that are to carry water.

    Raises:
        PondError: No pump is chosen, or the circuit cannot be counted.
    """
    pump = pump_of(worked.pond, line)
    if pump is None:
        raise NoSolution("choose a pump first, and this can be worked out")
    network = worked.network(line, worked.planned.flows)
    wet = {place.branch.id for place in places}
    outlets = []
    for branch, outlet in zip(line.branches, network.circuit.branches, strict=True):
        shut = branch.id not in wet and branch.valve != "none"
        outlets.append(replace(outlet, closed=shut))
    circuit = replace(network.circuit, branches=tuple(outlets))
    curve = learned_curve(curve_of(pump), worked.learned_of(line))
    return Pumped(curve, network, circuit, pump.adjustable)
