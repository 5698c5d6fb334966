"""What the planner answers: a plan, or conflicts with their resolutions."""

from collections.abc import Mapping
from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.circuit.bounds import bound_steps, least_of_pump
from pondapp.core.circuit.edits import Edit
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand


@dataclass(frozen=True, slots=True)
class FeatureFlow:
    """Flow through one feature.

    Attributes:
        demand: The feature.
        through: Flow through it [m3/s].
        bypass: Flow round it, or over its top [m3/s].
    """

    demand: FlowDemand
    through: float
    bypass: float


@dataclass(frozen=True, slots=True)
class PlannedBranch:
    """Flow in one branch while its pump runs.

    Attributes:
        branch: The branch.
        flow: Flow at its start and at its end [m3/s].
        features: Flow through each feature, in order.
    """

    branch: DemandBranch
    flow: float
    features: tuple[FeatureFlow, ...]


@dataclass(frozen=True, slots=True)
class PlannedPump:
    """Flow of one pump while it runs.

    Attributes:
        pump: The pump.
        flow: Flow that it must deliver [m3/s].
        branches: Flow in each of its branches.
    """

    pump: DemandPump
    flow: float
    branches: tuple[PlannedBranch, ...]


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

    circuit: DemandCircuit
    total: float
    daily_mean: float
    pumps: tuple[PlannedPump, ...]
    reason: Message

    def pump_flow(self, key: str) -> PlannedPump:
        """Flow of the pump of that key [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for pump in self.pumps:
            if pump.pump.key == key:
                return pump
        raise OutOfRange("there is no pump called {name}", name=key)

    def branch_flow(self, key: str) -> PlannedBranch:
        """Flow in the branch of that key [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for branch in self.branches:
            if branch.branch.key == key:
                return branch
        raise OutOfRange("there is no branch called {name}", name=key)

    def feature_flow(self, key: str) -> FeatureFlow:
        """Flow through and round the feature of that key [m3/s].

        Raises:
            OutOfRange: There is none.
        """
        for feature in self.features:
            if feature.demand.key == key:
                return feature
        raise OutOfRange("there is nothing called {name}", name=key)

    @property
    def branches(self) -> tuple[PlannedBranch, ...]:
        """Flow in the branches of all pumps."""
        return tuple(branch for pump in self.pumps for branch in pump.branches)

    @property
    def features(self) -> tuple[FeatureFlow, ...]:
        """Flow through the features on all branches."""
        return tuple(feature for branch in self.branches for feature in branch.features)

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
                for feature in branch.features:
                    if feature.demand.key in branch.branch.bypass:
                        bed = Term(
                            "Qb",
                            phrase("through {name}", name=feature.demand.name),
                            feature.through,
                            "m3/s",
                        )
                        best = Term(
                            "Qo",
                            phrase("good flow for {name}", name=feature.demand.name),
                            feature.demand.target,
                            "m3/s",
                        )
                        past = Term(
                            "Qp",
                            phrase("round {name}", name=feature.demand.name),
                            feature.bypass,
                            "m3/s",
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
class Resolution:
    """One way to resolve a conflict.

    Attributes:
        changes: What to do, each with its numbers; all of them together are needed.
        edits: The same for a circuit or a stored pond to apply, in order.
        circuit: The circuit with the edits applied.
        plan: The plan of that circuit: the proof that the changes are enough.
        effort: About how much work the changes are [h].
    """

    changes: tuple[Message, ...]
    edits: tuple[Edit, ...]
    circuit: DemandCircuit
    plan: Plan
    effort: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.plan.steps()


@dataclass(frozen=True, slots=True)
class Infeasible:
    """No flow is enough for everything.

    Attributes:
        circuit: What was asked.
        conflicts: Which demands exclude each other, each with its numbers; at least one.
        resolutions: What resolves all of them: the least effort first.
        by_branch: The first conflict within each branch that has one, by the branch's key.
    """

    circuit: DemandCircuit
    conflicts: tuple[Message, ...]
    resolutions: tuple[Resolution, ...]
    by_branch: Mapping[str, Message]

    @property
    def message(self) -> Message:
        """The first conflict."""
        return self.conflicts[0]

    def steps(self) -> tuple[Step, ...]:
        """The working: the bounds that exclude each other."""
        return bound_steps(self.circuit)
