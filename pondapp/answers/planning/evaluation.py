"""The plans for the least and for the good flows, side by side: what the difference costs."""

from dataclasses import dataclass

from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.rules.beyond import beyond_power
from pondapp.core.base.messages import Amount, Message
from pondapp.core.hydraulics.energy import costs, power_for
from pondapp.models.circuit import Aim, Line, Pump
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class Running:
    """What it takes to run a plan, from the lowest to the highest estimate."""

    power_low: float
    """Watts [W] while every pump runs."""
    power_high: float
    per_year_low: float
    """Electricity in a year, in the owner's currency."""
    per_year_high: float

    def plus(self, other: "Running") -> "Running":
        """Both together."""
        return Running(
            self.power_low + other.power_low,
            self.power_high + other.power_high,
            self.per_year_low + other.per_year_low,
            self.per_year_high + other.per_year_high,
        )


@dataclass(frozen=True, slots=True)
class Evaluation:
    """The plan that gives everything its least, or everything its good flow."""

    aim: Aim
    plan: PondPlan | PondConflict
    running: Running | None = None
    """None while it can't all work."""
    weak: Message | None = None
    """The chosen pumps cannot do it; then this is the plan for others."""
    by: tuple[Pump | None, ...] = ()
    """The chosen pumps that the watts are of; None for one that is still to be chosen."""
    beyond: Message | None = None
    """A remark where one pump's share of the watts is beyond a garden pond."""

    @property
    def basis(self) -> Message:
        """What the watts rest on."""
        names = ", ".join(pump.name for pump in self.by if pump)
        if not names:
            return Message("By what a usual small pump that fits would draw.")
        if None in self.by:
            return Message(
                "By {pumps}, and a usual small pump where none fits yet.", {"pumps": names}
            )
        return Message("By {pumps}.", {"pumps": names})


@dataclass(frozen=True, slots=True)
class Evaluations:
    """Both plans."""

    least: Evaluation
    good: Evaluation

    @property
    def fixed(self) -> tuple[Message, ...]:
        """Chosen pumps that draw the same for either plan."""
        return tuple(
            Message(
                "{pump} draws its {power} for either, since it cannot be slowed: only a smaller or "
                "an adjustable pump saves the difference.",
                {"pump": pump.name, "power": Amount(pump.power_w, "W")},
            )
            for pump in self.least.by
            if pump and pump.power_w and not pump.adjustable and pump in self.good.by
        )

    @property
    def difference(self) -> Running | None:
        """What good takes more than least, each estimate against the same one."""
        less, more = self.least.running, self.good.running
        if less is None or more is None:
            return None
        return Running(
            more.power_low - less.power_low,
            more.power_high - less.power_high,
            more.per_year_low - less.per_year_low,
            more.per_year_high - less.per_year_high,
        )


def _chosen(line: Line, network: LineNetwork, pond: Pond) -> Running | None:
    """What the chosen pump takes, slowed to the plan if it can be; none where it cannot do it."""
    pump = pump_of(pond, line)
    if pump is None or pump.power_w is None:
        return None
    (answer,) = answers_for(network, [pump])
    if answer.state in ("weak", "unknown") or answer.power is None or answer.per_year is None:
        return None
    return Running(answer.power, answer.power, answer.per_year, answer.per_year)


def _typical(network: LineNetwork) -> Running:
    """What a usual small pump that fits takes, by the rule's span of efficiencies."""
    rules = network.rules.pumps
    head = max(0.0, network.needs.head)
    low, high = (
        power_for(network.needs.flow, head, network.density, share)
        for share in (rules.efficiency_high, rules.efficiency_low)
    )
    year = [
        costs(0.0, power, rules.running_time, rules.tariff, rules.cost_years).per_year
        for power in (low, high)
    ]
    return Running(low, high, year[0], year[1])


def evaluation(worked: WorkedPond, aim: Aim) -> Evaluation:
    """The pond with one aim for everything.

    Raises:
        PondError: The pond's shape or a changed rule cannot be, or a circuit cannot be counted.
    """
    asked, weak = worked.with_aim(aim), None
    plan = asked.plan
    if isinstance(plan, PondConflict):
        weak = plan.conflicts[0]
        asked = asked.without_pumps
        plan = asked.plan
    if isinstance(plan, PondConflict):
        return Evaluation(aim, plan)
    total, by, most = Running(0.0, 0.0, 0.0, 0.0), [], 0.0
    for line in asked.lines:
        if plan.lines[line.id] > 0.0:
            network = asked.network(line, plan.branches)
            chosen, pump = _chosen(line, network, asked.pond), pump_of(asked.pond, line)
            running = chosen or _typical(network)
            total, most = total.plus(running), max(most, running.power_low)
            by.append(pump if chosen else None)
    return Evaluation(aim, plan, total, weak, tuple(by), beyond_power(most, worked.rules))


def evaluations(worked: WorkedPond) -> Evaluations:
    """Both plans of a pond.

    Raises:
        PondError: The pond's shape or a changed rule cannot be, or a circuit cannot be counted.
    """
    return Evaluations(evaluation(worked, "least"), evaluation(worked, "good"))
