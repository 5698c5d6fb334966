"""The calculators of a pond's care, for the screens that lead to them."""

from collections.abc import Sequence

import flet as ft

from pondapp.answers.keeping.water_change import BROUGHT_DOWN
from pondapp.answers.log.water_tests import read_test
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.words import t

CALCULATORS: Sequence[tuple[str, ft.IconData, str, str]] = (
    ("season", ft.Icons.ECO_OUTLINED, "What to do now",
     "By the season and the temperature of the water"),
    ("change", ft.Icons.WATER_DROP_OUTLINED, "Water change",
     "How much, what against chlorine, how often"),
    ("dose", ft.Icons.MEDICATION_OUTLINED, "Salt and doses",
     "How much for this pond, and never more than the label"),
    ("uv", ft.Icons.LIGHTBULB_OUTLINED, "UV lamp",
     "Whether it fits pond and flow, and when to change it"),
    ("evaporation", ft.Icons.WB_SUNNY_OUTLINED, "Evaporation and leaks",
     "What a hot week takes, and whether the rest leaks"),
    ("pump-off", ft.Icons.POWER_OFF_OUTLINED, "Pump off",
     "What to do first, and how long the oxygen lasts"),
)  # fmt: skip
"""Rest of the route, mark, title, and what it answers."""
OF_ENTRY = {
    "water_change": ("change", "Work out a water change"),
    "dose": ("dose", "Work out a dose"),
}
"""By the kind of an entry of the log: the calculator for it, and the way there."""


def to_pump_off(pond: Pond) -> ft.Control:
    """From the health of a pump to what to do when it stands still."""
    return layout.second_button(t("Pump off"), go(f"/pond/{pond.id}/log/pump-off"))


def calculators(pond: Pond) -> ft.Control:
    """All of them, one touch each."""
    return layout.tile(
        [
            layout.marked_button(
                ft.Icon(mark, size=theme.drawn(theme.TITLE), color=ft.Colors.PRIMARY),
                [layout.body(t(title)), layout.small(t(hint))],
                go(f"/pond/{pond.id}/log/{rest}"),
            )
            for rest, mark, title, hint in CALCULATORS
        ]
    )


def work_out(kind: str, pond: Pond | None) -> list[ft.Control]:
    """From what is about to be entered in the log to its calculator."""
    if pond is None or kind not in OF_ENTRY:
        return []
    rest, words = OF_ENTRY[kind]
    return [layout.second_button(t(words), go(f"/pond/{pond.id}/log/{rest}"))]


def to_water_change(entry: Entry, pond: Pond | None) -> list[ft.Control]:
    """From a water test with something in it that fresh water thins."""
    if pond is None or not isinstance(entry.what, WaterTest):
        return []
    remarks = read_test(entry.what, pond).remarks
    if not any(one.key in BROUGHT_DOWN and not one.good for one in remarks):
        return []
    return work_out("water_change", pond)
