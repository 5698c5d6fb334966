"""Values worked out with paper and pencil, so that a changed formula cannot agree by accident."""

import pytest

from pondapp.core.measuring.estimate import Factor, flow_estimate
from pondapp.core.measuring.runs_needed import more_runs_to_decide
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.verdict import judge
from pondapp.core.working import ARITHMETIC, Term


@pytest.mark.parametrize("low", [4.4e-4, 4.45e-4, 4.47e-4])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_further_fills_are_counted_from_those_there_are(count: int, low: float) -> None:
    def interval(fills: int) -> tuple[float, float]:
        found = timed_flow([20.0] * fills, 0.009, 1e-6, 0.3, 0.95)
        return found.low, found.high

    first = next(
        n for n in range(max(2, count), 60) if judge(*interval(n), low, None).kind == "within"
    )
    wanted = 0 if judge(*interval(count), low, None).kind == "within" else first - count
    assert more_runs_to_decide([20.0] * count, 0.009, 1e-6, 0.3, 0.95, low, None, 60) == wanted


def test_one_per_cent_of_a_factor_is_one_per_cent_of_the_flow_and_two_if_squared() -> None:
    half = Term("x", "anything", 2.0, "m")
    plain = flow_estimate(0.002, [Factor(half, 1.0, 0.02)], 0.95, "Q = x", ARITHMETIC)
    squared = flow_estimate(0.002, [Factor(half, 2.0, 0.02)], 0.95, "Q = x²", ARITHMETIC)
    assert plain.standard_uncertainty == pytest.approx(2e-5)
    assert plain.high - plain.flow == pytest.approx(1.95996e-2 * 0.002, rel=1e-4)
    assert plain.flow - plain.low == pytest.approx(1.95996e-2 * 0.002, rel=1e-4)
    assert squared.standard_uncertainty == pytest.approx(4e-5)
