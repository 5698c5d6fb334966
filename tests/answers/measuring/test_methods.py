"""Every method gives a flow, a verdict, and words on its accuracy; two are compared."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH

from pondapp.answers.measuring.compare import beside
from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.measuring.methods import measured_by, measured_reading, rules_for
from pondapp.answers.methods.kinds import METHODS as KINDS
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    Method,
    Reading,
    WeighedBucket,
    WeighedFill,
)
from pondapp.models.water import TypedVolume

BAND = FlowBand(low=400 * LPH, target=600 * LPH, high=1200 * LPH)
RULES = Assumptions().measuring
NOW = datetime(2025, 6, 1, 12, 0, tzinfo=UTC)


def fills(*seconds: float) -> tuple[Fill, ...]:
    return tuple(Fill(seconds=value) for value in seconds)


BUCKET = Bucket(
    container=Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001),
    fills=fills(54.0, 54.1, 53.9),
)
WEIGHED = WeighedBucket(
    empty_kg=0.4, scale_tolerance_kg=0.05,
    fills=tuple(WeighedFill(seconds=54.0 + d, full_kg=9.4) for d in (0.0, 0.1, -0.1)),
)  # fmt: skip
LEVEL = LevelDrop(
    area_m2=2.0, area_tolerance_m2=0.1, drop_m=0.05, level_tolerance_m=0.001, fills=fills(600.0)
)
BOG = FilledSpace(
    volume_m3=0.25, volume_tolerance_m3=0.0125, porosity=0.4, porosity_tolerance=0.05,
    fills=fills(600.0),
)  # fmt: skip
LIP = LipDepth(
    head_m=0.005, head_tolerance_m=0.001, width_m=0.19, width_tolerance_m=0.005, crest_height_m=0.1
)
METER = MeterReading(flow_m3_s=600 * LPH, tolerance=0.05)
ALL: tuple[Method, ...] = (BUCKET, WEIGHED, LEVEL, BOG, LIP, METER)


@pytest.mark.parametrize("method", ALL, ids=lambda method: str(method.kind))
def test_every_method_says_a_flow_and_what_limits_it(method: Method) -> None:
    found = measured_by(method, BAND)
    assert found is not None
    assert found.flow.flow == pytest.approx(600 * LPH, rel=0.2)
    assert found.flow.low < found.flow.flow < found.flow.high
    assert found.accuracy is not None
    assert "because of this" in str(found.accuracy.limits)
    assert found.advice
    assert found.flow.steps()
    assert method.kind in KINDS


def test_known_answers() -> None:
    level = measured_by(LEVEL, None)
    bog = measured_by(BOG, None)
    assert level is not None
    assert bog is not None
    assert level.flow.flow == pytest.approx(2.0 * 0.05 / 600)
    assert bog.flow.flow == pytest.approx(0.4 * 0.25 / 600)
    assert level.kind == "no target"


def test_nothing_counts_nothing_is_said() -> None:
    struck = (Fill(seconds=600.0, excluded=True),)
    assert measured_by(LEVEL.model_copy(update={"fills": struck}), BAND) is None
    assert measured_by(WEIGHED.model_copy(update={"fills": ()}), BAND) is None


def test_a_rough_scale_is_refused_in_words() -> None:
    with pytest.raises(PondError, match="too rough"):
        measured_by(WEIGHED.model_copy(update={"scale_tolerance_kg": 50.0}), BAND)


@settings(max_examples=25)
@given(st.floats(0.005, 0.2), st.integers(1, 4))
def test_the_cure_for_the_level_halves_the_interval(drop: float, runs: int) -> None:
    """A longer fall takes proportionally longer; where the level limits, the words hold."""
    method = LEVEL.model_copy(
        update={
            "drop_m": drop, "area_tolerance_m2": 0.0,
            "fills": fills(*[drop * 12000] * runs),
        }
    )  # fmt: skip
    found = measured_by(method, None)
    assert found is not None
    assert found.accuracy is not None
    assert "reading the level" in str(found.accuracy.limits)
    longer = found.accuracy.halve.values["longer"]
    assert not isinstance(longer, str)
    again = method.model_copy(update={"drop_m": longer.value})
    better = measured_by(again, None)
    assert better is not None
    before = found.flow.standard_uncertainty / found.flow.flow
    assert better.flow.standard_uncertainty / better.flow.flow == pytest.approx(before / 2)


def test_more_fills_as_told_halve_the_doubt() -> None:
    quick = BUCKET.model_copy(
        update={
            "container": BUCKET.container.model_copy(update={"tolerance_m3": 0.0}),
            "fills": fills(5.0, 5.05),
        }
    )
    found = measured_by(quick, None)
    assert found is not None
    assert found.accuracy is not None
    assert "8 fills in all" in str(found.accuracy.halve)


def reading(method: Method, hours_ago: float, place_id: str = "bog") -> Reading:
    return Reading(
        id=f"r{hours_ago:.0f}", pond_id="p", place_id=place_id, place_name="Bog",
        taken_at=NOW - timedelta(hours=hours_ago), method=method, band=None,
    )  # fmt: skip


def compare(log: list[Reading]) -> object:
    now = measured_by(BUCKET, BAND)
    assert now is not None
    return beside(now.flow, "bucket", log, "bog", NOW, BAND, RULES)


def test_two_methods_that_agree_count_together() -> None:
    now = measured_by(BUCKET, BAND)
    assert now is not None
    found = beside(now.flow, "bucket", [reading(LEVEL, 1.0)], "bog", NOW, BAND, RULES)
    assert found is not None
    assert found.together is not None
    assert found.together.high - found.together.low < now.flow.high - now.flow.low
    assert found.kind == "within"


def test_flows_of_few_fills_are_compared_and_pooled_with_all_their_doubt() -> None:
    """Of equal flows, one of 20 is found to differ, and the pooled interval holds the true one."""
    dice = random.Random(5)
    differ = held = together = 0
    for _ in range(400):
        seconds = 20.0 + dice.gauss(0.0, 0.35)
        one = measured_by(BUCKET.model_copy(update={"fills": (Fill(seconds=seconds),)}), BAND)
        assert one is not None
        true = BUCKET.container.volume_m3 / 20.0
        shown = true * (1.0 + dice.uniform(-0.05, 0.05))
        other = METER.model_copy(update={"flow_m3_s": shown, "tolerance": 0.05})
        found = beside(one.flow, "bucket", [reading(other, 1.0)], "bog", NOW, None, RULES)
        assert found is not None
        if found.together is None:
            differ += 1
        else:
            together += 1
            held += found.together.low <= true <= found.together.high
    assert differ <= 0.05 * 400
    assert held >= 0.93 * together


def test_two_methods_that_differ_are_not_pooled() -> None:
    now = measured_by(BUCKET, BAND)
    assert now is not None
    other = METER.model_copy(update={"flow_m3_s": 1000 * LPH})
    found = beside(now.flow, "bucket", [reading(other, 1.0)], "bog", NOW, BAND, RULES)
    assert found is not None
    assert found.together is None


def test_only_another_method_at_this_place_and_of_today_is_compared() -> None:
    assert compare([reading(BUCKET, 1.0)]) is None
    assert compare([reading(METER, 1.0, "lip")]) is None
    assert compare([reading(METER, 48.0)]) is None
    assert compare([reading(METER, 48.0), reading(METER, 1.0)]) is not None


def test_rules_of_the_pond_reach_the_interval() -> None:
    pond = Pond(
        id="p", name="P", water=TypedVolume(volume_m3=1.0),
        assumptions={"measuring.reaction_sd": 0.5},
    )  # fmt: skip
    slow = measured_by(BUCKET, BAND, rules_for(pond).measuring)
    usual = measured_by(BUCKET, BAND, rules_for(None).measuring)
    assert slow is not None
    assert usual is not None
    assert slow.flow.high > usual.flow.high


def test_a_reading_is_held_against_the_band_of_its_day() -> None:
    found = measured_reading(reading(METER, 1.0))
    assert found is not None
    assert found.kind == "no target"
