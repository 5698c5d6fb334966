"""Coverage factors against a library, and the sum with a rectangular distribution."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from pondapp.core.errors import OutOfRange
from pondapp.core.measuring.student_t import interval_half_width, normal_factor, t_factor, t_inside


@pytest.mark.parametrize("dof", [1, 2, 3, 4, 5, 9, 20, 100, 1000])
@pytest.mark.parametrize("coverage", [0.5, 0.95, 0.9545, 0.999])
def test_agrees_with_scipy(dof: int, coverage: float) -> None:
    factor = t_factor(coverage, dof)
    assert factor == pytest.approx(stats.t.ppf(0.5 + coverage / 2, dof), rel=1e-7)
    assert t_inside(factor, dof) == pytest.approx(coverage, rel=1e-9)


def test_many_degrees_of_freedom_are_normal() -> None:
    assert normal_factor(0.95) == pytest.approx(stats.norm.ppf(0.975), rel=1e-9)
    assert t_factor(0.95, 10**6) == pytest.approx(normal_factor(0.95), rel=2e-3)


@pytest.mark.parametrize("dof", [1, 2, 3, 9, 30])
@pytest.mark.parametrize("half_width", [0.01, 0.3, 1.0, 5.0, 200.0])
def test_interval_holds_its_share_by_numerical_integration(dof: int, half_width: float) -> None:
    reach = interval_half_width(1.0, dof, half_width, 0.95)
    ends = [x for x in (-reach, reach) if abs(x) < half_width]
    held, _ = integrate.quad(
        lambda u: (stats.t.cdf(reach - u, dof) - stats.t.cdf(-reach - u, dof)) / (2 * half_width),
        -half_width,
        half_width,
        points=ends or None,
        limit=200,
    )
    assert held == pytest.approx(0.95, abs=1e-6)


def test_limits_of_the_interval() -> None:
    assert interval_half_width(1.0, 4, 0.0, 0.95) == pytest.approx(t_factor(0.95, 4))
    assert interval_half_width(0.0, 4, 2.0, 0.95) == pytest.approx(1.9)
    assert interval_half_width(1e-5, 4, 2.0, 0.95) == pytest.approx(1.9, rel=1e-4)
    assert interval_half_width(1.0, 1000, 1.1e-4, 0.95) == pytest.approx(normal_factor(0.95))


@settings(max_examples=60)
@given(st.floats(1e-3, 1e3), st.integers(1, 40), st.floats(1e-3, 1e3), st.floats(0.5, 0.999))
def test_interval_lies_between_its_larger_part_and_their_sum(
    scale: float, dof: int, half_width: float, coverage: float
) -> None:
    reach = interval_half_width(scale, dof, half_width, coverage)
    alone = t_factor(coverage, dof) * scale
    assert max(alone, coverage * half_width) * (1 - 1e-6) <= reach <= (alone + half_width)


def test_refuses() -> None:
    for wrong in (0.4, 1.0, float("nan")):
        with pytest.raises(OutOfRange):
            t_factor(wrong, 3)
        with pytest.raises(OutOfRange):
            interval_half_width(1.0, 3, 1.0, wrong)
    with pytest.raises(OutOfRange):
        t_factor(0.95, 0)
    with pytest.raises(OutOfRange):
        t_inside(-1.0, 3)
    with pytest.raises(OutOfRange):
        interval_half_width(float("inf"), 3, 1.0, 0.95)
    with pytest.raises(OutOfRange):
        normal_factor(0.0)
