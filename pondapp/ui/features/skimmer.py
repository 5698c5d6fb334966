"""How a skimmer is shown and entered."""

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import Skimmer
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "opening", "Width of its opening", "width", limits_of(Skimmer, "opening_m"),
            needed=True,
        ),
    )
)  # fmt: skip
LOOK = FeatureLook(ft.Icons.BLUR_LINEAR, "Draws in the surface, with leaves and dust", FORM)
