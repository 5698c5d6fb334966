"""How a weighed bucket is shown and entered."""

from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp.models.base import limits_of
from pondapp.models.reading import WeighedBucket
from pondapp.ui.methods.look import MethodLook, times_text
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField

EMPTY = QuantityField(
    "empty_weight", "Container, empty", "mass", limits_of(WeighedBucket, "empty_kg")
)


class _Weighed(MethodLook[WeighedBucket]):
    stored = WeighedBucket
    when = "For a container without a mark."
    steps = (
        "Weigh the container empty. Time how long you hold it under the flow.",
        "Then weigh it full.",
    )
    to_start = "Tap when water starts to fall in"
    to_stop = "Tap when you take it away"
    told = "Drawing: a full bucket stands on a scale."
    needed = (EMPTY,)
    tolerances = (
        QuantityField(
            "scale_tolerance", "The scale may be off by", "mass",
            limits_of(WeighedBucket, "scale_tolerance_kg"),
        ),
    )  # fmt: skip
    corrected = (EMPTY,)
    weighs = True

    def drawn(self) -> list[Any]:
        return [
            sketch.water([(40, 22), (44, 58), (80, 58), (84, 22)]),
            sketch.line([(38, 12), (44, 58), (80, 58), (86, 12)]),
            sketch.line([(22, 62), (102, 62)]),
            sketch.line([(30, 62), (24, 90), (100, 90), (94, 62)]),
            cv.Circle(62, 77, 9, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=1.5,
                                                 style=ft.PaintingStyle.STROKE)),
            sketch.line([(62, 77), (67, 72)], thick=False),
        ]  # fmt: skip

    def how(self, method: WeighedBucket, system: str, /) -> str:
        return f"{self.name}: {times_text(method.fills, system)}"


LOOK = _Weighed()
