"""How much fish eat, by the temperature of the water."""

from dataclasses import dataclass
from itertools import pairwise

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.errors import OutOfRange, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, COMMON_PRACTICE, Step, Term
from pondapp.core.stock.span import NOTHING, Span


@dataclass(frozen=True, slots=True)
class Feeding:
    """What to feed in a day.

    Attributes:
        feed: What the chart gives them [kg/s]; none in cold and in hot water.
        appetite: What they eat where they are fed [kg/s]: in water too hot to feed, still as much.
        ration: Appetite over mass of fish [1/s].
        meals: Fewest and most meals in a day [-].
        advice: What the chart says, in words.
        biomass: All fish [kg].
        temperature: Water temperature [K].
    """

    feed: Span
    appetite: Span
    ration: Span
    meals: tuple[int, int]
    advice: Message
    biomass: Span
    temperature: float

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        heat = Term("T", "water temperature", self.temperature, "K")
        ration = Term("f", "feed over mass of fish", self.ration.likely, "1/s")
        fish = Term("B", "all fish", self.biomass.likely, "kg")
        feed = Term("F", "feed", self.appetite.likely, "kg/s")
        return (
            Step(
                ration,
                "f by temperature from the chart, in proportion between the middles of its steps",
                (heat,),
                COMMON_PRACTICE,
            ),
            Step(feed, "F = f B", (ration, fish), ARITHMETIC),
        )


def feed_at_ration(mass: float, ration: float) -> float:
    """Feed from the mass of the fish.

    Args:
        mass: All fish [kg], 0 to 1e6.
        ration: Feed over mass of fish [1/s], 0 to 1e-5, which is 86 % in a day.

    Returns:
        Feed [kg/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        F = r m, proportion.

    Example:
        5 kg of fish that get 1 % of their weight a day:

        >>> round(feed_at_ration(5.0, 0.01 / 86400.0) * 86400.0 * 1000.0, 3)  # g a day
        50.0
    """
    require_within("mass of all fish", mass, 0.0, 1e6, "kg")
    require_within("feed over mass of fish", ration, 0.0, 1e-5, "1/s")
    return mass * ration


def chart_ration(temperature: float, rules: StockAssumptions) -> Span:
    """Feed over mass of fish by the temperature of the water, without the chart's sudden steps.

    Nothing up to the coldest water of the chart; from there in proportion from the middle of one
    step to the middle of the next; above the middle of the warmest step its own ration, also in
    water too hot to feed: fish that were fed yesterday still give off what they ate.

    Args:
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force.

    Returns:
        Feed over mass of fish [1/s].

    Raises:
        OutOfRange: The temperature is outside its range, or the chart's temperatures do not rise.

    Source:
        A pond trade's feeding chart (common practice): no official table was found.

    Example:
        At 22 °C:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> round(100.0 * 86400.0 * chart_ration(295.15, StockAssumptions()).likely, 2)  # % a day
        0.93
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    limits = _limits(rules)
    rations = (
        Span(0.0, rules.ration_cold_likely, rules.ration_cold_high),
        Span(rules.ration_cool_low, rules.ration_cool_likely, rules.ration_cool_high),
        Span(rules.ration_mild_low, rules.ration_mild_likely, rules.ration_mild_high),
        Span(rules.ration_warm_low, rules.ration_warm_likely, rules.ration_warm_high),
    )
    middles = [(lower + upper) / 2.0 for lower, upper in pairwise(limits)]
    knots = [(limits[0], NOTHING), *zip(middles, rations, strict=True)]
    if temperature <= limits[0]:
        return NOTHING
    for (cold, less), (warm, more) in pairwise(knots):
        if temperature < warm:
            share = (temperature - cold) / (warm - cold)
            return less.times(1.0 - share).plus(more.times(share))
    return rations[-1]


def _limits(rules: StockAssumptions) -> tuple[float, ...]:
    """Temperatures [K] at which the chart's steps begin, and at which the last one ends."""
    limits = (
        rules.feed_from,
        rules.feed_cool_from,
        rules.feed_mild_from,
        rules.feed_warm_from,
        rules.feed_until,
    )
    for lower, upper in pairwise(limits):
        if lower > upper:
            raise OutOfRange(
                "temperatures of the feeding chart: {lower} must not be above {upper}",
                lower=Amount(lower, "K"),
                upper=Amount(upper, "K"),
            )
    return limits


def feeding(fish: Span, temperature: float, rules: StockAssumptions) -> Feeding:
    """What to feed in a day, by the temperature of the water.

    Args:
        fish: All fish [kg], 0 to 1e6.
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force.

    Returns:
        Feed and appetite [kg/s], the ration [1/s], and the chart's words.

    Raises:
        OutOfRange: A number is outside its range, or the chart's temperatures do not rise.

    Source:
        A pond trade's feeding chart (common practice): no official table was found.

    Example:
        5 kg of fish at 22 °C, and at 5 °C:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> from pondapp.core.stock.span import exactly
        >>> warm, cold = (feeding(exactly(5.0), t, StockAssumptions()) for t in (295.15, 278.15))
        >>> round(warm.feed.likely * 86400.0 * 1000.0), cold.feed.likely  # g a day
        (46, 0.0)
    """
    require_within("mass of all fish", fish.high, 0.0, 1e6, "kg")
    ration = chart_ration(temperature, rules)
    appetite = Span(
        feed_at_ration(fish.low, ration.low),
        feed_at_ration(fish.likely, ration.likely),
        feed_at_ration(fish.high, ration.high),
    )
    feed, meals = appetite, (0, 0)
    if temperature < rules.feed_from:
        words, limit = "do not feed: below {limit} fish hardly digest", rules.feed_from
    elif temperature > rules.feed_until:
        feed = NOTHING
        words = "do not feed: above {limit} the water holds too little oxygen for it"
        limit = rules.feed_until
    elif temperature < rules.feed_cool_from:
        words = "feed little or nothing until {limit}, and then wheat germ"
        limit, meals = rules.feed_cool_from, (0, 1)
    elif temperature < rules.feed_mild_from:
        words = "feed once a day, wheat germ, until {limit}"
        limit, meals = rules.feed_mild_from, (1, 1)
    elif temperature < rules.feed_warm_from:
        words = "feed once a day, of medium protein, until {limit}"
        limit, meals = rules.feed_warm_from, (1, 1)
    else:
        words = "feed two or three times a day, no more than is gone in minutes, up to {limit}"
        limit, meals = rules.feed_until, (2, 3)
    advice = Message(words, {"limit": Amount(limit, "K")})
    return Feeding(feed, appetite, ration, meals, advice, fish, temperature)
