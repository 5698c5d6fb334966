"""The pond form's texts become a pond, or sentences beside their fields."""

import pytest

from pondapp.answers.water.volume import water_volume
from pondapp.models.circuit import Lip
from pondapp.models.water import TypedVolume
from pondapp.ui.pond.pond_form import BY_SIDES, FORM, read_form, shelved_volume

FULL = {
    "name": "Invented", "shape": "typed", "volume": "1000", "bog": "100", "high_flow": "yes",
    "lip": "30", "pump_name": "Pump A", "pump_flow": "4000", "pump_head": "2,5", "pump_watts": "45",
}  # fmt: skip


def test_a_full_form_is_a_pond() -> None:
    pond, errors = read_form(FULL, "metric", "p")
    assert errors == {}
    assert pond is not None
    assert pond.water == TypedVolume(volume_m3=1.0)
    assert {feature.kind for feature in pond.fed} == {"bog", "high_flow", "lip"}
    assert next(feature for feature in pond.fed if isinstance(feature, Lip)).width_m == 0.3


@pytest.mark.parametrize("key", [one.key for one in FORM.fields if one.key not in BY_SIDES])
@pytest.mark.parametrize("wrong", ["wet", "-3", "0", "5 kg kg", "99999999999"])
def test_each_field_says_what_is_wrong_with_it(key: str, wrong: str) -> None:
    if (key, wrong) == ("lift", "0"):
        return  # an outlet may lie at the water line
    pond, errors = read_form({**FULL, key: wrong}, "metric", "p")
    assert pond is None
    assert set(errors) == {key}
    assert len(errors[key]) > 15


def test_empty_fields_are_no_errors() -> None:
    pond, errors = read_form({"name": "", "shape": "rectangle"}, "metric", "p")
    assert pond is None
    assert errors == {}


def test_lift_and_hose_are_asked_and_unknown_while_empty() -> None:
    pond, _ = read_form(FULL, "metric", "p")
    assert pond is not None
    assert pond.lines == ()  # nothing is entered, so nothing is claimed
    hose = {"lift": "0.8", "hose_length": "3", "bore": "25"}
    pond, errors = read_form({**FULL, **hose}, "metric", "p")
    assert errors == {}
    assert pond is not None
    for branch in pond.lines[0].branches:
        assert branch.lift_m == 0.8
        assert branch.pipe is not None
        assert branch.pipe.length_m == 3.0


def test_half_a_hose_is_told_at_the_other_field() -> None:
    pond, errors = read_form({**FULL, "bore": "25"}, "metric", "p")
    assert pond is None
    assert list(errors) == ["hose_length"]


def test_an_oval_by_its_deepest_place_is_told_what_it_would_hold() -> None:
    """3.5 x 2.4 m and 0.9 m deep: 5,940 L as a mean depth, about 4,000 L with shelf and slopes."""
    typed = {"name": "Oval", "shape": "ellipse", "length": "3.5", "width": "2.4", "depth": "0.9"}
    pond, _ = read_form(typed, "metric", "p")
    assert pond is not None
    assert water_volume(pond) == pytest.approx(5.94, abs=0.01)
    less = shelved_volume(pond)
    assert less is not None
    assert 3.0 < less < 4.5
    known, _ = read_form(FULL, "metric", "p")
    assert known is not None
    assert shelved_volume(known) is None
    tiny, _ = read_form({**typed, "length": "0.5", "width": "0.5"}, "metric", "p")
    assert tiny is not None
    assert shelved_volume(tiny) is None
