"""Values worked out with paper and pencil, so that a changed formula cannot agree by accident."""

import pytest

from pondapp.core.hydraulics.energy import energy_per_year
from pondapp.core.hydraulics.fittings import sudden_contraction_loss, sudden_expansion_loss
from pondapp.core.hydraulics.pump_curve import curve_through


def test_a_hundred_watts_all_year_are_876_6_kilowatt_hours() -> None:
    assert energy_per_year(100.0, 31557600.0) / 3.6e6 == pytest.approx(876.6)


def test_a_bore_that_doubles_loses_nine_sixteenths() -> None:
    assert sudden_expansion_loss(0.025, 0.050) == pytest.approx(0.5625)
    assert sudden_expansion_loss(0.025, 0.025) == 0.0
    assert sudden_contraction_loss(0.025, 0.025) == 0.0


def test_beyond_its_points_a_curve_goes_on_straight() -> None:
    curve = curve_through([(0.001, 3.0), (0.002, 2.0), (0.003, 0.5)])
    assert curve.reach(0.0) == pytest.approx(4.0)
    assert curve.reach(0.004) == pytest.approx(-1.0)
    assert curve.reach(0.002) == pytest.approx(2.0)
