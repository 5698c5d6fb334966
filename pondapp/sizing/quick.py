"""Sizing with no pond drawn up: three numbers in, an answer out."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions import Assumptions
from pondapp.core.circuit.answer import Conflict, Plan
from pondapp.core.circuit.model import Branch, Circuit, Pump, Want
from pondapp.core.circuit.model import Kind as WantKind
from pondapp.core.circuit.planner import plan_circuit
from pondapp.core.filters.bands import whole_pond_band
from pondapp.core.filters.bog import BogSize, bog_size
from pondapp.core.hydraulics.energy import Costs, costs
from pondapp.core.hydraulics.fittings import fittings_loss
from pondapp.core.hydraulics.network import Circuit as PipeCircuit
from pondapp.core.hydraulics.network import OperatingPoint, Outlet, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run, RunLoss, run_loss
from pondapp.core.hydraulics.water import kinematic_viscosity
from pondapp.core.messages import Message
from pondapp.core.working import Step
from pondapp.models.circuit import BogFilter, Fed, HighFlowFilter, Lip
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.sizing.targets import Target, targets
from pondapp.words import t

FilterChoice = Literal["bog", "high_flow", "both", "none"]
MOST_WATER = 5e3  # m3; more than that is no home pond and beyond any pump that the core knows
ONE_RUN = "main run"
WANT_KINDS: dict[str, WantKind] = {"bog": "bed", "high_flow": "box", "lip": "lip"}


@dataclass(frozen=True, slots=True)
class Settled:
    """One way to settle a conflict, and the flow [m3/s] that the pump then delivers."""

    changes: tuple[Message, ...]
    pump: float


@dataclass(frozen=True, slots=True)
class QuickPond:
    """What one pump must deliver, what each part wants, and where the wishes conflict."""

    pump: float
    """Least flow [m3/s] that one pump must deliver at its real head."""
    places: tuple[Target, ...]
    bog: BogSize | None
    bog_heavy: BogSize | None
    """The bog for many or large fish."""
    conflict: Message | None
    ways_out: tuple[Settled, ...]
    plan: Plan

    def steps(self) -> tuple[Step, ...]:
        """How the pump's flow was found."""
        return self.plan.steps()


def parts(volume: float, choice: FilterChoice, lip_width: float | None) -> tuple[Fed, ...]:
    """The things that a pond of this volume [m3] would have, in the order of the water."""
    rules = Assumptions().filters
    fed: list[Fed] = []
    if choice in ("bog", "both"):
        bed = bog_size(volume, rules.bog_share, rules.bog_depth).volume
        fed.append(BogFilter(id="bog", name=t("Bog filter"), bed_volume_m3=bed))
    if choice in ("high_flow", "both"):
        fed.append(HighFlowFilter(id="high_flow", name=t("High-flow filter")))
    if lip_width is not None:
        fed.append(Lip(id="lip", name=t("Waterfall lip"), width_m=lip_width))
    return tuple(fed)


def _want(place: Target, thing: Fed) -> Want:
    size = None
    if isinstance(thing, BogFilter):
        size = thing.bed_volume_m3
    elif isinstance(thing, Lip):
        size = thing.width_m
    band = place.band
    kind = WANT_KINDS[thing.kind]
    all_day = not isinstance(thing, Lip)
    return Want(place.name, band.low, band.high, band.target, kind, size, all_day)


def _keeping_the_wishes(conflict: Conflict) -> Plan:
    """The plan of least flow among the ways out that change no wish, else of the first one."""

    def wishes(circuit: Circuit) -> tuple[float, set[Want], int]:
        wants = {w for pump in circuit.pumps for branch in pump.branches for w in branch.wants}
        return circuit.turnover, wants, len(circuit.pumps)

    asked = wishes(conflict.circuit)
    kept = [way.plan for way in conflict.ways_out if wishes(way.circuit) == asked]
    return min(kept, key=lambda plan: plan.total) if kept else conflict.ways_out[0].plan


def quick_pond(volume: float, choice: FilterChoice, lip_width: float | None) -> QuickPond:
    """Size up a pond of this volume [m3] by the default rules, everything on one run of pipe.

    Raises:
        PondError: A number is outside its range.
    """
    rules = Assumptions().filters
    fed = parts(volume, choice, lip_width)
    pond = Pond(id="quick", name="Quick", water=TypedVolume(volume_m3=volume), fed=fed)
    places = targets(pond).places[:-1]
    wants = tuple(_want(place, thing) for place, thing in zip(places, fed, strict=True))
    turnover = whole_pond_band(volume, rules.turnover_whole).target
    answer = plan_circuit(Circuit((Pump("the pump", (Branch(ONE_RUN, wants),)),), turnover))
    conflict = answer if isinstance(answer, Conflict) else None
    plan = _keeping_the_wishes(answer) if isinstance(answer, Conflict) else answer
    bog = bog_size(volume, rules.bog_share, rules.bog_depth)
    heavy = bog_size(volume, rules.bog_share_heavy, rules.bog_depth)
    has_bog = choice in ("bog", "both")
    return QuickPond(
        pump=plan.total,
        places=places,
        bog=bog if has_bog else None,
        bog_heavy=heavy if has_bog else None,
        conflict=conflict.message if conflict else None,
        ways_out=tuple(Settled(w.changes, w.plan.total) for w in conflict.ways_out)
        if conflict
        else (),
        plan=plan,
    )


@dataclass(frozen=True, slots=True)
class QuickPump:
    """What a pump really delivers through a hose up to a height."""

    point: OperatingPoint
    hose: RunLoss
    share: float
    """The flow over the largest flow on the label [-]."""
    costs: Costs | None
    """Energy and its price, where the power is known."""

    def steps(self) -> tuple[Step, ...]:
        """How the flow was found, and the costs."""
        money = self.costs.steps() if self.costs else ()
        return (*self.point.steps(), *self.hose.steps(), *money)

    def remarks(self) -> tuple[Message, ...]:
        """What to doubt or mend."""
        return (*self.hose.warnings, *self.point.warnings)


def quick_pump(
    lift: float,
    bore: float,
    length: float,
    ribbed: bool,
    max_flow: float,
    max_head: float,
    power: float | None,
    tariff: float | None,
) -> QuickPump:
    """What a pump of this label [m3/s], [m] delivers through one hose [m] up to a lift [m].

    Raises:
        PondError: A number is outside its range, or the pump is too weak for the lift.
    """
    rules = Assumptions()
    plumbing = rules.plumbing
    rough = plumbing.ribbed_relative_roughness if ribbed else plumbing.smooth_roughness / bore
    run = Run(length, bore, rough, fittings_loss({"outlet": 1}))
    viscosity = kinematic_viscosity(plumbing.water_temperature)
    curve = LabelCurve(max_head, max_flow)
    circuit = PipeCircuit(None, (Outlet("the hose", run, lift),))
    point = operating_point(curve, circuit, viscosity)
    money = None
    if power is not None:
        pumps = rules.pumps
        price = pumps.tariff if tariff is None else tariff
        money = costs(0.0, power, pumps.running_time, price, pumps.cost_years)
    return QuickPump(
        point=point,
        hose=run_loss(run, point.flow, viscosity, plumbing.velocity_max),
        share=point.flow / max_flow,
        costs=money,
    )


def usual_tariff() -> float:
    """The price of energy [1/J] that counts where none is entered."""
    return Assumptions().pumps.tariff
