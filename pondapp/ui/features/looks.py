"""How every kind of water feature is shown and entered, by the name under which it is stored."""

from importlib import import_module
from typing import cast

import flet as ft

from pondapp.answers.features.kinds import KINDS, PUMP
from pondapp.ui.features.look import FeatureLook

PUMP_ICON = ft.Icons.CYCLONE
PUMP_OUTLET = "pump outlet"


def _look(kind: str) -> FeatureLook:
    return cast(FeatureLook, import_module(f"pondapp.ui.features.{kind}").LOOK)


LOOKS: dict[str, FeatureLook] = {kind: _look(kind) for kind in KINDS}


def icon_of(kind: str) -> ft.IconData:
    """The icon of a place: of a kind of feature, or of a pump."""
    return PUMP_ICON if kind == PUMP else LOOKS[kind].icon


def outlet_of(kind: str) -> str:
    """What the outlet of a place is called, in English."""
    return PUMP_OUTLET if kind == PUMP else KINDS[kind].outlet
