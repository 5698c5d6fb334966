"""How a bog filter is shown and entered."""

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import BogFilter
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "bog", "Outside volume of the bed", "volume", limits_of(BogFilter, "bed_volume_m3"),
            needed=True,
        ),
    )
)  # fmt: skip
LOOK = FeatureLook(ft.Icons.GRASS, "A slow bed of gravel with plants in it", FORM)
