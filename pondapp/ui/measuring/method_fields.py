"""What is typed for each way of measuring: the fields, and the amounts read from them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import cast

import flet as ft

from pondapp import units
from pondapp.answers.measuring.methods import Assumptions
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered, Sides, place_at
from pondapp.models.base import limits_of
from pondapp.models.pond import Pond
from pondapp.models.reading import Container, WeighedFill
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.fills import FillEntry
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.methods.sides import SIDES
from pondapp.ui.parts import layout
from pondapp.ui.parts.form import Form, QuantityField, key_of
from pondapp.words import t

WEIGHT = QuantityField(
    "full_weight", "Weight of fill {number}, container and all", "mass",
    limits_of(WeighedFill, "full_kg"),
)  # fmt: skip
FILL = Form((WEIGHT,))
FIELDS = {one.key: one for look in LOOKS.values() for one in look.all_fields()}
FORM = Form(
    (*fills.FORM.fields, *FIELDS.values()),
    lists={"fills": FILL, fills.BEFORE: Form(lists={"fills": FILL})},
)


@dataclass(frozen=True, slots=True)
class MethodForm:
    """The fields of one measurement, and what they hold."""

    entered: Entered
    wrong: bool
    """Whether a field holds something that is no amount."""
    fields: Sequence[ft.Control]
    """What the method cannot do without."""
    tolerances: Sequence[ft.Control]
    """How far each amount may be off."""


def method_form(
    kind: str, draft: FillEntry, pond: Pond | None, place_id: str, rules: Assumptions,
    system: str, container: Container | None,
) -> MethodForm:  # fmt: skip
    """Read everything that was typed for a measurement, and draw the fields for it."""
    method, look, place = METHODS[kind], LOOKS[kind], place_at(pond, place_id)
    begin, usual = method.begins(place, rules), method.usual(rules)
    sides = cast("Sides", draft.text("sides", method.sides_at(place)))
    begins_with_gravel = "yes" if place.gravel else "no"
    gravel = look.asks_gravel and draft.text("gravel", begins_with_gravel) == "yes"
    needed, may_be_off = look.asked(sides, gravel), look.may_be_off(gravel)
    texts = {**FORM.write(begin, system), **draft.draft.texts}
    read = FORM.read(texts, system, only=[one.key for one in (*needed, *may_be_off)])

    def field(one: QuantityField) -> ft.Control:
        helper = None
        if one.key in usual:
            amount = units.show(usual[one.key], one.kind, system)
            helper = t("{amount} if left empty", amount=amount)
        start = texts.get(one.key, "")
        return FORM.draw(draft, one.key, read.errors, begin=start, helper=helper)

    drawn: list[ft.Control] = []
    if look.sides:
        options = layout.worded(SIDES)
        drawn.append(
            layout.choice(t(look.sides), options, sides, draft.note("sides"), in_rows=True)
        )
    if look.asks_gravel:
        drawn.append(
            layout.choice(
                t("Gravel in it?"), layout.yes_no(), "yes" if gravel else "no",
                draft.note("gravel"), in_rows=True,
            )
        )  # fmt: skip
    drawn += [field(one) for one in needed]
    full: dict[int, float] = {}
    wrong = bool(read.errors)
    for index, fill in enumerate(draft.fills if look.weighs else ()):
        weight = FILL.read(draft.draft.texts, system, str(index))
        if WEIGHT.key in weight.values:
            full[index] = weight.values[WEIGHT.key]
        if not fill.excluded:  # else it is not in sight
            wrong = wrong or bool(weight.errors)
            key = key_of(str(index), WEIGHT.key)
            drawn.append(FORM.draw(draft, key, weight.errors, number=index + 1))
    entered = Entered(read.values, sides, gravel, draft.fills, full, container)
    return MethodForm(entered, wrong, drawn, [field(one) for one in may_be_off])
