"""What a pond asks of its pumps, in SI: features in order on branches, branches on pumps.

Everything goes by a key that no other of its sort has. Names are for sentences only: two may share
one, and where none is given the key stands for it.
"""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import phrase

LEAST_FLOW = 1e-9  # m3/s; a drop a minute: below this a demand is a slip of the finger
MOST_FLOW = 10.0  # m3/s
MOST_SIZE = 1e6  # m or m3
MOST_OF_PUMP = 1e6  # m3/s; room for a whole day's water in a thousandth of the day

Kind = Literal["bed", "box", "lip", "other"]
Aim = Literal["least", "good"]


def _require_distinct(what: str, named: list[tuple[str, str]]) -> None:
    """No key may stand for two of a sort."""
    keys = [key for key, _ in named]
    for key, name in named:
        if keys.count(key) > 1:
            raise OutOfRange(
                "two {what} are called {name}: give one of them another name", what=what, name=name
            )


@dataclass(frozen=True, slots=True)
class FlowDemand:
    """One feature that water passes, and the flow it demands.

    Attributes:
        key: What it goes by; no other feature of the circuit has this key.
        low: Least flow [m3/s] that is sufficient, 0 to 10.
        high: Most flow [m3/s], from the target to 10; None where more does no harm.
        target: Good flow [m3/s], from the least flow and 1e-9 to 10.
        kind: A bed has a top to flow over, a box is passed by a pipe, a lip has a width.
        size: Volume of a bed [m3] or width of a lip [m], above 0 to 1e6: the wanted flows grow
            in proportion to it. None where it is not known or the flows do not depend on it.
        all_day: Whether it needs water round the clock, as everything does that bacteria live in.
        aim: Whether its owner asks for its good flow or is content with its least.
        least_size: Size [m3] or [m] below which it is no use to build it, from 0.
        most_size: Size [m3] or [m] above which it does not fit, to 1e6.
        name: What sentences call it; its key where none is given.
    """

    key: str
    low: float
    high: float | None
    target: float
    kind: Kind = "other"
    size: float | None = None
    all_day: bool = False
    aim: Aim = "least"
    least_size: float = 0.0
    most_size: float = MOST_SIZE
    name: str = ""

    @property
    def asked(self) -> float:
        """The flow that it is to have at least by its aim [m3/s]."""
        return self.target if self.aim == "good" else self.low

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.name or self.key)
        require_within(
            phrase("good flow of {name}", name=self.name),
            self.target,
            LEAST_FLOW,
            MOST_FLOW,
            "m3/s",
        )
        require_within(
            phrase("least flow of {name}", name=self.name), self.low, 0.0, self.target, "m3/s"
        )
        if self.high is not None:
            require_within(
                phrase("most flow of {name}", name=self.name),
                self.high,
                self.target,
                MOST_FLOW,
                "m3/s",
            )
        if self.size is not None:
            unit = "width" if self.kind == "lip" else "m3"
            require_above(phrase("size of {name}", name=self.name), self.size, 0.0, MOST_SIZE, unit)


@dataclass(frozen=True, slots=True)
class DemandBranch:
    """Features in order on one run of pipe; without any, the water returns straight to the pond.

    Attributes:
        key: What it goes by; no other branch of the circuit has this key.
        demands: The features in the order in which the water meets them.
        bypass: Keys of those with a way round: they take their good flow, or all the water if
            there is less, and the rest joins again behind them.
        name: What sentences call it; its key where none is given.
    """

    key: str
    demands: tuple[FlowDemand, ...]
    bypass: tuple[str, ...] = ()
    name: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.name or self.key)
        here = {demand.key for demand in self.demands}
        for key in self.bypass:
            if key not in here:
                raise OutOfRange(
                    "{branch} has a bypass round {name}, which is not on it",
                    branch=self.name,
                    name=key,
                )


@dataclass(frozen=True, slots=True)
class DemandPump:
    """A pump and the branches it feeds.

    Attributes:
        key: What it goes by; no other pump of the circuit has this key.
        branches: At least one.
        most: Most that it delivers at its place in the circuit [m3/s], 1e-9 to 1e6; None
            while no pump has been chosen.
        duty: Share of the day that it runs [-], 0.001 to 1; below 1 it is on a timer.
        name: What sentences call it; its key where none is given.
    """

    key: str
    branches: tuple[DemandBranch, ...]
    most: float | None = None
    duty: float = 1.0
    name: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.name or self.key)
        require_within(
            phrase("share of the day that {name} runs", name=self.name), self.duty, 0.001, 1.0, "-"
        )
        if self.most is not None:
            require_within(
                phrase("most flow of {name}", name=self.name),
                self.most,
                LEAST_FLOW,
                MOST_OF_PUMP,
                "m3/s",
            )
        if not self.branches:
            raise OutOfRange("{pump} feeds no branch", pump=self.name)


@dataclass(frozen=True, slots=True)
class DemandCircuit:
    """All pumps of a pond.

    Attributes:
        pumps: At least one.
        turnover: Least flow through all pumps together, as the mean of a day [m3/s], 0 to 10:
            the demand of the whole pond.
    """

    pumps: tuple[DemandPump, ...]
    turnover: float = 0.0

    def __post_init__(self) -> None:
        require_within("least flow for the whole pond", self.turnover, 0.0, MOST_FLOW, "m3/s")
        if not self.pumps:
            raise OutOfRange("the water path has no pump")
        _require_distinct("pumps", [(pump.key, pump.name) for pump in self.pumps])
        _require_distinct("branches", [(branch.key, branch.name) for branch in self.branches])
        _require_distinct("things", [(demand.key, demand.name) for demand in self.demands])

    @property
    def branches(self) -> tuple[DemandBranch, ...]:
        """The branches of all pumps."""
        return tuple(branch for pump in self.pumps for branch in pump.branches)

    @property
    def demands(self) -> tuple[FlowDemand, ...]:
        """The features on all branches."""
        return tuple(demand for branch in self.branches for demand in branch.demands)
