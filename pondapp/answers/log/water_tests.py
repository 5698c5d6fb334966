"""What a water test says: the toxic share of ammonia, oxygen saturation, and what is off."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from pondapp import units
from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.log.entries import values_in, what_of
from pondapp.answers.log.log import LogItem
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount, Message, Value
from pondapp.core.base.working import Step
from pondapp.core.stock.ammonia import AmmoniaReading, read_ammonia
from pondapp.core.stock.oxygen import salt_water_share, saturation_at_altitude
from pondapp.models.entry import WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that the test says.

    Attributes:
        key: The value that it is about, as the log names it.
        severity: How bad it is.
        sentence: What it says.
    """

    key: str
    severity: Severity
    sentence: Message

    @property
    def good(self) -> bool:
        """Whether nothing is off or open."""
        return self.severity == "right"


@dataclass(frozen=True, slots=True)
class WaterReport:
    """A test, worked out.

    Attributes:
        toxic: Un-ionised ammonia nitrogen [kg/m3].
        oxygen_share: Oxygen over what this water can hold [-].
        remarks: What is off first, then what is well.
        steps: The working.
    """

    toxic: float | None
    oxygen_share: float | None
    remarks: tuple[Remark, ...]
    steps: tuple[Step, ...]

    @property
    def good(self) -> bool:
        """Whether nothing is off."""
        return all(remark.good for remark in self.remarks)


def _percent(share: float) -> str:
    number = units.significant(100 * share, 2) if share < 1 else units.fixed(100 * share, 0)
    return f"{number} %"


def read_test(test: WaterTest, pond: Pond) -> WaterReport:
    """Work a test out with the pond's altitude; its temperature stands in for one not read.

    Raises:
        PondError: A changed rule cannot be.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    warmth = pond.water_temperature_c if test.temperature_c is None else test.temperature_c
    kelvin = warmth + ZERO_CELSIUS
    remarks: list[Remark] = []
    steps: list[Step] = []
    ammonia = _ammonia(test, kelvin, rules)
    if ammonia is not None:
        remarks.append(_of_ammonia(ammonia, test, pond, rules))
        steps += ammonia.steps()
    elif test.total_ammonia_kg_m3:
        remarks.append(_without_ph(test.total_ammonia_kg_m3, kelvin, rules))
    full = _full_of_oxygen(test, kelvin, pond.altitude_m)
    share = None
    if test.oxygen_kg_m3 is not None and full is not None:
        share = test.oxygen_kg_m3 / full
    if test.oxygen_kg_m3 is not None:
        remarks.append(_of_oxygen(test.oxygen_kg_m3, share, rules.stock))
    remarks += _of_ranges(test, rules)
    if test.temperature_c is not None:
        remarks += _of_warmth(kelvin, rules.stock)
    if test.temperature_c is None and (ammonia is not None or share is not None):
        remarks.append(
            Remark("temperature", "right", Message(
                "Worked out with {value}, the pond's usual temperature.",
                {"value": Amount(kelvin, "K")},
            ))
        )  # fmt: skip
    return WaterReport(
        toxic=ammonia.unionised if ammonia else None,
        oxygen_share=share,
        remarks=tuple(sorted(remarks, key=_badness)),
        steps=tuple(steps),
    )


MOST_AMMONIA, SOUR, SOAPY = 0.1, 5.0, 11.0  # kg/m3 and pH: as far as the formula reaches


def _ammonia(test: WaterTest, kelvin: float, rules: Assumptions) -> AmmoniaReading | None:
    """None without both values; beyond the formula's reach, what it says at its end."""
    if test.total_ammonia_kg_m3 is None or test.ph is None:
        return None
    total, ph = min(test.total_ammonia_kg_m3, MOST_AMMONIA), min(max(test.ph, SOUR), SOAPY)
    return read_ammonia(total, max(kelvin, ZERO_CELSIUS), ph, rules.stock.unionised_limit)


def _full_of_oxygen(test: WaterTest, kelvin: float, altitude: float) -> float | None:
    """Oxygen that this water can hold [kg/m3]; None where the formula does not reach."""
    try:
        fresh = saturation_at_altitude(kelvin, altitude).concentration
        return fresh * salt_water_share(kelvin, test.salt_kg_m3 or 0.0)
    except OutOfRange:
        return None


def _badness(remark: Remark) -> int:
    return WORST_FIRST.index(remark.severity)


def _of_ammonia(found: AmmoniaReading, test: WaterTest, pond: Pond, rules: Assumptions) -> Remark:
    values: dict[str, Value] = {
        "share": _percent(found.share),
        "free": Amount(found.unionised, "kg/m3"),
        "limit": Amount(found.limit, "kg/m3"),
    }
    if found.unionised > found.limit:
        return Remark("ammonia", "danger", Message(
            "Toxic ammonia is {free}, {share} of the total, above {limit}: stop feeding, aerate, "
            "and change water in portions.", values,
        ))  # fmt: skip
    if test.temperature_c is None:
        warmest = _warmest(pond, rules)
        worse = read_ammonia(found.total, max(found.temperature, warmest), found.ph, found.limit)
        if worse.unionised > found.limit:
            values = {**values, "heat": Amount(warmest, "K")}
            return Remark("ammonia", "unknown", Message(
                "Read the temperature too: this much ammonia is toxic in water of {heat}.", values,
            ))  # fmt: skip
    words = "Toxic ammonia is {free}, {share} of the total; fish can take up to {limit}."
    return Remark("ammonia", "right", Message(words, values))


def _warmest(pond: Pond, rules: Assumptions) -> float:
    """Water in the warmest week [K]."""
    if pond.warmest_temperature_c is None:
        return rules.stock.warmest_water
    return pond.warmest_temperature_c + ZERO_CELSIUS


def _without_ph(total: float, kelvin: float, rules: Assumptions) -> Remark:
    """Ammonia with no pH, or one that the formula does not reach: at best, and at worst."""
    total = min(total, MOST_AMMONIA)
    kelvin = max(kelvin, ZERO_CELSIUS)
    best = read_ammonia(total, kelvin, rules.water.ph_low, rules.stock.unionised_limit)
    values: dict[str, Value] = {
        "total": Amount(total, "kg/m3"),
        "ph": Amount(rules.water.ph_low, "-"),
    }
    if best.unionised > best.limit:
        return Remark("ammonia", "danger", Message(
            "Ammonia is {total}: toxic even at pH {ph}. Stop feeding, aerate, change water in "
            "portions, and read the pH.", values,
        ))  # fmt: skip
    return Remark("ammonia", "unknown", Message(
        "The pH is missing: how toxic {total} of ammonia is cannot be told. Read the pH too.",
        values,
    ))  # fmt: skip


def _of_oxygen(oxygen: float, share: float | None, rules: StockAssumptions) -> Remark:
    wanted = rules.oxygen_wanted
    values: dict[str, Value] = {
        "oxygen": Amount(oxygen, "kg/m3"),
        "wanted": Amount(wanted, "kg/m3"),
    }
    if share is not None:
        values["share"] = _percent(share)
        words = (
            "Oxygen is {oxygen}, {share} of what this water can hold, below {wanted}: aerate now "
            "and do not feed."
            if oxygen < wanted
            else "Oxygen is {oxygen}, {share} of what this water can hold."
        )
    else:
        words = (
            "Oxygen is {oxygen}, below {wanted}: aerate now and do not feed."
            if oxygen < wanted
            else "Oxygen is {oxygen}."
        )
    severity: Severity = "right"
    if oxygen < wanted:
        severity = "danger" if oxygen < rules.oxygen_danger else "wrong"
    return Remark("oxygen", severity, Message(words, values))


def _of_warmth(kelvin: float, rules: StockAssumptions) -> list[Remark]:
    values = {"value": Amount(kelvin, "K"), "limit": Amount(rules.warmth_danger, "K")}
    if kelvin > rules.warmth_danger:
        return [Remark("temperature", "danger", Message(
            "{value} is too warm for fish, above {limit}: do not feed, aerate day and night, shade "
            "the pond, and change water in portions.", values,
        ))]  # fmt: skip
    if kelvin > rules.feed_until:
        words = "{value} is warm: do not feed, aerate, and shade the pond."
        return [Remark("temperature", "wrong", Message(words, values))]
    return []


def _of_ranges(test: WaterTest, rules: Assumptions) -> list[Remark]:
    """The values that are judged by a range alone."""
    water, stock = rules.water, rules.stock
    found: list[Remark | None] = [
        _between(
            "ph", test.ph, (water.ph_danger_low, water.ph_low),
            (water.ph_high, water.ph_danger_high), "-", "pH",
            "{name} {value} is low, below {limit}: check the carbonate hardness before anything "
            "else.",
            "{name} {value} is high, above {limit}: ammonia is more toxic now; look for algae, "
            "concrete or limestone.",
        ),
        _between(
            "nitrite", test.nitrite_kg_m3, None, (water.nitrite_most, water.nitrite_danger),
            "kg/m3", "Nitrite", "",
            "{name} is {value}, above {limit}: feed less, change water in portions, and do not "
            "clean the filter hard.",
        ),
        _between(
            "nitrate", test.nitrate_kg_m3, None, (water.nitrate_most, None), "kg/m3", "Nitrate",
            "",
            "{name} is {value}, above {limit}: change water and let plants grow.",
        ),
        _between(
            "general_hardness", test.general_hardness_kg_m3, (None, water.general_hardness_low),
            (water.general_hardness_high, None), "hardness", "General hardness",
            "{name} is {value}, below {limit}: the water is very soft.",
            "{name} is {value}, above {limit}: the water is very hard; top up with rain water.",
        ),
        _between(
            "carbonate_hardness", test.carbonate_hardness_kg_m3,
            (None, water.carbonate_hardness_low), None, "hardness", "Carbonate hardness",
            "{name} is {value}, below {limit}: the pH can fall suddenly, and the filter starves.",
            "",
        ),
    ]  # fmt: skip
    salt = test.salt_kg_m3
    if salt is not None and salt > stock.salt_caution:
        most = salt > stock.salt_most
        limit = stock.salt_most if most else stock.salt_caution
        words = (
            "Salt is {value}, above {limit}, the most for a pond with fish in it: change water."
            if most
            else "Salt is {value}: plants suffer from {limit} on."
        )
        values = {"value": Amount(salt, "kg/m3"), "limit": Amount(limit, "kg/m3")}
        severity: Severity = "danger" if most else "right"
        found.append(Remark("salt_level", severity, Message(words, values)))
    return [remark for remark in found if remark is not None]


def _between(
    key: str, value: float | None, low: tuple[float | None, float] | None,
    high: tuple[float, float | None] | None, unit: str, name: str, too_low: str, too_high: str,
) -> Remark | None:  # fmt: skip
    """A remark on a value outside its range; none where it was not read or all is well.

    Beside each limit stands the one beyond which fish are in danger, where there is one.
    """
    if value is None:
        return None
    if low is not None and value < low[1]:
        words, limit = too_low, low[1]
        danger = low[0] is not None and value < low[0]
    elif high is not None and value > high[0]:
        words, limit = too_high, high[0]
        danger = high[1] is not None and value > high[1]
    else:
        return None
    values: dict[str, Value] = {
        "name": name,
        "value": Amount(value, unit),
        "limit": Amount(limit, unit),
    }
    return Remark(key, "danger" if danger else "wrong", Message(words, values))


NEEDED = ("ph", "ammonia", "nitrite")
AGAINST_FEEDING = ("ammonia", "nitrite", "oxygen")
"""Values that say to feed less or nothing where they are off, whatever the temperature allows."""


@dataclass(frozen=True, slots=True)
class Standing:
    """The newest value of each kind that is not too old to go by, as if they were one test.

    Attributes:
        test: Those values; none where there are none.
        items: Id of the entry that each is from, by its name in the log.
        tests: Those entries' own tests, by that id.
        read_at: When each was read.
        last: When the water was tested last, however long ago.
    """

    test: WaterTest | None
    items: Mapping[str, str]
    tests: Mapping[str, WaterTest]
    read_at: Mapping[str, datetime]
    last: datetime | None

    def remarks(self, pond: Pond) -> tuple[Remark, ...]:
        """What is said of each value, by all of them together or by its own test, if that is worse.

        A temperature of another day may make ammonia look harmless that its own test calls a
        danger, and the other way round: nobody knows which day was like this one.

        Raises:
            PondError: A changed rule cannot be.
        """
        if self.test is None:
            return ()
        found = list(read_test(self.test, pond).remarks)
        for item_id, test in self.tests.items():
            for own in read_test(test, pond).remarks:
                same = [one for one in found if one.key == own.key]
                holds = self.items.get(own.key) == item_id
                if holds and all(_badness(own) < _badness(one) for one in same):
                    found = [one for one in found if one.key != own.key] + [own]
        return tuple(sorted(found, key=_badness))

    def against_feeding(self, pond: Pond) -> tuple[Message, ...]:
        """What is off so that fish are to be fed less or not at all, worst first.

        Raises:
            PondError: A changed rule cannot be.
        """
        return tuple(
            one.sentence
            for one in self.remarks(pond)
            if one.key in AGAINST_FEEDING and one.severity in ("danger", "wrong")
        )


def standing(pond: Pond, newest_first: Iterable[LogItem], now: datetime) -> Standing:
    """What the tests of a log say of the water now; what is dated later is no evidence.

    Raises:
        PondError: A changed rule cannot be.
    """
    valid = timedelta(seconds=Assumptions().with_overrides(pond.assumptions).care.test_valid)
    last: datetime | None = None
    values: dict[str, float] = {}
    items: dict[str, str] = {}
    tests: dict[str, WaterTest] = {}
    read_at: dict[str, datetime] = {}
    for item in newest_first:
        if isinstance(item, Reading) or not isinstance(item.what, WaterTest) or item.when > now:
            continue
        last = last or item.when
        if now - item.when > valid:
            break
        for key, value in values_in(item.what).items():
            if key not in values:
                values[key], items[key], read_at[key] = value, item.id, item.when
                tests[item.id] = item.what
    made = what_of("water_test", values, {}) if values else None
    return Standing(made if isinstance(made, WaterTest) else None, items, tests, read_at, last)
