"""Flow over a lip from the depth of the water behind it: published weir formulas.

The head is measured a few heads upstream, where the surface is still level, from the lip's edge up
to the surface. Every formula was fitted to thicker sheets than most garden lips carry: outside
its range the result is computed all the same and says so.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source, Step, Term

ROOT_FOOT = sqrt(0.3048)
"""Weir coefficients are printed in ft^0.5/s; this brings them to m^0.5/s (foot: exact)."""

REHBOCK = Source("Rehbock, limits after Blevins, as coded in fluids 1.3.1", "published")
KINDSVATER_CARTER = Source("Kindsvater and Carter, as coded in fluids 1.3.1", "published")
KC_TABLE = Source("EPA SWMM Reference Manual Vol. II, table 6-2", "published")
ACKERS = Source("Ackers, as coded in fluids 1.3.1", "published")
FRANCIS = Source("EPA SWMM Reference Manual Vol. II, 6.3.2, after Francis", "published")

FRANCIS_COEFFICIENT = 3.33 * ROOT_FOOT  # m^0.5/s

# width of the lip over width of the channel, slope, constant (ft^0.5/s)
KC_ROWS = (
    (0.2, -0.0087, 3.152),
    (0.4, 0.0317, 3.164),
    (0.5, 0.0612, 3.173),
    (0.6, 0.0995, 3.178),
    (0.7, 0.1602, 3.182),
    (0.8, 0.2376, 3.189),
    (0.9, 0.3447, 3.205),
    (1.0, 0.4000, 3.220),
)


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
            Term("h", "head over the lip", self.head, "m"),
            Term("b", "width of the lip", self.width, "width"),
            self.other,
        )
        return (
            Step(Term("Q", "flow over the lip", self.flow, "m3/s"), self.formula, inputs,
                 self.source),
        )  # fmt: skip


def _check(head: float, width: float) -> None:
    require_above("head over the lip", head, 0.0, 2.0, "m")
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
        Rehbock's formula with the limits given by Blevins, Applied Fluid Dynamics Handbook
        (1984), as coded in fluids 1.3.1.
    """
    _check(head, width)
    require_within("height of the lip over the bottom", crest_height, 0.005, 100.0, "m")
    coefficient = 0.602 + 0.0832 * head / crest_height
    flow = 2.0 / 3.0 * sqrt(2.0 * GRAVITY) * coefficient * width * (head + 0.00125) ** 1.5
    warnings = _warnings(
        (
            ("the head", head, 0.03, 0.75, "m"),
            ("the width", width, 0.3, 100.0, "m"),
            ("the height of the lip", crest_height, 0.3, 100.0, "m"),
            ("head over height of the lip", head / crest_height, 0.0, 1.0, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("P", "height of the lip over the bottom", crest_height, "m"),
        "Q = 2/3 √(2 g) (0.602 + 0.0832 h / P) b (h + 0.00125)^1.5", REHBOCK,
    )  # fmt: skip


def weir_flow_kindsvater_carter(head: float, width: float, crest_height: float) -> WeirFlow:
    """Flow over a sharp lip as wide as its channel.

    Args:
        head: Depth of the water behind the lip over its edge [m], above 0 to 2; tested from
            0.03, and up to twice the crest height.
        width: Width of the lip [m], 0.01 to 100; tested from 0.15.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100; tested
            from 0.1.

    Returns:
        Flow [m3/s] with warnings where a tested limit is passed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Kindsvater and Carter's formula with the limits given by Blevins, as coded in fluids
        1.3.1.
    """
    _check(head, width)
    require_within("height of the lip over the bottom", crest_height, 0.005, 100.0, "m")
    coefficient = 0.602 + 0.075 * head / crest_height
    flow = 2.0 / 3.0 * sqrt(2.0 * GRAVITY) * coefficient * (width - 0.001) * (head + 0.001) ** 1.5
    warnings = _warnings(
        (
            ("the head", head, 0.03, 2.0, "m"),
            ("the width", width, 0.15, 100.0, "m"),
            ("the height of the lip", crest_height, 0.1, 100.0, "m"),
            ("head over height of the lip", head / crest_height, 0.0, 2.0, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("P", "height of the lip over the bottom", crest_height, "m"),
        "Q = 2/3 √(2 g) (0.602 + 0.075 h / P) (b - 0.001) (h + 0.001)^1.5", KINDSVATER_CARTER,
    )  # fmt: skip


def weir_flow_contracted(head: float, width: float, crest_height: float) -> WeirFlow:
    """Flow over a sharp lip much narrower than the basin behind it.

    Args:
        head: Depth of the water behind the lip over its edge [m], above 0 to 2; tested from
            0.03, and up to twice the crest height.
        width: Width of the lip [m], 0.01 to 100; tested from 0.15.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100; tested
            from 0.1.

    Returns:
        Flow [m3/s] with warnings where a tested limit is passed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Kindsvater and Carter's formula in the short form given by Blevins for a lip of up to a
        fifth of the basin's width, as coded in fluids 1.3.1.
    """
    _check(head, width)
    require_within("height of the lip over the bottom", crest_height, 0.005, 100.0, "m")
    coefficient = 0.554 * (1.0 - 0.0035 * head / crest_height)
    flow = coefficient * (width + 0.0025) * sqrt(GRAVITY) * (head + 0.0001) ** 1.5
    warnings = _warnings(
        (
            ("the head", head, 0.03, 2.0, "m"),
            ("the width", width, 0.15, 100.0, "m"),
            ("the height of the lip", crest_height, 0.1, 100.0, "m"),
            ("head over height of the lip", head / crest_height, 0.0, 2.0, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("P", "height of the lip over the bottom", crest_height, "m"),
        "Q = 0.554 (1 - 0.0035 h / P) (b + 0.0025) √g (h + 0.0001)^1.5", KINDSVATER_CARTER,
    )  # fmt: skip


def kindsvater_carter_coefficient(head_over_crest: float, width_share: float) -> float:
    """Coefficient C in Q = C b h^1.5 for a lip narrower than its channel.

    Args:
        head_over_crest: Head over the height of the lip [-], 0 to 2.
        width_share: Width of the lip over that of the channel [-], 0.2 to 1; straight lines
            between the printed rows.

    Returns:
        Coefficient [m**0.5/s].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        EPA SWMM Reference Manual Vol. II, table 6-2, which cites USBR, Water Measurement Manual
        (2001).
    """
    require_within("head over height of the lip", head_over_crest, 0.0, 2.0, "-")
    require_within("share of the channel's width", width_share, 0.2, 1.0, "-")
    for left, right in pairwise(KC_ROWS):
        if width_share <= right[0]:
            part = (width_share - left[0]) / (right[0] - left[0])
            slope = left[1] + part * (right[1] - left[1])
            constant = left[2] + part * (right[2] - left[2])
            break
    return ROOT_FOOT * (slope * head_over_crest + constant)


def weir_flow_ackers(head: float, width: float, crest_height: float) -> WeirFlow:
    """Flow over a sharp lip as wide as its channel; the formula with the lowest tested head.

    Args:
        head: Depth of the water behind the lip over its edge [m], above 0 to 2; tested from
            0.02, and up to 2.2 times the crest height.
        width: Width of the lip [m], 0.01 to 100; tested from 0.3.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100; tested
            from 0.15.

    Returns:
        Flow [m3/s] with warnings where a tested limit is passed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Ackers's formula, as coded with its limits in fluids 1.3.1.
    """
    _check(head, width)
    require_within("height of the lip over the bottom", crest_height, 0.005, 100.0, "m")
    coefficient = 0.564 * (1.0 + 0.150 * head / crest_height)
    flow = coefficient * width * sqrt(GRAVITY) * (head + 0.001) ** 1.5
    warnings = _warnings(
        (
            ("the head", head, 0.02, 2.0, "m"),
            ("the width", width, 0.3, 100.0, "m"),
            ("the height of the lip", crest_height, 0.15, 100.0, "m"),
            ("head over height of the lip", head / crest_height, 0.0, 2.2, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("P", "height of the lip over the bottom", crest_height, "m"),
        "Q = 0.564 (1 + 0.150 h / P) b √g (h + 0.001)^1.5", ACKERS,
    )  # fmt: skip


def weir_flow_francis(head: float, width: float, contractions: int) -> WeirFlow:
    """Flow over a sharp lip, with the sheet drawn in at none, one or both ends.

    Args:
        head: Depth of the water behind the lip over its edge [m], above 0 to 2; tested from
            0.061 (0.2 ft), and up to a third of the width.
        width: Width of the lip [m], 0.01 to 100, above a fifth of the head.
        contractions: Ends where the sheet is drawn in [-], 0 to 2.

    Returns:
        Flow [m3/s] with warnings where a tested limit is passed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Francis's formula: EPA SWMM Reference Manual Vol. II, equation 6-22.
    """
    _check(head, width)
    require_within("ends that draw the sheet in", contractions, 0, 2, "-")
    require_above("width of the lip", width, 0.1 * contractions * head, 100.0, "width")
    flow = FRANCIS_COEFFICIENT * (width - 0.1 * contractions * head) * head**1.5
    warnings = _warnings(
        (
            ("the head", head, 0.06096, 2.0, "m"),
            ("head over width", head / width, 0.0, 1.0 / 3.0, "-"),
        )
    )
    return WeirFlow(
        flow, warnings, head, width,
        Term("n", "ends that draw the sheet in", float(contractions), "-"),
        "Q = 1.84 (b - 0.1 n h) h^1.5", FRANCIS,
    )  # fmt: skip
