"""The fish of a pond as texts on a screen, and back again."""

from dataclasses import dataclass

from pondapp import units
from pondapp.answers.fish.stock import celsius, kelvin
from pondapp.answers.measuring.methods import rules_for
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.ui.parts import fields
from pondapp.ui.parts.names import Texts, added, listed
from pondapp.words import t

FED = (("chart", "By temperature"), ("weighed", "By hand, weighed"))
WHEN = (("now", "As they are now"), ("grown", "Once they are grown"))
MOST_GROUPS, MOST_FISH = 50, 100_000
SHORTEST, LONGEST = 0.005, 1.5
COLDEST, HOTTEST = 273.15, 313.15
HIGHEST, MOST_FEED = 5000.0, 1000.0


@dataclass(frozen=True, slots=True)
class FishRead:
    """The fish as typed: the pond with them, if nothing is missing, and what is wrong by field."""

    pond: Pond | None
    errors: dict[str, str]


def asked_of(pond: Pond) -> tuple[object, ...]:
    """What of a pond this form changes."""
    heat = (pond.water_temperature_c, pond.warmest_temperature_c)
    return (*pond.fish, pond.feed_kg_day, *heat, pond.altitude_m)


def fish_texts(pond: Pond, system: str) -> Texts:
    """The texts that a pond's fish begin with."""
    texts: Texts = {
        "groups": "",
        "fed": "chart" if pond.feed_kg_day is None else "weighed",
        "when": "now",
        "temperature": units.edit_text(kelvin(pond.water_temperature_c), "temperature", system),
        "altitude": units.edit_text(pond.altitude_m, "length", system),
    }
    if pond.warmest_temperature_c is not None:
        texts["warmest.temperature"] = units.edit_text(
            kelvin(pond.warmest_temperature_c), "temperature", system
        )
    if pond.feed_kg_day is not None:
        texts["feed"] = units.edit_text(pond.feed_kg_day, "small_mass", system)
    for group in pond.fish:
        key = group.id
        texts = added(texts, "groups", key)
        texts[f"{key}.name"] = group.name
        texts[f"{key}.count"] = str(group.count)
        texts[f"{key}.fish_length"] = units.edit_text(group.length_m, "width", system)
        if group.grown_length_m is not None:
            grown = units.edit_text(group.grown_length_m, "width", system)
            texts[f"{key}.grown_length"] = grown
    return texts


def usual_warmest(pond: Pond, system: str) -> str:
    """The warmth of the warmest week that counts while none is entered."""
    rules = rules_for(pond).stock
    return units.show(rules.warmest_water, "temperature", system)


def _count(text: str) -> tuple[int | None, str | None]:
    value, error = fields.read_quantity(text, "number", "metric", 1, MOST_FISH)
    if value is None:
        return None, error
    if not value.is_integer():
        return None, t("Write a whole number, for example {example}", example="12")
    return int(value), None


def _group(texts: Texts, key: str, system: str, errors: dict[str, str]) -> FishGroup | None:
    """One group, or none while something is missing or wrong."""
    length_key, grown_key = f"{key}.fish_length", f"{key}.grown_length"
    count, wrong = _count(texts.get(f"{key}.count", ""))
    if wrong:
        errors[f"{key}.count"] = wrong
    lengths: dict[str, float | None] = {}
    for field in (length_key, grown_key):
        lengths[field], wrong = fields.read_quantity(
            texts.get(field, ""), "width", system, SHORTEST, LONGEST
        )
        if wrong:
            errors[field] = wrong
    length, grown = lengths[length_key], lengths[grown_key]
    if length and grown and grown < length:
        errors[grown_key] = t("They are longer than that already; write more, or leave it empty")
    if count is None or length is None or any(field in errors for field in lengths):
        return None
    name = texts.get(f"{key}.name", "").strip()[:80] or t("Fish")
    return FishGroup(id=key, name=name, count=count, length_m=length, grown_length_m=grown)


def read_fish(texts: Texts, pond: Pond, system: str) -> FishRead:
    """The pond with the fish, the feed and the water that the texts describe."""
    errors: dict[str, str] = {}
    names = listed(texts, "groups")
    groups = [_group(texts, key, system, errors) for key in names]

    def amount(key: str, kind: str, low: float, high: float, *, zero: bool) -> float | None:
        value, wrong = fields.read_quantity(texts.get(key, ""), kind, system, low, high, zero=zero)
        if wrong:
            errors[key] = wrong
        return value

    heat = amount("temperature", "temperature", COLDEST, HOTTEST, zero=False)
    warmest = amount("warmest.temperature", "temperature", COLDEST, HOTTEST, zero=False)
    if heat is not None and warmest is not None and warmest < heat:
        errors["warmest.temperature"] = t(
            "The warmest week is no colder than the water now; write more, or leave it empty"
        )
    height = amount("altitude", "length", 0.0, HIGHEST, zero=True)
    feed = None
    if texts.get("fed") == "weighed":
        feed = amount("feed", "small_mass", 0.0, MOST_FEED, zero=True)
    whole = [group for group in groups if group]
    missing = heat is None or len(whole) < len(names)
    if texts.get("fed") == "weighed" and feed is None:
        missing = True
    if errors or missing or heat is None:
        return FishRead(None, errors)
    changed = {
        "fish": tuple(whole),
        "feed_kg_day": feed,
        "water_temperature_c": celsius(heat),
        "warmest_temperature_c": None if warmest is None else celsius(warmest),
        "altitude_m": height or 0.0,
    }
    return FishRead(pond.model_copy(update=changed), errors)
