"""How a ruler over a lip is shown and entered."""

from typing import Any

from pondapp import units
from pondapp.models.base import limits_of
from pondapp.models.reading import LipDepth
from pondapp.ui.methods.look import MethodLook
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField
from pondapp.words import t

DEPTH = QuantityField(
    "depth_over_lip", "Depth over the lip", "small", limits_of(LipDepth, "head_m")
)
LIP_WIDTH = QuantityField(
    "lip_width", "Width that carries water", "width", limits_of(LipDepth, "width_m")
)
CREST = QuantityField(
    "crest", "Lip above the bottom behind it", "width", limits_of(LipDepth, "crest_height_m")
)


class _LipDepth(MethodLook[LipDepth]):
    stored = LipDepth
    when = "Nothing to catch and nothing to time, but the least exact way of all."
    steps = (
        "Hold a ruler upright behind the lip, about four times the depth back from it.",
        "Read how high the water stands over the lip's edge.",
    )
    told = "Drawing: a ruler stands in the water behind a lip that water falls over."
    needed = (DEPTH, LIP_WIDTH)
    tolerances = (
        QuantityField(
            "depth_tolerance", "The depth may be off by", "small",
            limits_of(LipDepth, "head_tolerance_m"),
        ),
        QuantityField(
            "lip_tolerance", "The width may be off by", "width",
            limits_of(LipDepth, "width_tolerance_m"),
        ),
        CREST,
    )  # fmt: skip
    corrected = (DEPTH, LIP_WIDTH, CREST)

    def drawn(self) -> list[Any]:
        return [
            sketch.water([(4, 30), (58, 30), (84, 36), (92, 48), (96, 88), (90, 88), (86, 50),
                    (78, 44), (72, 44), (72, 88), (4, 88)]),
            sketch.line([(4, 88), (72, 88), (72, 44), (78, 44)]),
            sketch.mark(24, 76, 44),
            sketch.line(sketch.box(26, 6, 36, 44)),
            *[sketch.mark(26, 31, y) for y in (12, 20, 28, 36)],
            *sketch.arrow(48, 18, 28),
        ]  # fmt: skip

    def how(self, method: LipDepth, system: str, /) -> str:
        return t(
            "{method}: {head} over {width} of lip",
            method=self.name,
            head=units.show(method.head_m, "small", system),
            width=units.show(method.width_m, "width", system),
        )


LOOK = _LipDepth()
