"""Doses by a volume with its doubt: the least water sets what goes in."""

import pytest

from pondapp.answers.keeping.dose import dose_for, salt_for
from pondapp.answers.keeping.label_dose import WATER_UNITS, measured_out
from pondapp.answers.keeping.pond_volume import volume_span
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import NoSolution
from pondapp.models.fish import FishGroup
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
    assert found.doubted


def test_a_volume_known_worse_never_gets_a_larger_dose() -> None:
    def least(doubt: float | None) -> float:
        one = MEASURED.model_copy(update={"standard_uncertainty_m3": doubt})
        found = volume_span(WorkedPond(POND.model_copy(update={"measured_volume": one})))
        assert found.measured
        assert found.doubted == (doubt is not None)
        return found.span.low

    assert least(2.2) < least(1.0) < least(0.1)
    assert least(None) == pytest.approx(0.85 * 9.0)  # measured, and doubted by the rule
    for doubt in (2.3, 4.4, 4.6, 9.0):
        with pytest.raises(NoSolution, match="measure the water again"):
            least(doubt)


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
    assert us.other == pytest.approx(imperial.amount.low)
    assert litres.other is None
    assert not us.remarks


def test_a_dose_that_no_pond_product_asks_for_is_remarked_on() -> None:
    assert "more than pond products ask" in str(dose_for(WORKED, 5.0, 1.0, "L", "g").remarks[0])
    assert "mistyped" in str(dose_for(WORKED, 1e4, 0.001, "usgal", "g").remarks[0])
    assert dose_for(WORKED, 1.0, 2.0, "L", "tsp").remarks
    assert not dose_for(WORKED, 5.0, 40.0, "L").remarks
    assert not dose_for(WORKED, 1.0, 2.0, "L", "drop").remarks


@pytest.mark.parametrize(("unit", "system"), [("L", "metric"), ("usgal", "us"),
                                              ("impgal", "imperial")])  # fmt: skip
def test_the_units_of_a_label_are_those_of_the_app(unit: str, system: str) -> None:
    assert WATER_UNITS[unit] == pytest.approx(parse("1", "volume", system), rel=1e-12)


@pytest.mark.parametrize(
    ("dose", "per", "unit", "withheld"),
    [(1e4, 0.001, "ml", True), (10.1, 1.0, "g", True), (9.9, 1.0, "g", False),
     (1.0, 1e6, "tablet", True), (1.0, 4e4, "tablet", True), (1.0, 3e4, "tablet", False),
     (1.0, 1e4, "drop", True), (1.0, 8e3, "drop", False), (1e-3, 1e3, "ml", True)],
)  # fmt: skip
def test_what_is_mistyped_or_cannot_be_measured_out_is_withheld(
    dose: float, per: float, unit: str, withheld: bool
) -> None:
    found = dose_for(WORKED, dose, per, "L", unit)
    assert found.withheld == withheld
    assert bool(found.remarks) >= withheld


def test_drops_are_whole_and_tablets_broken_and_never_more_than_the_label() -> None:
    assert measured_out(21.9, "drop") == 21.0
    assert measured_out(0.9, "drop") == 0.0
    assert [measured_out(one, "tablet") for one in (0.24, 0.3, 0.6, 3.9)] == [0.0, 0.25, 0.5, 3.5]
    assert measured_out(21.9, "ml") == 21.9


def test_what_of_this_pond_s_own_bears_less_salt_is_named() -> None:
    assert salt_for(WORKED, 0.0, 1.0).remarks == ()
    fish = tuple(
        FishGroup(id=kind, name="Mine", species=kind, count=2, length_m=0.2)
        for kind in ("koi", "orfe", "sterlet")
    )
    pond = POND.model_copy(update={"fish": fish})
    (told,) = salt_for(WorkedPond(pond), 0.0, 1.0).remarks
    assert "Golden orfe, Sterlet" in str(told)
