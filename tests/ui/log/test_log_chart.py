"""A chart holds all that it is given, in the reader's units, and says the same in words."""

from datetime import UTC, datetime, timedelta

import flet.canvas as cv
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.log.charts import ChartData, Point
from pondapp.ui.log.chart import axes, round_marks, said, shapes

START = datetime(2025, 4, 1, 12, tzinfo=UTC)
values = st.floats(0, 1e5)


def same(value: float) -> float:
    return value


def data(found: list[float], low: float | None = None, high: float | None = None) -> ChartData:
    points = tuple(
        Point(START + timedelta(days=3 * number), value, value, value)
        for number, value in enumerate(found)
    )
    return ChartData(points, len(points), low, high, (START + timedelta(days=1),))


@settings(max_examples=80)
@given(
    st.lists(values, min_size=1, max_size=20), st.none() | values, st.none() | values,
    st.booleans(),
)  # fmt: skip
def test_every_point_lies_inside_the_axes(
    found: list[float], low: float | None, high: float | None, from_nothing: bool
) -> None:
    made = data(found, low, high)
    at = axes(made, same, from_nothing=from_nothing)
    for point in made.points:
        x, y = at.at(point.when, point.value, 256.0, 250.0)
        assert 0 <= x <= 256
        assert -1 <= y <= 251
    assert 2 <= len(at.marks) <= 9
    assert len(shapes(made, same, 256.0, from_nothing=from_nothing)) < 90


@settings(max_examples=50)
@given(values, st.floats(1e-6, 1e5))
def test_marks_are_round_and_enclose(low: float, more: float) -> None:
    marks = round_marks(low, low + more)
    assert marks[0] <= low + 1e-6 * more
    assert marks[-1] >= low + more - 1e-6 * more


def test_a_limit_far_away_does_not_press_the_values_flat() -> None:
    at = axes(data([10.0, 12.0], high=1000.0), same, from_nothing=False)
    assert at.high < 20


def test_a_cleaning_is_a_dashed_line_with_its_word() -> None:
    drawn = shapes(data([1.0, 2.0, 3.0]), same, 256.0, from_nothing=True)
    texts = [shape.value for shape in drawn if isinstance(shape, cv.Text)]
    assert "cleaned" in texts
    assert any(
        shape.paint.stroke_dash_pattern
        for shape in drawn
        if isinstance(shape, cv.Line) and shape.paint is not None
    )


@pytest.mark.parametrize("system", units.SYSTEMS)
def test_the_chart_in_words(system: str) -> None:
    words = said("Flow", data([1e-3, 2e-3], low=5e-4),
                 lambda value: units.show(value, "flow", system))  # fmt: skip
    assert "2 values from 2025-04-01 to 2025-04-04" in words
    assert "or more" in words
    assert "Cleaned on 2025-04-02." in words
    assert "{" not in words
