"""The pond as a picture: cut through, its pumps under water, its features at their heights.

What stands round the pond stands in columns, in the order in which water meets it: each feature
as high above the water as its branch lifts, its hose as thick as the planned flow. Where there are
more of them than fit side by side, the pond is cut into pieces, one for each row. A part carries
its number only; what there is to say of it stands in a row of its own below, in the same order.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from pondapp.answers.features.kinds import PUMP, kind_of
from pondapp.answers.features.targets import FlowBand
from pondapp.answers.picture.primitives import (
    Box,
    Point,
    Shape,
    area,
    block,
    placed,
    stroke,
)
from pondapp.answers.picture.section import TOOTH, Section, drawn, section_of, torn
from pondapp.answers.picture.states import NOT_MEASURED, PlaceState
from pondapp.answers.picture.symbols import (
    HOSE_AT,
    WATER_AT,
    WATER_FROM,
    PartSymbol,
    symbol,
)
from pondapp.answers.plumbing.path import assumed_lift, feature_of, left_dry
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.messages import Amount, Message
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.units import readable

TOUCH = 48.0
"""Side of a part that a finger can hit."""
RETURN = "return"
"""A branch that feeds nothing: its end is a part too."""

MARGIN, BETWEEN = 6.0, 2.0
# All that follows is for parts of 48 units, and grows with them.
AIR = 96.0  # from the water line up to the highest part
USUAL_METRE = 84.0  # of height, where the pond was never drawn
USUAL_DEPTH, MOST_DEPTH = 84.0, 132.0
MOST_SHARE = 0.25  # of the width, where that is more
LANE = 11.0  # of depth for the hoses of one pump
SOIL = 10.0  # below the deepest place
THINNEST, THICKEST = 1.5, 9.0
NARROW, BROAD = 3.0, 12.0  # falling water
SPREAD = 2.0  # times its side that a column is wide at most
SAME = 0.05  # a stretch that nobody sees


@dataclass(frozen=True, slots=True)
class Part:
    """Something of the picture that can be touched.

    Attributes:
        key: Id of the feature, of the pump's place or of the branch.
        kind: The kind of feature, "pump" or "return".
        number: Its number, in the order of reading.
        name: What it is called.
        box: Where it is; its number stands in the upper half.
        state: How it is by the last reading.
        wanted: The flows wanted there; None where nothing is.
        planned: The flow that is drawn [m3/s]; 0 where it rests, None where no water comes.
        lift: How high above the water [m]; None for what is not lifted to.
        assumed: Whether that is only assumed.
    """

    key: str
    kind: str
    number: int
    name: str
    box: Box
    state: PlaceState
    wanted: FlowBand | None
    planned: float | None
    lift: float | None
    assumed: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """The drawing, ready to be drawn anywhere.

    Attributes:
        width: Its width.
        height: Its height.
        shapes: What is drawn, from the back to the front.
        parts: What can be touched, in the order of reading.
        notes: What the drawing does not show by itself.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...]
    parts: tuple[Part, ...]
    notes: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class _Column:
    """One thing that stands round the pond."""

    line: Line | None
    branch: Branch | None
    feature: WaterFeature | None
    lift: float
    assumed: bool
    flow: float
    first: bool
    """Whether its hose comes to it, and not water from the one before."""
    last: bool
    """Whether its water goes back to the pond."""

    @property
    def key(self) -> str:
        if self.feature is not None:
            return self.feature.id
        return self.branch.id if self.branch else ""

    @property
    def symbol(self) -> PartSymbol:
        return kind_of(self.feature).symbol if self.feature else "return"


def _columns(worked: WorkedPond, flows: Mapping[str, float]) -> Iterator[_Column]:
    """Everything on the water path, then what no branch feeds."""
    pond = worked.pond
    for line in worked.lines:
        for branch in line.branches:
            lift, assumed = assumed_lift(pond, branch)
            flow = flows.get(branch.id, 0.0)
            found = [one for item in branch.feeds if (one := feature_of(pond, item))]
            features: list[WaterFeature | None] = [*found] if found else [None]
            for feature in features:
                first, last = feature is features[0], feature is features[-1]
                yield _Column(line, branch, feature, lift, assumed, flow, first, last)
    for feature in left_dry(pond):
        yield _Column(None, None, feature, 0.0, False, 0.0, True, True)


def _packed(columns: Sequence[_Column], most: int) -> list[list[_Column]]:
    """Columns in rows of at most so many; a branch is divided only where no row holds it."""
    rows: list[list[_Column]] = [[]]
    for at, column in enumerate(columns):
        if column.first:
            ahead = columns[at:]
            whole = sum(one.branch is column.branch for one in ahead) if column.branch else 1
            if len(rows[-1]) + whole > most and whole <= most and rows[-1]:
                rows.append([])
        if len(rows[-1]) == most:
            rows.append([])
        rows[-1].append(column)
    return rows


def _rows(columns: Sequence[_Column], most: int) -> list[list[_Column]]:
    """As few rows as it takes, filled as evenly as that allows."""
    fewest = len(_packed(columns, most))
    even = ceil(len(columns) / fewest) if columns else most
    return next(
        found for each in range(max(1, even), most + 1)
        if len(found := _packed(columns, each)) <= fewest
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Measures:
    """What is as large in one row as in the other."""

    width: float
    unit: float
    section: Section
    metre: float
    """Of height above the water."""
    full: float
    """The flow [m3/s] that the thickest hose carries."""

    @property
    def side(self) -> float:
        return TOUCH * self.unit

    def hose(self, flow: float) -> float:
        """Thickness of a hose."""
        return self.unit * max(THINNEST, THICKEST * flow / self.full)

    def falling(self, flow: float) -> float:
        """Width of falling water."""
        return self.unit * (NARROW + (BROAD - NARROW) * flow / self.full)


def picture(
    worked: WorkedPond,
    states: Mapping[str, PlaceState],
    width: float,
    side: float = TOUCH,
    carried: Mapping[str, float] | None = None,
) -> Picture:
    """The picture of a pond.

    Args:
        worked: The pond.
        states: How its places are, by id; what is missing was not measured.
        width: Width of the picture.
        side: Side of each part: at least 48 to be touched, more for larger letters.
        carried: What each branch carries [m3/s], by id, where that is not what is planned; where
            it is missing nobody knows, and the hose is drawn as planned: its place says the rest.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    unit = side / TOUCH
    planned = worked.planned.flows
    flows = planned if carried is None else {**planned, **carried}
    columns = list(_columns(worked, flows))
    most = max(1, int((width - 2 * MARGIN + BETWEEN) // (side + BETWEEN)))
    rows = _rows(columns, most)
    lanes = max(len(_lines(row)) for row in rows)
    least = _room_above(lanes, unit) + side
    water, usual = worked.pond.water, USUAL_DEPTH * unit
    section = section_of(
        water, MARGIN, width - MARGIN, least=least, usual=usual,
        most=max(MOST_DEPTH * unit, least, MOST_SHARE * width),
    )  # fmt: skip
    if len(rows) > 1:  # as deep as in one row, and as long as all of them
        section = section_of(
            water, MARGIN, width * len(rows) - MARGIN, least=least, usual=usual,
            most=section.deepest,
        )  # fmt: skip
    highest = max((column.lift for column in columns), default=0.0)
    metre = USUAL_METRE * unit if section.metre is None else section.metre * section.stretch
    if highest * metre > AIR * unit:
        metre = AIR * unit / highest
    whole = [sum(some.get(one.id, 0.0) for one in line.branches)
             for line in worked.lines for some in (flows, planned)]  # fmt: skip
    at = _Measures(width, unit, section, metre, max([*whole, 1e-9]))
    shapes: list[Shape] = []
    boxes: dict[str, Box] = {}
    drawn_pumps: set[str] = set()
    top = 0.0
    for place, row in enumerate(rows):
        piece = section.piece(place * width, (place + 1) * width)
        ends = (place > 0, place + 1 < len(rows))
        row_shapes, row_boxes, top = _row(
            replace(at, section=piece), row, top, drawn_pumps, flows, ends
        )
        shapes += row_shapes
        boxes |= row_boxes
        drawn_pumps |= {line.id for line in _lines(row)}
    parts = tuple(_parts(worked, columns, boxes, states, flows))
    for part in parts:
        shapes += placed(symbol(_symbol_of(part, columns)), part.box)
    notes = tuple(_notes(at, columns, several=len(rows) > 1))
    return Picture(width, top, tuple(shapes), parts, notes)


def _lines(row: Sequence[_Column]) -> list[Line]:
    """The lines that have columns in a row."""
    found: list[Line] = []
    for column in row:
        if column.line is not None and column.line not in found:
            found.append(column.line)
    return found


def _symbol_of(part: Part, columns: Sequence[_Column]) -> PartSymbol:
    if part.kind == PUMP:
        return "pump"
    return next(column.symbol for column in columns if column.key == part.key)


def _row(
    at: _Measures,
    row: Sequence[_Column],
    top: float,
    already: set[str],
    flows: Mapping[str, float],
    goes_on: tuple[bool, bool],
) -> tuple[list[Shape], dict[str, Box], float]:
    """A piece of the section with its columns: what is drawn, where the parts are, its lower end.

    It may go on at its left and at its right in another row.
    """
    unit, side = at.unit, at.side
    highest = max((column.lift for column in row), default=0.0) * at.metre
    line = top + side + highest + 4 * unit
    bottom = line + at.section.deepest + SOIL * unit
    pitch = min((at.width - 2 * MARGIN + BETWEEN) / max(1, len(row)), SPREAD * side)
    first = (at.width - pitch * len(row)) / 2
    lefts = [first + pitch * place + (pitch - side) / 2 for place in range(len(row))]
    boxes = {
        column.key: Box(left, line - column.lift * at.metre - side, side)
        for column, left in zip(row, lefts, strict=True)
    }
    shapes: list[Shape] = []
    for column in row:
        shapes += _stand(column, boxes[column.key], line)
    shapes += drawn(at.section, line, at.width, bottom)
    lines = _lines(row)
    pumps = [one for one in lines if one.id not in already]
    places = dict(zip((one.id for one in pumps), _pump_boxes(at, row, boxes, pumps, line),
                      strict=True))  # fmt: skip
    for lane, one in enumerate(lines):
        level = line + (lane + 0.6) * LANE * unit
        shapes += _hoses(at, row, boxes, one, places.get(one.id), level, flows)
    for column, follower in zip(row, [*row[1:], None], strict=True):
        if column is row[0] and not column.first:
            box = boxes[column.key]
            level = box.top + WATER_FROM * unit
            shapes.append(
                stroke("hose", at.hose(column.flow), (0.0, level), (box.left + 12 * unit, level))
            )
        shapes += _onward(at, column, follower, boxes, line)
    edges = ((0.0, TOOTH), (at.width, at.width - TOOTH))
    for (edge, inner), more in zip(edges, goes_on, strict=True):
        if more:
            shapes.append(torn(edge, inner, line, bottom))
    return shapes, boxes | places, bottom


def _stand(column: _Column, box: Box, line: float) -> Iterator[Shape]:
    """The bank that a column stands on; dashed and empty where its height is only assumed."""
    edge = ((box.left, line), (box.left, box.bottom), (box.right, box.bottom), (box.right, line))
    if column.branch is None:
        yield stroke("ink", 1.5, edge[1], edge[2], dashed=True)
    elif box.bottom < line:
        if not column.assumed:
            yield block("bank", box.left, box.bottom, box.right, line)
        yield stroke("ink", 1.5, *edge, dashed=column.assumed)


def _pump_boxes(
    at: _Measures,
    row: Sequence[_Column],
    boxes: Mapping[str, Box],
    pumps: Sequence[Line],
    line: float,
) -> list[Box]:
    """Where the pumps of a row stand: under their columns, as far as it is deep there."""
    side, section = at.side, at.section
    low, high = section.floor_span
    half = side * 0.35
    low, high = (low + half, high - half) if high - low > 2 * half else ((low + high) / 2,) * 2
    middles: list[float] = []
    for pump in pumps:
        own = [boxes[column.key].middle for column in row if column.line is pump]
        wanted = min(max(sum(own) / len(own), low), high)
        least = middles[-1] + side + BETWEEN if middles else MARGIN + side / 2
        middles.append(max(wanted, least))
    most = at.width - MARGIN - side / 2
    for place in reversed(range(len(middles))):
        middles[place] = min(middles[place], most)
        most = middles[place] - side - BETWEEN
    least = _room_above(len(_lines(row)), at.unit) + side
    floors = (section.floor(middle - half, middle + half) for middle in middles)
    return [
        Box(middle - side / 2, line + max(floor, least) - side, side)
        for middle, floor in zip(middles, floors, strict=True)
    ]


def _room_above(lanes: int, unit: float) -> float:
    """Depth that the hoses of so many pumps take above these."""
    return (lanes * LANE + 4) * unit


def _hoses(
    at: _Measures,
    row: Sequence[_Column],
    boxes: Mapping[str, Box],
    line: Line,
    pump: Box | None,
    level: float,
    carried: Mapping[str, float],
) -> Iterator[Shape]:
    """From a pump up to its level, along it, and up to each branch.

    They come from the left where the pump stands in a row above.
    """
    unit = at.unit
    heads = [column for column in row if column.line is line and column.first]
    ends = [boxes[column.key].left + HOSE_AT * unit for column in heads]
    if not heads:
        return
    flows = {column.key: column.flow for column in heads}
    whole = sum(carried.get(branch.id, 0.0) for branch in line.branches)
    start: Point = (0.0, level)
    if pump is not None:
        start = (pump.right - HOSE_AT * unit, level)
        foot = pump.bottom - 8 * unit
        yield stroke(
            "hose", at.hose(whole), (pump.right - 11 * unit, foot), (start[0], foot), start
        )
    # Each stretch along the level is as thick as what still has to pass it.
    for side_of in (-1, 1):
        reached = start[0]
        going = sorted(
            ((end, column) for end, column in zip(ends, heads, strict=True)
             if (end - start[0]) * side_of > 0),
            key=lambda pair: side_of * pair[0],
        )  # fmt: skip
        left = sum(flows[column.key] for _, column in going)
        for end, column in going:
            yield stroke("hose", at.hose(left), (reached, level), (end, level))
            left -= flows[column.key]
            reached = end
    for end, column in zip(ends, heads, strict=True):
        foot = boxes[column.key].bottom
        yield stroke(
            "hose", at.hose(column.flow), (end, level), (end, foot), dashed=column.flow == 0.0
        )


def _onward(
    at: _Measures,
    column: _Column,
    follower: _Column | None,
    boxes: Mapping[str, Box],
    line: float,
) -> Iterator[Shape]:
    """Where its water goes: on to the next of its branch, or back to the pond."""
    unit, box = at.unit, boxes[column.key]
    if column.branch is None or column.flow == 0.0:
        return
    from_ = box.top + WATER_FROM * unit
    if not column.last:
        on = follower is not None and follower.branch is column.branch
        end = boxes[follower.key].left + 12 * unit if follower and on else at.width
        thick = at.hose(column.flow)
        yield stroke("hose", thick, (box.right - 10 * unit, from_), (end, from_))
        return
    middle, half = box.left + WATER_AT * unit, at.falling(column.flow) / 2
    yield area(
        "falling", (middle - half, from_), (middle + half, from_), (middle + half, line),
        (middle - half, line),
    )  # fmt: skip


def _parts(
    worked: WorkedPond,
    columns: Sequence[_Column],
    boxes: Mapping[str, Box],
    states: Mapping[str, PlaceState],
    flows: Mapping[str, float],
) -> Iterator[Part]:
    """Each pump, then what it feeds in order; last what no branch feeds."""
    names = worked.names
    count = 0
    seen: set[str] = set()

    def part(key: str, kind: str, name: str, flow: float | None, column: _Column | None) -> Part:
        target = worked.wanted.place(key)
        lifted = column is not None and column.branch is not None
        return Part(
            key, kind, count, name, boxes[key], states.get(key, NOT_MEASURED),
            target.band if target else None, flow,
            column.lift if column and lifted else None, bool(column and column.assumed),
        )  # fmt: skip

    for column in columns:
        line, branch, feature = column.line, column.branch, column.feature
        if line is not None and line.id not in seen:
            seen.add(line.id)
            count += 1
            whole = sum(flows.get(one.id, 0.0) for one in line.branches)
            yield part(line.id, PUMP, names.lines[line.id], whole, None)
        count += 1
        if feature is not None:
            flow = None if branch is None else column.flow
            yield part(feature.id, feature.kind, names.features[feature.id], flow, column)
        elif branch is not None:
            yield part(branch.id, RETURN, names.branches[branch.id], column.flow, column)


def _notes(at: _Measures, columns: Sequence[_Column], *, several: bool) -> Iterator[Message]:
    section = at.section
    if several:
        yield Message("It is one pond: each row goes on where the one above is torn off.")
    if section.metre is None:
        yield Message("Only its volume is known, so the pond is drawn as a plain basin.")
    else:
        metre = section.metre * section.stretch
        depth = {"depth": Amount(section.deepest / metre, "m")}
        if abs(section.stretch - 1.0) <= SAME:
            yield Message("The water is drawn to scale; {depth} at its deepest.", depth)
        else:
            times: dict[str, Amount | str] = {**depth, "times": readable(section.stretch)}
            yield Message(
                "The length of the water is drawn to scale, its depth {times} times as large; "
                "{depth} at its deepest.", times,
            )  # fmt: skip
        if any(column.lift for column in columns) and abs(at.metre / metre - 1.0) > SAME:
            yield Message("Heights above the water have a scale of their own.")
    if any(column.assumed and column.lift for column in columns):
        yield Message("A dashed height is assumed: nobody entered it.")
