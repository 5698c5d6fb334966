"""The line through readings against a general-purpose library."""

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.measuring.trend import trend

DAY = 86400.0
READINGS = st.lists(
    st.tuples(st.floats(0.5, 2.0), st.floats(0.01, 0.2), st.floats(0.5, 20.0)),
    min_size=3, max_size=12,
)  # fmt: skip


@settings(max_examples=60)
@given(READINGS)
def test_a_weighted_line_agrees(readings: list[tuple[float, float, float]]) -> None:
    flows, uncertainties, gaps = (list(one) for one in zip(*readings, strict=True))
    days = [sum(gaps[: n + 1]) for n in range(len(gaps))]
    found = trend([DAY * day for day in days], flows, uncertainties, 0.95)
    weights = [1.0 / one for one in uncertainties]
    (slope, at_start), covariance = numpy.polyfit(days, flows, 1, w=weights, cov="unscaled")
    assert found.slope * DAY == pytest.approx(slope, rel=1e-5, abs=1e-7)
    at_centre = at_start + slope * found.centre / DAY
    assert found.centre_flow == pytest.approx(at_centre, rel=1e-6)
    # Where the readings scatter by more than they say, the app takes what they show.
    assert found.slope_uncertainty * DAY >= covariance[0][0] ** 0.5 * (1.0 - 1e-5)
