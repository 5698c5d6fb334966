"""How a lip of a pond comes by its flow: what the pump must give, and where its valve stands."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from pondapp.answers.care.open_matters import PUMPS
from pondapp.answers.features.targets import Targets, band_of
from pondapp.answers.log.log import LogItem
from pondapp.answers.measuring.aims import aimed
from pondapp.answers.measuring.flow import FlowBand, Measured
from pondapp.answers.measuring.methods import MeasuringAssumptions, measured_reading, rules_for
from pondapp.answers.picture.states import WORDS
from pondapp.answers.planning.on_branch import branch_band
from pondapp.answers.planning.plan import SLACK
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import branch_of, pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import curve_of
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.tuning.evidence import DOUBTS, Evidence
from pondapp.answers.tuning.flow_sets import InHand, LatestReading, ToFill, branch_places
from pondapp.answers.waterfall.waterfall import lip_band
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution, PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.core.hydraulics.network import speed_for, valve_settings
from pondapp.core.hydraulics.pump_curve import PumpCurve
from pondapp.core.hydraulics.valves import valve_opening
from pondapp.models.circuit import Branch, Line, Lip, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

OPEN_ENOUGH = 0.999  # a share of the travel that is as good as all of it


@dataclass(frozen=True, slots=True)
class LipOfPond:
    """A lip, the pond it is in, and the newest flow measured of the water that runs over it."""

    pond: Pond
    lip: Lip
    newest: LatestReading | None
    past: str
    """Why that does not tell how it is now, in the picture's word; empty where it does."""
    why: Message | None = None
    """What contradicts it, where another reading does."""

    @property
    def measured(self) -> Measured | None:
        """What was measured."""
        return self.newest.found if self.newest else None


def lips_of(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> tuple[LipOfPond, ...]:
    """Every lip of a pond, with the newest flow over it.

    Args:
        worked: The pond.
        log: Its log, newest first. What is dated after now is no evidence.
        now: The time of now.
    """
    pond = worked.pond
    lips = (feature for feature in pond.fed if isinstance(feature, Lip))
    rules = rules_for(pond).measuring
    evidence = Evidence(worked, log, now)
    return tuple(
        LipOfPond(pond, lip, newest, *(_past(evidence, newest.reading) if newest else ("", None)))
        for lip in lips
        for newest in (_newest(_same_water(pond, lip), evidence.readings, rules),)
    )


def _past(evidence: Evidence, reading: Reading) -> tuple[str, Message | None]:
    """Why a reading does not tell how it is now, and what contradicts it.

    Of a pond that cannot be worked out nobody knows whether it does.
    """
    try:
        doubt = evidence.doubt(reading)
        return DOUBTS[doubt] if doubt else "", evidence.why((reading,))
    except PondError:
        return WORDS["undecided"], None


def _same_water(pond: Pond, lip: Lip) -> tuple[str, ...]:
    """The lip, and the places where just the water that runs over it passes."""
    branch = branch_of(pond, lip.id)
    if branch is None or lip.id in branch.bypass:
        return (lip.id,)
    return (branch.id, *(item for item in branch.feeds if item not in branch.bypass))


def _newest(
    places: Collection[str], log: Sequence[Reading], rules: MeasuringAssumptions
) -> LatestReading | None:
    for reading in log:
        if reading.place_id not in places:
            continue
        try:
            found = measured_reading(reading, rules)
        except PondError:
            continue  # a reading whose numbers cannot be says so in the log
        if found is not None:
            return LatestReading(reading, found)
    return None


def band_of_lip(pond: Pond, lip: Lip) -> FlowBand:
    """What the lip wants: by its owner's band, or by the rules of its pond."""
    rules = Assumptions().with_overrides(pond.assumptions)
    return band_of(lip.band) if lip.band else lip_band(lip.width_m, rules.waterfalls)


def band_of_water(worked: WorkedPond, lip: Lip, own: FlowBand) -> FlowBand:
    """What everything that the lip's water passes is content with.

    Args:
        worked: The pond.
        lip: One of its lips.
        own: What the lip alone wants [m3/s]; it stays where no other is on its water, and where
            nothing suits all of them.
    """
    branch = branch_of(worked.pond, lip.id)
    if branch is None or lip.id in branch.bypass:
        return own
    found = worked.targets
    places = [replace(one, band=own) if one.place_id == lip.id else one for one in found.places]
    band = branch_band(branch, own.target, Targets(found.volume, tuple(places)))
    return own if band is None else band


PLANNED = Message(
    "The aim of its branch: what the plan gives, so far inside what is fine that a few fills can "
    "tell."
)
FULL = Message("For a full sheet, which is more than the plan gives.")


@dataclass(frozen=True, slots=True)
class LipSetting:
    """What gives a lip its full sheet, and what stands before it what that needs."""

    flow: float
    """Flow over the lip [m3/s]."""
    why: Message | None
    """Where that flow is from; none where the lip has a way round, and is full in any case."""
    total: float
    """Flow of the pump [m3/s], with every other branch as planned."""
    head: float
    """Head that the pump must make at that flow [m]."""
    advice: tuple[Message, ...]


def lip_setting(worked: WorkedPond, lip: Lip, in_hand: InHand | None = None) -> LipSetting:
    """The pump and the valve that give a lip what it wants.

    Args:
        worked: The pond.
        lip: One of its lips.
        in_hand: What is filled at each place, on which its aim depends a little.

    Raises:
        PondError: No branch feeds it, it can't all work, or the circuit cannot be counted; the
            message says why.
    """
    pond = worked.pond
    branch = branch_of(pond, lip.id)
    if branch is None:
        raise NoSolution("no branch feeds {lip} yet", lip=lip.name)
    line = next(line for line in worked.lines if branch in line.branches)
    planned = worked.planned
    if planned.conflict:
        raise NoSolution(planned.conflict.template, **planned.conflict.values)
    full = band_of_lip(pond, lip).target
    through = planned.flows[branch.id]
    # What stands before the lip may need more than the lip. A lip that is content with its least
    # flow is short of a full sheet by the plan, and gets one where all on its branch can take it.
    asked = worked.targets
    highs = [place.band.high for item in branch.feeds if item not in branch.bypass
             and (place := asked.place(item)) and place.band.high is not None]  # fmt: skip
    whole = max(full, through) if full <= min(highs, default=full) else through
    more = whole > through * (1.0 + SLACK)
    whole = _inside(worked, line, branch, whole, in_hand)
    flow = min(full, whole) if lip.id in branch.bypass else whole
    flows = {**planned.flows, branch.id: whole}
    network = worked.network(line, flows)
    pump = pump_of(pond, line)
    advice = tuple(_advice(network, branch, pump))
    why = None if lip.id in branch.bypass else FULL if more else PLANNED
    return LipSetting(flow, why, network.needs.flow, network.needs.head, advice)


def _inside(
    worked: WorkedPond, line: Line, branch: Branch, flow: float, in_hand: InHand | None
) -> float:
    """A flow of a branch, so far inside what is fine there that fills can tell it is right."""
    place = next((one for one in branch_places(worked, line) if one.branch.id == branch.id), None)
    if place is None or place.conflict is not None:
        return flow
    filled = in_hand(place.place_id) if in_hand else ToFill()
    band = replace(place.band, target=flow)
    return aimed(band, filled.container, place.rules, filled.steadiness).flow


def _advice(network: LineNetwork, branch: Branch, pump: Pump | None) -> Iterator[Message]:
    needs = network.needs
    yield Message(
        "The pump must give {total} at a head of {head}, all branches together.",
        {"total": Amount(needs.flow, "m3/s"), "head": Amount(needs.head, "m")},
    )
    curve = curve_of(pump) if pump else None
    if pump is None or curve is None:
        yield Message("Choose a pump, or enter its label, to see whether it can.")
        return
    if pump.adjustable:
        yield from _speed(network, pump, curve)
        return
    doubt = _doubt(network, pump)
    try:
        settings = valve_settings(curve, network.circuit, network.flows, network.viscosity)
    except NoSolution as reason:
        yield doubt or Message("{name} cannot do that.", {"name": pump.name})
        yield reason.message
        return
    if doubt:
        yield doubt
    loss = next(setting.loss for setting in settings if setting.key == branch.id)
    yield _valve(branch, loss, pump)


def _doubt(network: LineNetwork, pump: Pump) -> Message | None:
    """What is not sure of a pump by its curve, in the words of the pond's own list."""
    (answer,) = answers_for(network, (pump,))
    if answer.state not in ("probably", "open"):
        return None
    return Message(PUMPS[answer.state][1], {"name": pump.name})


def _speed(network: LineNetwork, pump: Pump, curve: PumpCurve) -> Iterator[Message]:
    needs = network.needs
    try:
        found = speed_for(curve, needs.flow, needs.head, network.rules.pumps.slowest_speed)
    except NoSolution as reason:
        yield Message("{name} cannot do that.", {"name": pump.name})
        yield reason.message
        return
    yield Message(
        "Set {pump} to about {share} % of its full speed, then measure.",
        {"pump": pump.name, "share": f"{100.0 * found.speed:.0f}"},
    )


def _valve(branch: Branch, loss: float, pump: Pump) -> Message:
    values = {"pump": pump.name, "branch": branch.name}
    if branch.valve == "none":
        return Message(
            "{pump} should give it. Fit a valve in its branch ({branch}) to set the flow, then "
            "measure.",
            values,
        )
    try:
        opening = valve_opening(branch.valve, loss)
    except NoSolution:
        return Message(
            "{pump} should give it with the valve of {branch} nearly closed: open it a crack, "
            "then measure.",
            values,
        )
    if opening >= OPEN_ENOUGH:
        return Message("{pump} should give it with the valve of {branch} wide open.", values)
    return Message(
        "{pump} should give it with the valve of {branch} about {share} % open. Valves differ: "
        "measure, then turn.",
        {**values, "share": f"{100.0 * opening:.0f}"},
    )
