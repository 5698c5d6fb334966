"""About the numbers: every rule with value, range and source, and where the formulas are from."""

from collections.abc import Sequence
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.rules.rules import Rule, usual_rules
from pondapp.answers.rules.sources import FORMULAS, Formula
from pondapp.ui.about.rules import GROUPS, value_text
from pondapp.ui.parts import layout
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import source_text
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def rule_lines(rule: Rule, system: str) -> tuple[str, str]:
    """The value with its range, and where it is from."""
    limits = units.show_range(rule.low, rule.high, rule.kind, system)
    value = t("{value}; may be {limits}", value=value_text(rule, system), limits=limits)
    return value, source_text(rule.source)


def _rules(rules: Sequence[Rule], system: str) -> list[ft.Control]:
    return [layout.card([layout.fact(t(rule.label), *rule_lines(rule, system)) for rule in rules])]


def _formulas(formulas: Sequence[Formula]) -> list[ft.Control]:
    lines = [
        ft.Column([layout.body(t(one.what)), layout.small(source_text(one.source))], spacing=2)
        for one in formulas
    ]
    return [layout.card(lines)]


@ft.component
def NumbersPage() -> Any:
    """Groups that unfold; nothing is hidden, and nothing claims more than is known."""
    system = session_now().system
    rules = usual_rules()
    controls: list[ft.Control] = [
        layout.body(
            t(
                "Every result of this app rests on these. Published and seen means that the number "
                "was compared with what the document, or a copy of it, prints. Common practice "
                "means that builders do so and nobody published it. Rule of thumb means that no "
                "document was found that prints the number. Named from memory means that the "
                "document exists and the number was not looked up in it."
            )
        ),
        layout.body(t("You can change any rule for a pond: in its Plan, under Rules and prices.")),
        layout.heading(t("Rules of thumb, tolerances and prices")),
    ]
    for group, title in GROUPS.items():
        mine = [rule for rule in rules if rule.group == group]
        name = t("{group}, {count} rules", group=t(title), count=len(mine))
        controls.append(fold(group, name, lambda mine=mine: _rules(mine, system)))  # type: ignore[misc]
    controls.append(layout.heading(t("Formulas")))
    controls += [
        fold(f"formulas-{title}", t(title), lambda formulas=formulas: _formulas(formulas))  # type: ignore[misc]
        for title, formulas in FORMULAS.items()
    ]
    return layout.screen("/about/numbers", t("About the numbers"), controls)
