"""How the filling of a box or bog is shown and entered."""

from collections.abc import Sequence
from typing import Any, ClassVar

from pondapp import units
from pondapp.answers.methods.method import Sides
from pondapp.models.base import Limits, limits_of
from pondapp.models.limits import LONGEST_RISE
from pondapp.models.reading import FilledSpace
from pondapp.ui.methods.look import MethodLook, times_text
from pondapp.ui.methods.sides import ACROSS, BOX, SHARE
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField

RISE = QuantityField("rise", "From mark to mark", "width", Limits(0.0, LONGEST_RISE, above=True))
SPACE = QuantityField(
    "space", "Space between the marks", "volume", limits_of(FilledSpace, "volume_m3"),
    "Outside, gravel and all",
)  # fmt: skip
GAPS = QuantityField(
    "gaps", "Gaps in the gravel", "share", limits_of(FilledSpace, "porosity"),
    "The share of the bed that water fills",
)  # fmt: skip
SPACE_TOLERANCE = QuantityField("space_tolerance", "The space may be off by", "share", SHARE)
GAPS_TOLERANCE = QuantityField(
    "gaps_tolerance",
    "The gaps may be off by",
    "share",
    limits_of(FilledSpace, "porosity_tolerance"),
)
SPACES: dict[Sides, tuple[QuantityField, ...]] = {
    "box": (*BOX, RISE), "round": (ACROSS, RISE), "known": (SPACE,),
}  # fmt: skip


class _Filling(MethodLook[FilledSpace]):
    stored = FilledSpace
    when = "For a big flow into a box or bog that you can empty first."
    steps = (
        "Let the box or bed run down to a lower mark.",
        "Time the rise to an upper mark, with nothing running out.",
    )
    to_start = "Tap when the water passes the lower mark"
    to_stop = "Tap when it passes the upper mark"
    told = "Drawing: water runs into a box; its level rises from one mark to another."
    tolerances = (SPACE_TOLERANCE, GAPS_TOLERANCE)
    corrected = (SPACE, GAPS)
    spreads: ClassVar[dict[str, str]] = {"volume_m3": "volume_tolerance_m3"}
    sides = "The box or bed"
    asks_gravel = True

    def drawn(self) -> list[Any]:
        return [
            sketch.water(sketch.box(26, 42, 106, 72), pale=True),
            sketch.water(sketch.box(26, 72, 106, 88)),
            sketch.line(sketch.box(26, 22, 106, 88)),
            sketch.mark(96, 116, 42),
            sketch.mark(96, 116, 72),
            *sketch.arrow(78, 69, 46),
            sketch.water([(41, 8), (47, 8), (47, 72), (41, 72)]),
            sketch.line([(6, 8), (47, 8)]),
        ]

    def asked(self, sides: Sides, gravel: bool, /) -> Sequence[QuantityField]:
        return (*SPACES[sides], GAPS) if gravel else SPACES[sides]

    def may_be_off(self, gravel: bool, /) -> Sequence[QuantityField]:
        return self.tolerances if gravel else (SPACE_TOLERANCE,)

    def all_fields(self) -> Sequence[QuantityField]:
        return (*BOX, ACROSS, RISE, SPACE, GAPS, *self.tolerances)

    def how(self, method: FilledSpace, system: str, /) -> str:
        space = units.show(method.volume_m3, "volume", system)
        return f"{self.name}, {space}: {times_text(method.fills, system)}"


LOOK = _Filling()
