"""The texts of a log entry, and the entry that they describe."""

from datetime import datetime

from pondapp import units
from pondapp.answers.log.entries import MOST_NOTE, entry_of, values_in, what_of, words_of
from pondapp.answers.log.log_names import WATER_VALUES
from pondapp.models.entry import Entry
from pondapp.ui.log.moment_fields import read_moment, texts_of_moment
from pondapp.ui.parts import fields
from pondapp.words import t

# Amount of each kind of entry: label, kind of quantity, smallest and largest, unit of a number.
AMOUNTS: dict[str, dict[str, tuple[str, str, float, float]]] = {
    "water_test": WATER_VALUES,
    "water_change": {"changed_water": ("Water changed", "volume", 1e-4, 1e5)},
    "feed": {"feed": ("Feed", "small_mass", 1e-5, 1000.0)},
    "fish": {"count": ("How many", "number", 1.0, 100_000.0)},
}
# Words of each kind of entry: label, and most letters.
WORDS: dict[str, dict[str, tuple[str, int]]] = {
    "dose": {"what": ("What", 80), "amount": ("How much, as on the label", 80)},
    "fish": {"what": ("Which fish", 80)},
    "pump_change": {"what": ("What was put in or done", 80)},
}
ZERO_IS_A_VALUE = ("water_test",)


def texts_of(entry: Entry, system: str) -> dict[str, str]:
    """An entry as it would be typed."""
    asked = AMOUNTS.get(entry.what.kind, {})
    amounts = {
        key: units.edit_text(value, asked[key][1], system)
        for key, value in values_in(entry.what).items()
    }
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
    asked = {
        key: (quantity, low, high)
        for key, (_, quantity, low, high) in AMOUNTS.get(kind, {}).items()
    }
    values, wrong = fields.read_quantities(
        texts, asked, system, zero=asked if kind in ZERO_IS_A_VALUE else ()
    )
    errors |= wrong
    if values.get("count", 1.0) % 1:
        errors["count"] = t("Write a whole number of fish")
    words: dict[str, str] = {key: texts[key] for key in ("part", "change", "jpeg") if key in texts}
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
