"""How bucket and stopwatch are shown."""

from typing import Any

from pondapp.models.reading import Bucket
from pondapp.ui.methods.look import MethodLook, times_text
from pondapp.ui.parts import sketch

OUTLINE: sketch.Points = [(38, 40), (44, 88), (88, 88), (94, 40)]


def bucket() -> list[Any]:
    """Water falls from a pipe into a bucket with a mark."""
    return [
        sketch.water([(41, 62), (44, 88), (88, 88), (91, 62)]),
        sketch.water([(58, 16), (64, 18), (68, 62), (62, 62)]),
        sketch.line(OUTLINE),
        sketch.line([(6, 6), (52, 6), (64, 18)]),
        sketch.line([(6, 18), (46, 18), (56, 26)]),
        sketch.mark(80, 104, 50),
    ]


class _Bucket(MethodLook[Bucket]):
    stored = Bucket
    when = "For most outlets: quick, and good to a few percent."
    steps = (
        "Catch the whole flow in the container.",
        "Tap when water starts to fall in, and again when it reaches the mark.",
    )
    to_start = "Tap when water starts to fall in"
    to_stop = "Tap when the water reaches the mark"
    told = "Drawing: water falls from a pipe into a bucket with a mark."
    chooses_container = True

    def drawn(self) -> list[Any]:
        return bucket()

    def how(self, method: Bucket, system: str, /) -> str:
        return f"{method.container.name}: {times_text(method.fills, system)}"


LOOK = _Bucket()
