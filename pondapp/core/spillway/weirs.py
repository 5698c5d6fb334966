"""Flow over a lip from the depth of the water behind it.

The head is measured a few heads upstream, where the surface is still level, from the lip's edge up
to the surface. The formula was fitted to thicker sheets than most garden lips carry: outside its
range the result is computed all the same and says so.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source, Step, Term

REHBOCK = Source("Rehbock, limits after Blevins, as coded in fluids 1.3.1", "published")


@dataclass(frozen=True, slots=True)
class WeirFlow:
    """Flow over a lip.

    Attributes:
        flow: Flow [m3/s].
        warnings: Where the formula was stretched beyond its range; empty inside.
        head: Depth of the water behind the lip, over its edge [m].
        width: Width of the lip [m].
        other: Third quantity of the formula, with its meaning.
        formula: The formula as it was used.
        source: Where it is from.
    """

    flow: float
    warnings: tuple[Message, ...]
    head: float
    width: float
    other: Term
    formula: str
    source: Source

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("h", "head over the lip", self.head, "small"),
            Term("b", "width of the lip", self.width, "width"),
            self.other,
        )
        return (
            Step(Term("Q", "flow over the lip", self.flow, "m3/s"), self.formula, inputs,
                 self.source),
        )  # fmt: skip


def _check(head: float, width: float) -> None:
    require_above("head over the lip", head, 0.0, 2.0, "small")
    require_within("width of the lip", width, 0.01, 100.0, "width")


def _warnings(
    limits: Sequence[tuple[str, float, float, float, str]],
) -> tuple[Message, ...]:
    """One warning for each quantity that lies outside its limits."""
    found = []
    for name, value, low, high, unit in limits:
        if not low <= value <= high:
            below = value < low
            found.append(
                Message(
                    "{name} is {value}; this formula was tested from {limit} up, so take the "
                    "result as a rough one"
                    if below
                    else "{name} is {value}; this formula was tested up to {limit}, so take the "
                    "result as a rough one",
                    {
                        "name": name,
                        "value": Amount(value, unit),
                        "limit": Amount(low if below else high, unit),
                    },
                )
            )
    return tuple(found)


def weir_flow_rehbock(head: float, width: float, crest_height: float) -> WeirFlow:
    """Flow over a sharp lip as wide as its channel.

    Args:
        head: Depth of the water behind the lip over its edge [m], above 0 to 2; tested 0.03 to
            0.75, and below the crest height.
        width: Width of the lip [m], 0.01 to 100; tested from 0.3.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100; tested
            from 0.3.

    Returns:
        Flow [m3/s] with warnings where a tested limit is passed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Q = 2/3 √(2 g) (0.602 + 0.0832 h / P) b (h + 0.00125 m)^(3/2): T. Rehbock (1929), from
        memory, as coded in fluids 1.3.1 (Q_weir_rectangular_full_Rehbock); tested range: R. D.
        Blevins, Applied Fluid Dynamics Handbook (1984).

    Example:
        0.3 m over a lip of 2 m that stands 0.4 m high:

        >>> round(weir_flow_rehbock(0.3, 2.0, 0.4).flow, 4)
        0.6487
    """
    _check(head, width)
    require_within("height of the lip over the bottom", crest_height, 0.005, 100.0, "width")
    coefficient = 0.602 + 0.0832 * head / crest_height
    flow = 2.0 / 3.0 * sqrt(2.0 * GRAVITY) * coefficient * width * (head + 0.00125) ** 1.5
    warnings = _warnings(
        (
            ("the head", head, 0.03, 0.75, "small"),
            ("the width", width, 0.3, 100.0, "width"),
            ("the height of the lip", crest_height, 0.3, 100.0, "width"),
            ("head over height of the lip", head / crest_height, 0.0, 1.0, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("P", "height of the lip over the bottom", crest_height, "width"),
        "Q = 2/3 √(2 g) (0.602 + 0.0832 h / P) b (h + 0.00125)^1.5", REHBOCK,
    )  # fmt: skip
