"""Choosing a pump with no pond drawn up: three numbers in, an answer out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.features.targets import Target
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.shop import Judge, Way, circuit_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import Step
from pondapp.core.circuit.answer import Infeasible, Plan
from pondapp.core.circuit.edits import AddBranch, AddBypass, MergeBranches, ReplacePump
from pondapp.core.circuit.model import Aim, DemandBranch, DemandCircuit, DemandPump, FlowDemand
from pondapp.core.circuit.planner import plan_circuit
from pondapp.core.filters.bands import whole_pond_band
from pondapp.core.filters.bog import BogSize, bog_size
from pondapp.core.hydraulics.energy import Costs, costs
from pondapp.core.hydraulics.network import OperatingPoint, operating_point
from pondapp.core.hydraulics.odds import Delivery
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import RunLoss, run_loss
from pondapp.core.hydraulics.water import kinematic_viscosity
from pondapp.models.circuit import BogFilter, HighFlowFilter, Lip, WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.words import t

FilterChoice = Literal["bog", "high_flow", "both", "none"]
MOST_WATER = 5e3  # m3; more than that is no home pond and beyond any pump that the core knows
ONE_RUN = "main run"
KEEPING = (AddBypass, AddBranch, MergeBranches, ReplacePump)
"""Edits of one pump's pipes, which leave what is asked for as it is."""


@dataclass(frozen=True, slots=True)
class QuickResolution:
    """One way to settle a conflict, and the flow [m3/s] that the pump then delivers."""

    changes: tuple[Message, ...]
    pump: float


@dataclass(frozen=True, slots=True)
class QuickPond:
    """What one pump must deliver, what each part wants, and where the demands conflict."""

    pump: float
    """Least flow [m3/s] that one pump must deliver at its real head."""
    good: float
    """Flow [m3/s] at which everything is at its best."""
    apart: float
    """Flow [m3/s] where filters and lip have branches of their own, as in the pond to be saved."""
    places: tuple[Target, ...]
    bog: BogSize | None
    bog_heavy: BogSize | None
    """The bog for many or large fish."""
    conflict: Message | None
    resolutions: tuple[QuickResolution, ...]
    plan: Plan
    good_plan: Plan

    def steps(self) -> tuple[Step, ...]:
        """How the least flow was found."""
        return self.plan.steps()

    def good_steps(self) -> tuple[Step, ...]:
        """How the good flow was found."""
        return self.good_plan.steps()


def parts(volume: float, choice: FilterChoice, lip_width: float | None) -> tuple[WaterFeature, ...]:
    """The features that a pond of this volume [m3] would have, in the order of the water."""
    rules = Assumptions().filters
    fed: list[WaterFeature] = []
    if choice in ("bog", "both"):
        bed = bog_size(volume, rules.bog_share, rules.bog_depth).volume
        fed.append(BogFilter(id="bog", name=t("Bog filter"), bed_volume_m3=bed))
    if choice in ("high_flow", "both"):
        fed.append(HighFlowFilter(id="high_flow", name=t("High-flow filter")))
    if lip_width is not None:
        fed.append(Lip(id="lip", name=t("Waterfall lip"), width_m=lip_width))
    return tuple(fed)


def _demand(place: Target, feature: WaterFeature, aim: Aim) -> FlowDemand:
    band, kind = place.band, kind_of(feature)
    return FlowDemand(
        place.place_id, band.low, band.high, band.target, kind.planner, kind.size_of(feature),
        kind.alive, aim, name=place.name,
    )  # fmt: skip


def _keeping_the_demands(found: Infeasible) -> Plan:
    """The plan of least flow among the resolutions that change no demand, else of the first."""
    kept = [one.plan for one in found.resolutions if all(isinstance(e, KEEPING) for e in one.edits)]
    return min(kept, key=lambda plan: plan.total) if kept else found.resolutions[0].plan


def quick_pond(volume: float, choice: FilterChoice, lip_width: float | None) -> QuickPond:
    """What one pump must deliver to a pond of this volume [m3], by the default rules on one run.

    Raises:
        PondError: A number is outside its range.
    """
    rules = Assumptions().filters
    fed = parts(volume, choice, lip_width)
    pond = Pond(id="quick", name="Quick", water=TypedVolume(volume_m3=volume), fed=fed)
    worked = WorkedPond(pond)
    places = worked.targets.places[:-1]
    turnover = whole_pond_band(volume, rules.turnover_whole).target

    def planned(aim: Aim) -> tuple[Plan, Infeasible | None]:
        demands = tuple(
            _demand(place, feature, aim) for place, feature in zip(places, fed, strict=True)
        )
        pump = DemandPump("the pump", (DemandBranch(ONE_RUN, demands),))
        answer = plan_circuit(DemandCircuit((pump,), turnover))
        if isinstance(answer, Infeasible):
            return _keeping_the_demands(answer), answer
        return answer, None

    plan, conflict = planned("least")
    good, conflict_of_good = planned("good")
    conflict = conflict_of_good or conflict
    bog = bog_size(volume, rules.bog_share, rules.bog_depth)
    heavy = bog_size(volume, rules.bog_share_heavy, rules.bog_depth)
    has_bog = choice in ("bog", "both")
    apart = worked.planned
    return QuickPond(
        pump=plan.total,
        good=max(plan.total, good.total),
        apart=max(plan.total, good.total) if apart.conflict else sum(apart.flows.values()),
        places=places,
        bog=bog if has_bog else None,
        bog_heavy=heavy if has_bog else None,
        conflict=conflict.message if conflict else None,
        resolutions=tuple(QuickResolution(w.changes, w.plan.total) for w in conflict.resolutions)
        if conflict
        else (),
        plan=plan,
        good_plan=good,
    )


@dataclass(frozen=True, slots=True)
class QuickPump:
    """What a pump really delivers through a hose up to a height."""

    point: OperatingPoint
    """As likely as not, while it is clean."""
    given: Delivery
    """What it gives until its next cleaning, as far as a label tells."""
    verdicts: tuple[Delivery, ...]
    """How sure it is that it gives each of the flows that were asked for."""
    hose: RunLoss
    costs: Costs | None
    """Energy and its price, where the power is known."""

    def steps(self) -> tuple[Step, ...]:
        """How the flow was found, and the costs."""
        money = self.costs.steps() if self.costs else ()
        return (*self.point.steps(), *self.hose.steps(), *self.given.steps(), *money)

    def remarks(self) -> tuple[Message, ...]:
        """What to doubt or mend."""
        return (*self.hose.warnings, *self.point.warnings)


def quick_pump(
    way: Way,
    max_flow: float,
    max_head: float,
    power: float | None,
    tariff: float | None,
    wanted: Sequence[float] = (),
) -> QuickPump:
    """What a pump of this label [m3/s], [m] delivers on one way, against the flows wanted [m3/s].

    Raises:
        PondError: A number is outside its range, or the pump is too weak for the lift.
    """
    rules = Assumptions()
    plumbing = rules.plumbing
    viscosity = kinematic_viscosity(plumbing.water_temperature)
    circuit = circuit_of(way)
    point = operating_point(LabelCurve(max_head, max_flow), circuit, viscosity)
    money = None
    if power is not None:
        pumps = rules.pumps
        price = pumps.tariff if tariff is None else tariff
        money = costs(0.0, power, pumps.running_time, price, pumps.cost_years)
    run = circuit.branches[0].run
    return QuickPump(
        point=point,
        given=Judge(way, point.flow).of(max_flow, max_head),
        verdicts=tuple(Judge(way, flow).of(max_flow, max_head) for flow in wanted),
        hose=run_loss(run, point.flow, viscosity, plumbing.velocity_max),
        costs=money,
    )


def usual_tariff() -> float:
    """The price of energy [1/J] that counts where none is entered."""
    return Assumptions().pumps.tariff
