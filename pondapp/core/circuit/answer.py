"""What the planner answers: a plan, or a conflict with ways out."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.circuit.bounds import bound_steps, least_of_pump
from pondapp.core.circuit.model import Branch, Circuit, Pump, Want


@dataclass(frozen=True, slots=True)
class ThingFlow:
    """Flow through one thing.

    Attributes:
        want: The thing.
        through: Flow through it [m3/s].
        bypass: Flow round it, or over its top [m3/s].
    """

    want: Want
    through: float
    bypass: float


@dataclass(frozen=True, slots=True)
class BranchFlow:
    """Flow in one branch while its pump runs.

    Attributes:
        branch: The branch.
        flow: Flow at its start and at its end [m3/s].
        things: Flow through each thing, in order.
    """

    branch: Branch
    flow: float
    things: tuple[ThingFlow, ...]


@dataclass(frozen=True, slots=True)
class PumpFlow:
    """Flow of one pump while it runs.

    Attributes:
        pump: The pump.
        flow: Flow that it must deliver [m3/s].
        branches: Flow in each of its branches.
    """

    pump: Pump
    flow: float
    branches: tuple[BranchFlow, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The least flow that is enough for everything.

    Attributes:
        circuit: What was asked.
        total: Flow of all pumps while all of them run [m3/s].
        daily_mean: Flow of all pumps as the mean of a day [m3/s]: the least that is possible.
        pumps: Flow of each pump.
        reason: What holds the flow up.
    """

    circuit: Circuit
    total: float
    daily_mean: float
    pumps: tuple[PumpFlow, ...]
    reason: Message

    def pump_flow(self, name: str) -> PumpFlow:
        """Flow of the pump of that name [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for pump in self.pumps:
            if pump.pump.name == name:
                return pump
        raise OutOfRange("there is no pump called {name}", name=name)

    def branch_flow(self, name: str) -> BranchFlow:
        """Flow in the branch of that name [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for pump in self.pumps:
            for branch in pump.branches:
                if branch.branch.name == name:
                    return branch
        raise OutOfRange("there is no branch called {name}", name=name)

    def thing_flow(self, name: str) -> ThingFlow:
        """Flow through and round the thing of that name [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for pump in self.pumps:
            for branch in pump.branches:
                for thing in branch.things:
                    if thing.want.name == name:
                        return thing
        raise OutOfRange("there is nothing called {name}", name=name)

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        steps = list(bound_steps(self.circuit))
        least = [
            Term(
                "d Qmin",
                phrase("least from {name}, mean of a day", name=p.name),
                p.duty * least_of_pump(p),
                "m3/s",
            )
            for p in self.circuit.pumps
        ]
        pond = Term("Qt", "least for the whole pond", self.circuit.turnover, "m3/s")
        mean = Term("Qd", "all pumps, mean of a day", self.daily_mean, "m3/s")
        steps.append(Step(mean, "Qd = max(Qt, sum of d Qmin)", (pond, *least), ARITHMETIC))
        for pump in self.pumps:
            for branch in pump.branches:
                run = Term(
                    "Q", phrase("flow in {name}", name=branch.branch.name), branch.flow, "m3/s"
                )
                for thing in branch.things:
                    if thing.want.name in branch.branch.bypass:
                        bed = Term(
                            "Qb",
                            phrase("through {name}", name=thing.want.name),
                            thing.through,
                            "m3/s",
                        )
                        best = Term(
                            "Qo",
                            phrase("good flow for {name}", name=thing.want.name),
                            thing.want.target,
                            "m3/s",
                        )
                        past = Term(
                            "Qp", phrase("round {name}", name=thing.want.name), thing.bypass, "m3/s"
                        )
                        steps.append(Step(bed, "Qb = min(Q, Qo)", (run, best), ARITHMETIC))
                        steps.append(Step(past, "Qp = Q - Qb", (run, bed), ARITHMETIC))
            parts = tuple(
                Term("Q", phrase("flow in {name}", name=branch.branch.name), branch.flow, "m3/s")
                for branch in pump.branches
            )
            flow = Term("Q", phrase("flow of {name}", name=pump.pump.name), pump.flow, "m3/s")
            steps.append(Step(flow, "sum over the branches", parts, ARITHMETIC))
        return tuple(steps)


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way to settle a conflict.

    Attributes:
        changes: What to do, each with its numbers; all of them together are needed.
        circuit: The circuit with the changes made.
        plan: The plan of that circuit: the proof that the changes are enough.
        effort: About how much work the changes are [h].
    """

    changes: tuple[Message, ...]
    circuit: Circuit
    plan: Plan
    effort: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.plan.steps()


@dataclass(frozen=True, slots=True)
class Conflict:
    """No flow is enough for everything.

    Attributes:
        circuit: What was asked.
        clashes: Which wishes exclude each other, each with its numbers; at least one.
        ways_out: What settles all of them: the least effort first.
    """

    circuit: Circuit
    clashes: tuple[Message, ...]
    ways_out: tuple[WayOut, ...]

    @property
    def message(self) -> Message:
        """The first clash."""
        return self.clashes[0]

    def steps(self) -> tuple[Step, ...]:
        """The working: the bounds that exclude each other."""
        return bound_steps(self.circuit)
