"""What is in a log, in words: kinds, values, and a line on each item."""

import flet as ft

from pondapp import units
from pondapp.answers.log.dates import moment_text, month_and_year
from pondapp.answers.log.entries import values_in
from pondapp.answers.log.log import LogItem, kind_of, moment
from pondapp.answers.log.log_names import CHANGES, TITLES, WATER_VALUES, part_title
from pondapp.answers.log.trend import flow_of
from pondapp.answers.log.water_tests import read_test
from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    PumpChange,
    WaterChange,
    WorkDone,
)
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.ui.parts import severity
from pondapp.ui.parts.answers import flow_text, mark_of, rules_at
from pondapp.words import t, tn

ICONS = {
    "flow": ft.Icons.TIMER,
    "water_test": ft.Icons.SCIENCE,
    "water_change": ft.Icons.WATER_DROP,
    "dose": ft.Icons.MEDICATION,
    "feed": ft.Icons.RESTAURANT,
    "fish": ft.Icons.SET_MEAL,
    "cleaning": ft.Icons.CLEANING_SERVICES,
    "pump_change": ft.Icons.CYCLONE,
    "work": ft.Icons.TASK_ALT,
    "photo": ft.Icons.PHOTO_CAMERA,
    "note": ft.Icons.EDIT_NOTE,
}
HINTS = {
    "flow": "By bucket, scale, level, ruler or meter",
    "water_test": "Temperature, pH, ammonia and the rest",
    "water_change": "How much was let out and replaced",
    "dose": "Salt, bacteria, medicine, anything from a bottle",
    "feed": "How much the fish were given",
    "fish": "How many came or went",
    "cleaning": "Pump, filter, skimmer; trends start over",
    "pump_change": "Another pump, or work on the one in place",
    "work": "Of the season, of a reminder, or what you call it",
    "photo": "What words do not tell",
    "note": "Anything else",
}
VERDICTS = {
    "within": "as wanted",
    "below": "too little",
    "above": "too much",
    "undecided": "not decided",
}
LONGEST_NOTE = 90


def day_of(item: LogItem) -> str:
    """Day and time of an item."""
    return moment_text(moment(item))


def month_of(item: LogItem) -> str:
    """The month of an item, as a heading."""
    month, year = month_and_year(moment(item))
    name = t(month)
    return f"{name[:1].upper()}{name[1:]} {year}"


def value_text(key: str, value: float, system: str) -> str:
    """A value of a water test."""
    label, kind = WATER_VALUES[key]
    return f"{t(label)} {units.show(value, kind, system)}"


def _said(entry: Entry, system: str) -> str:
    what = entry.what
    if isinstance(what, WaterChange):
        return units.show(what.volume_m3, "volume", system)
    if isinstance(what, Dose):
        return ", ".join(part for part in (what.what, what.amount) if part)
    if isinstance(what, Feed):
        return units.show(what.amount_kg, "small_mass", system)
    if isinstance(what, FishChange):
        return t("{change}: {count} {fish}", change=t(CHANGES[what.change]), count=what.count,
                 fish=what.what)  # fmt: skip
    if isinstance(what, Cleaning):
        return t(part_title(what.part))
    if isinstance(what, PumpChange | WorkDone):
        return what.what
    values = values_in(what)
    return ", ".join(value_text(key, values[key], system) for key in WATER_VALUES if key in values)


def measured_at(item: Reading, system: str) -> str:
    """Where a flow was measured and how much it was, without a verdict."""
    found = flow_of(item, rules_at(item.pond_id))
    if found is None:
        return t("{place}: no fill counts", place=item.place_name)
    return f"{item.place_name}: {flow_text(found, system)}"


def headline(item: LogItem, system: str) -> str:
    """The item in one line."""
    if isinstance(item, Reading):
        found = flow_of(item, rules_at(item.pond_id))
        told = measured_at(item, system)
        if found is None or found.dry or found.kind == "no target":
            return told
        return f"{told}, {t(VERDICTS[found.kind])}"
    if item.what.kind == "note":
        return shortened(item.note)
    title = t(TITLES[item.what.kind])
    if item.what.kind == "photo":
        return title
    said = _said(item, system)
    return said if item.what.kind == "fish" else f"{title}: {said}"


def shortened(note: str) -> str:
    """A note on one line."""
    line = " ".join(note.split())
    return line if len(line) <= LONGEST_NOTE else line[: LONGEST_NOTE - 1].rstrip() + "…"


def off(item: LogItem, pond: Pond | None) -> str:
    """How bad a water test is, in a few words; empty where nothing is off or open."""
    if pond is None or isinstance(item, Reading) or item.what.kind != "water_test":
        return ""
    bad = [one for one in read_test(item.what, pond).remarks if not one.good]
    if not bad:
        return ""
    worst = severity.word(bad[0].severity)  # the worst comes first
    more = len(bad) - 1
    if not more:
        return worst
    return tn("{worst}, and {count} more", "{worst}, and {count} more", more, worst=worst)


def mark(item: LogItem) -> ft.IconData:
    """Its icon: a verdict's for a flow, its kind's for the rest."""
    if isinstance(item, Reading):
        found = flow_of(item, rules_at(item.pond_id))
        if found is not None:
            return mark_of(found, ICONS["flow"])
    return ICONS[kind_of(item)]
