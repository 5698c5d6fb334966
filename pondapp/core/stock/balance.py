"""Do filter, oxygen and fish balance; and if not, what would settle it, computed."""

from dataclasses import dataclass
from math import ceil
from typing import Literal

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import DAY, HOUR
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.stock.ammonia import UNFED, given_off, production_span, unfed_excretion
from pondapp.core.stock.biomass import Biomass, FishGroup, biomass
from pondapp.core.stock.feed import Feeding, feeding
from pondapp.core.stock.nitrification import (
    FilterCapacity,
    MediaBed,
    alkalinity_for_nitrification,
    filter_capacity,
    oxygen_for_nitrification,
)
from pondapp.core.stock.oxygen import OxygenSupply, oxygen_supply, saturation_at_altitude
from pondapp.core.stock.respiration import RESPIRATION, respiration
from pondapp.core.stock.span import Span, exactly

MOST_MEDIA = 1e4  # m3, as in filter_capacity: a lever beyond what the core takes is no help
MOST_FLOW = 10.0  # m3/s, as in oxygen_supply

Fit = Literal["enough", "likely enough", "unknown", "likely too little", "too little"]
Side = Literal["filter", "oxygen"]
SHORT: tuple[Fit, ...] = ("likely too little", "too little")

NITROGEN_SHARE = Source("Timmons and Ebeling, Recirculating Aquaculture", "from memory")
STOICHIOMETRY = Source("two O2 for each nitrogen, standard atomic weights", "computed")


@dataclass(frozen=True, slots=True)
class StockedPond:
    """A pond with its fish, at one temperature.

    Attributes:
        groups: The fish.
        temperature: Water temperature [K].
        altitude: Height above the sea [m].
        beds: Media that water passes all day.
        spare_surface: Area over volume of media that could be added [m2/m3]; 0 for none.
        water_area: Open surface [m2].
        flow: Flow over the fall, at night too [m3/s].
        fall_height: Height of the fall [m].
        feed: Feed as weighed by the owner [kg/s]; None for the chart's.
        all_beds: Whether these are all the media; else there may be more.
        all_air: Whether fall and surface are all that brings oxygen; else there may be more.
    """

    groups: tuple[FishGroup, ...]
    temperature: float
    altitude: float
    beds: tuple[MediaBed, ...]
    spare_surface: Span
    water_area: float
    flow: float
    fall_height: float
    feed: float | None
    all_beds: bool = True
    all_air: bool = True


@dataclass(frozen=True, slots=True)
class Lever:
    """One change that would settle what does not balance, on the likely values.

    Attributes:
        kind: What is changed.
        amount: How much; the message says of what.
        settles: What then balances.
        message: The same as a sentence.
    """

    kind: Literal["more media", "fewer fish", "less feed", "more flow", "air pump"]
    amount: Amount
    settles: tuple[Side, ...]
    message: Message


@dataclass(frozen=True, slots=True)
class StockBalance:
    """What the fish ask for, what pond and filter give, and what would settle it.

    Attributes:
        biomass: All fish.
        feeding: What the chart says for them.
        feed: Feed that was reckoned with [kg/s].
        unfed: Ammonia nitrogen given off though nobody feeds [kg/s].
        ammonia: Ammonia nitrogen given off [kg/s].
        capacity: What the filters take out.
        fish_oxygen: Oxygen that the fish breathe [kg/s].
        filter_oxygen: Oxygen that turns the ammonia into nitrate [kg/s].
        oxygen_use: Both, and at the most what all feed uses in the end [kg/s].
        oxygen: What fall and surface bring.
        alkalinity_use: Alkalinity used up, as calcium carbonate [kg/s].
        filter_fit: Whether the filters are enough.
        oxygen_fit: Whether the oxygen is.
        levers: What would settle it; none for a side that is likely enough or not known.
        warnings: What to mind.
    """

    biomass: Biomass
    feeding: Feeding
    feed: Span
    unfed: Span
    ammonia: Span
    capacity: FilterCapacity
    fish_oxygen: Span
    filter_oxygen: Span
    oxygen_use: Span
    oxygen: OxygenSupply
    alkalinity_use: Span
    filter_fit: Fit
    oxygen_fit: Fit
    levers: tuple[Lever, ...]
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        feed = Term("F", "feed", self.feed.likely, "kg/s")
        ammonia = Term("P", "ammonia nitrogen given off", self.ammonia.likely, "kg/s")
        unfed = Term("Pu", "ammonia nitrogen of unfed fish", self.unfed.likely, "kg/s")
        fish = Term("B", "all fish", self.biomass.total.likely, "kg")
        breath = Term("Of", "oxygen for the fish", self.fish_oxygen.likely, "kg/s")
        bacteria = Term("Ob", "oxygen for the filter", self.filter_oxygen.likely, "kg/s")
        use = Term("O", "oxygen use", self.oxygen_use.likely, "kg/s")
        lime = Term("K", "alkalinity used up", self.alkalinity_use.likely, "kg/s")
        return (
            *self.biomass.steps(),
            *self.feeding.steps(),
            Step(unfed, "Pu = B p20 Q10^((T - 293.15) / 10)", (fish,), UNFED),
            Step(
                ammonia,
                "P = F protein x nitrogen share, and no less than Pu",
                (feed, unfed),
                NITROGEN_SHARE,
            ),
            *self.capacity.steps(),
            Step(breath, "Of = B r20 Q10^((T - 293.15) / 10)", (fish,), RESPIRATION),
            Step(bacteria, "Ob = P 2 x 31.9988 / 14.0067", (ammonia,), STOICHIOMETRY),
            Step(use, "O = Of + Ob", (breath, bacteria), ARITHMETIC),
            *self.oxygen.steps(),
            Step(lime, "K = P 100.087 / 14.0067", (ammonia,), STOICHIOMETRY),
        )


def fit(need: Span, have: Span, *, counted_all: bool = True) -> Fit:
    """Whether what there is covers what is needed, given that both are ranges.

    Args:
        need: What is needed.
        have: What there is, in the same unit.
        counted_all: Whether that is all there is; else there may be more, and too little is not
            known.

    Returns:
        "enough" if the least there is covers the most needed, "too little" if the most there is
        does not cover the least needed, else by the likely values [-].

    Source:
        Comparison of ranges.

    Example:
        >>> from pondapp.core.stock.span import Span
        >>> need = Span(1.0, 2.0, 3.0)
        >>> fit(need, Span(4.0, 5.0, 6.0)), fit(need, Span(1.0, 2.0, 3.0))
        ('enough', 'likely enough')
    """
    if need.high <= have.low:
        return "enough"
    if need.likely <= have.likely:
        return "likely enough"
    if not counted_all:
        return "unknown"
    return "too little" if need.low > have.high else "likely too little"


def _more_media(pond: StockedPond, ammonia: Span, capacity: FilterCapacity) -> Lever | None:
    gain = pond.spare_surface.likely * capacity.rate.likely
    if gain <= 0.0:
        return None
    missing = ammonia.likely - capacity.capacity.likely
    if missing > gain * MOST_MEDIA:
        return None
    volume = missing / gain
    return Lever(
        "more media",
        Amount(volume, "m3"),
        ("filter",),
        Message(
            "add {volume} of media of that kind, with the same flow through them; bacteria take "
            "weeks to grow on them",
            {"volume": Amount(volume, "m3")},
        ),
    )


def _fewer_fish(fish: Biomass, kept: dict[Side, float]) -> Lever | None:
    settled = {side: share for side, share in kept.items() if 0.0 < share < 1.0}
    if not settled:
        return None
    share = min(settled.values())
    # Up, and a hair less first: a whole number must not become one more by rounding.
    count = ceil((1.0 - share) * sum(group.count for group in fish.groups) - 1e-9)
    mass = (1.0 - share) * fish.total.likely
    return Lever(
        "fewer fish",
        Amount(float(count), "-"),
        tuple(settled),
        Message(
            "find a home for {mass} of fish, about {count} of middle size, and feed the others "
            "that much less",
            {"mass": Amount(mass, "kg"), "count": Amount(float(count), "-")},
        ),
    )


def _less_feed(feed: float, kept: dict[Side, float]) -> Lever | None:
    settled = {side: share for side, share in kept.items() if share < 1.0}
    if not settled or feed <= 0.0:
        return None
    rest = min(settled.values()) * feed
    return Lever(
        "less feed",
        Amount(rest, "kg/s"),
        tuple(settled),
        Message(
            "feed {rest} in a day and no more than that, instead of {feed}",
            {"rest": Amount(rest * DAY, "kg"), "feed": Amount(feed * DAY, "kg")},
        ),
    )


def _more_air(use: float, now: float, oxygen: OxygenSupply) -> tuple[Lever, ...]:
    missing = use - oxygen.supply.likely
    levers = []
    per_flow = oxygen.per_flow.likely
    # As a product first: a still fall gives next to nothing, and dividing by that no number.
    if missing < per_flow * (MOST_FLOW - now):
        flow = missing / per_flow
        levers.append(
            Lever(
                "more flow",
                Amount(flow, "m3/s"),
                ("oxygen",),
                Message(
                    "let {flow} more run over the fall, day and night",
                    {"flow": Amount(flow, "m3/s")},
                ),
            )
        )
    if oxygen.saturation.concentration > oxygen.wanted:
        levers.append(
            Lever(
                "air pump",
                Amount(missing, "kg/s"),
                ("oxygen",),
                Message(
                    "an air pump whose stones dissolve {mass} of oxygen in an hour",
                    {"mass": Amount(missing * HOUR, "kg")},
                ),
            )
        )
    return tuple(levers)


def _warnings(
    pond: StockedPond, feed: Feeding, capacity: FilterCapacity, oxygen: OxygenSupply
) -> tuple[Message, ...]:
    found = list(capacity.warnings)
    if pond.feed is not None and pond.feed > feed.appetite.high:
        found.append(
            Message(
                "{feed} in a day is more than these fish eat at this temperature ({most} at the "
                "most); what they leave rots and makes ammonia too",
                {
                    "feed": Amount(pond.feed * DAY, "kg"),
                    "most": Amount(feed.appetite.high * DAY, "kg"),
                },
            )
        )
    if oxygen.saturation.concentration <= oxygen.wanted:
        found.append(
            Message(
                "water this warm and this high up holds {full} of oxygen at the most, less than "
                "the {wanted} wanted: shade it, and do not feed until it is cooler",
                {
                    "full": Amount(oxygen.saturation.concentration, "kg/m3"),
                    "wanted": Amount(oxygen.wanted, "kg/m3"),
                },
            )
        )
    return tuple(found)


def stock_balance(pond: StockedPond, rules: StockAssumptions) -> StockBalance:
    """Whether filter, oxygen and fish balance, and what would settle it.

    Args:
        pond: The pond with its fish; temperature 273.15 to 313.15 K, altitude -500 to 5000
            m, water area 0 to 1e5 m2, flow 0 to 10 m3/s, fall 0 to 4 m, feed 0 to 1 kg/s.
        rules: The assumptions in force.

    Returns:
        What is asked for and what there is, as ranges [kg/s], two verdicts, and levers that
        bring the likely values into balance. Plants are left out: at night they use oxygen too.

    Raises:
        OutOfRange: A number is outside its range, or the values of a rule do not rise.

    Source:
        Mass balances of ammonia and oxygen; the parts name their own sources.

    Example:
        Five koi of 40 cm at 20 °C, 30 L of media and a fall of half a metre:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> from pondapp.core.stock.span import exactly
        >>> pond = StockedPond(
        ...     groups=(FishGroup(5, 0.40),), temperature=293.15, altitude=0.0,
        ...     beds=(MediaBed(0.030, exactly(300.0)),), spare_surface=exactly(0.0),
        ...     water_area=10.0,
        ...     flow=2.0 / 3600, fall_height=0.5, feed=None, all_beds=True, all_air=True,
        ... )
        >>> found = stock_balance(pond, StockAssumptions())
        >>> found.filter_fit, found.oxygen_fit
        ('likely enough', 'likely enough')
    """
    fish = biomass(pond.groups, rules)
    chart = feeding(fish.total, pond.temperature, rules)
    feed = chart.appetite
    if pond.feed is not None:
        feed = exactly(require_within("feed", pond.feed, 0.0, 1.0, "kg/s"))
    share = Span(rules.ammonia_low, rules.ammonia_likely, rules.ammonia_high)
    unfed = unfed_excretion(fish.total, pond.temperature, rules)
    ammonia = given_off(production_span(feed, rules.feed_protein, share), unfed)
    capacity = filter_capacity(pond.beds, pond.temperature, rules)
    breath = respiration(fish.total, pond.temperature, rules)
    bacteria = ammonia.times(oxygen_for_nitrification(1.0))
    both = breath.plus(bacteria)
    use = Span(both.low, both.likely, max(both.high, feed.high * rules.oxygen_per_feed))
    oxygen = oxygen_supply(
        saturation_at_altitude(pond.temperature, pond.altitude),
        rules.oxygen_wanted,
        pond.flow,
        pond.fall_height,
        Span(rules.fall_factor_low, rules.fall_factor_likely, rules.fall_factor_high),
        pond.water_area,
        Span(
            rules.surface_exchange_low,
            rules.surface_exchange_likely,
            rules.surface_exchange_high,
        ),
    )
    filter_fit = fit(ammonia, capacity.capacity, counted_all=pond.all_beds)
    oxygen_fit = fit(use, oxygen.supply, counted_all=pond.all_air)

    levers: list[Lever | None] = []
    fewer: dict[Side, float] = {}
    allowed: dict[Side, float] = {}
    if filter_fit in SHORT:
        levers.append(_more_media(pond, ammonia, capacity))
        fewer["filter"] = capacity.capacity.likely / ammonia.likely
        allowed["filter"] = capacity.capacity.likely
    if oxygen_fit in SHORT:
        levers.extend(_more_air(use.likely, pond.flow, oxygen))
        fewer["oxygen"] = oxygen.supply.likely / use.likely
        allowed["oxygen"] = (oxygen.supply.likely - breath.likely) / oxygen_for_nitrification(1.0)
    # Less feed settles no more than what the feed makes: unfed fish give off ammonia too.
    less: dict[Side, float] = {
        side: most / ammonia.likely
        for side, most in allowed.items()
        if unfed.likely <= most and unfed.likely < ammonia.likely
    }
    levers.append(_fewer_fish(fish, fewer))
    levers.append(_less_feed(feed.likely, less))
    return StockBalance(
        biomass=fish,
        feeding=chart,
        feed=feed,
        unfed=unfed,
        ammonia=ammonia,
        capacity=capacity,
        fish_oxygen=breath,
        filter_oxygen=bacteria,
        oxygen_use=use,
        oxygen=oxygen,
        alkalinity_use=ammonia.times(alkalinity_for_nitrification(1.0)),
        filter_fit=filter_fit,
        oxygen_fit=oxygen_fit,
        levers=tuple(lever for lever in levers if lever is not None),
        warnings=_warnings(pond, chart, capacity, oxygen),
    )
