"""Coverage factors against the printed table and a library."""

import pytest
from scipy import stats

from pondapp.core.measuring.student_t import t_factor


@pytest.mark.parametrize("dof", [1, 2, 3, 4, 5, 9, 20, 100, 1000])
@pytest.mark.parametrize("coverage", [0.5, 0.95, 0.9545, 0.999])
def test_agrees_with_scipy(dof: int, coverage: float) -> None:
    assert t_factor(coverage, dof) == pytest.approx(stats.t.ppf(0.5 + coverage / 2, dof), rel=1e-7)
