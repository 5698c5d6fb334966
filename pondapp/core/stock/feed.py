"""How much fish eat, by the temperature of the water."""

from dataclasses import dataclass
from itertools import pairwise

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.errors import OutOfRange, require_within
from pondapp.core.messages import Amount, Message
from pondapp.core.stock.span import NOTHING, Span
from pondapp.core.working import ARITHMETIC, COMMON_PRACTICE, Step, Term


@dataclass(frozen=True, slots=True)
class Feeding:
    """What to feed in a day.

    Attributes:
        feed: Feed that the fish eat [kg/s].
        ration: Feed over mass of fish [1/s].
        meals: Fewest and most meals in a day [-].
        advice: What the chart says, in words.
        biomass: All fish [kg].
        temperature: Water temperature [K].
    """

    feed: Span
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
        feed = Term("F", "feed", self.feed.likely, "kg/s")
        return (
            Step(ration, "f by temperature from the chart", (heat,), COMMON_PRACTICE),
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
        Proportion.
    """
    require_within("mass of all fish", mass, 0.0, 1e6, "kg")
    require_within("feed over mass of fish", ration, 0.0, 1e-5, "1/s")
    return mass * ration


def feeding(fish: Span, temperature: float, rules: StockAssumptions) -> Feeding:
    """What to feed in a day, by the temperature of the water.

    Args:
        fish: All fish [kg], 0 to 1e6.
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force [any].

    Returns:
        Feed [kg/s], the ration [1/s], and the chart's words; none in cold and in hot water.

    Raises:
        OutOfRange: A number is outside its range, or the chart's temperatures do not rise.

    Source:
        A pond trade's feeding chart (common practice): no official table was found.
    """
    require_within("water temperature", temperature, 273.15, 313.15, "K")
    require_within("mass of all fish", fish.high, 0.0, 1e6, "kg")
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
    meals = (0, 0)
    ration = NOTHING
    if temperature < rules.feed_from:
        words = "do not feed: below {limit} fish hardly digest"
        limit = rules.feed_from
    elif temperature > rules.feed_until:
        words = "do not feed: above {limit} the water holds too little oxygen for it"
        limit = rules.feed_until
    elif temperature < rules.feed_cool_from:
        words = "feed little or nothing until {limit}, and then wheat germ"
        limit = rules.feed_cool_from
        meals = (0, 1)
        ration = Span(0.0, rules.ration_cold_likely, rules.ration_cold_high)
    elif temperature < rules.feed_mild_from:
        words = "feed once a day, wheat germ, until {limit}"
        limit = rules.feed_mild_from
        meals = (1, 1)
        ration = Span(rules.ration_cool_low, rules.ration_cool_likely, rules.ration_cool_high)
    elif temperature < rules.feed_warm_from:
        words = "feed once a day, of medium protein, until {limit}"
        limit = rules.feed_warm_from
        meals = (1, 1)
        ration = Span(rules.ration_mild_low, rules.ration_mild_likely, rules.ration_mild_high)
    else:
        words = "feed two or three times a day, no more than is gone in minutes, up to {limit}"
        limit = rules.feed_until
        meals = (2, 3)
        ration = Span(rules.ration_warm_low, rules.ration_warm_likely, rules.ration_warm_high)
    feed = Span(
        feed_at_ration(fish.low, ration.low),
        feed_at_ration(fish.likely, ration.likely),
        feed_at_ration(fish.high, ration.high),
    )
    advice = Message(words, {"limit": Amount(limit, "K")})
    return Feeding(feed, ration, meals, advice, fish, temperature)
