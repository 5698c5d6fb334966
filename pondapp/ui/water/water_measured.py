"""The part of the water's screen where a volume that was measured is entered."""

import flet as ft

from pondapp import units
from pondapp.answers.water.fill import likely_range
from pondapp.answers.water.volume import Assumptions
from pondapp.models.pond import Pond
from pondapp.models.water import MeasuredVolume
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.water import water_form as form
from pondapp.words import t

HINTS = {
    "filling": "Time the hose into a bucket before and after, and take the hours in between.",
    "salt": "Weigh plain salt, dissolve it, let the pump mix it for a day, and read a salt meter "
    "before and after. It works in a pond that is already full.",
    "meter": "Read the water meter before and after, with nothing else running.",
}


def _notes(how: str, rules: Assumptions, system: str) -> list[ft.Control]:
    """What may stay empty."""
    if how == "filling":
        return [layout.small(t("Leave the end empty if you timed the hose once."))]
    if how == "salt":
        give = units.show(rules.measuring.salt_meter_tolerance, "salt", system)
        words = t(
            "Give or take: how far the meter may be off. If empty: {give}.",
            give=give,
        )
        return [layout.small(words), cautions.dosing()]
    return []


def found_card(volume: MeasuredVolume, read: form.MeasuredRead, system: str) -> ft.Control:
    """A measured volume with its range, and where it comes from."""
    likely = ""
    if volume.standard_uncertainty_m3:
        low, high = likely_range(volume.volume_m3, volume.standard_uncertainty_m3)
        likely = t(
            "Between {range} in about 95 of 100 cases.",
            range=units.show_range(low, high, "volume", system, 3),
        )
    shown = units.show(volume.volume_m3, "volume", system)
    lines = [layout.fact(t("Measured: {how}", how=t(volume.how)), shown, likely)]
    if read.found:
        lines += [
            layout.small(layout.sentence(units.tell(message, system)))
            for message in read.found.warnings
        ]
        lines.append(ShowWorking(t("measured volume"), read.found.steps, system))
    return layout.card(lines)


def measured_part(
    typed: Typed, pond: Pond, read: form.MeasuredRead, rules: Assumptions, system: str
) -> list[ft.Control]:
    """How it was measured, the readings, and what they give."""
    how = form.measured_choice(typed.texts, pond.measured_volume)
    options = [(value, t(name)) for value, name in form.MEASURED]
    if pond.measured_volume:
        options.insert(0, ("kept", t("As kept")))
    lines: list[ft.Control] = [
        layout.heading(t("Measured volume")),
        layout.small(t("A measured volume is used instead of the one from the drawing.")),
        layout.choice(t("How was it measured"), options, how, typed.note("measured")),
    ]
    if how in form.MEASURED_FIELDS:
        entries = [form.FORM.draw(typed, key, read.errors) for key in form.MEASURED_FIELDS[how]]
        lines += [layout.small(t(HINTS[how])), layout.pairs(entries), *_notes(how, rules, system)]
    if read.trouble:
        lines.append(layout.caution(units.explain(read.trouble, system)))
    if read.volume:
        lines.append(found_card(read.volume, read, system))
    return lines
