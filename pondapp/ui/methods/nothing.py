"""How a place that stays dry is shown."""

from typing import Any

from pondapp.models.reading import NothingComes
from pondapp.ui.methods.bucket import OUTLINE
from pondapp.ui.methods.look import MethodLook
from pondapp.ui.parts import sketch
from pondapp.words import t

SEEN = {"outlet": "Seen at the open end", "meter": "The flow meter stands still"}


class _Nothing(MethodLook[NothingComes]):
    stored = NothingComes
    when = "For a place that stays dry."
    steps = (
        "Let the pump run for some minutes: a long hose fills slowly.",
        "Look at the open end, or hold a hand under it.",
    )
    told = "Drawing: a pipe over a bucket; no water comes out of it."

    def drawn(self) -> list[Any]:
        return [
            sketch.line(OUTLINE),
            sketch.line([(6, 6), (52, 6), (64, 18)]),
            sketch.line([(6, 18), (46, 18), (56, 26)]),
            sketch.line([(62, 34), (62, 38)], thick=False),
        ]

    def how(self, method: NothingComes, _system: str, /) -> str:
        return t(SEEN[method.seen])


LOOK = _Nothing()
