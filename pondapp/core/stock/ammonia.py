"""Ammonia: how much the feed makes, and how much of it is the poisonous kind."""

from dataclasses import dataclass

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.stock.span import Span

EMERSON = Source("Emerson et al. 1975, J. Fish. Res. Board Can. 32, 2379, as quoted", "published")
UNFED = Source("Brett and Zala 1975, J. Fish. Res. Board Can. 32, 2479: unfed fish", "published")
REFERENCE = 293.15  # K: the temperature that the rules of unfed fish are given for
MASS_BALANCE = Source("conservation of the ammonia's mass", "computed")


def ammonia_production(feed: float, protein: float, nitrogen_share: float) -> float:
    """Total ammonia nitrogen that fish give off for their feed.

    Args:
        feed: Feed that is eaten [kg/s], 0 to 1.
        protein: Share of protein in it [-], 0 to 1.
        nitrogen_share: Ammonia nitrogen over protein [-], 0 to 0.16, the nitrogen in protein.

    Returns:
        Ammonia nitrogen, both kinds [kg/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        P = 0.092 F PC: M. B. Timmons, J. M. Ebeling, Recirculating Aquaculture, from memory.

    Example:
        100 g of feed a day with 40 % of protein:

        >>> made = ammonia_production(0.100 / 86400.0, 0.40, 0.092)
        >>> round(made * 86400.0 * 1000.0, 2)  # g a day
        3.68
    """
    require_within("feed", feed, 0.0, 1.0, "kg/s")
    require_within("protein in the feed", protein, 0.0, 1.0, "-")
    require_within("ammonia nitrogen from protein", nitrogen_share, 0.0, 0.16, "-")
    return feed * protein * nitrogen_share


def ammonia_pka(temperature: float) -> float:
    """Negative logarithm of the acid constant of ammonium in fresh water.

    Args:
        temperature: Water temperature [K], 273.15 to 323.15.

    Returns:
        pKa [-].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        pKa = 0.09018 + 2729.92 / T: K. Emerson, R. C. Russo, R. E. Lund, R. V. Thurston, Aqueous
        ammonia equilibrium calculations: effect of pH and temperature, J. Fish. Res. Board Can. 32
        (1975) 2379-2383.

    Example:
        At 25 °C:

        >>> round(ammonia_pka(298.15), 3)
        9.246
    """
    require_within("water temperature", temperature, COLDEST, WARMEST + 10.0, "K")
    return 0.09018 + 2729.92 / temperature


def unionised_share(temperature: float, ph: float) -> float:
    """Share of total ammonia that is un-ionised, the kind that poisons fish.

    Args:
        temperature: Water temperature [K], 273.15 to 323.15.
        ph: pH of the water [-], 5 to 11; surest from 6 to 10.

    Returns:
        Share [-], 0 to 1.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        1 / (1 + 10^(pKa - pH)): K. Emerson, R. C. Russo, R. E. Lund, R. V. Thurston, Aqueous
        ammonia equilibrium calculations: effect of pH and temperature, J. Fish. Res. Board Can. 32
        (1975) 2379-2383, fresh water.

    Example:
        At 25 °C and a pH of 8, 5.4 % of the ammonia is toxic:

        >>> round(unionised_share(298.15, 8.0), 4)
        0.0537
    """
    require_within("pH of the water", ph, 5.0, 11.0, "-")
    return float(1.0 / (1.0 + 10.0 ** (ammonia_pka(temperature) - ph)))


@dataclass(frozen=True, slots=True)
class AmmoniaReading:
    """What a reading of total ammonia means for the fish.

    Attributes:
        total: Total ammonia nitrogen as read [kg/m3].
        share: Share of it that is un-ionised [-].
        unionised: Un-ionised ammonia nitrogen [kg/m3].
        total_allowed: Total at which the limit is reached [kg/m3].
        limit: Limit of un-ionised ammonia nitrogen [kg/m3].
        temperature: Water temperature [K].
        ph: pH of the water [-].
        warnings: What to mind; empty while below the limit.
    """

    total: float
    share: float
    unionised: float
    total_allowed: float
    limit: float
    temperature: float
    ph: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        heat = Term("T", "water temperature", self.temperature, "K")
        ph = Term("pH", "pH of the water", self.ph, "-")
        pka = Term("pKa", "acid constant of ammonium", ammonia_pka(self.temperature), "-")
        share = Term("f", "un-ionised share", self.share, "-")
        total = Term("TAN", "total ammonia nitrogen", self.total, "kg/m3")
        free = Term("NH3-N", "un-ionised ammonia nitrogen", self.unionised, "kg/m3")
        limit = Term("L", "limit of the un-ionised", self.limit, "kg/m3")
        allowed = Term("TANmax", "total at the limit", self.total_allowed, "kg/m3")
        return (
            Step(pka, "pKa = 0.09018 + 2729.92 / T", (heat,), EMERSON),
            Step(share, "f = 1 / (1 + 10^(pKa - pH))", (pka, ph), EMERSON),
            Step(free, "NH3-N = f TAN", (share, total), MASS_BALANCE),
            Step(allowed, "TANmax = L / f", (limit, share), MASS_BALANCE),
        )


def read_ammonia(total: float, temperature: float, ph: float, limit: float) -> AmmoniaReading:
    """Un-ionised ammonia from a test of total ammonia, and how far from the limit it is.

    Args:
        total: Total ammonia nitrogen as read [kg/m3], 0 to 0.1.
        temperature: Water temperature [K], 273.15 to 323.15.
        ph: pH of the water [-], 5 to 11.
        limit: Most un-ionised ammonia nitrogen [kg/m3], above 0 to 0.01.

    Returns:
        Un-ionised ammonia nitrogen [kg/m3] with a warning above the limit.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        K. Emerson, R. C. Russo, R. E. Lund, R. V. Thurston, Aqueous ammonia equilibrium
        calculations: effect of pH and temperature, J. Fish. Res. Board Can. 32 (1975) 2379-2383;
        the limit is a rule.

    Example:
        0.5 mg/L at 20 °C and a pH of 8.5, with a limit of 0.02 mg/L:

        >>> found = read_ammonia(0.5e-3, 293.15, 8.5, 0.02e-3)
        >>> round(1e6 * found.unionised, 1), len(found.warnings)  # µg/L
        (55.6, 1)
    """
    require_within("total ammonia", total, 0.0, 0.1, "kg/m3")
    require_above("limit of un-ionised ammonia", limit, 0.0, 0.01, "kg/m3")
    share = unionised_share(temperature, ph)
    free = share * total
    warnings: tuple[Message, ...] = ()
    if free > limit:
        # The limit is reached again once this share of the water is ammonia-free.
        warnings = (
            Message(
                "un-ionised ammonia is {free}, above {limit}: stop feeding, aerate, and change "
                "{share} of the water for water free of ammonia and chlorine, in portions",
                {
                    "free": Amount(free, "kg/m3"),
                    "limit": Amount(limit, "kg/m3"),
                    "share": Amount(1.0 - limit / free, "share"),
                },
            ),
        )
    return AmmoniaReading(total, share, free, limit / share, limit, temperature, ph, warnings)


def production_span(feed: Span, protein: float, nitrogen_share: Span) -> Span:
    """Range of the ammonia nitrogen that fish give off.

    Args:
        feed: Feed that is eaten [kg/s], 0 to 1.
        protein: Share of protein in it [-], 0 to 1.
        nitrogen_share: Ammonia nitrogen over protein [-], 0 to 0.16.

    Returns:
        Ammonia nitrogen, both kinds [kg/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        ammonia_production, end by end.

    Example:
        50 to 150 g of feed a day with 40 % of protein:

        >>> from pondapp.core.stock.span import Span
        >>> feed = Span(50.0, 100.0, 150.0).times(1e-3 / 86400.0)
        >>> made = production_span(feed, 0.40, Span(0.08, 0.092, 0.10))
        >>> [round(one * 86.4e6, 2) for one in (made.low, made.likely, made.high)]  # g a day
        [1.6, 3.68, 6.0]
    """
    return Span(
        ammonia_production(feed.low, protein, nitrogen_share.low),
        ammonia_production(feed.likely, protein, nitrogen_share.likely),
        ammonia_production(feed.high, protein, nitrogen_share.high),
    )


def unfed_excretion(fish: Span, temperature: float, rules: StockAssumptions) -> Span:
    """Ammonia nitrogen that fish give off though nobody feeds them.

    Args:
        fish: All fish [kg], 0 to 1e6.
        temperature: Water temperature [K], 273.15 to 313.15.
        rules: The assumptions in force.

    Returns:
        Ammonia nitrogen, both kinds [kg/s].

    Raises:
        OutOfRange: A number is outside its range, or the rules do not rise.

    Source:
        Rate at 20 degrees times Q10^((T - 293.15 K) / 10 K), with the Q10 of breathing (common
        practice). Rates: J. R. Brett, C. A. Zala, Daily pattern of nitrogen excretion and oxygen
        consumption of sockeye salmon, J. Fish. Res. Board Can. 32 (1975) 2479-2486, abstract, 8.2
        mg/kg/h of starved 29 g sockeye at 15 degrees; larger fish give off less.

    Example:
        5 kg of fish at 20 °C:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> from pondapp.core.stock.span import exactly
        >>> made = unfed_excretion(exactly(5.0), 293.15, StockAssumptions())
        >>> round(made.likely * 86400.0 * 1000.0, 2)  # g a day
        0.36
    """
    require_within("mass of all fish", fish.high, 0.0, 1e6, "kg")
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    rate = Span(rules.unfed_ammonia_low, rules.unfed_ammonia_likely, rules.unfed_ammonia_high)
    warmth = rules.respiration_q10 ** ((temperature - REFERENCE) / 10.0)
    return fish.times(rate).times(warmth)


def given_off(fed: Span, unfed: Span) -> Span:
    """Ammonia nitrogen of fish that are fed: by their feed, but no less than unfed.

    Args:
        fed: Ammonia nitrogen by the feed [kg/s].
        unfed: Ammonia nitrogen of the same fish without feed [kg/s].

    Returns:
        Ammonia nitrogen [kg/s].

    Source:
        The larger of the two, end by end: the share of the feed was measured on fed fish, and
        holds what they would have given off unfed.

    Example:
        What fish that are fed give off is never less than without feed:

        >>> from pondapp.core.stock.span import Span
        >>> given_off(Span(1e-9, 2e-9, 3e-9), Span(2e-9, 2e-9, 2e-9)).low
        2e-09
    """
    return Span(max(fed.low, unfed.low), max(fed.likely, unfed.likely), max(fed.high, unfed.high))


def flow_to_hold_ammonia(production: float, removed_per_pass: float, total: float) -> float:
    """Flow through the filter that keeps total ammonia at a value.

    Args:
        production: Ammonia nitrogen given off [kg/s], 0 to 1.
        removed_per_pass: Share that the filter takes out in one pass [-], 1e-6 to 1.
        total: Total ammonia nitrogen to hold [kg/m3], 1e-9 to 0.1.

    Returns:
        Flow through the filter [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or the flow would be beyond any pond.

    Source:
        Mass balance of a mixed pond: Q = P / (e C).

    Example:
        1.61 g a day held at 0.5 mg/L by a filter that takes a quarter of it out:

        >>> made = 1.61e-3 / 86400.0
        >>> round(3.6e6 * flow_to_hold_ammonia(made, 0.25, 0.5e-3), 1)  # L/h
        536.7
    """
    require_within("ammonia given off", production, 0.0, 1.0, "kg/s")
    require_within("share removed in one pass", removed_per_pass, 1e-6, 1.0, "-")
    require_within("ammonia to hold", total, 1e-9, 0.1, "kg/m3")
    flow = production / (removed_per_pass * total)
    return require_within("flow through the filter", flow, 0.0, 100.0, "m3/s")
