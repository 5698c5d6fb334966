"""How a falling level is shown and entered."""

from collections.abc import Sequence
from typing import Any, ClassVar

from pondapp import units
from pondapp.answers.methods.method import Sides
from pondapp.models.base import limits_of
from pondapp.models.reading import LevelDrop
from pondapp.ui.methods.look import MethodLook, times_text
from pondapp.ui.methods.sides import ACROSS, BOX, SHARE
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField

AREA = QuantityField("water_area", "Water area", "area", limits_of(LevelDrop, "area_m2"))
DROP = QuantityField(
    "drop", "From mark to mark", "small", limits_of(LevelDrop, "drop_m"), "How far the level falls"
)
BASINS: dict[Sides, tuple[QuantityField, ...]] = {"box": BOX, "round": (ACROSS,), "known": (AREA,)}


class _LevelDrop(MethodLook[LevelDrop]):
    stored = LevelDrop
    when = "For a flow that no bucket can catch: what the pump draws from a basin."
    steps = (
        "Lead the return elsewhere, so that nothing runs into this basin.",
        "Time the level from one mark down to another.",
    )
    to_start = "Tap when the level passes the upper mark"
    to_stop = "Tap when it passes the lower mark"
    caution = "a pump that runs dry is damaged: stop before the water is down to its inlet."
    told = "Drawing: water is drawn from a basin; its level falls from one mark to another."
    tolerances = (
        QuantityField(
            "level_tolerance", "Each mark may be off by", "small",
            limits_of(LevelDrop, "level_tolerance_m"),
        ),
        QuantityField("area_tolerance", "The area may be off by", "share", SHARE),
    )  # fmt: skip
    corrected = (AREA, DROP)
    spreads: ClassVar[dict[str, str]] = {"area_m2": "area_tolerance_m2"}
    sides = "The basin or box"

    def drawn(self) -> list[Any]:
        return [
            sketch.water(sketch.box(14, 30, 86, 88), pale=True),
            sketch.water(sketch.box(14, 56, 86, 88)),
            sketch.line(sketch.box(14, 14, 86, 88)),
            sketch.mark(4, 24, 30),
            sketch.mark(4, 24, 56),
            *sketch.arrow(46, 33, 53),
            sketch.line([(74, 80), (74, 6), (112, 6), (112, 24)]),
        ]

    def asked(self, sides: Sides, _gravel: bool, /) -> Sequence[QuantityField]:
        return (*BASINS[sides], DROP)

    def all_fields(self) -> Sequence[QuantityField]:
        return (*BOX, ACROSS, AREA, DROP, *self.tolerances)

    def how(self, method: LevelDrop, system: str, /) -> str:
        drop = units.show(method.drop_m, "small", system)
        return f"{self.name}, {drop}: {times_text(method.fills, system)}"


LOOK = _LevelDrop()
