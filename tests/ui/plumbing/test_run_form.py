"""A run's texts become a pond with that run, or sentences beside the fields."""

import asyncio

import pytest
from drawn import Screen
from ponds import TWO_FEATURES as POND

from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.plumbing.plumbing import (
    ALL_SERIES,
    MAIN,
    Pipe,
    WiderPipe,
    assumed_pipe_of,
    like_size,
    line_answer,
)
from pondapp.answers.pond import WorkedPond
from pondapp.models.water import Basin, Drawn, Rectangle
from pondapp.ui.plumbing.run_answer import PARTS, SERIES_NAMES, pipe_text, wider_text
from pondapp.ui.plumbing.run_form import RunFormPage, counts, read_run, texts_of

LINE = lines_of(POND)[0]
BRANCH = LINE.branches[1]
TEXTS = {
    "series": "hose, mm", "size": "32 mm", "length": "6", "lift": "1,2", "valve": "ball",
    "fitting-elbow_90": "2", "fitting-elbow_45": "0",
}  # fmt: skip


def test_a_branch_as_typed() -> None:
    pond, errors = read_run(POND, LINE, BRANCH.id, TEXTS, "metric")
    assert errors == {}
    assert pond is not None
    made = pond.lines[0].branches[1]
    assert made.pipe == Pipe(
        series="hose, mm", size="32 mm", length_m=6, fittings={"elbow_90": 2}
    )  # fmt: skip
    assert (made.lift_m, made.valve) == (1.2, "ball")
    again = texts_of(made, made.pipe, True, "metric")
    assert read_run(pond, pond.lines[0], made.id, again, "metric") == (pond, {})


def test_without_a_length_a_branch_keeps_its_lift_and_a_main_run_is_not_there() -> None:
    pond, _ = read_run(POND, LINE, BRANCH.id, {**TEXTS, "length": ""}, "metric")
    assert pond is not None
    assert pond.lines[0].branches[1].pipe is None
    assert pond.lines[0].branches[1].lift_m == 1.2
    assert read_run(POND, LINE, MAIN, {**TEXTS, "length": ""}, "metric") == (None, {})
    pond, _ = read_run(POND, LINE, MAIN, TEXTS, "metric")
    assert pond is not None
    assert pond.lines[0].main is not None


@pytest.mark.parametrize(
    ("key", "wrong"), [("length", "wet"), ("length", "5000"), ("lift", "-1"), ("lift", "60")]
)
def test_what_is_wrong_is_said_in_its_place(key: str, wrong: str) -> None:
    pond, errors = read_run(POND, LINE, BRANCH.id, {**TEXTS, key: wrong}, "metric")
    assert pond is None
    assert set(errors) == {key}


def test_what_is_assumed_is_not_typed_for_the_reader() -> None:
    pipe = assumed_pipe_of(WorkedPond(POND), LINE, BRANCH.id)
    assert "length" not in texts_of(BRANCH, pipe, False, "metric")
    inches = texts_of(BRANCH, pipe, False, "us")
    assert inches["series"] == "hose, in"
    assert inches["size"] == like_size(pipe, "hose, in")
    assert counts(inches) == {}


def test_another_series_keeps_about_the_bore() -> None:
    hose = Pipe(series="hose, mm", size="32 mm", length_m=1)
    assert like_size(hose, "hose, in") == "1 1/2 in"
    assert like_size(hose, "ribbed hose, mm") == "32 mm"
    widest = Pipe(series="PVC pipe, schedule 40", size="4 in", length_m=1)
    assert like_size(widest, "hose, mm") == "75 mm"


def test_every_series_and_part_has_its_words() -> None:
    assert set(SERIES_NAMES) == set(ALL_SERIES)
    pond, _ = read_run(POND, LINE, BRANCH.id, TEXTS, "metric")
    assert pond is not None
    answer = line_answer(WorkedPond(pond), pond.lines[0], WorkedPond(pond).planned.flows)
    lip, bog = answer.run(BRANCH.id), answer.run(LINE.branches[0].id)
    assert lip is not None
    assert bog is not None
    assert {part.kind for part in lip.parts} == set(PARTS)
    assert pipe_text(lip, "metric") == "6 m of 32 mm hose"
    assert pipe_text(bog, "metric").endswith("assumed")
    assert lip.wider is not None
    assert bog.wider is not None
    assert "less at the pump" in wider_text(lip.wider, "63 mm", "To Lip", "metric")
    assert "To Lip sets" in wider_text(bog.wider, "32 mm", "To Lip", "metric")


def test_head_saved_is_not_told_in_the_unit_of_the_size() -> None:
    saved = WiderPipe("40 mm", 1.1, 0.053, 0.19, 13.0, 46.0, saves="any")
    words = wider_text(saved, "40 mm", "To Lip", "metric")
    assert words.startswith("40 mm would take 5.3 cm less here and 19 cm less at the pump")
    assert "1.2 m less here" in wider_text(
        WiderPipe("40 mm", 1.1, 1.2, 0.0, 0.0, 0.0, "any"), "40 mm", "", "metric"
    )


@pytest.mark.parametrize("key", [MAIN, BRANCH.id])
def test_a_run_of_a_pond_whose_shape_cannot_be_says_why(screen: Screen, key: str) -> None:
    outline = Rectangle(length_m=3.0, width_m=2.0)
    steep = Basin(id="b", name="B", outline=outline, depth_m=1.0, side_slope=1.2)
    made = POND.model_copy(update={"water": Drawn(basins=(steep,))})
    asyncio.run(screen.session.ponds.save(made))
    screen.open(RunFormPage, pond_id=made.id, line_id=LINE.id, run_key=key)
    said = screen.text()
    assert "Save this run" in screen.buttons()
    assert key == MAIN or "Sides that come in by 1.2 of the depth meet at 0.833 m" in said
