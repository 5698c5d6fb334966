"""What to do now: by the temperature of the water, the season, and what the pond has."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Literal

from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.fish.feeding_now import feeding_now
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.rules import rules_of
from pondapp.answers.rules.working import Source
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import COMMON_PRACTICE
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.pond import Pond

Season = Literal["spring", "summer", "autumn", "winter"]
Part = Literal["feed", "air", "pump", "ice", "net", "plants", "lamp", "filter"]
_BY_QUARTER: tuple[Season, ...] = ("winter", "spring", "summer", "autumn")
TICK_STANDS = timedelta(days=180)
"""By then the season has turned into the opposite one."""


@dataclass(frozen=True, slots=True)
class SeasonLine:
    """What to do about one part of the pond.

    Attributes:
        part: What it is about.
        now: Whether there is something to do now.
        sentence: What.
        reason: Why.
        rule: The rule that says when; empty where the season alone does.
        job: Id of its tick, where it is done once in a season; empty for what goes on.
        title: What the tick is called in the log.
        source: Where the rule comes from.
        done: When it was ticked, as long as that stands.
        also: What is to be minded besides.
    """

    part: Part
    now: bool
    sentence: Message
    reason: Message
    rule: str = ""
    job: str = ""
    title: str = ""
    source: Source = COMMON_PRACTICE
    done: datetime | None = None
    also: tuple[Message, ...] = ()


def season_of(day: date, *, south: bool) -> Season:
    """The season by whole months: on the northern half of the earth winter begins in December."""
    month = day.month + (6 if south else 0)
    return _BY_QUARTER[month % 12 // 3]


def what_to_do(
    worked: WorkedPond, log: Sequence[LogItem], temperature: float, season: Season, now: datetime
) -> tuple[SeasonLine, ...]:
    """What to do at a pond: first what is open, then what is ticked, then what waits.

    Args:
        worked: The pond; what it does not have is left out.
        log: Its log, newest first, for what was ticked and what its tests say of feeding.
        temperature: Of the water [K].
        season: Of now, where the pond is.
        now: The time of now.

    Raises:
        PondError: The temperature or a changed rule cannot be.
    """
    pond = worked.pond
    ticked = _ticked(log, now)
    sources = {rule.key: rule.source for rule in rules_of(pond)}
    feed = feeding_now(worked, log, now, temperature).advice
    found = (
        replace(
            line,
            source=sources[line.rule] if line.rule else line.source,
            done=ticked.get(line.job) if line.now else None,
        )
        for line in (*_lines(pond, temperature, season, feed), *_new_lamp(pond, now))
    )
    return tuple(sorted(found, key=lambda one: (not one.now, one.done is not None)))


def _ticked(log: Iterable[LogItem], now: datetime) -> Mapping[str, datetime]:
    """When each job was ticked last, as long as that stands."""
    found: dict[str, datetime] = {}
    for item in until(log, now):
        if isinstance(item, Entry) and isinstance(item.what, WorkDone) and item.what.job:
            job, when = item.what.job, item.when
            if now - when < TICK_STANDS:
                found[job] = max(when, found.get(job, when))
    return found


def _lines(
    pond: Pond, temperature: float, season: Season, feed: Sequence[Message]
) -> Iterator[SeasonLine]:
    rules = Assumptions().with_overrides(pond.assumptions)
    care = rules.care
    yield _feed(rules, temperature, feed)
    if temperature > rules.stock.feed_until:
        yield SeasonLine(
            "air", True, Message("Bring in air day and night, and give shade."),
            Message("Warm water holds little oxygen, and before dawn there is least of it."),
            "stock.feed_until",
        )  # fmt: skip
    if pond.fed or pond.lines or pond.pumps:
        slower = any(pump.adjustable for pump in pond.pumps)
        yield _pump(care.pump_higher_below, temperature, season, slower=slower)
    yield _ice(care.ice_below, temperature)
    yield _net(season, leaves_are_down=season == "autumn" and temperature < care.pump_higher_below)
    yield _plants(care.plants_rest_below, temperature, season)
    yield _lamp(care.lamp_from, temperature, known=pond.lamp is not None)
    if any(kind_of(feature).alive for feature in pond.fed):
        yield _filter(care.filter_wakes_from, temperature, season)


def _at(limit: float) -> dict[str, Amount]:
    return {"limit": Amount(limit, "K")}


def _feed(rules: Assumptions, temperature: float, advice: Sequence[Message]) -> SeasonLine:
    """As the screen of the fish says it."""
    stock = rules.stock
    steps = ("feed_from", "feed_cool_from", "feed_mild_from", "feed_warm_from")
    rule = next((one for one in steps if temperature < getattr(stock, one)), "feed_until")
    cold = temperature < stock.feed_mild_from
    reason = (
        "Fish digest slowly in cold water, and what they leave rots."
        if cold
        else "What is eaten uses oxygen, and becomes ammonia that the filter must carry."
    )
    first, *also = advice
    return SeasonLine("feed", True, first, Message(reason), f"stock.{rule}", also=tuple(also))


def _pump(limit: float, temperature: float, season: Season, *, slower: bool) -> SeasonLine:
    rule = "care.pump_higher_below"
    if temperature < limit:
        return SeasonLine(
            "pump", True,
            Message(
                "Stand the pump half way up, and let it run slower."
                if slower
                else "Stand the pump half way up."
            ),
            Message("The warmest water of winter lies at the bottom, where the fish rest; a pump "
                    "down there mixes it away."),
            rule, "pump-up", "Pump raised for the winter",
        )  # fmt: skip
    if season == "spring":
        return SeasonLine(
            "pump", True, Message("Put the pump back to the deepest place."),
            Message("There mud gathers, and from there all of the water moves."),
            rule, "pump-down", "Pump back at the deepest place",
        )  # fmt: skip
    return SeasonLine(
        "pump", False, Message("Leave the pump down until the water is below {limit}.", _at(limit)),
        Message("Only in winter is the bottom to be left in peace."), rule,
    )  # fmt: skip


def _ice(limit: float, temperature: float) -> SeasonLine:
    rule = "care.ice_below"
    if temperature < limit:
        return SeasonLine(
            "ice", True,
            Message("Keep a hole in the ice, with a float or an air stone below the surface. If "
                    "it froze over, melt one with a pot of hot water; never break ice with blows."),
            Message("Under closed ice gas gathers that fish cannot bear, and blows hurt them."),
            rule,
        )  # fmt: skip
    return SeasonLine(
        "ice", False,
        Message("Above {limit} a pond does not freeze over, though a frosty night can bring a "
                "first skin of ice.", _at(limit)),
        Message("Water of {limit} first has to cool down as a whole.", _at(limit)), rule,
    )  # fmt: skip


def _net(season: Season, *, leaves_are_down: bool) -> SeasonLine:
    if leaves_are_down:
        return SeasonLine(
            "net", True,
            Message("Take the leaves out, and keep a net over the pond only while more fall."),
            Message("Leaves rot at the bottom: that takes oxygen and feeds algae."),
            "care.pump_higher_below", "leaves-out", "Leaves taken out",
        )  # fmt: skip
    if season == "autumn":
        return SeasonLine(
            "net", True,
            Message("Stretch a net over the pond while leaves fall, and empty it often."),
            Message("Leaves rot at the bottom: that takes oxygen and feeds algae."),
            job="net-on", title="Net against leaves put up",
        )  # fmt: skip
    if season == "winter":
        return SeasonLine(
            "net", True, Message("Take the net down once the trees are bare."),
            Message("Snow pulls it into the water, where birds and hedgehogs are caught in it."),
            job="net-off", title="Net taken down",
        )  # fmt: skip
    return SeasonLine(
        "net", False, Message("A net against leaves is for autumn."),
        Message("Until then a skimmer or a hand net is enough."),
    )  # fmt: skip


def _plants(limit: float, temperature: float, season: Season) -> SeasonLine:
    rule = "care.plants_rest_below"
    if season == "autumn" and temperature < limit:
        return SeasonLine(
            "plants", True,
            Message("Cut what has wilted, above the water, and leave reeds standing."),
            Message("What is dead rots in the water; hollow stems let gas out through the ice."),
            rule, "plants-cut", "Plants cut back",
        )  # fmt: skip
    if season == "spring" and temperature >= limit:
        return SeasonLine(
            "plants", True, Message("Divide and thin out the plants, and set new ones."),
            Message("They begin to grow, and take up what feeds algae."),
            rule, "plants-divided", "Plants divided and set",
        )  # fmt: skip
    words = (
        "Cut nothing before the water is below {limit}."
        if season == "autumn"
        else "Leave the plants at rest until the water is at {limit}."
        if temperature < limit
        else "Only thin out what grows too much."
    )
    return SeasonLine(
        "plants", False, Message(words, _at(limit)),
        Message("What is green takes food from the water."), rule,
    )  # fmt: skip


def _lamp(limit: float, temperature: float, *, known: bool) -> SeasonLine:
    rule = "care.lamp_from"
    if temperature < limit:
        return SeasonLine(
            "lamp", True,
            Message("A UV lamp may be off until the water is at {limit}; keep it from freezing.",
                    _at(limit)),
            Message("Algae hardly grow in such water, and the lamp ages while it is lit."),
            rule, "lamp-off", "UV lamp off for the winter",
        )  # fmt: skip
    return SeasonLine(
        "lamp", True,
        Message(
            "Let the UV lamp run day and night."
            if known
            else "A UV lamp, if there is one, runs day and night."
        ),
        Message("The algae that turn water green grow again from {limit} on.", _at(limit)),
        rule, "lamp-on", "UV lamp on",
    )  # fmt: skip


def _new_lamp(pond: Pond, now: datetime) -> Iterator[SeasonLine]:
    change = lamp_change(pond, now)
    if change is not None and change.is_due:
        yield SeasonLine(
            "lamp", True, change.sentence,
            Message("It still shines then, but hardly in UV-C."), "filters.lamp_life",
        )  # fmt: skip


def _filter(limit: float, temperature: float, season: Season) -> SeasonLine:
    rule = "care.filter_wakes_from"
    if temperature < limit:
        return SeasonLine(
            "filter", True,
            Message("Let the filter run on where it cannot freeze; else empty it and its hoses."),
            Message("Below {limit} its bacteria rest, and live as long as water with oxygen "
                    "passes them; ice bursts boxes and pipes.", _at(limit)),
            rule, "filter-winter", "Filter made ready for the winter",
        )  # fmt: skip
    if season == "spring":
        return SeasonLine(
            "filter", True,
            Message("Start a filter that stood still: clean it, let it run day and night, feed "
                    "little, and test ammonia and nitrite every few days until both are gone."),
            Message("Its bacteria work again from {limit} on, and need weeks to grow back.",
                    _at(limit)),
            rule, "filter-start", "Filter started in spring",
        )  # fmt: skip
    return SeasonLine(
        "filter", False, Message("Let the filter run day and night."),
        Message("Without fresh water its bacteria die within hours."), rule,
    )  # fmt: skip
