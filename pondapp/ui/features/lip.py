"""How a waterfall's lip is shown and entered."""

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import Lip
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "lip", "Width of the lip", "width", limits_of(Lip, "width_m"), needed=True
        ),
        QuantityField(
            "fall_height", "Height of the fall", "width", limits_of(Lip, "fall_m"),
            "From the lip to the water below; leave empty if it does not matter",
        ),
    )
)  # fmt: skip
LOOK = FeatureLook(ft.Icons.WATER, "The edge that a waterfall runs over", FORM)
