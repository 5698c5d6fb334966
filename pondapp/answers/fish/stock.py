"""Do the fish, the filters and the oxygen of a pond go together."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.bog import gravel_surface
from pondapp.answers.features.kinds import KINDS, kind_of
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import operating_flow
from pondapp.answers.water.volume import volume_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY, HOUR, ZERO_CELSIUS
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount
from pondapp.core.base.messages import Message as Message
from pondapp.core.base.working import Step as Step
from pondapp.core.stock.ammonia import AmmoniaReading as AmmoniaReading
from pondapp.core.stock.ammonia import flow_to_hold_ammonia, unionised_share
from pondapp.core.stock.balance import SHORT, StockBalance, StockedPond, stock_balance
from pondapp.core.stock.balance import Fit as Fit
from pondapp.core.stock.balance import Lever as Lever
from pondapp.core.stock.biomass import FishGroup
from pondapp.core.stock.nitrification import MediaBed
from pondapp.core.stock.oxygen import TALLEST_FALL
from pondapp.core.stock.span import Span as Span
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.models.pond import Pond
from pondapp.words import t

LITTLE_FLOW = 1e-3 / HOUR  # m3/s; what is needed is told as this much at least
ALL_DAY = 24.0
GOOD: tuple[Fit, ...] = ("enough", "likely enough")
CAUTION_PH = (7.0, 8.0, 9.0)


State = Literal["enough", "likely enough", "unknown", "too little"]


@dataclass(frozen=True, slots=True)
class Stock:
    """The answer at one temperature, and what it was reckoned with.

    Attributes:
        balance: The reckoning.
        temperature: Of the water [K].
        verdict: The answer in one sentence.
        state: The worse of filter and oxygen.
        fish: All fish [kg].
        feed: Feed in a day [kg].
        ammonia: Ammonia nitrogen given off in a day [kg].
        capacity: Ammonia nitrogen that the filters take out in a day [kg].
        oxygen_use: Oxygen used in an hour of the night [kg].
        oxygen_supply: Oxygen that fall and surface bring in that hour [kg].
        through_filters: How much water must pass the filters; none where no filter is counted.
        counted: What was counted, and with which numbers.
        left_out: What was not counted, and what is missing for it.
        measured: Whether every flow that was counted was measured, and none only planned.
    """

    balance: StockBalance
    temperature: float
    verdict: Message
    state: State
    fish: Span
    feed: Span
    ammonia: Span
    capacity: Span
    oxygen_use: Span
    oxygen_supply: Span
    through_filters: Message | None
    counted: tuple[Message, ...]
    left_out: tuple[Message, ...]
    measured: bool

    @property
    def good(self) -> bool:
        """Whether filter and oxygen are both at least likely enough."""
        return self.state in GOOD

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.balance.steps()


@dataclass(frozen=True, slots=True)
class StockInYear:
    """The answer in the pond's usual water and in its warmest week.

    Attributes:
        usual: In the water as it is entered.
        warmest: In the warmest week, when fish use most and water holds least oxygen.
        assumed: Whether the warmth of that week is a rule's, because none is entered.
    """

    usual: Stock
    warmest: Stock
    assumed: bool

    @property
    def worse(self) -> Stock:
        """The one of the two with the worse answer; the warmest week where they agree."""
        usual, warmest = (WORST.index(found.state) for found in (self.usual, self.warmest))
        return self.warmest if warmest <= usual else self.usual

    @property
    def good(self) -> bool:
        """Whether all is at least likely enough, in the warmest week too."""
        return self.usual.good and self.warmest.good

    @property
    def severity(self) -> Severity:
        """How bad the answer is; right only where it rests on nothing assumed or planned."""
        found = self.worse
        if not found.good:
            return "wrong" if found.state == "too little" else "unknown"
        sure = found.measured and not (self.assumed and found is self.warmest)
        return "right" if sure else "unknown"

    @property
    def verdict(self) -> Message:
        """The answer in one sentence: the worse of the two, when it is so, and what it rests on."""
        found = self.worse
        planned = found.good and not found.measured
        values: dict[str, Amount | str] = {"verdict": found.verdict.template}
        if found is self.usual:
            return (
                Message("With the planned flows: {verdict}", values) if planned else found.verdict
            )
        values["heat"] = Amount(found.temperature, "K")
        if found.good and self.assumed:
            return Message(
                "In the warmest week, at an assumed {heat} and with the planned flows: {verdict}"
                if planned
                else "In the warmest week, at an assumed {heat}: {verdict}",
                values,
            )
        return Message(
            "In the warmest week, at {heat} and with the planned flows: {verdict}"
            if planned
            else "In the warmest week, at {heat}: {verdict}",
            values,
        )


WORST: tuple[State, ...] = ("too little", "unknown", "likely enough", "enough")


def _state(filters: Fit, oxygen: Fit) -> State:
    """The worse of two."""
    both = (filters, oxygen)
    if any(fit in SHORT for fit in both):
        return "too little"
    if "unknown" in both:
        return "unknown"
    return "likely enough" if "likely enough" in both else "enough"


def _verdict(filters: Fit, oxygen: Fit) -> Message:
    """The answer in one sentence."""
    if "unknown" in (filters, oxygen):
        return Message(_not_known(filters, oxygen))
    if filters in GOOD and oxygen in GOOD:
        if "likely enough" in (filters, oxygen):
            return Message("Filter, oxygen and fish likely go together, with little to spare.")
        return Message("Filter, oxygen and fish go together.")
    if filters not in GOOD and oxygen not in GOOD:
        return Message(
            "Filter and oxygen are too little for these fish."
            if filters == oxygen == "too little"
            else "Filter and oxygen are likely too little for these fish."
        )
    if filters not in GOOD:
        return Message(
            "The filter is too small for these fish."
            if filters == "too little"
            else "The filter is likely too small for these fish."
        )
    return Message(
        "At night there is too little oxygen for these fish."
        if oxygen == "too little"
        else "At night there is likely too little oxygen for these fish."
    )


def _not_known(filters: Fit, oxygen: Fit) -> str:
    """The answer where one side or both cannot be told."""
    if filters == oxygen:
        return "Whether filter and oxygen are enough for these fish is not known yet."
    if filters == "unknown":
        if oxygen in SHORT:
            return (
                "At night there is too little oxygen for these fish; whether the filter is enough "
                "is not known yet."
                if oxygen == "too little"
                else "At night there is likely too little oxygen for these fish; whether the "
                "filter is enough is not known yet."
            )
        return "Whether the filter is enough for these fish is not known yet."
    if filters in SHORT:
        return (
            "The filter is too small for these fish; whether the oxygen is enough is not known yet."
            if filters == "too little"
            else "The filter is likely too small for these fish; whether the oxygen is enough is "
            "not known yet."
        )
    return "Whether the oxygen is enough for these fish is not known yet."


@dataclass(frozen=True, slots=True)
class _Supply:
    """What a place gets: its flow [m3/s], and how that is known."""

    flow: float
    how: Literal["measured", "planned", "pump"]


class _Supplies:
    """What each place on the water path gets: measured, or planned as far as its pump can."""

    def __init__(self, worked: WorkedPond, measured: Mapping[str, float]) -> None:
        self.worked, self.measured = worked, measured
        self.plan = worked.plan if isinstance(worked.plan, PondPlan) else None
        self.branches = worked.planned.flows

    def pump_share(self, line: Line) -> float:
        """The share of a line's planned flow that its pump can bring [-]; 1 while not known."""
        pump = pump_of(self.worked.pond, line)
        planned = sum(self.branches.get(branch.id, 0.0) for branch in line.branches)
        if planned <= 0.0:
            return 1.0
        if line.id in self.measured:
            return min(1.0, self.measured[line.id] / planned)
        if pump is None:
            return 1.0
        try:
            delivered = operating_flow(self.worked.network(line, self.branches), pump)
        except PondError:
            return 1.0
        return 1.0 if delivered is None else min(1.0, delivered / planned)

    def at(self, feature: WaterFeature, line: Line, branch: Branch, share: float) -> _Supply:
        """What a feature on a branch gets."""
        whole = 0.0 if self.measured.get(line.id) == 0.0 else self.measured.get(branch.id)
        own = self.measured.get(feature.id)
        past = feature.id in branch.bypass
        if whole == 0.0 or (own is None and not past):
            own = whole
        if own is not None:
            return _Supply(own if whole is None else min(own, whole), "measured")
        if whole is not None:  # only a part of it runs here
            share = min(share, whole / (self.branches.get(branch.id) or whole))
        planned = self.plan.through.get(feature.id) if self.plan else None
        if planned is None:
            planned = self.branches.get(branch.id, 0.0)
        # A hair short is no pump that is too weak: the solver's last digits.
        return _Supply(planned, "planned") if share > 0.99 else _Supply(planned * share, "pump")


class _Reckoned:
    """Media, falls and what is said of them, gathered along the water's path."""

    def __init__(self, rules: Assumptions) -> None:
        self.rules = rules
        self.beds: list[MediaBed] = []
        self.passed: dict[str, float] = {}
        self.falls: list[tuple[float, float]] = []
        self.counted: list[Message] = []
        self.left_out: list[Message] = []
        self.all_beds = self.all_air = self.all_measured = True

    def add_bed(self, feature: WaterFeature, branch: Branch, supply: _Supply) -> None:
        """Count the media of a filter."""
        kind = kind_of(feature)
        if supply.flow <= 0.0:
            self._leave(feature, NO_WATER[supply.how])
            return
        if not kind.known:
            self._leave(feature, "nobody knows what it does, so it counts for nothing")
            return
        self.all_measured = self.all_measured and supply.how == "measured"
        self.passed[branch.id] = max(self.passed.get(branch.id, 0.0), supply.flow)
        volume = kind.media_volume(feature)
        if volume is None:
            self.all_beds = False
            self._leave(feature, "give the volume of its media")
            return
        self.beds.append(MediaBed(volume, kind.media_surface(self.rules)))
        self.counted.append(
            Message("{name}: {volume} of media", {"name": feature.name,
                                                  "volume": Amount(volume, "m3")})
        )  # fmt: skip

    def add_falls(self, falls: list[tuple[WaterFeature, _Supply]]) -> None:
        """Count the falls of one branch: the same water goes over one after the other."""
        heights, falling = [], []
        for feature, supply in falls:
            height = kind_of(feature).fall(feature)
            if supply.flow <= 0.0:
                self._leave(feature, NO_WATER[supply.how])
            elif height is None:
                self.all_air = False
                self._leave(feature, "give the height of its fall")
            else:
                heights.append(height)
                falling.append((feature, supply))
        if not falling:
            return
        self.all_measured = self.all_measured and all(one.how == "measured" for _, one in falling)
        measured = [supply for _, supply in falling if supply.how == "measured"]
        supply = min(measured or [one for _, one in falling], key=lambda one: one.flow)
        height = min(sum(heights), TALLEST_FALL)
        self.falls.append((supply.flow, height))
        names = t(" and ").join(feature.name for feature, _ in falling)
        self.counted.append(
            Message(FALLS[supply.how], {"name": names, "height": Amount(height, "width"),
                                        "flow": Amount(supply.flow, "m3/s")})
        )  # fmt: skip

    def rests_at_night(self, feature: WaterFeature) -> None:
        """A feature without water for part of the day counts for nothing."""
        self._leave(feature, "its pump does not run day and night")

    def _leave(self, feature: WaterFeature, why: str) -> None:
        told = Message("{name}: {why}", {"name": feature.name, "why": why})
        if told not in self.left_out:  # a filter that falls is asked twice
            self.left_out.append(told)

    def fall(self) -> tuple[float, float]:
        """Flow and height [m] of one fall that stands for all."""
        flow = sum(flow for flow, _ in self.falls)
        if flow <= 0:
            return 0.0, 0.0
        return flow, sum(flow * height for flow, height in self.falls) / flow


FALLS = {
    "measured": "{name}: falls {height} with {flow}, as measured last",
    "planned": "{name}: falls {height} with the planned {flow}; measure what it gets",
    "pump": "{name}: falls {height} with {flow}, less than planned: its pump brings no more",
}
NO_WATER = {
    "measured": "no water came when it was measured last",
    "planned": "the plan brings it no water",
    "pump": "its pump brings no water up there",
}


def _useful(feature: WaterFeature) -> bool:
    """Whether it does something for the fish: it cleans their water, or brings air into it."""
    kind = kind_of(feature)
    return kind.alive or kind.falls


def _gathered(worked: WorkedPond, flows: Mapping[str, float]) -> _Reckoned:
    pond, rules = worked.pond, worked.rules
    found = _Reckoned(rules)
    features = {feature.id: feature for feature in pond.fed}
    supplies = _Supplies(worked, flows)
    placed: set[str] = set()
    for line in worked.lines:
        share = supplies.pump_share(line)
        for branch in line.branches:
            passed = [
                features[key] for key in branch.feeds if key in features and key not in placed
            ]
            placed.update(feature.id for feature in passed)
            useful = [feature for feature in passed if _useful(feature)]
            if line.hours_per_day < ALL_DAY:
                for feature in useful:
                    found.rests_at_night(feature)
                continue
            supplied = [(one, supplies.at(one, line, branch, share)) for one in useful]
            for feature, supply in supplied:
                if kind_of(feature).alive:
                    found.add_bed(feature, branch, supply)
            found.add_falls([one for one in supplied if kind_of(one[0]).falls])
    for fed in pond.fed:
        if fed.id not in placed and _useful(fed):
            found.left_out.append(Message("{name}: no branch brings it water", {"name": fed.name}))
    for kind in KINDS.values():
        alike = [feature for feature in pond.fed if kind_of(feature) is kind]
        words = kind.stock_words(alike, worked.targets.volume, rules) if alike else None
        if words is not None:
            found.counted.append(words)
    measured = pond.measured_volume.volume_m3 if pond.measured_volume else None
    area = volume_of(pond.water, measured).area
    if area is None:
        found.all_air = False
        found.left_out.append(Message("The water's surface: draw the pond's shape"))
    else:
        found.counted.append(Message("Open water: {area}", {"area": Amount(area, "m2")}))
    return found


def _through_filters(
    found: _Reckoned, ammonia: Span, temperature: float, rules: Assumptions
) -> Message | None:
    """How much water must pass the filters, so that what they take out does not stay behind."""
    ph = rules.water.ph_usual
    allowed = rules.stock.unionised_limit / unionised_share(temperature, ph)
    passing = sum(found.passed.values())
    if not found.passed or ammonia.likely <= 0.0:
        return None
    needed = flow_to_hold_ammonia(ammonia.likely, rules.stock.removed_per_pass, min(allowed, 0.1))
    words = (
        "{have} flows through the filters; about {need} is needed to keep toxic ammonia below "
        "{limit} at pH {ph}."
        if passing >= needed
        else "Only {have} flows through the filters; about {need} is needed to keep toxic ammonia "
        "below {limit} at pH {ph}."
    )
    return Message(
        words,
        {
            "have": Amount(passing, "m3/s"),
            "need": Amount(max(needed, LITTLE_FLOW), "m3/s"),
            "ph": Amount(ph, "-"),
            "limit": Amount(rules.stock.unionised_limit, "kg/m3"),
        },
    )


def stock(
    worked: WorkedPond, *, grown: bool, flows: Mapping[str, float] | None = None
) -> StockInYear:
    """Whether filter, oxygen and fish go together, now or once the fish are grown.

    Args:
        worked: The pond.
        grown: Reckon with the length that each group is allowed to grow to.
        flows: Flow measured at pumps, branches and features [m3/s], as far as it stands;
            elsewhere the planned flow counts, as far as the pump that is chosen there can bring it.

    Raises:
        PondError: A shape, a length or a changed rule cannot be; the message says why.
    """
    pond, rules = worked.pond, worked.rules
    found = _gathered(worked, flows or {})
    usual = kelvin(pond.water_temperature_c)
    given = pond.warmest_temperature_c
    warmest = rules.stock.warmest_water if given is None else kelvin(given)
    return StockInYear(
        usual=_judged(pond, rules, found, usual, grown=grown),
        warmest=_judged(pond, rules, found, max(usual, warmest), grown=grown),
        assumed=given is None,
    )


def _judged(
    pond: Pond, rules: Assumptions, found: _Reckoned, temperature: float, *, grown: bool
) -> Stock:
    """The answer at one temperature [K]."""
    measured = pond.measured_volume.volume_m3 if pond.measured_volume else None
    area = volume_of(pond.water, measured).area
    flow, height = found.fall()
    groups = tuple(
        FishGroup(group.count, (grown and group.grown_length_m) or group.length_m)
        for group in pond.fish
    )
    spare = found.beds[0].surface if found.beds else gravel_surface(rules)
    balance = stock_balance(
        StockedPond(
            groups=groups,
            temperature=temperature,
            altitude=pond.altitude_m,
            beds=tuple(found.beds),
            spare_surface=spare,
            water_area=area or 0.0,
            flow=flow,
            fall_height=height,
            feed=None if pond.feed_kg_day is None else pond.feed_kg_day / DAY,
            all_beds=found.all_beds,
            all_air=found.all_air,
        ),
        rules.stock,
    )
    filters, oxygen = balance.filter_fit, balance.oxygen_fit
    return Stock(
        balance=balance,
        temperature=temperature,
        verdict=_verdict(filters, oxygen),
        state=_state(filters, oxygen),
        fish=balance.biomass.total,
        feed=balance.feed.times(DAY),
        ammonia=balance.ammonia.times(DAY),
        capacity=balance.capacity.capacity.times(DAY),
        oxygen_use=balance.oxygen_use.times(HOUR),
        oxygen_supply=balance.oxygen.supply.times(HOUR),
        through_filters=_through_filters(found, balance.ammonia, temperature, rules),
        counted=tuple(found.counted),
        left_out=tuple(found.left_out),
        measured=found.all_measured,
    )


def kelvin(celsius: float) -> float:
    """A stored temperature [degC] as the fields read it [K]."""
    return celsius + ZERO_CELSIUS


def celsius(kelvin: float) -> float:
    """A temperature read from a field [K] as it is stored [degC]."""
    return kelvin - ZERO_CELSIUS


def toxic_shares(pond: Pond) -> tuple[tuple[float, float], ...]:
    """Share of the ammonia that poisons fish, at a few values of pH."""
    temperature = kelvin(pond.water_temperature_c)
    return tuple((ph, unionised_share(temperature, ph)) for ph in CAUTION_PH)
