"""The rules of a pond: each with its value, range, source and status, and each to be changed."""

from collections.abc import Sequence
from functools import partial
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.rules.rules import (
    Rule,
    rule_of,
    rules_of,
    with_rule,
    without_rule,
    without_rules,
)
from pondapp.core.base.errors import PondError
from pondapp.models.base import Limits
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import draft_name, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.form import NO_AMOUNTS, Form, QuantityField
from pondapp.ui.parts.working import source_text
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.words import t

VALUE = "Value"
GROUPS = {
    "filters": "Filters",
    "waterfalls": "Waterfalls",
    "stock": "Fish, feed and dosing",
    "measuring": "Measuring",
    "plumbing": "Pipes and hoses",
    "pumps": "Pumps and money",
    "materials": "Gravel, liner, plants",
    "water": "Water tests",
    "care": "Care",
}


def rule_field(rule: Rule) -> QuantityField:
    """The field that changes a rule."""
    return QuantityField(
        f"rule_{rule.kind}", VALUE, rule.kind, Limits(rule.low, rule.high), zero=True
    )


def value_text(rule: Rule, system: str) -> str:
    """The value in force."""
    return units.show(rule.value, rule.kind, system)


def _entry(pond: Pond, rule: Rule, system: str) -> tuple[str, Any]:
    value = value_text(rule, system)
    text = t("{rule}: {value}, changed" if rule.changed else "{rule}: {value}",
             rule=t(rule.label), value=value)  # fmt: skip
    return text, go(f"/pond/{pond.id}/rules/{rule.key}")


def _entries(pond: Pond, rules: Sequence[Rule], system: str) -> list[ft.Control]:
    return [layout.links([_entry(pond, rule, system) for rule in rules])]


@ft.component
def RulesPage() -> Any:
    """All rules; a group unfolds when its heading is touched."""
    session = session_now()
    system = session.system
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    rules = rules_of(pond)
    changed = [rule for rule in rules if rule.changed]

    async def reset(_: Any) -> None:
        await save_change(
            without_rules(session.ponds[pond.id]), t("Every rule is back at its default.")
        )

    controls: list[ft.Control] = [
        layout.body(
            t("Rules of thumb, tolerances and prices that this app counts with. Change one, and "
              "everything about this pond follows.")
        ),
    ]  # fmt: skip
    if changed:
        controls += [
            layout.heading(t("Changed for this pond")),
            *_entries(pond, changed, system),
            layout.quiet_button(t("All back to their defaults"), reset),
        ]
    for group, title in GROUPS.items():
        mine = [rule for rule in rules if rule.group == group]
        name = t("{group}, {count} rules", group=t(title), count=len(mine))
        controls.append(fold(group, name, partial(_entries, pond, mine, system)))
    return layout.screen(f"/pond/{pond.id}/rules", t("Rules and prices"), controls)


@ft.component
def RulePage() -> Any:
    """One rule."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond_id, key = params.get("pond_id", ""), params.get("rule_key", "")
    pond = session.ponds.get(pond_id)
    rule = rule_of(pond, key) if pond else None
    field = rule_field(rule) if rule else None
    form = Form((field,)) if field else NO_AMOUNTS
    typed = use_draft(draft_name("rule", pond_id, key.replace(".", "-")), {}, form)
    refused, refuse = ft.use_state("")
    if pond is None:
        return layout.no_pond()
    if rule is None or field is None:
        missing = [layout.body(t("There is no such rule."))]
        return layout.screen(f"/pond/{pond_id}/rules/{key}", t("Rules and prices"), missing)
    text = typed.text(field.key, field.write(rule.value, system))
    value, error = field.read(text, system, repr(rule.value))

    def note(changed: str) -> None:
        refuse("")
        typed.note(field.key)(changed)

    async def save(_: Any) -> None:
        if value is None:
            return
        try:
            changed = with_rule(session.ponds[pond_id], key, value)
        except PondError as problem:
            refuse(units.explain(problem, system))
            return
        await save_change(changed, t("The rule is changed."))
        typed.put({})

    async def reset(_: Any) -> None:
        refuse("")
        typed.put({})
        back = without_rule(session.ponds[pond_id], key)
        await save_change(back, t("The rule is back at its default."))

    label = t(rule.label)
    limits = units.show_range(rule.low, rule.high, rule.kind, system)
    controls: list[ft.Control] = [
        layout.heading(label),
        layout.card(
            [
                layout.fact(
                    t("Used for this pond"),
                    value_text(rule, system),
                    t("Changed by you.") if rule.changed else t("The default."),
                ),
            ],
            strong=True,
        ),
        field.draw(
            text, note, system, error=error or refused or None,
            helper=t("From {limits}", limits=limits),
        ),
        layout.main_button(
            t("Change the rule"), save, disabled=value is None or value == rule.value
        ),
        layout.card(
            [
                layout.fact(
                    t("Default"),
                    units.show(rule.default, rule.kind, system),
                    source_text(rule.source),
                )
            ]
        ),
    ]  # fmt: skip
    if rule.changed:
        controls.append(layout.second_button(t("Back to the default"), reset))
    return layout.screen(f"/pond/{pond.id}/rules/{key}", t("A rule"), controls)
