"""The texts of a log entry, and the entry that they describe."""

from datetime import datetime

from pondapp.answers.log.entries import MOST_NOTE, WATER, entry_of, values_in, what_of, words_of
from pondapp.answers.log.log import KINDS
from pondapp.answers.log.log_names import WATER_VALUES
from pondapp.models.base import limits_of
from pondapp.models.entry import Entry, Feed, FishChange, WaterChange, WaterTest
from pondapp.ui.log.moment_fields import read_moment, texts_of_moment
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.words import t

HELP = {
    "ammonia": "Both kinds together, as nitrogen; of ammonium (NH4) take 0.78",
    "general_hardness": "General hardness",
    "carbonate_hardness": "Carbonate hardness",
}
AMOUNTS: dict[str, tuple[QuantityField, ...]] = {
    "water_test": tuple(
        QuantityField(key, label, kind, limits_of(WaterTest, WATER[key]), HELP.get(key, ""))
        for key, (label, kind) in WATER_VALUES.items()
    ),
    "water_change": (
        QuantityField(
            "changed_water", "Water changed", "volume", limits_of(WaterChange, "volume_m3")
        ),
    ),
    "feed": (QuantityField("feed", "Feed", "small_mass", limits_of(Feed, "amount_kg")),),
    "fish": (
        QuantityField(
            "count", "How many", "number", limits_of(FishChange, "count"), "A whole number"
        ),
    ),
}
DAYS = ("date",)
FORMS = {kind: Form(AMOUNTS.get(kind, ()), days=DAYS) for kind in KINDS[1:]}
"""Of each kind of entry; none for a reading, whose fields are those of its method."""
# Words of each kind of entry: label, and most letters.
WORDS: dict[str, dict[str, tuple[str, int]]] = {
    "dose": {"what": ("What", 80), "amount": ("How much, as on the label", 80)},
    "fish": {"what": ("Which fish", 80)},
    "pump_change": {"what": ("What was put in or done", 80)},
    "work": {"what": ("What was done", 80)},
}


def texts_of(entry: Entry, system: str) -> dict[str, str]:
    """An entry as it would be typed."""
    amounts = FORMS[entry.what.kind].write(values_in(entry.what), system)
    return {**texts_of_moment(entry.when), **amounts, **words_of(entry.what), "note": entry.note}


def read_entry(
    texts: dict[str, str],
    kind: str,
    entry_id: str,
    pond_id: str,
    system: str,
    now: datetime,
    kept: datetime | None = None,
) -> tuple[Entry | None, dict[str, str]]:
    """The entry that the texts describe, or none and what is wrong, by field."""
    when, errors = read_moment(texts, system, now, kept)
    read = FORMS[kind].read(texts, system)
    values, errors = read.values, errors | read.errors
    words: dict[str, str] = {
        key: texts[key] for key in ("part", "change", "jpeg", "job") if key in texts
    }
    for key, (_, most) in WORDS.get(kind, {}).items():
        word = texts.get(key, "").strip()
        if len(word) > most:
            errors[key] = t("Write at most {most} letters", most=most)
        elif word:
            words[key] = word
    note = texts.get("note", "").strip()
    if len(note) > MOST_NOTE:
        errors["note"] = t("Write at most {most} letters", most=MOST_NOTE)
    if errors or when is None:
        return None, errors
    return entry_of(entry_id, pond_id, when, what_of(kind, values, words), note), {}
