"""The picture of a pond: all of it is there once, nothing covers another, sizes mean something."""

from itertools import combinations, pairwise
from math import isfinite

import pytest
from ponds import BARE, invented
from random_ponds import NOW, random_pond

from pondapp.answers.features.kinds import KINDS, PUMP
from pondapp.answers.picture.badges import CORNERS, LARGER, outline, radius_of
from pondapp.answers.picture.picture import MARGIN, RETURN, TOUCH, Part, Picture, picture
from pondapp.answers.picture.primitives import Area, Box, Stroke
from pondapp.answers.picture.states import states_of
from pondapp.answers.picture.svg import svg
from pondapp.answers.picture.symbols import HOSE_AT
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import BogFilter, Branch, Jet, Line, Lip
from pondapp.models.limits import MOST_BRANCHES, MOST_FEATURES, MOST_LINES
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle

SIZES = [(width, TOUCH * text) for width in (288.0, 358.0, 700.0) for text in (1.0, 2.0)]
NEAR = 1e-6


def drawings(number: int) -> list[tuple[WorkedPond, Picture]]:
    """A random pond at every size; none where its numbers cannot be."""
    kept = random_pond(number)
    worked = WorkedPond(kept.pond)
    try:
        assert worked.plan
    except PondError:
        with pytest.raises(PondError):
            picture(worked, {}, 358.0)
        return []
    states = states_of(worked, kept.readings, NOW)
    return [(worked, picture(worked, states, width, side)) for width, side in SIZES]


def apart(one: Box, other: Box) -> bool:
    """Whether two boxes do not touch each other."""
    return (
        one.right <= other.left + NEAR
        or other.right <= one.left + NEAR
        or one.bottom <= other.top + NEAR
        or other.bottom <= one.top + NEAR
    )


def through(line: Stroke, box: Box) -> bool:
    """Whether an upright or a level line crosses the number of a part."""
    plate = radius_of(box) * LARGER
    left, right = box.middle - plate, box.middle + plate
    top, bottom = box.top, box.top + 2 * plate
    half = line.width / 2
    return any(
        min(a[0], b[0]) - half < right - NEAR
        and max(a[0], b[0]) + half > left + NEAR
        and min(a[1], b[1]) - half < bottom - NEAR
        and max(a[1], b[1]) + half > top + NEAR
        for a, b in pairwise(line.points)
    )


def hose_of(drawing: Picture, part: Part) -> Stroke | None:
    """The hose that comes up into a part."""
    at = part.box.left + HOSE_AT / TOUCH * part.box.side
    ends = [
        one for one in drawing.shapes
        if isinstance(one, Stroke) and one.tone == "hose"
        and abs(one.points[-1][0] - at) < NEAR and abs(one.points[-1][1] - part.box.bottom) < NEAR
    ]  # fmt: skip
    return ends[0] if ends else None


def surfaces_of(drawing: Picture) -> list[float]:
    """The water line of each row."""
    lines = (one for one in drawing.shapes if isinstance(one, Stroke) and one.tone == "water")
    return sorted({one.points[0][1] for one in lines if one.width == 2.0})


def expected(pond: Pond, worked: WorkedPond) -> list[str]:
    """All that belongs into the picture, in the order in which water meets it."""
    keys: list[str] = []
    for line in worked.lines:
        keys.append(line.id)
        for branch in line.branches:
            keys += branch.feeds or [branch.id]
    return keys + [feature.id for feature in pond.fed if feature.id not in keys]


@pytest.mark.parametrize("first", range(0, 1000, 50))
def test_of_a_thousand_ponds_nothing_overlaps_and_nothing_is_missing(first: int) -> None:
    for number in range(first, first + 50):
        for worked, drawing in drawings(number):
            where = f"pond {number}, {drawing.width:.0f} wide"
            parts = drawing.parts
            assert [part.key for part in parts] == expected(worked.pond, worked), where
            assert [part.number for part in parts] == list(range(1, len(parts) + 1)), where
            assert all(part.name for part in parts), where
            for part in parts:
                box = part.box
                assert box.side >= TOUCH, where
                assert box.left >= -NEAR, where
                assert box.right <= drawing.width + NEAR, where
                assert box.top >= -NEAR, where
                assert box.bottom <= drawing.height + NEAR, where
            assert all(apart(a.box, b.box) for a, b in combinations(parts, 2)), where
            for shape in drawing.shapes:
                for x, y in shape.points:
                    assert isfinite(x), where
                    assert isfinite(y), where
                    assert -1 <= x <= drawing.width + 1, where
                    assert -1 <= y <= drawing.height + 1, where
                if isinstance(shape, Stroke) and shape.tone == "hose":
                    assert not any(through(shape, part.box) for part in parts), where


@pytest.mark.parametrize("first", range(0, 300, 50))
def test_a_hose_is_as_thick_as_its_flow_and_a_part_as_high_as_its_lift(first: int) -> None:
    for number in range(first, first + 50):
        for _, drawing in drawings(number):
            hoses = [
                (part.planned, hose.width) for part in drawing.parts
                if part.planned is not None and (hose := hose_of(drawing, part))
            ]  # fmt: skip
            for (flow, width), (other, wider) in combinations(hoses, 2):
                assert (flow - other) * (width - wider) >= -NEAR, number
            surfaces = surfaces_of(drawing)
            risen = [
                (part.lift, min(line for line in surfaces if line >= part.box.bottom - NEAR)
                 - part.box.bottom)
                for part in drawing.parts if part.lift is not None
            ]  # fmt: skip
            for (lift, height), (higher, above) in combinations(risen, 2):
                assert (lift - higher) * (height - above) >= -NEAR, number
            assert all(height >= -NEAR for _, height in risen), number


def test_a_flow_that_is_not_known_is_drawn_as_planned_and_only_none_as_shut() -> None:
    worked = WorkedPond(example_pond())
    planned = picture(worked, {}, 360.0)
    box = next(one for one in planned.parts if one.key == "box")
    known = {key: flow for key, flow in worked.planned.flows.items() if key != "to-fall"}
    not_known = picture(worked, {}, 360.0, carried=known)
    assert not_known.shapes == planned.shapes
    shut = picture(worked, {}, 360.0, carried={**known, "to-fall": 0.0})
    hoses = [hose_of(one, box) for one in (planned, not_known, shut)]
    assert [bool(hose and hose.dashed) for hose in hoses] == [False, False, True]


def pumps_of(drawing: Picture) -> list[Part]:
    return [part for part in drawing.parts if part.kind == PUMP]


def test_pumps_stand_under_water() -> None:
    for number in range(200):
        for _, drawing in drawings(number):
            lines = surfaces_of(drawing)
            for pump in pumps_of(drawing):
                assert any(line < pump.box.top for line in lines), number


def wide_path(lines: int, branches: int, features: int) -> Pond:
    """A pond with so many of everything."""
    fed = [Jet(id=f"j{one}", name=f"Jet {one}", flow_m3_s=1e-4) for one in range(features)]
    ends: list[list[str]] = [[] for _ in range(lines * branches)]
    for number, feature in enumerate(fed):
        ends[number % len(ends)].append(feature.id)
    return invented(
        *fed,
        lines=tuple(
            Line(
                id=f"l{line}", name=f"Pump {line}",
                branches=tuple(
                    Branch(id=f"b{line}-{one}", name=f"Branch {line} {one}", lift_m=0.1 * one,
                           feeds=tuple(ends[line * branches + one]))
                    for one in range(branches)
                ),
            )
            for line in range(lines)
        ),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("lines", "branches", "features"),
    [(1, 1, 1), (2, 2, 8), (1, 12, 12), (2, 1, 40), (MOST_LINES, MOST_BRANCHES, MOST_FEATURES)],
)
@pytest.mark.parametrize(("width", "side"), SIZES)
def test_from_one_bog_to_the_most_that_is_stored(
    lines: int, branches: int, features: int, width: float, side: float
) -> None:
    pond = wide_path(lines, branches, features)
    worked = WorkedPond(pond)
    drawing = picture(worked, {}, width, side)
    assert [part.key for part in drawing.parts] == expected(pond, worked)
    assert all(apart(a.box, b.box) for a, b in combinations(drawing.parts, 2))
    assert all(one.box.left >= 0 and one.box.right <= width + NEAR for one in drawing.parts)


def test_the_rows_are_pieces_of_one_pond() -> None:
    worked = WorkedPond(wide_path(2, 2, 8))
    whole, cut = (picture(worked, {}, width) for width in (700.0, 358.0))
    waters = [one.points for one in cut.shapes if isinstance(one, Area) and one.tone == "water"]
    reach = [(min(x for x, _ in one), max(x for x, _ in one)) for one in waters]
    assert reach == [(MARGIN, 358.0), (0.0, 358.0 - MARGIN)], "one left bank and one right one"
    depths = [
        max(y - line for x, y in one if x == edge)
        for one, line, edge in zip(waters, surfaces_of(cut), (358.0, 0.0), strict=True)
    ]
    assert depths[0] == pytest.approx(depths[1]), "as deep where it goes on"
    torn = [one for one in cut.shapes if isinstance(one, Area) and one.tone == "gap"]
    assert [min(x for x, _ in one.points) for one in torn] == [352.0, 0.0]
    assert "one pond" in cut.notes[0].template
    assert not any("one pond" in note.template for note in whole.notes)


def test_a_usual_pond_leaves_half_of_a_phone_to_its_legend() -> None:
    assert picture(WorkedPond(example_pond()), {}, 358.0).height < 300


def test_the_water_is_to_scale_and_a_volume_alone_says_that_it_is_not() -> None:
    basin = Basin(id="b", name="B", outline=Rectangle(length_m=4.0, width_m=2.0), depth_m=1.0)
    drawn = BARE.model_copy(update={"water": Drawn(basins=(basin,))})
    found = picture(WorkedPond(drawn), {}, 358.0)
    (water,) = [one for one in found.shapes if isinstance(one, Area) and one.tone == "water"][:1]
    across, down = ([point[axis] for point in water.points] for axis in (0, 1))
    assert (max(across) - min(across)) / (max(down) - min(down)) == pytest.approx(4.0)
    assert [one.template for one in found.notes][:1] == [
        "The water is drawn to scale; {depth} at its deepest."
    ]
    plain = picture(WorkedPond(BARE), {}, 358.0)
    assert plain.notes[0].template.startswith("Only its volume is known")


def test_an_assumed_height_is_dashed_and_told_and_an_entered_one_is_not() -> None:
    bog = BogFilter(id="bog", name="Bog", bed_volume_m3=0.1)

    def made(lift: float | None) -> Picture:
        branch = Branch(id="b", name="B", lift_m=lift, feeds=("bog",))
        line = Line(id="l", name="L", branches=(branch,))
        return picture(WorkedPond(invented(bog, lines=(line,))), {}, 358.0)

    for lift, assumed in ((None, True), (0.5, False)):
        found = made(lift)
        part = found.parts[1]
        assert part.assumed is assumed
        assert any(one.dashed for one in found.shapes if isinstance(one, Stroke)) is assumed
        assert any("dashed" in one.template for one in found.notes) is assumed
        banks = [one for one in found.shapes if isinstance(one, Area) and one.tone == "bank"]
        assert any(one.points[0][0] == part.box.left for one in banks) is not assumed


def test_what_no_branch_feeds_is_there_without_a_hose() -> None:
    lip = Lip(id="lip", name="Lip", width_m=0.3)
    dry = Lip(id="dry", name="Dry lip", width_m=0.3)
    line = Line(id="l", name="L", branches=(Branch(id="b", name="B", feeds=("lip",)),))
    worked = WorkedPond(invented(lip, dry, lines=(line,)))
    found = picture(worked, states_of(worked, (), NOW), 358.0)
    last = found.parts[-1]
    assert (last.key, last.planned, last.lift) == ("dry", None, None)
    assert (last.state.severity, last.state.word) == ("wrong", "On no branch yet")
    assert hose_of(found, last) is None


def test_a_branch_that_feeds_nothing_is_a_part() -> None:
    found = picture(WorkedPond(BARE), {}, 358.0)
    assert [part.kind for part in found.parts] == [PUMP, RETURN]


def test_every_kind_has_a_symbol_and_severities_differ_without_colour() -> None:
    assert len({kind.symbol for kind in KINDS.values()}) == len(KINDS)
    assert CORNERS["danger"] != CORNERS["wrong"] != CORNERS["right"]
    for severity in CORNERS:
        box = Box(0.0, 0.0, TOUCH)
        radius = radius_of(box)
        for x, y in outline(severity, box.middle, radius * LARGER + 1, radius):
            assert 0 <= x <= TOUCH
            assert 0 <= y <= TOUCH / 2 + 6


def test_names_are_text_in_the_svg() -> None:
    found = svg(picture(WorkedPond(example_pond()), {}, 700.0), 'A "<b>" & c')
    assert "<b>" not in found
    assert "&quot;&lt;b&gt;&quot; &amp; c" in found
    assert "<script" not in found
    assert found.count("<text") == 4
