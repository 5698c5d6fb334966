"""How a bog is built: its layers, its drawing, its shopping list."""

from dataclasses import replace
from itertools import combinations
from math import hypot
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.features.at_pond import flows_of, told_of
from pondapp.answers.features.bog_build import bog_build
from pondapp.answers.features.bog_layers import bog_layers
from pondapp.answers.features.bog_section import MOST_PIPES, PARTS, bog_section
from pondapp.answers.picture.primitives import Area
from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.shopping import bill
from pondapp.core.assumptions import Assumptions
from pondapp.models.circuit import BogFilter, HighFlowFilter
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

BOG = BogFilter(id="bog", name="Reed bed", bed_volume_m3=0.25)


def pond(bog: BogFilter = BOG, **more: Any) -> WorkedPond:
    return WorkedPond(
        Pond(id="p", name="Invented", water=TypedVolume(volume_m3=2.0), fed=(bog,), **more)
    )


def test_its_layers_fill_the_bed_and_its_numbers_are_of_the_planned_flow() -> None:
    worked = pond()
    build = bog_build(worked, BOG)
    layers = build.layers
    assert layers.area * layers.bed == pytest.approx(BOG.bed_volume_m3)
    assert build.flow == flows_of(worked)["bog"] == build.pipes.flow
    assert build.plants.count == 3
    assert build.weight > 1500 * 0.25 + 1000 * 0.05
    assert build.overflow is not None
    assert build.loss.head < build.overflow.head
    assert build.cautions == ()


def test_a_shallow_bed_has_no_more_coarse_stones_than_half() -> None:
    shallow = bog_layers(BOG, Assumptions().with_overrides({"filters.bog_depth": 0.1}))
    assert (shallow.coarse, shallow.gravel) == (0.05, 0.05)


def test_what_would_break_or_overflow_is_said() -> None:
    thick = pond(BOG, assumptions={"filters.slot_speed": 0.005})
    assert "weaken the pipe" in bog_build(thick, BOG).cautions[0].template
    narrow = pond(BOG, assumptions={"filters.bog_overflow": 0.02, "filters.bog_edge": 0.01})
    assert "over the overflow" in bog_build(narrow, BOG).cautions[0].template
    film = pond(BOG, assumptions={"filters.bog_overflow": 5.0, "filters.bog_retention_max": 36000})
    assert bog_build(film, BOG).overflow is None or bog_build(film, BOG).overflow


@given(
    st.floats(0.01, 100.0), st.floats(0.1, 2.0), st.floats(240.0, 900.0),
    st.sampled_from((11.0, 16.5)), st.integers(1, 40),
)  # fmt: skip
def test_nothing_in_the_drawing_overlaps_or_leaves_it(
    volume: float, depth: float, width: float, radius: float, pipes: int
) -> None:
    rules = Assumptions().with_overrides({"filters.bog_depth": depth})
    bog = BOG.model_copy(update={"bed_volume_m3": volume})
    section = bog_section(bog_layers(bog, rules), pipes, width, 300.0, radius)
    assert {plate.part for plate in section.plates} == set(PARTS)
    assert [plate.number for plate in section.plates] == [1, 2, 3, 4, 5, 6]
    for plate in section.plates:
        assert radius <= plate.x <= width - radius
        assert radius <= plate.y <= section.height - radius
    for one, other in combinations(section.plates, 2):
        assert hypot(one.x - other.x, one.y - other.y) >= 2 * radius
    for shape in section.shapes:
        for x, y in shape.points:
            assert 0 <= x <= width
            assert 0 <= y <= section.height
    beside = [plate for plate in section.plates if plate.part != "inlet"]
    least = min(plate.x for plate in beside) - radius
    bed = max(x for shape in section.shapes if isinstance(shape, Area) for x, _ in shape.points)
    assert bed < least
    assert [plate.at[1] for plate in beside] == sorted(plate.at[1] for plate in beside)
    gaps = [shape for shape in section.shapes if isinstance(shape, Area) and shape.tone == "gap"]
    assert len(gaps) == min(pipes, MOST_PIPES)


def test_it_is_to_scale() -> None:
    layers = bog_layers(BOG, Assumptions())
    section = bog_section(layers, 2, 360.0, 300.0, 11.0)
    assert section.stretch == 1
    gravel, coarse = (
        next(s for s in section.shapes if isinstance(s, Area) and s.tone == tone)
        for tone in ("bank", "ground")
    )
    wide = max(x for x, _ in gravel.points) - min(x for x, _ in gravel.points)
    high = max(y for _, y in gravel.points) - min(y for _, y in gravel.points)
    low = max(y for _, y in coarse.points) - min(y for _, y in coarse.points)
    assert high / wide == pytest.approx(layers.gravel / layers.side)
    assert low / high == pytest.approx(layers.coarse / layers.gravel)


def test_stones_and_pipe_are_on_the_list_and_may_be_left_out() -> None:
    items = {item.key: item.need for item in bill(pond()).items}
    assert items["gravel.bog"].quantity == 14  # 0.175 m3, 5 % to spare, 1520 kg/m3, 20 kg
    assert items["stones.bog"].quantity == 6
    assert items["slotted.bog"].quantity == pytest.approx(2 * 0.5**0.5)
    assert items["slotted.bog"].quantity == bog_build(pond(), BOG).pipes.length
    assert all(items[key].remark for key in ("stones.bog", "slotted.bog"))


def test_a_box_is_told_its_foam() -> None:
    box = HighFlowFilter(id="box", name="Barrel", media_volume_m3=0.06)
    made = WorkedPond(Pond(id="p", name="I", water=TypedVolume(volume_m3=2.0), fed=(box,)))
    foam, loose = told_of(made, box)
    flow = flows_of(made)["box"]
    assert foam.value.values["area"].value == pytest.approx(flow / 0.01)  # type: ignore[union-attr]
    assert foam.steps()[0].result.value == pytest.approx(flow / 0.01)
    left = max(0.0, 0.06 - flow / 0.01 * 0.15)
    assert loose.value.values["volume"].value == pytest.approx(left)  # type: ignore[union-attr]
    bare = box.model_copy(update={"media_volume_m3": None})
    assert len(told_of(WorkedPond(made.pond.model_copy(update={"fed": (bare,)})), bare)) == 1


def test_a_head_that_nobody_sees_is_no_number() -> None:
    build = bog_build(pond(), BOG)
    assert build.loss.head < 1e-3
    assert units.tell(build.head, "metric") == "Less than 1 mm"
    thick = replace(build, loss=replace(build.loss, head=0.00347))
    assert units.tell(thick.head, "metric") == "3.5 mm"
