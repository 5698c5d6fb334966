"""The verdict rises with the flow and is never given where it is not decided."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.core.errors import OutOfRange
from pondapp.core.measuring.verdict import change_needed, fill_time_window, judge

RANK = {"below": 0, "undecided": 1, "within": 2, "above": 4}
FLOWS = st.floats(1e-6, 1.0)


@pytest.mark.parametrize(
    ("low", "high", "kind"),
    [
        (0.1, 0.9, "below"),
        (0.1, 1.0, "undecided"),
        (0.9, 2.1, "undecided"),
        (1.0, 2.0, "within"),
        (1.9, 2.1, "undecided"),
        (2.1, 2.2, "above"),
    ],
)
def test_kinds(low: float, high: float, kind: str) -> None:
    assert judge(low, high, 1.0, 2.0).kind == kind


def test_no_upper_end() -> None:
    assert judge(1.0, 1e6, 1.0, None).kind == "within"


@given(FLOWS, FLOWS, FLOWS, FLOWS)
def test_monotone_in_flow(a: float, b: float, half: float, edge: float) -> None:
    def rank(flow: float) -> int:
        low, high = max(0.0, flow - half), flow + half
        kind = judge(low, high, edge, 2 * edge).kind
        if kind == "undecided":  # at the upper end of the band, or over the whole of it
            return 3 if high > 2 * edge and low >= edge else 1
        return RANK[kind]

    assert rank(min(a, b)) <= rank(max(a, b))


@given(FLOWS, FLOWS)
def test_the_change_brings_the_flow_just_into_the_band(flow: float, edge: float) -> None:
    change = change_needed(flow, edge, 2 * edge)
    changed = flow * (1 + change)
    assert edge * (1 - 1e-9) <= changed <= 2 * edge * (1 + 1e-9)
    if edge <= flow <= 2 * edge:
        assert change == 0.0


@given(FLOWS, FLOWS)
def test_a_fill_as_long_as_the_window_says_has_that_flow(volume: float, low: float) -> None:
    window = fill_time_window(volume, low, 1.5 * low, 3 * low)
    assert window.shortest is not None
    assert window.shortest < window.aim < window.longest
    assert volume / window.longest == pytest.approx(low)
    assert volume / window.shortest == pytest.approx(3 * low)
    assert fill_time_window(volume, low, low, None).shortest is None


def test_refuses() -> None:
    nan = float("nan")
    for low, high, band_low, band_high in (
        (nan, 1.0, 1.0, 2.0),
        (2.0, 1.0, 1.0, 2.0),
        (0.0, 1.0, -1.0, 2.0),
        (0.0, 1.0, 2.0, 1.0),
    ):
        with pytest.raises(OutOfRange):
            judge(low, high, band_low, band_high)
    with pytest.raises(OutOfRange):
        change_needed(0.0, 1.0, 2.0)
    with pytest.raises(OutOfRange):
        change_needed(1.0, 2.0, 1.0)
    with pytest.raises(OutOfRange):
        fill_time_window(0.0, 1.0, 1.0, None)
    with pytest.raises(OutOfRange):
        fill_time_window(1.0, 0.0, 1.0, None)
