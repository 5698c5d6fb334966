"""Do the fish, the filters and the oxygen of a pond go together."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pondapp.core.assumptions import Assumptions
from pondapp.core.constants import ZERO_CELSIUS
from pondapp.core.filters.bed import specific_surface
from pondapp.core.messages import Amount
from pondapp.core.messages import Message as Message
from pondapp.core.stock.ammonia import AmmoniaReading as AmmoniaReading
from pondapp.core.stock.ammonia import read_ammonia, unionised_share
from pondapp.core.stock.balance import Fit as Fit
from pondapp.core.stock.balance import Lever as Lever
from pondapp.core.stock.balance import StockBalance, StockedPond, stock_balance
from pondapp.core.stock.biomass import FishGroup
from pondapp.core.stock.nitrification import MEDIA, MediaBed
from pondapp.core.stock.oxygen import TALLEST_FALL
from pondapp.core.stock.span import Span as Span
from pondapp.core.working import Step as Step
from pondapp.models.circuit import BogFilter, Fed, HighFlowFilter, Lip
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.sizing.methods import measured_reading
from pondapp.sizing.path import lines_of
from pondapp.sizing.targets import targets
from pondapp.sizing.volume import volume_of
from pondapp.words import t

DAY = 86400.0
HOUR = 3600.0
ALL_DAY = 24.0
GOOD: tuple[Fit, ...] = ("enough", "likely enough")
CAUTION_PH = (7.0, 8.0, 9.0)


@dataclass(frozen=True, slots=True)
class Stock:
    """The answer, and what it was reckoned with.

    Attributes:
        balance: The reckoning.
        verdict: The answer in one sentence.
        good: Whether filter and oxygen are both at least likely enough.
        fish: All fish [kg].
        feed: Feed in a day [kg].
        ammonia: Ammonia nitrogen given off in a day [kg].
        capacity: Ammonia nitrogen that the filters take out in a day [kg].
        oxygen_use: Oxygen used in an hour of the night [kg].
        oxygen_supply: Oxygen that fall and surface bring in that hour [kg].
        counted: What was counted, and with which numbers.
        left_out: What was not counted, and what is missing for it.
    """

    balance: StockBalance
    verdict: Message
    good: bool
    fish: Span
    feed: Span
    ammonia: Span
    capacity: Span
    oxygen_use: Span
    oxygen_supply: Span
    counted: tuple[Message, ...]
    left_out: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.balance.steps()


def _verdict(filters: Fit, oxygen: Fit) -> Message:
    """The answer in one sentence."""
    if filters in GOOD and oxygen in GOOD:
        if "likely enough" in (filters, oxygen):
            return Message("Filter, oxygen and fish likely go together, with little to spare.")
        return Message("Filter, oxygen and fish go together.")
    sure = "too little" in (filters, oxygen)
    if filters not in GOOD and oxygen not in GOOD:
        return Message(
            "Filter and oxygen are too little for these fish."
            if sure
            else "Filter and oxygen are likely too little for these fish."
        )
    if filters not in GOOD:
        return Message(
            "The filter is too small for these fish."
            if sure
            else "The filter is likely too small for these fish."
        )
    return Message(
        "At night there is too little oxygen for these fish."
        if sure
        else "At night there is likely too little oxygen for these fish."
    )


def _gravel(rules: Assumptions) -> Span:
    """Area over volume of the gravel of the rules [m2/m3]."""
    likely = specific_surface(rules.filters.gravel_grain, rules.filters.porosity)
    give = rules.filters.gravel_surface_give
    return Span(likely * (1 - give), likely, likely * (1 + give))


class _Reckoned:
    """Media, falls and what is said of them, gathered along the water's path."""

    def __init__(self, rules: Assumptions) -> None:
        self.gravel = _gravel(rules)
        self.beds: list[MediaBed] = []
        self.falls: list[tuple[float, float]] = []
        self.counted: list[Message] = []
        self.left_out: list[Message] = []

    def add_bed(self, thing: BogFilter | HighFlowFilter) -> None:
        """Count the media of a filter."""
        if isinstance(thing, BogFilter):
            volume, surface = thing.bed_volume_m3, self.gravel
        elif thing.media_volume_m3 is None:
            self._leave(thing, "give the volume of its media")
            return
        else:
            volume, surface = thing.media_volume_m3, MEDIA["plastic"].surface
        self.beds.append(MediaBed(volume, surface))
        self.counted.append(
            Message("{name}: {volume} of media", {"name": thing.name,
                                                  "volume": Amount(volume, "m3")})
        )  # fmt: skip

    def add_falls(self, lips: list[Lip], flows: Mapping[str, float], wanted: Mapping[str, float]
                  ) -> None:  # fmt: skip
        """Count the falls of one branch: the same water goes over one after the other."""
        heights = []
        for lip in lips:
            if lip.fall_m is None:
                self._leave(lip, "give the height of its fall")
            else:
                heights.append(lip.fall_m)
        falling = [lip for lip in lips if lip.fall_m is not None]
        if not falling:
            return
        measured = [flows[lip.id] for lip in falling if lip.id in flows]
        flow = min(measured or [wanted[lip.id] for lip in falling])
        height = min(sum(heights), TALLEST_FALL)
        self.falls.append((flow, height))
        words = (
            "{name}: falls {height} with {flow}, as measured last"
            if measured
            else "{name}: falls {height} with the {flow} that it wants; measure what it gets"
        )
        names = t(" and ").join(lip.name for lip in falling)
        self.counted.append(
            Message(words, {"name": names, "height": Amount(height, "m"),
                            "flow": Amount(flow, "m3/s")})
        )  # fmt: skip

    def rests_at_night(self, thing: Fed) -> None:
        """A thing without water for part of the day counts for nothing."""
        self._leave(thing, "its pump does not run day and night")

    def _leave(self, thing: Fed, why: str) -> None:
        self.left_out.append(Message("{name}: {why}", {"name": thing.name, "why": why}))

    def fall(self) -> tuple[float, float]:
        """Flow and height [m] of one fall that stands for all."""
        flow = sum(flow for flow, _ in self.falls)
        if flow <= 0:
            return 0.0, 0.0
        return flow, sum(flow * height for flow, height in self.falls) / flow


def _gathered(pond: Pond, rules: Assumptions, flows: Mapping[str, float]) -> _Reckoned:
    found = _Reckoned(rules)
    things = {thing.id: thing for thing in pond.fed}
    wanted = {place.place_id: place.band.target for place in targets(pond).places}
    placed: set[str] = set()
    for line in lines_of(pond):
        for branch in line.branches:
            passed = [things[key] for key in branch.feeds if key in things and key not in placed]
            placed.update(thing.id for thing in passed)
            useful = [t for t in passed if isinstance(t, BogFilter | HighFlowFilter | Lip)]
            if line.hours_per_day < ALL_DAY:
                for thing in useful:
                    found.rests_at_night(thing)
                continue
            for thing in useful:
                if not isinstance(thing, Lip):
                    found.add_bed(thing)
            found.add_falls([t for t in useful if isinstance(t, Lip)], flows, wanted)
    for fed in pond.fed:
        if fed.id not in placed and isinstance(fed, BogFilter | HighFlowFilter | Lip):
            found.left_out.append(Message("{name}: no branch brings it water", {"name": fed.name}))
    return found


def stock(pond: Pond, *, grown: bool, flows: Mapping[str, float] | None = None) -> Stock:
    """Whether filter, oxygen and fish go together, now or once the fish are grown.

    Args:
        pond: The pond.
        grown: Reckon with the length that each group is allowed to grow to.
        flows: Flow last measured at each place [m3/s]; the wanted flow counts elsewhere.

    Raises:
        PondError: A shape, a length or a changed rule cannot be; the message says why.
    """
    rules = Assumptions().changed(pond.assumptions)
    found = _gathered(pond, rules, flows or {})
    measured = pond.measured_volume.volume_m3 if pond.measured_volume else None
    area = volume_of(pond.water, measured).area
    if area is None:
        found.left_out.append(Message("The water's surface: draw the pond's shape"))
    else:
        found.counted.append(Message("Open water: {area}", {"area": Amount(area, "m2")}))
    flow, height = found.fall()
    groups = tuple(
        FishGroup(group.count, (grown and group.grown_length_m) or group.length_m)
        for group in pond.fish
    )
    spare = found.beds[0].surface if found.beds else found.gravel
    balance = stock_balance(
        StockedPond(
            groups=groups,
            temperature=kelvin(pond.water_temperature_c),
            altitude=pond.altitude_m,
            beds=tuple(found.beds),
            spare_surface=spare,
            water_area=area or 0.0,
            flow=flow,
            fall_height=height,
            feed=None if pond.feed_kg_day is None else pond.feed_kg_day / DAY,
        ),
        rules.stock,
    )
    filters, oxygen = balance.filter_fit, balance.oxygen_fit
    return Stock(
        balance=balance,
        verdict=_verdict(filters, oxygen),
        good=filters in GOOD and oxygen in GOOD,
        fish=balance.biomass.total,
        feed=balance.feed.times(DAY),
        ammonia=balance.ammonia.times(DAY),
        capacity=balance.capacity.capacity.times(DAY),
        oxygen_use=balance.oxygen_use.times(HOUR),
        oxygen_supply=balance.oxygen.supply.times(HOUR),
        counted=tuple(found.counted),
        left_out=tuple(found.left_out),
    )


def kelvin(celsius: float) -> float:
    """A stored temperature [degC] as the fields read it [K]."""
    return celsius + ZERO_CELSIUS


def celsius(kelvin: float) -> float:
    """A temperature read from a field [K] as it is stored [degC]."""
    return kelvin - ZERO_CELSIUS


def newest_flows(newest_first: Sequence[Reading]) -> dict[str, float]:
    """Flow last measured at each place [m3/s], 0 where nothing came.

    A reading with every fill struck out is none.
    """
    found: dict[str, float] = {}
    for reading in newest_first:
        measured = measured_reading(reading)
        if measured is not None:
            found.setdefault(reading.place_id, measured.flow.flow)
    return found


def ammonia_test(pond: Pond, total: float, ph: float) -> AmmoniaReading:
    """What a test of total ammonia nitrogen [kg/m3] means at the pond's temperature.

    Raises:
        PondError: A number is outside its range.
    """
    rules = Assumptions().changed(pond.assumptions).stock
    temperature = kelvin(pond.water_temperature_c)
    return read_ammonia(total, temperature, ph, rules.unionised_limit)


def toxic_shares(pond: Pond) -> tuple[tuple[float, float], ...]:
    """Share of the ammonia that poisons fish, at a few values of pH."""
    temperature = kelvin(pond.water_temperature_c)
    return tuple((ph, unionised_share(temperature, ph)) for ph in CAUTION_PH)
