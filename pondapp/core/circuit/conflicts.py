"""Which demands of a circuit exclude each other."""

from dataclasses import dataclass

from pondapp.core.base.constants import DAY
from pondapp.core.base.messages import Amount, Message
from pondapp.core.circuit.bounds import (
    exceeds,
    least_of_pump,
    most_demanding,
    most_of_day,
    most_restrictive,
)
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand


@dataclass(frozen=True, slots=True)
class OrderConflict:
    """Two features in order on one branch: one demands more than the other stands."""

    pump: DemandPump
    branch: DemandBranch
    demanding: FlowDemand
    restrictive: FlowDemand

    @property
    def message(self) -> Message:
        """The conflict in words."""
        asks = {
            "least": "on the branch {branch}, {thirsty} needs at least {low} and {tight} can take "
            "at most {high}",
            "good": "on the branch {branch}, {thirsty} needs {low} for its good flow and {tight} "
            "can take at most {high}",
        }
        return Message(
            asks[self.demanding.aim],
            {
                "branch": self.branch.name,
                "thirsty": self.demanding.name,
                "low": Amount(self.demanding.asked, "m3/s"),
                "tight": self.restrictive.name,
                "high": Amount(self.restrictive.high or 0.0, "m3/s"),
            },
        )


@dataclass(frozen=True, slots=True)
class TimerConflict:
    """A feature that needs water round the clock hangs on a pump with a timer."""

    pump: DemandPump
    branch: DemandBranch
    demand: FlowDemand

    @property
    def message(self) -> Message:
        """The conflict in words."""
        duty = Amount(self.pump.duty * DAY, "s")
        return self.told(self.demand.name, self.pump.name, duty)

    @staticmethod
    def told(want: str, pump: str, duty: Amount) -> Message:
        """The conflict in words, by names and the time [s] that the pump runs in a day."""
        return Message(
            "{want} needs water round the clock, and {pump} runs only {duty} of the day",
            {"want": want, "pump": pump, "duty": duty},
        )


@dataclass(frozen=True, slots=True)
class PumpConflict:
    """The branches of a pump demand more than it delivers."""

    pump: DemandPump
    most: float

    @property
    def message(self) -> Message:
        """The conflict in words."""
        return Message(
            "what {pump} feeds needs at least {low}, and by its label it delivers about {most} at "
            "this lift, before hoses take their share",
            {
                "pump": self.pump.name,
                "low": Amount(least_of_pump(self.pump), "m3/s"),
                "most": Amount(self.most, "m3/s"),
            },
        )


@dataclass(frozen=True, slots=True)
class TurnoverConflict:
    """The pond demands more than everything in it stands or the pumps deliver."""

    most: float
    turnover: float

    @property
    def message(self) -> Message:
        """The conflict in words."""
        return Message(
            "the whole pond asks for {turnover}, and no more than {most} can pass without "
            "flooding something or asking too much of a pump",
            {
                "turnover": Amount(self.turnover, "m3/s"),
                "most": Amount(self.most, "m3/s"),
            },
        )


Conflict = OrderConflict | TimerConflict | PumpConflict | TurnoverConflict


def find_conflicts(circuit: DemandCircuit) -> tuple[Conflict, ...]:
    """The demands that exclude each other.

    First within branches and timers; where these agree, at the pumps; where these agree too, of
    the whole pond: a sum has no meaning before its parts agree.

    Args:
        circuit: The circuit.

    Returns:
        The conflicts; none if a plan exists.

    Source:
        Arithmetic: intervals that do not meet.
    """
    found: list[Conflict] = []
    for pump in circuit.pumps:
        for branch in pump.branches:
            demanding, restrictive = most_demanding(branch), most_restrictive(branch)
            if demanding and restrictive and exceeds(demanding.asked, restrictive.high):
                found.append(OrderConflict(pump, branch, demanding, restrictive))
            if pump.duty < 1.0:
                found += [
                    TimerConflict(pump, branch, demand)
                    for demand in branch.demands
                    if demand.all_day
                ]
    if not found:
        found += [
            PumpConflict(pump, pump.most)
            for pump in circuit.pumps
            if pump.most is not None and exceeds(least_of_pump(pump), pump.most)
        ]
    most = most_of_day(circuit)
    if not found and most is not None and exceeds(circuit.turnover, most):
        found.append(TurnoverConflict(most, circuit.turnover))
    return tuple(found)
