"""Coverage factors against a library, and the sum with a rectangular distribution."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from pondapp.core.base.errors import OutOfRange
from pondapp.core.measuring.student_t import (
    chance_of_ratio,
    interval_half_width,
    normal_factor,
    share_below,
    t_factor,
    t_inside,
)


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


@settings(max_examples=80)
@given(st.floats(0.0, 400.0), st.integers(1, 40), st.integers(1, 60))
def test_the_chance_of_a_ratio_agrees_with_scipy(ratio: float, dof: int, below: int) -> None:
    assert chance_of_ratio(ratio, dof, below) == pytest.approx(
        stats.f.sf(ratio, dof, below), rel=1e-7, abs=1e-12
    )


def test_the_chance_of_a_ratio_at_its_ends() -> None:
    assert chance_of_ratio(0.0, 3, 5) == pytest.approx(1.0)
    assert chance_of_ratio(1e12, 1, 5) == pytest.approx(0.0, abs=1e-12)
    assert chance_of_ratio(1.05, 1000, 1000) == pytest.approx(
        stats.f.sf(1.05, 1000, 1000), rel=1e-6
    )


@settings(max_examples=60)
@given(
    st.floats(-5.0, 5.0), st.floats(1e-3, 10.0), st.integers(1, 40), st.floats(0.0, 10.0)
)  # fmt: skip
def test_a_share_below_agrees_with_the_interval_and_rises(
    limit: float, scale: float, dof: int, half: float
) -> None:
    here = share_below(limit, scale, dof, half)
    assert here + share_below(-limit, scale, dof, half) == pytest.approx(1.0, abs=1e-7)
    assert here <= share_below(limit + 0.1, scale, dof, half) + 1e-9
    reach = interval_half_width(scale, dof, half, 0.9)
    assert share_below(reach, scale, dof, half) == pytest.approx(0.95, abs=1e-5)


def test_a_share_below_of_what_is_exact_or_only_rectangular() -> None:
    assert [share_below(x, 0.0, 3, 0.0) for x in (-1.0, 0.0, 1.0)] == [0.0, 0.5, 1.0]
    assert [share_below(x, 0.0, 3, 2.0) for x in (-3.0, -1.0, 1.0)] == [0.0, 0.25, 0.75]
    assert share_below(1e9, 1e-3, 2, 1.0) == pytest.approx(1.0)


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
    with pytest.raises(OutOfRange):
        share_below(float("nan"), 1.0, 3, 1.0)
    with pytest.raises(OutOfRange):
        share_below(0.0, -1.0, 3, 1.0)
    with pytest.raises(OutOfRange):
        chance_of_ratio(-1.0, 3, 3)
    with pytest.raises(OutOfRange):
        chance_of_ratio(1.0, 0, 3)
