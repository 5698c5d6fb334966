"""Doses by a volume with its doubt: the least water sets what goes in."""

import pytest

from pondapp.answers.keeping.dose import WATER_UNITS, dose_for, salt_for, volume_span
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import NoSolution
from pondapp.models.pond import Pond
from pondapp.models.water import MeasuredVolume, TypedVolume
from pondapp.units import parse

POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=10.0))
WORKED = WorkedPond(POND)
MEASURED = MeasuredVolume(volume_m3=9.0, how="salt", standard_uncertainty_m3=0.45)


def test_a_volume_that_nobody_measured_is_doubted_and_a_measured_one_by_its_own_doubt() -> None:
    by_rule = volume_span(WORKED)
    assert not by_rule.measured
    assert (by_rule.span.low, by_rule.span.high) == (8.5, 11.5)
    found = volume_span(WorkedPond(POND.model_copy(update={"measured_volume": MEASURED})))
    assert found.measured
    assert found.span.low == pytest.approx(8.1)
    lost = MEASURED.model_copy(update={"standard_uncertainty_m3": 9.0})
    wide = volume_span(WorkedPond(POND.model_copy(update={"measured_volume": lost})))
    assert not wide.measured  # a doubt as large as the pond leaves no least water
    assert wide.span.low > 0.0


def test_salt_for_the_least_water_comes_first() -> None:
    found = salt_for(WORKED, 0.5, 1.0)
    assert found.amount.low == pytest.approx(4.25)
    assert found.amount.likely == pytest.approx(5.0)
    assert found.steps[0].result.value == found.amount.low
    assert not found.remarks
    assert "plants suffer" in str(salt_for(WORKED, 0.0, 2.0).remarks[0])
    assert "a bath of hours" in str(salt_for(WORKED, 0.0, 6.0).remarks[0])
    with pytest.raises(NoSolution, match="salt does not go away by itself"):
        salt_for(WORKED, 2.0, 1.0)


def test_a_label_is_never_exceeded_and_the_other_gallon_is_said() -> None:
    litres = dose_for(WORKED, 5.0, 40.0, "L")
    assert litres.amount.low == pytest.approx(5.0 * 8500.0 / 40.0)
    assert not litres.remarks
    us, imperial = (dose_for(WORKED, 5.0, 10.0, unit) for unit in ("usgal", "impgal"))
    assert us.amount.low == pytest.approx(imperial.amount.low * 1.20095, rel=1e-5)
    (value,) = us.remarks[0].values.values()
    assert value[0] == pytest.approx(imperial.amount.low)
    assert "imperial" in str(us.remarks[0])


@pytest.mark.parametrize(("unit", "system"), [("L", "metric"), ("usgal", "us"),
                                              ("impgal", "imperial")])  # fmt: skip
def test_the_units_of_a_label_are_those_of_the_app(unit: str, system: str) -> None:
    assert WATER_UNITS[unit] == pytest.approx(parse("1", "volume", system), rel=1e-12)
