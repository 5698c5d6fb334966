"""Mean times, weighed fills, and what limits a result."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.budget import budget
from pondapp.core.measuring.repeats import mean_time
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.student_t import normal_factor, t_factor
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.uncertainty import combined
from pondapp.core.measuring.weighed_fills import weighed_fills_flow

SCATTER = ExpectedScatter(0.1, 0.016, 4, 0.01)
KNOWN = ExpectedScatter(0.1, 0.0, 1000, 0.01)


def test_a_single_time_is_worth_the_reaction() -> None:
    found = mean_time([600.0], KNOWN, 0.95)
    assert (found.mean, found.uncertainty) == pytest.approx((600.0, 0.1), rel=2e-3)


@settings(max_examples=30)
@given(st.lists(st.floats(50, 60), min_size=2, max_size=6))
def test_a_mean_time_spans_what_students_t_asks_for(times: list[float]) -> None:
    found = mean_time(times, SCATTER, 0.95)
    reach = normal_factor(0.95) * found.uncertainty
    wanted = t_factor(0.95, found.timing.freedom) * found.timing.std / sqrt(len(times))
    assert reach == pytest.approx(wanted)
    assert min(times) - 1e-9 <= found.mean <= max(times) + 1e-9
    assert found.steps()


def test_no_time_no_mean() -> None:
    with pytest.raises(NotEnoughReadings):
        mean_time([], SCATTER, 0.95)


def test_equal_weights_are_a_bucket_of_that_size() -> None:
    weighed = weighed_fills_flow([54.0, 54.2, 53.9], [9.4] * 3, 0.4, 0.05, 1000.0, SCATTER, 0.95)
    bucket = timed_flow([54.0, 54.2, 53.9], 0.009, sqrt(2) * 0.05 / 1000, SCATTER, 0.95)
    assert (weighed.flow, weighed.low, weighed.high) == pytest.approx(
        (bucket.flow, bucket.low, bucket.high)
    )


@settings(max_examples=30)
@given(st.lists(st.floats(2.0, 20.0), min_size=1, max_size=5), st.floats(1e-5, 1e-2))
def test_a_steady_flow_is_found_whatever_each_fill_weighs(waters: list[float], flow: float) -> None:
    times = [water / 999.0 / flow for water in waters]
    if not 0 < min(times) <= max(times) < 8e4:
        return
    full = [water + 0.5 for water in waters]
    found = weighed_fills_flow(times, full, 0.5, 0.05, 999.0, SCATTER, 0.95)
    assert found.flow == pytest.approx(flow)


@pytest.mark.parametrize(
    ("times", "full", "error"),
    [([], [], NotEnoughReadings), ([5.0], [], OutOfRange), ([5.0], [0.3], OutOfRange)],
)
def test_weighed_fills_refuse(
    times: list[float], full: list[float], error: type[Exception]
) -> None:
    with pytest.raises(error):
        weighed_fills_flow(times, full, 0.4, 0.05, 1000.0, SCATTER, 0.95)


@settings(max_examples=50)
@given(st.lists(st.floats(1e-4, 1.0), min_size=1, max_size=4))
def test_shrinking_the_largest_as_told_halves_the_whole(values: list[float]) -> None:
    found = budget({f"part {number}": value for number, value in enumerate(values)})
    assert sum(part.share for part in found.parts) == pytest.approx(1.0)
    assert found.parts[0].uncertainty == max(values)
    if found.shrink is not None:
        rest = [part.uncertainty for part in found.parts[1:]]
        after = combined([found.parts[0].uncertainty * found.shrink, *rest])
        assert after == pytest.approx(found.total / 2)
    elif len(values) > 1:
        assert combined([part.uncertainty for part in found.parts[1:]]) > 0.498 * found.total


def test_one_part_must_halve_and_nothing_has_no_budget() -> None:
    assert budget({"one": 0.1, "none": 0.0}).shrink == pytest.approx(0.5)
    assert budget({"one": 0.1}).steps()
    assert budget({"one": 0.1, "two": 0.1}).shrink is None
    with pytest.raises(NotEnoughReadings):
        budget({"none": 0.0})
    with pytest.raises(OutOfRange):
        budget({"less": -0.1})
