"""Entries of a log from amounts in SI, and back."""

from collections.abc import Mapping
from datetime import datetime

from pydantic import ValidationError

from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    FreeNote,
    Photo,
    PumpChange,
    WaterChange,
    WaterTest,
    What,
    WorkDone,
)

WATER = {
    "temperature": "temperature_c",
    "ph": "ph",
    "ammonia": "total_ammonia_kg_m3",
    "nitrite": "nitrite_kg_m3",
    "nitrate": "nitrate_kg_m3",
    "general_hardness": "general_hardness_kg_m3",
    "carbonate_hardness": "carbonate_hardness_kg_m3",
    "oxygen": "oxygen_kg_m3",
    "salt_level": "salt_kg_m3",
}
"""Field of a water test by the name of its value."""
FIRST_PART = "pump"
CHANGES = ("added", "lost")
MOST_NOTE = 4000


def what_of(kind: str, values: Mapping[str, float], words: Mapping[str, str]) -> What | None:
    """What an entry of this kind is about, or None while something that it needs is missing."""
    try:
        return _what(kind, values, words)
    except (KeyError, ValidationError):
        return None


def _what(kind: str, values: Mapping[str, float], words: Mapping[str, str]) -> What:
    if kind == "water_test":
        read = {WATER[key]: value for key, value in values.items() if key in WATER}
        if "temperature" in values:
            read[WATER["temperature"]] = round(values["temperature"] - ZERO_CELSIUS, 6)
        return WaterTest.model_validate(read)
    if kind == "water_change":
        return WaterChange(volume_m3=values["changed_water"])
    if kind == "dose":
        return Dose(what=words["what"], amount=words.get("amount", ""))
    if kind == "feed":
        return Feed(amount_kg=values["feed"])
    if kind == "fish":
        return FishChange.model_validate(
            {
                "change": words.get("change", CHANGES[0]),
                "what": words["what"],
                "count": round(values["count"]),
            }
        )
    if kind == "cleaning":
        return Cleaning.model_validate({"part": words.get("part", FIRST_PART)})
    if kind == "pump_change":
        return PumpChange(what=words["what"])
    if kind == "work":
        return WorkDone(what=words["what"], job=words.get("job") or None)
    if kind == "photo":
        return Photo(jpeg=words["jpeg"])
    return FreeNote()


def values_in(what: What) -> dict[str, float]:
    """Its amounts in SI, by name."""
    if isinstance(what, WaterTest):
        read = {key: getattr(what, name) for key, name in WATER.items()}
        if what.temperature_c is not None:
            read["temperature"] = what.temperature_c + ZERO_CELSIUS
        return {key: value for key, value in read.items() if value is not None}
    if isinstance(what, WaterChange):
        return {"changed_water": what.volume_m3}
    if isinstance(what, Feed):
        return {"feed": what.amount_kg}
    if isinstance(what, FishChange):
        return {"count": float(what.count)}
    return {}


def words_of(what: What) -> dict[str, str]:
    """Its words, by name."""
    if isinstance(what, Dose):
        return {"what": what.what, "amount": what.amount}
    if isinstance(what, FishChange):
        return {"what": what.what, "change": what.change}
    if isinstance(what, Cleaning):
        return {"part": what.part}
    if isinstance(what, PumpChange):
        return {"what": what.what}
    if isinstance(what, WorkDone):
        return {"what": what.what, **({"job": what.job} if what.job else {})}
    if isinstance(what, Photo):
        return {"jpeg": what.jpeg}
    return {}


def entry_of(
    entry_id: str, pond_id: str, when: datetime, what: What | None, note: str
) -> Entry | None:
    """The entry, or None while it says nothing."""
    if what is None:
        return None
    try:
        return Entry(id=entry_id, pond_id=pond_id, when=when, what=what, note=note[:MOST_NOTE])
    except ValidationError:
        return None
