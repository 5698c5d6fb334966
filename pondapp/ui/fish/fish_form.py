"""The fish of a pond as texts on a screen, and back again."""

from dataclasses import dataclass

from pondapp import units
from pondapp.answers.fish.species import SPECIES, Picked
from pondapp.answers.fish.stock import celsius, kelvin
from pondapp.answers.measuring.methods import rules_for
from pondapp.models.base import limits_of
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.ui.parts.form import Amounts, Form, QuantityField
from pondapp.ui.parts.names import Texts, added, listed
from pondapp.words import t

FED = (("chart", "By temperature"), ("weighed", "By hand, weighed"))
WHEN = (("now", "As they are now"), ("grown", "Once they are grown"))
MOST_GROUPS = 50
GROUPS = "groups"
GROUP = Form(
    (
        QuantityField("count", "How many", "number", limits_of(FishGroup, "count"), needed=True),
        QuantityField(
            "fish_length", "Length", "width", limits_of(FishGroup, "length_m"), needed=True
        ),
        QuantityField("grown_length", "Grown", "width", limits_of(FishGroup, "grown_length_m")),
    )
)
FORM = Form(
    (
        QuantityField(
            "temperature", "Water is", "temperature", limits_of(Pond, "water_temperature_c"),
            needed=True,
        ),
        QuantityField(
            "warmest.temperature", "Warmest week", "temperature",
            limits_of(Pond, "warmest_temperature_c"),
        ),
        QuantityField("altitude", "Altitude", "length", limits_of(Pond, "altitude_m")),
        QuantityField(
            "feed", "Feed in a day", "small_mass", limits_of(Pond, "feed_kg_day"), needed=True
        ),
    ),
    lists={GROUPS: GROUP},
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FishRead:
    """The fish as typed: the pond with them, or what is wrong by field, and what is missing."""

    pond: Pond | None
    errors: dict[str, str]
    missing: tuple[str, ...] = ()
    """The labels of what is needed and empty, from the top of the screen down."""


def asked_of(pond: Pond) -> tuple[object, ...]:
    """What of a pond this form changes."""
    heat = (pond.water_temperature_c, pond.warmest_temperature_c)
    return (*pond.fish, pond.feed_kg_day, *heat, pond.altitude_m)


def fish_texts(pond: Pond, system: str) -> Texts:
    """The texts that a pond's fish begin with."""
    warmest = pond.warmest_temperature_c
    amounts = {
        "temperature": kelvin(pond.water_temperature_c),
        "warmest.temperature": None if warmest is None else kelvin(warmest),
        "altitude": pond.altitude_m,
        "feed": pond.feed_kg_day,
    }
    fed = "chart" if pond.feed_kg_day is None else "weighed"
    texts = {GROUPS: "", "fed": fed, "when": "now", **FORM.write(amounts, system)}
    for group in pond.fish:
        amounts = {
            "count": group.count,
            "fish_length": group.length_m,
            "grown_length": group.grown_length_m,
        }
        texts = added(texts, GROUPS, group.id, GROUP.write(amounts, system, group.id))
        texts[f"{group.id}.name"] = group.name
        texts |= {f"{group.id}.species": group.species} if group.species else {}
    return texts


def pick(texts: Texts, item: str, species: str, system: str) -> Texts:
    """The texts with one more group of a kind of the list; its count and length are still asked."""
    kind = SPECIES[species]
    known = GROUP.write({"grown_length": kind.grown}, system, item)
    return added(
        texts,
        GROUPS,
        item,
        {**known, f"{item}.name": t(kind.name), f"{item}.species": species},
    )


def picked(texts: Texts, system: str) -> list[Picked]:
    """The groups as far as they are typed, for what does not fit their kinds."""
    return [
        Picked(
            SPECIES.get(texts.get(f"{item}.species", "")),
            None if (count := GROUP.read(texts, system, item).values.get("count")) is None
            else int(count),
        )
        for item in listed(texts, GROUPS)
    ]  # fmt: skip


def usual_warmest(pond: Pond, system: str) -> str:
    """The warmth of the warmest week that counts while none is entered."""
    rules = rules_for(pond).stock
    return units.show(rules.warmest_water, "temperature", system)


def _group(
    texts: Texts, item: str, read: Amounts, errors: dict[str, str], known: set[str]
) -> FishGroup | None:
    """One group, or none while something is missing or wrong."""
    errors |= read.errors
    length, grown = read.values.get("fish_length"), read.values.get("grown_length")
    if length and grown and grown < length:
        errors[f"{item}.grown_length"] = t(
            "They are longer than that already; write more, or leave it empty"
        )
        return None
    if length is None or not read.whole:
        return None
    species = texts.get(f"{item}.species")
    return FishGroup(
        id=item,
        name=texts.get(f"{item}.name", "").strip()[:80] or t("Fish"),
        species=species if species in known else None,
        count=int(read.values["count"]),
        length_m=length,
        grown_length_m=grown,
    )


def read_fish(texts: Texts, pond: Pond, system: str) -> FishRead:
    """The pond with the fish, the feed and the water that the texts describe."""
    errors: dict[str, str] = {}
    names = listed(texts, GROUPS)
    of_groups = {item: GROUP.read(texts, system, item) for item in names}
    # A newer version may have stored a kind that is of no list here: it stays.
    known = {*SPECIES, *(group.species for group in pond.fish if group.species)}
    groups = [_group(texts, item, read, errors, known) for item, read in of_groups.items()]
    asked = [one.key for one in FORM.fields if one.key != "feed" or texts.get("fed") == "weighed"]
    read = FORM.read(texts, system, only=asked)
    errors |= read.errors
    heat, warmest = read.values.get("temperature"), read.values.get("warmest.temperature")
    if heat is not None and warmest is not None and warmest < heat:
        errors["warmest.temperature"] = t(
            "The warmest week is no colder than the water now; write more, or leave it empty"
        )
    whole = [group for group in groups if group]
    if errors or heat is None or read.missing or len(whole) < len(names):
        empty = [key for one in (*of_groups.values(), read) for key in one.missing]
        labels = [t(found.label) for key in empty if (found := FORM.find(key))]
        return FishRead(None, errors, tuple(dict.fromkeys(labels)))
    changed = {
        "fish": tuple(whole),
        "feed_kg_day": read.values.get("feed"),
        "water_temperature_c": celsius(heat),
        "warmest_temperature_c": None if warmest is None else celsius(warmest),
        "altitude_m": read.values.get("altitude", 0.0),
    }
    return FishRead(pond.model_copy(update=changed), errors)
