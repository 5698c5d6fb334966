"""What is said to be safe, where the risk is met."""

import flet as ft

from pondapp.ui.parts import layout
from pondapp.words import t

CHILDREN = (
    "small children drown in centimetres of water, and a trench fills with rain. Fence or grid "
    "the pond from the first day of digging, and never leave them alone beside it."
)
MAINS = (
    "mains and water kill. Use an RCD/GFCI-protected outdoor supply, unplug before hands go in, "
    "and leave mains work to a licensed electrician under your local rules."
)
LIFTING = (
    "stone and wet gravel are heavier than they look. Share the load or use a barrow, and lift "
    "close to the body with bent knees."
)
DOSING = (
    "chlorine and chloramine in tap water kill fish, and so does too much salt or medicine. Check "
    "the label and what your fish and plants can take before anything goes in."
)


def children() -> ft.Control:
    """For digging, and beside water."""
    return layout.caution(t(CHILDREN))


def mains() -> ft.Control:
    """For pumps, lights and anything else with a plug."""
    return layout.caution(t(MAINS))


def lifting() -> ft.Control:
    """For stone and gravel."""
    return layout.caution(t(LIFTING))


def dosing() -> ft.Control:
    """For tap water, salt and treatments."""
    return layout.caution(t(DOSING))
