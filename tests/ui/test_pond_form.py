"""The pond form's texts become a pond, or sentences beside their fields."""

import pytest

from pondapp.models.circuit import Lip
from pondapp.models.water import TypedVolume
from pondapp.ui.pages.pond_form import QUANTITIES, read_form

FULL = {
    "name": "Invented", "shape": "typed", "volume": "1000", "bog": "100", "high_flow": "yes",
    "lip": "30", "pump_name": "Pump A", "pump_flow": "4000", "pump_head": "2,5", "pump_watts": "45",
}  # fmt: skip


def test_a_full_form_is_a_pond() -> None:
    pond, errors = read_form(FULL, "metric", "p")
    assert errors == {}
    assert pond is not None
    assert pond.water == TypedVolume(volume_m3=1.0)
    assert {thing.kind for thing in pond.fed} == {"bog", "high_flow", "lip"}
    assert next(thing for thing in pond.fed if isinstance(thing, Lip)).width_m == 0.3


@pytest.mark.parametrize(
    "key", [key for key in QUANTITIES if key not in ("length", "width", "depth")]
)
@pytest.mark.parametrize("wrong", ["wet", "-3", "0", "5 kg kg", "99999999999"])
def test_each_field_says_what_is_wrong_with_it(key: str, wrong: str) -> None:
    pond, errors = read_form({**FULL, key: wrong}, "metric", "p")
    assert pond is None
    assert set(errors) == {key}
    assert len(errors[key]) > 15


def test_empty_fields_are_no_errors() -> None:
    pond, errors = read_form({"name": "", "shape": "rectangle"}, "metric", "p")
    assert pond is None
    assert errors == {}
