"""What is entered for a method makes a measurement, or nothing while something is missing."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH
from ponds import TWO_FEATURES as POND

from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.measuring.methods import measured_by
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered, place_at
from pondapp.core.assumptions import Assumptions
from pondapp.models.reading import (
    Container,
    Fill,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    WeighedBucket,
)
from pondapp.models.water import Basin, Drawn, Rectangle

RULES = Assumptions()
TEN_MINUTES = (Fill(seconds=600.0),)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0002)


def test_a_box_that_falls() -> None:
    entered = Entered({"box_length": 1.2, "box_width": 0.8, "drop": 0.05}, "box", fills=TEN_MINUTES)
    method = METHODS["level_drop"].entered(entered, RULES)
    assert isinstance(method, LevelDrop)
    found = measured_by(method, None)
    assert found is not None
    assert found.flow.flow == pytest.approx(1.2 * 0.8 * 0.05 / 600.0)
    assert method.level_tolerance_m == RULES.measuring.level_tolerance
    assert method.area_tolerance_m2 == pytest.approx(RULES.measuring.area_tolerance * 0.96)


def test_a_round_tub_that_fills_with_gravel_in_it() -> None:
    entered = Entered(
        {"tub_across": 0.6, "rise": 0.3, "gaps": 0.4}, "round", gravel=True, fills=TEN_MINUTES
    )
    method = METHODS["filling"].entered(entered, RULES)
    assert isinstance(method, FilledSpace)
    found = measured_by(method, None)
    assert found is not None
    assert found.flow.flow == pytest.approx(0.4 * pi * 0.09 * 0.3 / 600.0)
    bare = METHODS["filling"].entered(Entered(entered.known, "round", fills=TEN_MINUTES), RULES)
    assert isinstance(bare, FilledSpace)
    assert (bare.porosity, bare.porosity_tolerance) == (1.0, 0.0)


def test_a_weighed_fill_waits_for_its_weight_but_a_struck_one_does_not() -> None:
    fills = (Fill(seconds=50.0), Fill(seconds=9.0, excluded=True))
    waiting = Entered({"empty_weight": 0.4}, fills=fills, full_kg={})
    assert METHODS["weighed"].entered(waiting, RULES) is None
    done = Entered({"empty_weight": 0.4}, fills=fills, full_kg={0: 9.4})
    method = METHODS["weighed"].entered(done, RULES)
    assert isinstance(method, WeighedBucket)
    assert [fill.full_kg for fill in method.fills] == [9.4]


def test_what_is_typed_goes_before_the_rule() -> None:
    entered = Entered({"meter_flow": 600 * LPH, "meter_tolerance": 0.02})
    assert METHODS["meter"].entered(entered, RULES) == MeterReading(
        flow_m3_s=600 * LPH, tolerance=0.02
    )
    lip = Entered({"depth_over_lip": 0.005, "lip_width": 0.2})
    method = METHODS["lip_depth"].entered(lip, RULES)
    assert isinstance(method, LipDepth)
    assert method.head_tolerance_m == RULES.measuring.level_tolerance
    assert method.crest_height_m == RULES.waterfalls.crest_height


@pytest.mark.parametrize(
    ("kind", "known"),
    [
        ("bucket", {}),
        ("weighed", {}),
        ("level_drop", {"box_length": 1.0, "drop": 0.1}),
        ("filling", {"box_length": 1.0, "box_width": 1.0}),
        ("lip_depth", {"lip_width": 0.3}),
        ("meter", {}),
    ],
)
def test_nothing_while_something_is_missing(kind, known) -> None:
    assert METHODS[kind].entered(Entered(known, fills=TEN_MINUTES), RULES) is None


def test_nothing_was_timed_yet() -> None:
    assert METHODS["bucket"].entered(Entered({}, container=BUCKET), RULES) is None


@settings(max_examples=30)
@given(
    st.floats(0.05, 5.0), st.floats(0.05, 5.0), st.floats(0.005, 1.0),
    st.floats(10.0, 20_000.0),
)  # fmt: skip
def test_the_time_to_aim_for_gives_the_wanted_flow(length, width, drop, lph) -> None:
    band = FlowBand(0.5 * lph * LPH, lph * LPH, 2.0 * lph * LPH)
    entered = Entered({"box_length": length, "box_width": width, "drop": drop}, "box")
    window = METHODS["level_drop"].window(entered, band, RULES)
    amount = METHODS["level_drop"].amount_timed(entered)
    assert window is not None
    assert amount is not None
    assert amount / window.aim == pytest.approx(band.target)
    if window.aim <= 86_400.0:
        timed = Entered(entered.known, "box", fills=(Fill(seconds=window.aim),))
        method = METHODS["level_drop"].entered(timed, RULES)
        assert method is not None
        found = measured_by(method, band)
        assert found is not None
        assert found.flow.flow == pytest.approx(band.target)


def test_the_pond_says_what_it_knows() -> None:
    assert METHODS["lip_depth"].begins(place_at(POND, "lip"), RULES)["lip_width"] == 0.3
    assert METHODS["filling"].begins(place_at(POND, "bog"), RULES)["space"] == 0.1
    assert "lip_width" not in METHODS["lip_depth"].begins(place_at(None, "outlet"), RULES)
    assert METHODS["filling"].sides_at(place_at(POND, "bog")) == "known"
    assert METHODS["level_drop"].sides_at(place_at(POND, "bog")) == "box"
    drawn = Drawn(
        basins=(Basin(id="b", name="Pond", outline=Rectangle(length_m=3.0, width_m=2.0),
                      depth_m=0.8),)
    )  # fmt: skip
    ours = POND.model_copy(update={"water": drawn})
    assert METHODS["level_drop"].begins(place_at(ours, "pump"), RULES)[
        "water_area"
    ] == pytest.approx(6.0)
    assert METHODS["level_drop"].sides_at(place_at(ours, "pump")) == "known"
    assert METHODS["level_drop"].begins(place_at(POND, "pump"), RULES) == {}
    assert place_at(POND, "bog").gravel
    assert not place_at(None, "outlet").gravel


def test_what_is_known_is_taken_as_it_is() -> None:
    area = Entered({"water_area": 2.5, "drop": 0.04}, "known")
    assert METHODS["level_drop"].amount_timed(area) == pytest.approx(0.1)
    space = Entered({"space": 0.2, "gaps": 0.4}, "known", gravel=True)
    assert METHODS["filling"].amount_timed(space) == pytest.approx(0.08)
    assert METHODS["filling"].amount_timed(Entered({"space": 0.2}, "known")) == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("known", "sides"),
    [
        ({"drop": 0.04}, "known"),
        ({"drop": 0.04}, "round"),
        ({"drop": 0.04, "box_length": 1.0}, "box"),
        ({"water_area": 2.5}, "known"),
    ],
)
def test_while_a_size_is_missing_nothing_is_aimed_for(known, sides) -> None:
    band = FlowBand(1e-3, 2e-3, None)
    assert METHODS["level_drop"].amount_timed(Entered(known, sides)) is None
    assert METHODS["level_drop"].window(Entered(known, sides), band, RULES) is None
