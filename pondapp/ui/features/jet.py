"""How a jet is shown and entered."""

from dataclasses import replace

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import Jet
from pondapp.models.limits import LEAST_JET
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "jet",
            "Flow that its maker prints",
            "flow",
            replace(limits_of(Jet, "flow_m3_s"), low=LEAST_JET, above=False),
            needed=True,
        ),
    )
)
LOOK = FeatureLook(ft.Icons.SHOWER, "A jet, spitter or fountain", FORM)
