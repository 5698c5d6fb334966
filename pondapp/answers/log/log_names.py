"""What the kinds of log entries, their choices and their values are called."""

from pondapp.answers.features.kinds import KINDS

TITLES = {
    "flow": "Flow reading",
    "water_test": "Water test",
    "water_change": "Water change",
    "dose": "Treatment or dose",
    "feed": "Feed",
    "fish": "Fish added or lost",
    "cleaning": "Cleaning",
    "pump_change": "Pump change",
    "work": "Other work",
    "photo": "Photo",
    "note": "Note",
}
PARTS = {"pump": "Pump and its foam", "filter": "Filter", "all": "Everything"}
CHANGES = {"added": "Added", "lost": "Lost"}
# Value of a water test: label, kind of quantity.
WATER_VALUES = {
    "temperature": ("Temperature", "temperature"),
    "ph": ("pH", "number"),
    "ammonia": ("Ammonia", "concentration"),
    "nitrite": ("Nitrite", "concentration"),
    "nitrate": ("Nitrate", "concentration"),
    "general_hardness": ("GH", "hardness"),
    "carbonate_hardness": ("KH", "hardness"),
    "oxygen": ("Oxygen", "concentration"),
    "salt_level": ("Salt", "salt"),
}


def parts() -> dict[str, str]:
    """What may be cleaned, each with what it is called: all of it comes last."""
    apart = {key: kind.title for key, kind in KINDS.items() if kind.cleaned_apart}
    first = {key: title for key, title in PARTS.items() if key != "all"}
    return {**first, **apart, "all": PARTS["all"]}


def part_title(part: str) -> str:
    """What something that was cleaned is called."""
    return PARTS[part] if part in PARTS else KINDS[part].title
