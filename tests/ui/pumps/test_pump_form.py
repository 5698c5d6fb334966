"""What is typed from a pump's box becomes a pump, or sentences beside the fields."""

import pytest

from pondapp.ui.pumps.pump_form import TRIED, read_pump, texts_of

LABEL = {"name": "Trout", "pump_flow": "6000", "pump_head": "3,2", "pump_watts": "45", "price": "0"}
CURVE = {
    "known_by": "points", "count": "3", "pump_watts": "45",
    "1.pump_flow": "0", "1.pump_head": "3.2", "2.pump_flow": "3000", "2.pump_head": "2.4",
    "3.pump_flow": "6000", "3.pump_head": "0.2",
}  # fmt: skip


def read(texts: dict[str, str], system: str = "metric"):
    return read_pump(texts, system, "p", "Pump 1")


def test_a_label_is_a_pump() -> None:
    pump, errors = read(LABEL)
    assert errors == {}
    assert pump is not None
    assert pump.max_flow_m3_s == pytest.approx(6000 / 3.6e6)
    assert (pump.max_head_m, pump.power_w, pump.price) == pytest.approx((3.2, 45, 0))
    assert pump.points == ()
    unnamed, _ = read({**LABEL, "name": " "})
    assert unnamed is not None
    assert unnamed.name == "Pump 1"


def test_points_stand_beside_the_label_and_neither_is_lost() -> None:
    pump, errors = read({**CURVE, "pump_flow": "7000", "pump_head": "3.4"})
    assert errors == {}
    assert pump is not None
    assert [head for _, head in pump.points] == pytest.approx([3.2, 2.4, 0.2])
    assert pump.max_flow_m3_s == pytest.approx(7000 / 3.6e6)
    again, _ = read(texts_of(pump, "metric"))
    assert again is not None
    assert (again.max_head_m, len(again.points)) == (pytest.approx(3.4), 3)
    bare, errors = read(CURVE)
    assert (errors, bare and bare.max_flow_m3_s) == ({}, None)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"2.pump_head": ""}, "2.pump_head"),
        ({"2.pump_flow": ""}, "2.pump_flow"),
        ({"2.pump_flow": "wet"}, "2.pump_flow"),
        ({"2.pump_head": "9"}, "points"),
        ({"2.pump_flow": "", "2.pump_head": ""}, "points"),
        ({"pump_watts": "0"}, "pump_watts"),
        ({"pump_flow": "wet"}, "pump_flow"),
        ({"name": "x" * 81}, "name"),
    ],
)
def test_what_is_wrong_is_said_in_its_place(change: dict[str, str], field: str) -> None:
    pump, errors = read({**CURVE, **change})
    assert pump is None
    assert set(errors) == {field}
    assert len(errors[field]) > 15


@pytest.mark.parametrize("texts", [LABEL, {**CURVE, "name": "Carp", "adjustable": "yes"}])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_editing_a_pump_begins_with_what_it_is(texts: dict[str, str], system: str) -> None:
    pump, _ = read(texts)
    assert pump is not None
    again, errors = read(texts_of(pump, system), system)
    assert errors == {}
    assert again is not None
    assert again.adjustable == pump.adjustable
    if pump.max_flow_m3_s:
        assert again.max_flow_m3_s == pytest.approx(pump.max_flow_m3_s, rel=1e-5)
    assert [q for q, _ in again.points] == pytest.approx([q for q, _ in pump.points], rel=1e-5)


def test_a_new_pump_is_tried_under_an_id_that_a_pump_may_have() -> None:
    texts = {"pump_flow": "4000", "pump_head": "3"}
    made, errors = read_pump(texts, "metric", TRIED, "Pump 1")
    assert errors == {}
    assert made is not None
