"""What was measured, to be put right: its times and amounts as they would be typed."""

from collections.abc import Mapping, Sequence
from typing import Any

import flet as ft
from pydantic import ValidationError

from pondapp.models.base import limits_of
from pondapp.models.preferences import EXACT
from pondapp.models.reading import Bucket, Container, Fill, Method
from pondapp.ui.measuring.method_fields import WEIGHT
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.form import Form, QuantityField, key_of
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

OWN = "own"  # the container as it was when the reading was taken
TIME = QuantityField("seconds", "Time of fill {number}", "duration", limits_of(Fill, "seconds"))
FILL = Form((TIME, WEIGHT))
FORM = Form(
    tuple(one for look in LOOKS.values() for one in look.corrected),
    lists={"fills": FILL},
    days=("date",),
)


def texts_of_method(method: Method, system: str) -> dict[str, str]:
    """A measurement as it would be typed."""
    look = LOOKS[method.kind]
    amounts = {one.key: getattr(method, name) for name, one in look.named_fields().items()}
    texts = FORM.write(amounts, system)
    for number, fill in enumerate(getattr(method, "fills", ())):
        full = fill.full_kg if look.weighs else None
        texts |= FILL.write({"seconds": fill.seconds, "full_weight": full}, system, str(number))
        texts[f"{number}.struck"] = "yes" if fill.excluded else "no"
    if look.chooses_container:
        texts["container"] = OWN
    return texts


def read_method(
    texts: Mapping[str, str], method: Method, system: str, containers: Sequence[Container]
) -> tuple[Method | None, dict[str, str]]:
    """The measurement that the texts describe, or none and what is wrong, by field.

    What was left alone stays exact.
    """
    begin, look = texts_of_method(method, system), LOOKS[method.kind]
    errors: dict[str, str] = {}

    def read(key: str, one: QuantityField, was: float) -> float:
        text = texts.get(key, begin[key])
        if text == begin[key]:
            return was
        value, error = one.read(text, system, texts.get(f"{key}{EXACT}", ""))
        if value is None:
            errors[key] = error or t("Write an amount, or delete the reading")
            return was
        return value

    changed: dict[str, Any] = {}
    for name, one in look.named_fields().items():
        was = getattr(method, name)
        changed[name] = read(one.key, one, was)
        if name in look.spreads and changed[name] != was:
            spread = look.spreads[name]
            changed[spread] = getattr(method, spread) * changed[name] / was
    fills = []
    for number, fill in enumerate(getattr(method, "fills", ())):
        seconds = read(f"{number}.seconds", TIME, fill.seconds)
        excluded = texts.get(f"{number}.struck", begin[f"{number}.struck"]) == "yes"
        put = {
            "seconds": seconds,
            "excluded": excluded,
            "typed": fill.typed or seconds != fill.seconds,
        }
        if look.weighs:
            put["full_kg"] = read(f"{number}.full_weight", WEIGHT, fill.full_kg)
        fills.append(fill.model_copy(update=put))
    if fills:
        changed["fills"] = tuple(fills)
    if isinstance(method, Bucket):
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
    typed: Typed, begin: Mapping[str, str], errors: Mapping[str, str], number: int
) -> list[ft.Control]:
    """One fill: its time, its weight, whether it counts."""
    excluded = typed.text(f"{number}.struck", begin[f"{number}.struck"]) == "yes"
    keys = (key_of(str(number), one.key) for one in FILL.fields)
    parts = [
        FORM.draw(typed, key, errors, begin=begin[key], number=number + 1)
        for key in keys
        if key in begin
    ]
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
    if isinstance(method, Bucket):
        own = t("{container}, as measured", container=method.container.name)
        known = [(one.id, one.name) for one in session_now().preferences.containers]
        found.append(
            layout.choice(
                t("Container"), [(OWN, own), *known], typed.text("container", OWN),
                typed.note("container"),
            )
        )  # fmt: skip
    found += [
        FORM.draw(typed, one.key, errors, begin=begin[one.key], helper="")
        for one in LOOKS[method.kind].corrected
    ]
    for number in range(len(getattr(method, "fills", ()))):
        found += _fill_part(typed, begin, errors, number)
    if "" in errors:
        found.append(fields.wrong(errors[""]))
    return found
