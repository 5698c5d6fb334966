"""The chart of a pump against its circuit: round marks, curves inside, and a sentence."""

from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.pumps.pumps import Curves
from pondapp.ui.pumps.pump_chart import axis, cut_off, said, scene

PUMP = tuple((step * 1e-4, 3.0 - 0.03 * step**2) for step in range(11))
DRAWN = Curves(PUMP, ((0.0, 0.4), (5e-4, 1.5), (1e-3, 4.8)), (4e-4, 1.2), (6e-4, 1.9))


@settings(max_examples=50)
@given(st.floats(1e-3, 1e6))
def test_the_marks_reach_and_are_few(most: float) -> None:
    found = axis(most)
    assert found.end >= most * (1 - 1e-6)
    assert found.end - found.step < most
    assert 1 <= found.count <= 6
    assert found.marks()[0] == 0


def test_everything_stays_inside_the_axes() -> None:
    shown = scene(DRAWN, "us")
    points = [
        *shown.pump,
        *shown.circuit,
        shown.wanted,
        *([shown.settles] if shown.settles else []),
    ]
    assert all(-1e-9 <= x <= shown.flow.end * 1.000001 for x, _ in points)
    assert all(-1e-9 <= y <= shown.head.end * 1.000001 for _, y in points)


def test_a_curve_is_cut_at_the_edge_and_not_before() -> None:
    assert cut_off([(0, 0), (1, 1), (2, 4)], 3, 2.5) == [(0, 0), (1, 1), (1.5, 2.5)]
    assert cut_off([(0, 0), (2, 2)], 3, 3) == [(0, 0), (2, 2)]


def test_the_chart_is_told_in_a_sentence() -> None:
    assert "meets that of the pipes at 2,160 L/h at 1.9 m" in said(DRAWN, "Trout", "metric")
    apart = Curves(PUMP, DRAWN.system, (4e-4, 1.2), None)
    assert "stays below" in said(apart, "Trout", "metric")
