"""What a picture is made of: areas and strokes, in units of its own that run down and right."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Tone = Literal["water", "falling", "ground", "bank", "hose", "ink", "gap"]


@dataclass(frozen=True, slots=True)
class Area:
    """A filled area, closed by itself."""

    points: tuple[Point, ...]
    tone: Tone


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points."""

    points: tuple[Point, ...]
    tone: Tone
    width: float
    dashed: bool = False


Shape = Area | Stroke


@dataclass(frozen=True, slots=True)
class Box:
    """A place in the picture."""

    left: float
    top: float
    side: float

    @property
    def right(self) -> float:
        """Its right edge."""
        return self.left + self.side

    @property
    def bottom(self) -> float:
        """Its lower edge."""
        return self.top + self.side

    @property
    def middle(self) -> float:
        """Half way across."""
        return self.left + self.side / 2


def area(tone: Tone, *points: Point) -> Area:
    """An area by its corners."""
    return Area(points, tone)


def stroke(tone: Tone, width: float, *points: Point, dashed: bool = False) -> Stroke:
    """A line by its points."""
    return Stroke(points, tone, width, dashed)


def block(tone: Tone, left: float, top: float, right: float, bottom: float) -> Area:
    """An upright rectangle."""
    return area(tone, (left, top), (right, top), (right, bottom), (left, bottom))


def placed(shapes: Iterable[Shape], box: Box) -> tuple[Shape, ...]:
    """Shapes that were drawn in a square of 48 units, put into a box."""
    unit = box.side / 48

    def put(points: Iterable[Point]) -> tuple[Point, ...]:
        return tuple((box.left + x * unit, box.top + y * unit) for x, y in points)

    return tuple(
        Area(put(one.points), one.tone)
        if isinstance(one, Area)
        else Stroke(put(one.points), one.tone, one.width * unit, one.dashed)
        for one in shapes
    )
