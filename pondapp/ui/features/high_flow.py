"""How a high-flow filter is shown and entered."""

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import HighFlowFilter
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "media", "Volume of foam and media", "volume",
            limits_of(HighFlowFilter, "media_volume_m3"),
            "Leave empty if you do not know it; the flow goes by the pond's volume",
        ),
    )
)  # fmt: skip
LOOK = FeatureLook(ft.Icons.FILTER_ALT, "A fast box of foam and loose media", FORM)
