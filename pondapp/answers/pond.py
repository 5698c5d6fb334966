"""One pond as it stands now, and what follows from it, each worked out once and only if asked for.

Answers take it, so that all that is asked about one pond rests on the same plan. A changed pond is
another one: nothing here is ever brought up to date. Logs and the time of now are no part of it;
answers that need them take them besides.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from pondapp.answers.features.targets import Targets, targets, with_aim
from pondapp.answers.planning.on_branch import on_branches
from pondapp.answers.planning.plan import PondConflict, PondPlan, plan_of, wanted
from pondapp.answers.planning.planned import Planned, planned_flows, without_pumps
from pondapp.answers.plumbing.network import LineNetwork, network_of
from pondapp.answers.plumbing.path import Names, lines_of, names_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.calibration.learned import NOTHING, Learned
from pondapp.models.circuit import Aim, Line
from pondapp.models.pond import Pond


@dataclass(frozen=True, eq=False)
class WorkedPond:
    """A pond, and what is worked out of it: as entered, or as its readings say that it is.

    Each property raises a PondError where the pond's shape or a changed rule cannot be, or where
    its circuit cannot be counted; the message says why.
    """

    pond: Pond
    learned: Mapping[str, Learned] = field(default_factory=dict)
    """How the circuit behind each pump differs from what was entered, by the line's id."""
    _networks: dict[tuple[str, tuple[float, ...]], LineNetwork] = field(
        default_factory=dict, repr=False
    )
    _aimed: dict[Aim | None, "WorkedPond"] = field(default_factory=dict, repr=False)

    @cached_property
    def rules(self) -> Assumptions:
        """The rules in force for it."""
        return Assumptions().with_overrides(self.pond.assumptions)

    @cached_property
    def targets(self) -> Targets:
        """Its volume, and what each place wants by rules or by its owner's band."""
        return targets(self.pond)

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        """Its lines, or the one to assume while none is drawn."""
        return lines_of(self.pond)

    @cached_property
    def names(self) -> Names:
        """Distinct names for everything on the water path."""
        return names_of(self.pond)

    @cached_property
    def plan(self) -> PondPlan | PondConflict:
        """The least flow that gives each place what was chosen for it, or the conflict."""
        return plan_of(self.pond, self.targets, self.network)

    @cached_property
    def planned(self) -> Planned:
        """The flow that each branch is planned to carry, also while not all can work."""
        return planned_flows(self.lines, self.targets, self.plan, lambda: self.without_pumps.plan)

    @cached_property
    def wanted(self) -> Targets:
        """What is wanted at each place and of each pump; good is what the plan gives.

        It is the same wherever all the water of one branch passes.
        Of a pump that cannot do it, what another must deliver, as `planned` has it.
        """
        alone = wanted(self.pond, self.targets, self._plan_to_go_by, self._least_of_lines)
        flows, names = self.planned.flows, self.names.branches
        return on_branches(alone, self.targets, self.lines, flows, names)

    @property
    def _plan_to_go_by(self) -> PondPlan | PondConflict:
        return self.without_pumps.plan if isinstance(self.plan, PondConflict) else self.plan

    @property
    def _least_of_lines(self) -> Mapping[str, float]:
        """The least flow of each pump with which nothing that it feeds has too little [m3/s]."""
        least = self.with_aim("least")._plan_to_go_by
        return {} if isinstance(least, PondConflict) else least.lines

    @cached_property
    def without_pumps(self) -> "WorkedPond":
        """The same pond with every pump still to be chosen."""
        return self._changed(without_pumps(self.pond))

    def with_aim(self, aim: Aim | None) -> "WorkedPond":
        """The same pond with one aim for everything."""
        if aim not in self._aimed:
            self._aimed[aim] = self._changed(with_aim(self.pond, aim))
        return self._aimed[aim]

    def network(self, line: Line, flows: Mapping[str, float]) -> LineNetwork:
        """The circuit behind one of its lines at these flows [m3/s], by branch id.

        Raises:
            PondError: No flow is planned, or the circuit cannot be counted.
        """
        learned = self.learned_of(line)
        if line not in self.lines:  # a change that is only tried
            return network_of(self.pond, line, flows, learned)
        key = line.id, tuple(flows[branch.id] for branch in line.branches)
        if key not in self._networks:
            self._networks[key] = network_of(self.pond, line, flows, learned)
        return self._networks[key]

    def learned_of(self, line: Line) -> Learned:
        """How a line differs from what was entered."""
        return self.learned.get(line.id, NOTHING)

    def _changed(self, pond: Pond) -> "WorkedPond":
        return self if pond == self.pond else WorkedPond(pond, self.learned)
