"""The estimated scatter: what is expected and what is seen, as one."""

from math import exp, sqrt

import pytest
from coverage_table import after_earlier
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.scatter import (
    MOST_WEIGHT,
    ExpectedScatter,
    learned,
    timing_std,
)

EXPECTED = ExpectedScatter(0.10, 0.016, 4, 0.01)


def test_by_paper_and_pencil() -> None:
    # 3-4-5: 0.3 s by hand, 2 % of 20 s; so 0.5 s are expected, worth four fills beside the first.
    expected = ExpectedScatter(0.3, 0.02, 4, 0.01)
    assert expected.of(20.0) == pytest.approx(0.5)
    # 19.7, 20 and 20.3 s scatter by 0.3 s: (4 x 0.25 + 2 x 0.09) / 6 = 0.19667.
    found = timing_std([19.7, 20.0, 20.3], expected)
    assert (found.seen, found.beyond) == (pytest.approx(0.3), False)
    assert (found.std, found.freedom) == (pytest.approx(sqrt(0.196667), rel=1e-5), 6)
    # 19.4, 20 and 20.6 s scatter by 0.6 s, 1.44 times what is expected in squares: of the 4 count
    # 2.7778. (2.7778 x 0.25 + 2 x 0.36) / 4.7778 = 0.29605, with 4 whole degrees of freedom.
    more = timing_std([19.4, 20.0, 20.6], expected)
    assert (more.weight, more.freedom) == (pytest.approx(2.77778, rel=1e-5), 4)
    assert more.std == pytest.approx(sqrt(0.296047), rel=1e-5)
    one = timing_std([20.0], expected)
    assert (one.std, one.freedom, one.seen) == (pytest.approx(0.5), 4, None)


def test_the_mean_follows_student_s_t_by_bayes_theorem() -> None:
    """The posterior of the mean, integrated over all scatters, against the closed form."""
    times = [9.9, 10.15, 10.0]
    found = timing_std(times, EXPECTED)
    before, weight = EXPECTED.of(found.mean), EXPECTED.weight

    def likely(mean: float, scatter: float) -> float:
        chance = scatter ** (-weight - 1) * exp(-weight * before**2 / (2 * scatter**2))
        for time in times:
            chance *= stats.norm.pdf(time, mean, scatter)
        return float(chance)

    def density(mean: float) -> float:
        return float(integrate.quad(lambda s: likely(mean, s), 0.02, 8.0, limit=200)[0])

    whole = integrate.quad(density, 7.0, 13.2, points=[found.mean], limit=60)[0]
    scale = found.std / sqrt(3.0)
    reach = scale * stats.t.ppf(0.975, found.freedom)
    inside = integrate.quad(density, found.mean - reach, found.mean + reach, limit=60)[0]
    assert inside / whole == pytest.approx(0.95, abs=1e-3)


def test_fills_that_differ_too_much_count_as_good_as_alone() -> None:
    found = timing_std([9.52, 7.27], EXPECTED)
    assert (found.beyond, found.freedom) == (True, 1)
    assert found.std == pytest.approx(found.seen, rel=0.03)
    assert found.weight < 0.1
    assert not timing_std([9.5, 9.9], EXPECTED).beyond
    # Nothing is expected, so any difference is too much; equal ones are not.
    nothing = ExpectedScatter(0.0, 0.0, 5, 0.01)
    assert timing_std([10.0, 10.1], nothing).beyond
    assert not timing_std([10.0, 10.0], nothing).beyond


@settings(max_examples=60)
@given(st.lists(st.floats(1.0, 300.0), min_size=2, max_size=10))
def test_the_estimate_lies_between_expected_and_seen(times: list[float]) -> None:
    found = timing_std(times, EXPECTED)
    assert found.seen is not None
    ends = sorted((EXPECTED.of(found.mean), found.seen))
    assert ends[0] * (1 - 1e-9) <= found.std <= ends[1] * (1 + 1e-9)
    assert found.steps()


def test_steady_readings_teach_less_scatter_and_wild_ones_teach_nothing() -> None:
    steady = learned(EXPECTED, [[20.0, 20.05, 19.95]] * 5)
    assert steady.earlier < 0.75
    assert steady.of(20.0) < 0.75 * EXPECTED.of(20.0)
    assert steady.weight == EXPECTED.weight + 10
    assert learned(EXPECTED, [[9.52, 7.27], [12.0]]) == EXPECTED
    assert learned(EXPECTED, []) == EXPECTED
    many = learned(EXPECTED, [[20.0, 20.4, 19.6]] * 40)
    assert many.weight == MOST_WEIGHT
    first = timing_std([20.0, 20.1], steady).steps()[0]
    assert first.formula.startswith("s0 = k")


def test_what_was_learned_holds_and_is_narrower() -> None:
    before, width = after_earlier(0, 3, 12.0, 1500)
    after, narrower = after_earlier(8, 3, 12.0, 1500)
    assert 0.93 <= before <= 0.98
    assert 0.93 <= after <= 0.98
    assert narrower < 0.97 * width


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        timing_std([], EXPECTED)
    for times, expected in (
        ([0.0], EXPECTED),
        ([float("nan")], EXPECTED),
        ([1.0], ExpectedScatter(-0.1, 0.01, 4, 0.01)),
        ([1.0], ExpectedScatter(0.1, 2.0, 5, 0.01)),
        ([1.0], ExpectedScatter(0.1, 0.01, 0, 0.01)),
        ([1.0], ExpectedScatter(0.1, 0.01, 5, 0.9)),
        ([1.0], ExpectedScatter(0.1, 0.01, 5, 0.01, 0.0)),
    ):
        with pytest.raises(OutOfRange):
            timing_std(times, expected)
    with pytest.raises(OutOfRange):
        learned(EXPECTED, [[1.0, -1.0]])
