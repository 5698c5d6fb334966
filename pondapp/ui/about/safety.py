"""What to heed: the cautions of the screens at full length."""

from typing import Any

import flet as ft

from pondapp.ui.parts import cautions, layout
from pondapp.ui.shell.navigate import go
from pondapp.words import t

# Heading, and what there is to say under it.
PARTS = (
    (
        "Mains and water",
        (
            "Plug pumps and lights into an outdoor supply that an RCD or GFCI protects, and press "
            "its test button before the season.",
            "Use gear that is rated for outdoors and for water, with its cable whole. A joint in "
            "a cable does not belong under water.",
            "Unplug everything in the pond before hands or feet go in, and keep wet hands from "
            "the plug.",
            "Leave fixed wiring to a licensed electrician.",
        ),
    ),
    (
        "Children",
        (
            "Put up the fence or the grid on the first day of digging.",
            "A grid just under the surface must bear a child's weight. A bog, a trench and a "
            "bucket that you forgot are water too.",
            "Nobody small is alone beside the pond, not for a minute.",
        ),
    ),
    (
        "Lifting and digging",
        (
            "Before you dig, find out where cables, gas and water pipes run. Your supplier or a "
            "location service tells you.",
            "The side of a deep hole can slide in. Slope it or shore it, and keep the spoil away "
            "from the edge.",
            "Close the valve and set the bucket down before you lift it. Ten litres weigh ten "
            "kilograms; a bag of gravel weighs twenty.",
            "A tub full of wet gravel needs firm, level ground. Check that a wall or deck can "
            "bear it.",
        ),
    ),
    (
        "Fish and water",
        (
            "Condition tap water before fish meet it, and change only a part of the water at once.",
            "Keep an eye on ammonia and nitrite while a filter is new: its bacteria take weeks.",
            "What a label says goes before any sum in this app. Salt and medicine suit some fish "
            "and harm others, and harm plants.",
            "Leave air or a fall running on warm nights. When you tune or clean, do not leave the "
            "filter without water for long.",
        ),
    ),
    (
        "Working alone",
        (
            "Tell somebody when you work in or beside deep water, and have a phone within reach.",
            "Stone gets slippery under algae. Wear boots that hold, and do not lean out over the "
            "water for a reading.",
        ),
    ),
    (
        "Rules where you live",
        (
            "Building and electrical codes, rules on fences, wells and waste water, and licensed "
            "practice always prevail over this app.",
            "Its numbers are estimates and habits of the trade. Check what matters before you "
            "rely on it.",
        ),
    ),
)  # fmt: skip
SHORT = {
    "Mains and water": cautions.mains,
    "Children": cautions.children,
    "Lifting and digging": cautions.lifting,
    "Fish and water": cautions.dosing,
}


@ft.component
def SafetyPage() -> Any:
    """One heading a risk: the caution, then what to do about it."""
    controls: list[ft.Control] = []
    for title, lines in PARTS:
        controls.append(layout.heading(t(title)))
        if title in SHORT:
            controls.append(SHORT[title]())
        controls += [layout.body(t(line)) for line in lines]
    # Something to reach with the keyboard, which scrolls a screen to where it is.
    controls.append(layout.quiet_button(t("How this works"), go("/help")))
    return layout.screen("/safety", t("Safety"), controls)
