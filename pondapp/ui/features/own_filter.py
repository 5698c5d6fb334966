"""How a filter of one's own making is shown and entered."""

from dataclasses import replace

import flet as ft

from pondapp.models.base import limits_of
from pondapp.models.circuit import OwnFilter
from pondapp.models.limits import LEAST_JET
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.parts.form import Form, QuantityField

FORM = Form(
    (
        QuantityField(
            "own",
            "Flow that you want through it",
            "flow",
            replace(limits_of(OwnFilter, "flow_m3_s"), low=LEAST_JET, above=False),
            "Its range can be set under Wanted flow",
            needed=True,
        ),
    )
)
LOOK = FeatureLook(ft.Icons.SCIENCE, "A kind of your own that you want to try and watch", FORM)
