"""Which wishes of a circuit exclude each other."""

from dataclasses import dataclass

from pondapp.core.base.constants import DAY
from pondapp.core.base.messages import Amount, Message
from pondapp.core.circuit.bounds import (
    exceeds,
    least_of_pump,
    most_of_day,
    thirstiest,
    tightest,
)
from pondapp.core.circuit.model import Branch, Circuit, Pump, Want


@dataclass(frozen=True, slots=True)
class OrderClash:
    """Two things in order on one branch: one wants more than the other stands."""

    pump: Pump
    branch: Branch
    thirsty: Want
    tight: Want

    @property
    def message(self) -> Message:
        """The clash in words."""
        asks = {
            "least": "on the branch {branch}, {thirsty} needs at least {low} and {tight} can take "
            "at most {high}",
            "good": "on the branch {branch}, {thirsty} needs {low} for its good flow and {tight} "
            "can take at most {high}",
        }
        return Message(
            asks[self.thirsty.aim],
            {
                "branch": self.branch.name,
                "thirsty": self.thirsty.name,
                "low": Amount(self.thirsty.asked, "m3/s"),
                "tight": self.tight.name,
                "high": Amount(self.tight.high or 0.0, "m3/s"),
            },
        )


@dataclass(frozen=True, slots=True)
class TimerClash:
    """A thing that needs water round the clock hangs on a pump with a timer."""

    pump: Pump
    branch: Branch
    want: Want

    @property
    def message(self) -> Message:
        """The clash in words."""
        return Message(
            "{want} needs water round the clock, and {pump} runs only {duty} of the day",
            {
                "want": self.want.name,
                "pump": self.pump.name,
                "duty": Amount(self.pump.duty * DAY, "s"),
            },
        )


@dataclass(frozen=True, slots=True)
class PumpClash:
    """The branches of a pump want more than it delivers."""

    pump: Pump
    most: float

    @property
    def message(self) -> Message:
        """The clash in words."""
        return Message(
            "what {pump} feeds needs at least {low}, and it delivers at most {most}",
            {
                "pump": self.pump.name,
                "low": Amount(least_of_pump(self.pump), "m3/s"),
                "most": Amount(self.most, "m3/s"),
            },
        )


@dataclass(frozen=True, slots=True)
class TurnoverClash:
    """The pond wants more than everything in it stands or the pumps deliver."""

    reach: float
    turnover: float

    @property
    def message(self) -> Message:
        """The clash in words."""
        return Message(
            "the whole pond asks for {turnover}, and no more than {most} can pass without "
            "flooding something or asking too much of a pump",
            {
                "turnover": Amount(self.turnover, "m3/s"),
                "most": Amount(self.reach, "m3/s"),
            },
        )


Clash = OrderClash | TimerClash | PumpClash | TurnoverClash


def find_clashes(circuit: Circuit) -> tuple[Clash, ...]:
    """The wishes that exclude each other.

    First within branches and timers; where these agree, at the pumps; where these agree too, of
    the whole pond: a sum has no meaning before its parts are settled.

    Args:
        circuit: The circuit [any].

    Returns:
        The clashes [any]; none if a plan exists.

    Source:
        Arithmetic: intervals that do not meet.
    """
    found: list[Clash] = []
    for pump in circuit.pumps:
        for branch in pump.branches:
            thirsty, tight = thirstiest(branch), tightest(branch)
            if thirsty and tight and exceeds(thirsty.asked, tight.high):
                found.append(OrderClash(pump, branch, thirsty, tight))
            if pump.duty < 1.0:
                found += [TimerClash(pump, branch, want) for want in branch.wants if want.all_day]
    if not found:
        found += [
            PumpClash(pump, pump.most)
            for pump in circuit.pumps
            if pump.most is not None and exceeds(least_of_pump(pump), pump.most)
        ]
    reach = most_of_day(circuit)
    if not found and reach is not None and exceeds(circuit.turnover, reach):
        found.append(TurnoverClash(reach, circuit.turnover))
    return tuple(found)
