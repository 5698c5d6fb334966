"""What was measured, to be put right: its times and amounts as they would be typed."""

from collections.abc import Mapping, Sequence
from typing import Any

import flet as ft
from pydantic import ValidationError

from pondapp import units
from pondapp.models.reading import Container, Method
from pondapp.ui.measuring.method_fields import BASINS, DROP, ENTRIES, GAPS, GIVES, SPACES, Entry
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

OWN = "own"  # the container as it was when the reading was taken
WEIGHT = Entry("full_weight", "Weight of fill {number}, container and all", "mass", 0.001, 1e4)
CRESTS = [entry for entry in GIVES["lip_depth"] if entry.key == "crest"]
AMOUNTS: Mapping[str, Sequence[tuple[str, Entry]]] = {
    "weighed": (("empty_kg", ENTRIES["weighed"][0]),),
    "level_drop": (("area_m2", BASINS["known"][0]), ("drop_m", DROP)),
    "filling": (("volume_m3", SPACES["known"][0]), ("porosity", GAPS)),
    "lip_depth": (
        ("head_m", ENTRIES["lip_depth"][0]),
        ("width_m", ENTRIES["lip_depth"][1]),
        *(("crest_height_m", entry) for entry in CRESTS),
    ),
    "meter": (("flow_m3_s", ENTRIES["meter"][0]),),
}
MAY_BE_NOTHING = ("empty_weight",)
SCALED = {"area_m2": "area_tolerance_m2", "volume_m3": "volume_tolerance_m3"}
"""What a tolerance is a share of, and so grows with."""
LONGEST = 86_400.0


def texts_of_method(method: Method, system: str) -> dict[str, str]:
    """A measurement as it would be typed."""
    texts = {
        entry.key: units.edit_text(getattr(method, name), entry.kind, system)
        for name, entry in AMOUNTS.get(method.kind, ())
    }
    for number, fill in enumerate(getattr(method, "fills", ())):
        texts[f"{number}.seconds"] = units.edit_text(fill.seconds, "duration", system)
        texts[f"{number}.struck"] = "yes" if fill.excluded else "no"
        if method.kind == "weighed":
            texts[f"{number}.full_weight"] = units.edit_text(fill.full_kg, "mass", system)
    if method.kind == "bucket":
        texts["container"] = OWN
    return texts


def read_method(
    texts: Mapping[str, str], method: Method, system: str, containers: Sequence[Container]
) -> tuple[Method | None, dict[str, str]]:
    """The measurement that the texts describe, or none and what is wrong, by field.

    What was left alone stays exact.
    """
    begin = texts_of_method(method, system)
    errors: dict[str, str] = {}

    def read(key: str, entry: Entry, was: float) -> float:
        text = texts.get(key, begin[key])
        if text == begin[key]:
            return was
        value, error = fields.read_quantity(
            text, entry.kind, system, entry.low, entry.high, zero=entry.key in MAY_BE_NOTHING
        )
        if value is None:
            errors[key] = error or t("Write an amount, or delete the reading")
            return was
        return value

    changed: dict[str, Any] = {}
    for name, entry in AMOUNTS.get(method.kind, ()):
        was = getattr(method, name)
        changed[name] = read(entry.key, entry, was)
        if name in SCALED and changed[name] != was:
            changed[SCALED[name]] = getattr(method, SCALED[name]) * changed[name] / was
    fills = []
    for number, fill in enumerate(getattr(method, "fills", ())):
        time = Entry("seconds", "", "duration", 0.01, LONGEST)
        seconds = read(f"{number}.seconds", time, fill.seconds)
        excluded = texts.get(f"{number}.struck", begin[f"{number}.struck"]) == "yes"
        put = {
            "seconds": seconds,
            "excluded": excluded,
            "typed": fill.typed or seconds != fill.seconds,
        }
        if method.kind == "weighed":
            put["full_kg"] = read(f"{number}.full_weight", WEIGHT, fill.full_kg)
        fills.append(fill.model_copy(update=put))
    if fills:
        changed["fills"] = tuple(fills)
    if method.kind == "bucket":
        chosen = texts.get("container", OWN)
        changed["container"] = next((c for c in containers if c.id == chosen), method.container)
    if errors:
        return None, errors
    try:
        plain = {**dict(method), **changed}
        return type(method).model_validate(plain), {}
    except ValidationError:
        return None, {"": t("These amounts do not fit together")}


def _fill_part(
    typed: Typed, begin: Mapping[str, str], errors: Mapping[str, str], number: int, system: str,
    weighed: bool,
) -> list[ft.Control]:  # fmt: skip
    """One fill: its time, its weight, whether it counts."""
    key = f"{number}.seconds"
    excluded = typed.text(f"{number}.struck", begin[f"{number}.struck"]) == "yes"
    field = fields.quantity_field(
        t("Time of fill {number}", number=number + 1), typed.text(key, begin[key]), typed.note(key),
        unit=units.unit_for("duration", system), error=errors.get(key),
    )  # fmt: skip
    parts = [field]
    if weighed:
        key = f"{number}.full_weight"
        parts.append(
            fields.quantity_field(
                t(WEIGHT.label, number=number + 1), typed.text(key, begin[key]), typed.note(key),
                unit=units.unit_for("mass", system), error=errors.get(key),
            )
        )  # fmt: skip
    turn = typed.note(f"{number}.struck")
    label = (
        t("Take fill {number} back", number=number + 1)
        if excluded
        else t("Strike fill {number}", number=number + 1)
    )
    parts.append(layout.quiet_button(label, lambda _: turn("no" if excluded else "yes")))
    return parts


def method_parts(
    typed: Typed, method: Method, errors: Mapping[str, str], system: str
) -> list[ft.Control]:
    """The fields of what was measured."""
    begin = texts_of_method(method, system)
    found: list[ft.Control] = []
    if method.kind == "bucket":
        own = t("{container}, as measured", container=method.container.name)
        known = [(one.id, one.name) for one in session_now().preferences.containers]
        found.append(
            layout.choice(
                t("Container"), [(OWN, own), *known], typed.text("container", OWN),
                typed.note("container"),
            )
        )  # fmt: skip
    for _, entry in AMOUNTS.get(method.kind, ()):
        text = typed.text(entry.key, begin[entry.key])
        found.append(
            fields.quantity_field(
                t(entry.label), text, typed.note(entry.key),
                unit=units.unit_for(entry.kind, system), error=errors.get(entry.key),
            )
        )  # fmt: skip
    for number in range(len(getattr(method, "fills", ()))):
        found += _fill_part(typed, begin, errors, number, system, method.kind == "weighed")
    if "" in errors:
        found.append(fields.wrong(errors[""]))
    return found
