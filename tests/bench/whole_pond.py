"""Everything the screens show of one pond, from stored documents to sentences and working.

Runs as it is in CPython and in the browser's Python: it needs pondapp and the standard library.
"""

from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from time import perf_counter

from pondapp.answers.features.targets import Targets, targets
from pondapp.answers.measuring.flow import measured
from pondapp.answers.water.volume import volume_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import Step
from pondapp.core.circuit import model as plan_model
from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.planner import plan_circuit
from pondapp.core.hydraulics.bores import bore_of
from pondapp.core.hydraulics.candidates import Candidate, ranking
from pondapp.core.hydraulics.fittings import fittings_loss
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point, valve_settings
from pondapp.core.hydraulics.pump_curve import LabelCurve, curve_through
from pondapp.core.hydraulics.run import Run, run_loss
from pondapp.core.hydraulics.water import density, kinematic_viscosity
from pondapp.core.stock.ammonia import read_ammonia
from pondapp.core.stock.balance import StockedPond, stock_balance
from pondapp.core.stock.biomass import FishGroup
from pondapp.core.stock.nitrification import MEDIA, MediaBed
from pondapp.models.circuit import BogFilter, HighFlowFilter, Lip, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import Container, Fill
from pondapp.models.water import Basin, Circle, Drawn, Rectangle, Shelf

HOUR = 1.0 / 3600.0  # m3/s in m3/h
PRINTED = ((0.0, 5.0), (4 * HOUR, 4.5), (8 * HOUR, 2.9), (12 * HOUR, 0.0))
FILLS = (34.1, 5.0, 9.5, 6.0)  # s; the first is at a limit, so that more fills are asked for
BUCKET = Container(id="bucket", name="Bucket", volume_m3=0.0095, tolerance_m3=0.0001)
DEEP = Basin(
    id="deep",
    name="Deep",
    outline=Rectangle(length_m=3.6, width_m=2.4),
    depth_m=0.9,
    side_slope=0.2,
    shelves=(Shelf(depth_m=0.3, width_m=0.3),),
)
ROUND = Basin(id="round", name="Round", outline=Circle(diameter_m=1.2), depth_m=0.5)
POND = Pond(
    id="pond",
    name="Behind the house",
    water=Drawn(basins=(DEEP, ROUND)),
    fed=(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.25),
        HighFlowFilter(id="box", name="Box"),
        Lip(id="lip", name="Lip", width_m=0.30),
    ),
    pumps=(Pump(id="pump", name="Pump", max_flow_m3_s=20 * HOUR, max_head_m=5.0, power_w=180.0),),
    assumptions={"filters.high_flow_turnover_min": 1.0 * HOUR},
)


@dataclass
class Shown:
    """What a screen would get: sentences and lines of working."""

    sentences: list[str]
    steps: list[Step]

    def say(self, *messages: Message) -> None:
        """Keep sentences as text."""
        self.sentences += map(str, messages)


def volume(shown: Shown, stretch: float) -> Drawn:
    """A pond with a shelf all round and a round basin beside it."""
    outline = Rectangle(length_m=3.6 * stretch, width_m=2.4)
    drawn = Drawn(basins=(DEEP.model_copy(update={"outline": outline}), ROUND))
    whole = volume_of(drawn)
    shown.say(*whole.warnings)
    shown.steps += whole.steps()
    return drawn


def planned(shown: Shown, found: Targets) -> None:
    """The least flow of one pump for a bog with a way round, a box and a lip; and a conflict."""
    bog, box, lip, _ = found.places
    demands = tuple(
        plan_model.FlowDemand(
            part.name, part.band.low, part.band.high, part.band.target, kind, size
        )
        for part, kind, size in ((bog, "bed", 0.25), (box, "box", None), (lip, "lip", 0.3))
    )
    apart = tuple(
        plan_model.DemandBranch(
            f"to {demand.key}", (demand,), (demand.key,) if demand.kind == "bed" else ()
        )
        for demand in demands
    )
    together = (plan_model.DemandBranch("in line", demands),)
    turnover = found.volume * HOUR
    for branches in (apart, together):
        pump = plan_model.DemandPump("Pump", branches, 20 * HOUR)
        answer = plan_circuit(plan_model.DemandCircuit((pump,), turnover), 0.5)
        shown.steps += answer.steps()
        if isinstance(answer, Plan):
            shown.say(answer.reason)
            continue
        shown.say(*answer.conflicts)
        for way in answer.resolutions:
            shown.say(*way.changes)


def plumbed(shown: Shown, found: Targets, rules: Assumptions, stretch: float) -> None:
    """Where the pump settles, how far to shut each valve, and five pumps in order."""
    plumbing = rules.plumbing
    nu = kinematic_viscosity(plumbing.water_temperature)
    rho = density(plumbing.water_temperature)
    ends = (("Bog", "1 in", 3.0, 0.3), ("Box", "1 1/2 in", 4.0, 0.9), ("Lip", "1 1/2 in", 5.0, 1.1))
    parts = {"elbow_90": 2, "tee_branch": 1, "ball_valve": 1, "outlet": 1}
    outlets = []
    for name, size, length, lift in ends:
        bore = bore_of("hose, in", size)
        rough = plumbing.smooth_roughness / bore
        run = Run(length * stretch, bore, rough, fittings_loss(parts))
        outlets.append(Outlet(name, run, lift))
    bore = bore_of("hose, in", "2 in")
    main = Run(2.0, bore, plumbing.smooth_roughness / bore, fittings_loss({"inlet": 1}))
    circuit = PipeNetwork(main, tuple(outlets))
    own = curve_through(tuple((2.0 * flow, head) for flow, head in PRINTED))
    point = operating_point(own, circuit, nu)
    shown.say(*point.warnings)
    shown.steps += point.steps()
    for outlet in outlets:
        flow = point.flow_in(outlet.key)
        shown.steps += run_loss(outlet.run, flow, nu, plumbing.velocity_max).steps()
    wanted = {part.name: part.band.target for part in found.places[:-1]}
    wanted["Box"] = 2.0 * wanted["Lip"]
    for setting in valve_settings(own, circuit, wanted, nu):
        shown.steps += setting.steps()
    candidates = (
        Candidate("own", own, 190.0, 0.0),
        Candidate("small", LabelCurve(3.0, 8 * HOUR), 60.0, 90.0),
        Candidate("large", LabelCurve(6.0, 24 * HOUR), 240.0, 210.0),
        Candidate("adjustable", LabelCurve(7.0, 26 * HOUR), 260.0, 390.0, adjustable=True),
        Candidate("huge", LabelCurve(12.0, 60 * HOUR), 900.0, 600.0),
    )
    for place in ranking(candidates, circuit, wanted, nu, rho, rules.pumps):
        shown.say(place.reason, *place.warnings)
        shown.steps += place.steps()


def stocked(shown: Shown, found: Targets, rules: Assumptions, stretch: float) -> None:
    """Too many fish for filter and fall, and a test of the water."""
    pond = StockedPond(
        groups=(FishGroup(12, 0.35 * stretch), FishGroup(20, 0.15)),
        temperature=295.15,
        altitude=400.0,
        beds=(MediaBed(0.25, MEDIA["limestone"].surface),),
        spare_surface=MEDIA["plastic"].surface,
        water_area=9.8,
        flow=found.places[2].band.target,
        fall_height=0.6,
        feed=None,
    )
    balance = stock_balance(pond, rules.stock)
    water = read_ammonia(0.25e-3, pond.temperature, 8.0, rules.stock.unionised_limit)
    shown.say(*balance.warnings, *(lever.message for lever in balance.levers), *water.warnings)
    shown.steps += balance.steps()
    shown.steps += water.steps()


PARTS = ("volume", "targets", "measured flow", "circuit plan", "network and pumps", "stock")


def evaluate(turn: int) -> tuple[Shown, list[float]]:
    """One pond in full and the time [s] that each of PARTS took.

    The turn changes the numbers a little, so that no kept answer of an earlier turn serves.
    """
    stretch = 1.0 + 1e-4 * turn
    shown, marks = Shown([], []), [perf_counter()]
    water = volume(shown, stretch)
    marks.append(perf_counter())
    pond = POND.model_copy(update={"water": water})
    rules = Assumptions().with_overrides(pond.assumptions)
    found = targets(pond)
    shown.say(*(part.rule for part in found.places))
    marks.append(perf_counter())
    for part, seconds in zip(found.places, FILLS, strict=True):
        fills = tuple(Fill(seconds=seconds * stretch + 0.1 * more) for more in (0, 3, 1))
        reading = measured(BUCKET, fills, part.band)
        if reading is not None:
            shown.say(reading.verdict, *reading.advice)
            shown.steps += reading.flow.steps()
    marks.append(perf_counter())
    planned(shown, found)
    marks.append(perf_counter())
    plumbed(shown, found, rules, stretch)
    marks.append(perf_counter())
    stocked(shown, found, rules, stretch)
    marks.append(perf_counter())
    return shown, [after - before for before, after in pairwise(marks)]


def report(turns: int) -> dict[str, float]:
    """Milliseconds of the first evaluation, the median of the others, and of their parts."""
    first = perf_counter()
    evaluate(0)
    found = {"first evaluation": 1e3 * (perf_counter() - first)}
    wholes, parts = [], []
    for turn in range(1, turns + 1):
        start = perf_counter()
        _, spent = evaluate(turn)
        wholes.append(perf_counter() - start)
        parts.append(spent)
    found["whole pond"] = 1e3 * median(wholes)
    for name, times in zip(PARTS, zip(*parts, strict=True), strict=True):
        found[name] = 1e3 * median(times)
    return found
