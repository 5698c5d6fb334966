"""A bog filter cut through, to scale, as areas and strokes with numbered parts."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, cos, pi, sin

from pondapp.answers.features.bog_layers import BogLayers
from pondapp.answers.picture.primitives import Point, Shape, area, block, stroke

Part = str
PARTS: tuple[Part, ...] = ("plants", "overflow", "gravel", "coarse", "pipes", "inlet")
MARGIN, HOSE_ROOM = 8.0, 22.0
ABOVE = 8.0
"""Room between the plate over the hose and the edge."""
LEAST_HIGH = 110.0
"""A bog that is flat on the screen is drawn deeper by a whole number of times."""
MOST_PIPES = 12
"""More are not told apart in a drawing."""
BORE = 0.05  # m; of the pipes as they are drawn
FINE, BOLD = 1.5, 2.5


@dataclass(frozen=True, slots=True)
class Plate:
    """A number beside the drawing, and the place that it is about."""

    part: Part
    number: int
    x: float
    y: float
    at: Point


@dataclass(frozen=True, slots=True)
class BogSection:
    """The drawing.

    Attributes:
        width: Width of the drawing.
        height: Its height.
        shapes: What is drawn, from the back to the front.
        plates: The numbers of its parts, in a column beside it.
        stretch: How many times larger a depth is drawn than a length.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...]
    plates: tuple[Plate, ...]
    stretch: int


def _round(x: float, y: float, radius: float) -> list[Point]:
    turns = [2 * pi * number / 12 for number in range(12)]
    return [(x + radius * cos(turn), y + radius * sin(turn)) for turn in turns]


def _spread(wanted: list[float], apart: float, low: float, high: float) -> list[float]:
    """Heights as near to those wanted as may be, in their order and so far apart."""
    found: list[float] = []
    for number, y in enumerate(wanted):
        most = high - (len(wanted) - 1 - number) * apart
        least = found[-1] + apart if found else low
        found.append(min(max(y, least), most))
    for number in range(len(found) - 2, -1, -1):
        found[number] = min(found[number], found[number + 1] - apart)
    return found


def bog_section(
    layers: BogLayers, pipes: int, width: float, height: float, radius: float
) -> BogSection:
    """The drawing of a bog in a width and at most a height, with plates of a radius."""
    apart = 2 * radius + 2
    column = 2 * radius + HOSE_ROOM
    room = width - 2 * MARGIN - HOSE_ROOM - column
    crown = 2 * radius + ABOVE
    tall = height - 2 * MARGIN - crown
    scale = min(room / layers.side, tall / layers.whole)
    stretch = 1
    if layers.whole * scale < LEAST_HIGH:
        stretch = ceil(LEAST_HIGH / (layers.whole * scale))
        scale = min(scale, tall / (layers.whole * stretch))
    left = MARGIN + HOSE_ROOM + (room - layers.side * scale) / 2
    right = left + layers.side * scale
    floor = MARGIN + crown + layers.whole * scale * stretch

    def up(metres: float) -> float:
        return floor - metres * scale * stretch

    coarse, bed, water, edge = (
        up(layers.coarse), up(layers.bed), up(layers.bed + layers.over), up(layers.whole),
    )  # fmt: skip
    shapes: list[Shape] = [
        block("water", left, water, right, bed),
        block("bank", left, bed, right, coarse),
        block("ground", left, coarse, right, floor),
        stroke("bank", FINE, (left, coarse), (right, coarse)),
        *_pipes(min(pipes, MOST_PIPES), left, right, floor, coarse, scale),
        *_plants(left, right, bed, edge),
        stroke("water", BOLD, (left, water), (right + HOSE_ROOM / 2, water),
               (right + HOSE_ROOM / 2, floor)),
        stroke("ink", BOLD, (left, edge), (left, floor), (right, floor), (right, water)),
        stroke("hose", BOLD, (left - HOSE_ROOM / 2, floor), (left - HOSE_ROOM / 2, edge - 6),
               (left + 6, edge - 6), (left + 6, floor - 4)),
    ]  # fmt: skip
    line = _pipe_line(floor, coarse, scale)
    places = {
        "plants": (left + (right - left) * 7 / 8 + 4, edge - 10),
        "overflow": (right + HOSE_ROOM / 2, water),
        "gravel": (right - 4, (bed + coarse) / 2),
        "coarse": (right - 4, coarse + (line - coarse) / 3),
        "pipes": (right - 4, line),
    }
    wanted = [y for _, y in places.values()]
    ys = _spread(wanted, apart, MARGIN + radius, height - MARGIN - radius)
    x = width - MARGIN - radius
    beside = tuple(
        Plate(part, number + 1, x, y, places[part])
        for number, (part, y) in enumerate(zip(places, ys, strict=True))
    )
    hose = left - HOSE_ROOM / 2
    above = Plate(
        "inlet", len(PARTS), max(hose, MARGIN + radius), MARGIN + radius, (hose, edge - 6)
    )
    leaders = [
        stroke("ink", FINE / 2, plate.at, (right + HOSE_ROOM - 4, plate.y), (x - radius, plate.y))
        for plate in beside
    ]
    foot = max(floor + MARGIN, ys[-1] + radius + MARGIN)
    return BogSection(width, foot, (*shapes, *leaders), (*beside, above), stretch)


def _pipe_radius(floor: float, coarse: float, scale: float) -> float:
    return max(2.0, min(BORE / 2 * scale, (floor - coarse) / 2 - 1))


def _pipe_line(floor: float, coarse: float, scale: float) -> float:
    """How far down the middle of the pipes is."""
    return floor - _pipe_radius(floor, coarse, scale) - 1


def _pipes(
    count: int, left: float, right: float, floor: float, coarse: float, scale: float
) -> Iterator[Shape]:
    radius, y = _pipe_radius(floor, coarse, scale), _pipe_line(floor, coarse, scale)
    for number in range(count):
        x = left + (right - left) * (number + 0.5) / count
        yield area("hose", *_round(x, y, radius))
        yield area("gap", *_round(x, y, radius * 0.6))


def _plants(left: float, right: float, bed: float, edge: float) -> Iterator[Shape]:
    """Tufts that root in the gravel and stand above the edge."""
    for number in range(4):
        x = left + (right - left) * (number + 0.5) / 4
        for lean in (-4.0, 0.0, 4.0):
            yield stroke("ink", FINE, (x, bed + 4), (x + lean, edge - 14 - 3 * (lean == 0.0)))
