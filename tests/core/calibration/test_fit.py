"""Unknowns fitted: exact where all is straight, at what was entered where nothing was read."""

from collections.abc import Sequence

import pytest

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.calibration.fit import (
    Model,
    Row,
    farthest_good,
    fit,
    inverse,
    lower_root,
    narrowed,
    solved,
)


def straight(rows: Sequence[Row], read: Sequence[float], doubt: float = 1.0) -> Model:
    def model(at: Sequence[float]) -> list[tuple[float, Row]]:
        return [
            (
                (sum(slope * at[place] for place, slope in row.items()) - value) / doubt,
                {place: slope / doubt for place, slope in row.items()},
            )
            for row, value in zip(rows, read, strict=True)
        ]

    return model


def test_what_no_reading_touches_stays_as_it_was_entered() -> None:
    found = fit(straight([{0: 1.0}], [3.0], 0.1), 2)
    assert found.at[1] == 0.0
    assert found.from_data(1) == 0.0
    assert found.from_data(0) == pytest.approx(1.0 - 0.01 / 1.01)


def test_no_reading_is_no_error() -> None:
    found = fit(lambda _: [], 3)
    assert found.at == (0.0, 0.0, 0.0)
    assert found.covariance[1] == (0.0, 1.0, 0.0)


def test_two_unknowns_of_which_only_the_sum_is_read_share_it() -> None:
    found = fit(straight([{0: 1.0, 1: 1.0}] * 3, [2.0, 2.0, 2.0], 0.01), 2)
    assert found.at == pytest.approx((1.0, 1.0), rel=1e-3)
    assert found.from_data(0) == pytest.approx(0.5, rel=1e-3)
    assert found.variance({0: 1.0, 1: 1.0}) < 1e-4  # the sum itself is known well


def test_a_matrix_times_its_inverse_is_one() -> None:
    matrix = [[4.0, 2.0, 0.5], [2.0, 5.0, 1.0], [0.5, 1.0, 3.0]]
    lower = lower_root(matrix)
    back = inverse(lower)
    for i, row in enumerate(matrix):
        for j in range(3):
            assert sum(row[k] * back[k][j] for k in range(3)) == pytest.approx(float(i == j))
    assert solved(lower, [4.0, 2.0, 0.5]) == pytest.approx([1.0, 0.0, 0.0])


def test_refusals() -> None:
    with pytest.raises(NoSolution):
        lower_root([[1.0, 2.0], [2.0, 1.0]])
    with pytest.raises(OutOfRange):
        farthest_good(0.0)
    with pytest.raises(OutOfRange):
        narrowed([[1.0]], {0: 1.0}, {0: 1.0}, 0.0)
    with pytest.raises(NoSolution):
        fit(lambda _: [(float("nan"), {0: float("nan")})], 1)


def test_a_reading_that_counts_less_draws_less() -> None:
    read = [1.0, 1.0, 3.0]
    model = straight([{0: 1.0}] * 3, read, 0.02)
    assert fit(model, 1).at[0] == pytest.approx(5.0 / 3.0, abs=0.01)
    found = fit(model, 1, [1.0, 1.0, 1e-4])
    assert found.at[0] == pytest.approx(1.0, abs=0.001)
    assert abs(found.misfits[2]) > 50.0


def test_where_it_begins_does_not_matter() -> None:
    model = straight([{0: 1.0, 1: 2.0}, {1: 1.0}], [2.0, 1.0], 0.1)
    assert fit(model, 2, start=[3.0, -3.0]).at == pytest.approx(fit(model, 2).at, abs=1e-6)


def test_what_few_fills_told_of_their_scatter_may_be_farther_off() -> None:
    assert farthest_good(0.01, 2) > 2.0 * farthest_good(0.01)
    assert farthest_good(0.001) > farthest_good(0.01)
