"""How a flow meter is shown and entered."""

from dataclasses import replace
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.models.base import limits_of
from pondapp.models.reading import MeterReading
from pondapp.ui.methods.look import MethodLook
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField
from pondapp.words import t

METER = QuantityField(
    "meter_flow", "The meter shows", "flow", limits_of(MeterReading, "flow_m3_s"), zero=True
)


class _Meter(MethodLook[MeterReading]):
    stored = MeterReading
    when = "For a pipe with a meter in it."
    steps = (
        "Wait until the meter stands still.",
        "Write what it shows, and how far its maker says it may be off.",
    )
    told = "Drawing: a pipe with a flow meter in it."
    needed = (METER,)
    tolerances = (
        QuantityField(
            "meter_tolerance",
            "The meter may be off by",
            "share",
            limits_of(MeterReading, "tolerance"),
        ),
    )
    corrected = (replace(METER, zero=None),)

    def drawn(self) -> list[Any]:
        return [
            sketch.water(sketch.box(4, 52, 116, 74)),
            sketch.line([(4, 52), (116, 52)]),
            sketch.line([(4, 74), (116, 74)]),
            cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.SURFACE,
                                                 style=ft.PaintingStyle.FILL)),
            cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=2.5,
                                                 style=ft.PaintingStyle.STROKE)),
            sketch.line([(60, 36), (72, 22)]),
            *[sketch.line(points, thick=False)
              for points in ([(38, 36), (43, 36)], [(60, 14), (60, 19)], [(77, 36), (82, 36)])],
        ]  # fmt: skip

    def how(self, method: MeterReading, system: str, /) -> str:
        share = units.show(method.tolerance, "share", system)
        return t("{method}: give or take {share}", method=self.name, share=share)


LOOK = _Meter()
