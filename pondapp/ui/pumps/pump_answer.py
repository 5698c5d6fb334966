"""What a pump gives in a pond's own circuit, what it costs, and why it ranks where it does."""

import flet as ft

from pondapp import units
from pondapp.answers.pumps.pumps import ESTIMATED, PumpAnswer, PumpRanking
from pondapp.ui.parts import layout
from pondapp.ui.shell import theme
from pondapp.words import t

# Shape and word carry the state, not colour; a tick stands only where nothing is assumed.
MARKS = {
    "enough": (ft.Icons.CHECK_CIRCLE, "Enough"),
    "probably": (ft.Icons.THUMB_UP_OUTLINED, "Probably enough"),
    "strong": (ft.Icons.ARROW_CIRCLE_UP, "Too strong"),
    "open": (ft.Icons.HELP_OUTLINE, "May be too weak"),
    "weak": (ft.Icons.ARROW_CIRCLE_DOWN, "Too weak"),
    "unknown": (ft.Icons.HELP_OUTLINE, "Not known yet"),
}
SURER = ("probably", "open")
"""Where more knowledge of the pump would tell more."""


def state_row(answer: PumpAnswer, name: str = "", *, doubted: bool = False) -> ft.Control:
    """Enough or not, by mark and word, under the pump's name if there is one."""
    mark, word = MARKS["unknown" if doubted else answer.state]
    if not name:
        words = layout.heading(t(word))
    else:
        words = ft.Column([layout.heading(name), layout.body(t(word))], spacing=0)
    return ft.Row(
        [ft.Icon(mark, size=theme.FIGURE), ft.Container(words, expand=True)], spacing=theme.GAP
    )


def gives_text(answer: PumpAnswer, shelf: PumpRanking, system: str) -> str:
    """What it really gives, as far as that can be known, against what is wanted."""
    wanted = units.show(shelf.network.needs.flow, "flow", system)
    low, high = answer.span
    if high == 0.0:
        end = shelf.network.needs.neediest.name
        return t("No water reaches {end}; {wanted} wanted", end=end, wanted=wanted)
    if answer.state == "unknown":
        gives = units.show(low, "flow", system)
        return t("Gives {gives} or more here; {wanted} wanted", gives=gives, wanted=wanted)
    gives = units.show_range(low, high, "flow", system)
    return t("Gives {gives} here; {wanted} wanted", gives=gives, wanted=wanted)


def cost_text(answer: PumpAnswer, shelf: PumpRanking, system: str) -> str | None:
    """Watts and money; none while its watts are not known."""
    if answer.power is None or answer.per_year is None or answer.total is None:
        return None
    return t(
        "{watts}: {cost}; {total} with its price over {years} years",
        watts=units.show(answer.power, "power", system),
        cost=units.by_month_and_year(answer.per_year),
        total=units.about_money(answer.total),
        years=units.significant(shelf.network.rules.pumps.cost_years),
    )


def answer_lines(
    answer: PumpAnswer, shelf: PumpRanking, system: str, name: str = "", *, doubted: bool = False
) -> list[ft.Control]:
    """All of it, for a card; of a pump whose label is doubted, not that it is enough."""
    lines: list[ft.Control] = [state_row(answer, name, doubted=doubted)]
    if answer.ranked:
        lines.append(layout.body(gives_text(answer, shelf, system)))
    cost = cost_text(answer, shelf, system) if answer.does_it or answer.state == "strong" else None
    if cost:
        lines.append(layout.body(cost))
    if answer.speed < 1.0:
        share = units.show(answer.speed, "share", system, 2)
        lines.append(layout.body(t("Turned down to {share} of its speed.", share=share)))
    told = answer.notes if doubted else (answer.reason, *answer.notes)
    # That a label is only an estimate is said where it matters, and beside the chart.
    remarks = [note for note in told if note != ESTIMATED or answer.state in SURER]
    lines += [layout.small(layout.sentence(units.tell(note, system))) for note in remarks]
    return lines
