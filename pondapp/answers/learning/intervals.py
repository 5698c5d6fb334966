"""From where to where a predicted flow may lie: kept to what can be, and with what is left open."""

from collections.abc import Sequence
from typing import NamedTuple

from pondapp.answers.learning.learning import Learning
from pondapp.core.calibration.calibrated import Predicted
from pondapp.core.calibration.scene import Scene

FARTHEST = 0.5
"""Of a flow, that half of its interval may be: beyond, its figures would only look like knowledge.
A rule of thumb."""


class Bounds(NamedTuple):
    """The ends of an interval [m3/s], and what speaks against it."""

    low: float
    high: float
    told: bool = True
    """Whether the flow may be told at all."""
    open: bool = False
    """Whether readings leave more open there than the fit does."""
    differs: bool = False
    """Whether its newest reading is contradicted, and nobody can tell which holds."""

    def close(self, flow: float) -> bool:
        """Whether a flow [m3/s] is known closely enough for its figures to say anything."""
        return self.told and max(flow - self.low, self.high - flow) <= FARTHEST * flow

    def not_below(self, floor: "Bounds") -> "Bounds":
        """The same, no end of it below that of another."""
        return self._replace(
            low=max(self.low, floor.low),
            high=max(self.high, floor.high),
            told=self.told and floor.told,
        )


def bounds(found: Learning, scene: Scene, key: str, one: Predicted) -> Bounds:
    """The interval of a branch's flow in a scene, or with no key of the pump's.

    Raises:
        PondError: The pump's curve is no number somewhere.
    """
    most, dry = found.most(scene), found.model.times.dry
    half = found.reach * one.uncertainty
    least, times = found.spans.get(key, (1.0, 1.0))
    low = max(0.0, min(one.flow - half, least * one.flow))
    high = min(max(most, one.flow), max(one.flow + half, times * one.flow))
    stopped = key in dry if key else bool(dry)
    closed = all(end.outlet.closed for end in scene.ends if key in ("", end.outlet.key))
    # Water was read where none can come, or nothing was lately.
    never = one.flow <= 0.0 and (key in found.read_now or (found.too_old and not closed))
    # Where what was entered cannot be, what nobody read has no middle that means anything.
    wide = max(one.flow - low, high - one.flow) > FARTHEST * one.flow
    guessed = bool(found.fitted.strained) and wide and key not in found.read_now
    told = not (stopped or never or guessed or one.flow > most)
    return Bounds(low, high, told, key in found.spans, key in found.contradicted)


def bounds_of_pump(
    found: Learning, scene: Scene, whole: Predicted, parts: Sequence[tuple[Predicted, Bounds]]
) -> Bounds:
    """The interval of the pump's flow: what is left open of a branch is left open of the sum.

    Nor is a sum told of which a part is not.

    Raises:
        PondError: The pump's curve is no number somewhere.
    """
    own = bounds(found, scene, "", whole)
    low, high = whole.flow, whole.flow
    for one, its in parts:
        if its.open:
            low -= one.flow - its.low
            high += its.high - one.flow
    most = max(found.most(scene), whole.flow)
    told = own.told and all(its.told for one, its in parts if one.flow > 0.0)
    low, high = max(0.0, min(own.low, low)), min(most, max(own.high, high))
    return own._replace(low=low, high=high, told=told)
