"""A lamp by watts, by its maker's flow, by dose and by its age."""

from datetime import date, timedelta
from typing import Any

import pytest

from pondapp.answers.keeping.uv_lamp import LampAnswer, uv_lamp
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0))


def lamp(pond: Pond = POND, **known: Any) -> LampAnswer:
    given = {"power": 11.0, "uvc": None, "flow": None, "most": None, "path": None, "since": None}
    return uv_lamp(WorkedPond(pond), **{**given, **known})


def said(found: LampAnswer) -> str:
    return " ".join(str(words) for _, words in found.verdicts)


def test_watts_are_a_rule_of_thumb_and_never_right() -> None:
    assert lamp().verdicts[0][0] == "unknown"
    assert "asks for 10 W" in said(lamp())
    assert lamp(power=9.0).verdicts[0][0] == "wrong"
    assert lamp().dose is None
    assert lamp().change_on is None


def test_more_than_the_maker_allows_is_wrong_and_comes_first() -> None:
    found = lamp(flow=6e-4, most=5e-4)
    assert found.verdicts[0][0] == "wrong"
    assert "too fast" in str(found.verdicts[0][1])
    assert "no more than its maker allows" in said(lamp(flow=5e-4, most=5e-4))


def test_a_dose_is_a_range_and_goes_with_one_over_the_flow() -> None:
    slow, fast = lamp(flow=5e-4, path=0.025), lamp(flow=1e-3, path=0.025)
    assert slow.dose is not None
    assert fast.dose is not None
    assert slow.dose == pytest.approx(tuple(2.0 * one for one in fast.dose))
    assert slow.dose[0] < slow.dose[1]
    assert "UV-C light is not entered: 2.2 W to 3.85 W" in str(slow.remarks[0])
    known = lamp(flow=5e-4, path=0.025, uvc=3.5)
    assert len(known.remarks) == 1
    assert known.steps
    assert "slower water" in said(lamp(flow=5e-3, path=0.025))
    assert "not known" in said(slow)
    assert "against green water" in said(lamp(flow=5e-5, path=0.025))
    assert all(one != "right" for one, _ in lamp(flow=5e-5, path=0.025).verdicts)


def test_a_lamp_is_good_for_its_hours() -> None:
    lit = date(2026, 3, 1)
    assert lamp(since=lit).change_on == lit + timedelta(hours=8000)
    own = POND.model_copy(update={"assumptions": {"filters.lamp_life": 9000 * 3600.0}})
    assert lamp(own, since=lit).change_on == lit + timedelta(hours=9000)


def test_rules_that_are_out_of_order_are_said() -> None:
    own = POND.model_copy(update={"assumptions": {"filters.uvc_passes_low": 0.95}})
    with pytest.raises(PondError, match="out of order"):
        lamp(own, flow=5e-4, path=0.025)
