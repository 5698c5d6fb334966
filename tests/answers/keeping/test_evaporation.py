"""What a hot week takes, and a leak told from it, as a reader hears it."""

import pytest

from pondapp.answers.keeping.evaporation import (
    beside_the_pond,
    has_falls,
    leak,
    open_water,
    warm_week,
    week_loss,
)
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.core.base.constants import DAY
from pondapp.models.circuit import Stream
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume

POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0))
WORKED = WorkedPond(POND)


def test_a_week_that_is_known_is_narrower_than_one_that_is_assumed() -> None:
    known = week_loss(WORKED, water=298.15, air=298.15, humidity=0.6, wind="some", area=10.0,
                      hose=1.2 / 3600.0)  # fmt: skip
    assumed = week_loss(WORKED, water=298.15, air=298.15, humidity=None, wind="unknown",
                        area=10.0, hose=None)  # fmt: skip
    assert not known.remarks
    assert len(assumed.remarks) == 2
    assert assumed.week.low < known.week.low < known.week.high < assumed.week.high
    assert assumed.week.likely == pytest.approx(known.week.likely)
    assert known.week.likely == pytest.approx(7.0 * 10.0 * known.fall.likely)
    assert 3e-3 < assumed.fall.low < assumed.fall.high < 16e-3  # mm a day, as ponds lose
    assert known.top_up == pytest.approx(known.week.likely * 3000.0)
    assert assumed.top_up is None
    assert known.share == pytest.approx(known.week.likely / 5.0)


def test_the_pond_s_own_numbers_come_first() -> None:
    assert open_water(POND) is None  # nobody drew it
    assert open_water(example_pond())
    assert has_falls(example_pond())
    assert not has_falls(POND)
    assert warm_week(POND, WORKED.rules) == WORKED.rules.stock.warmest_water
    warm = POND.model_copy(update={"warmest_temperature_c": 29.0})
    assert warm_week(warm, WORKED.rules) == pytest.approx(302.15)


def told(drop: float, bucket: float, days: float, stands: str = "in") -> tuple[str, str, str]:
    found = leak(WORKED, drop=drop, bucket=bucket, time=days * DAY, level=None,
                 stands=stands, area=10.0)  # type: ignore[arg-type]  # fmt: skip
    return found.severity, str(found.verdict), " ".join(str(one) for one in found.advice)


def test_one_rule_says_right_wrong_or_not_decided() -> None:
    severity, verdict, advice = told(0.030, 0.003, 0.5)
    assert severity == "wrong"
    assert "It leaks" in verdict
    assert "0.54 m3 a day" in advice  # 27 mm in half a day off 10 m²
    assert "Stop the pump" in advice
    severity, verdict, advice = told(0.012, 0.012, 4.0)
    assert (severity, advice) == ("right", "")
    assert "No leak: nothing of 0.002 m a day" in verdict
    severity, verdict, advice = told(0.003, 0.003, 0.5)
    assert severity == "unknown"
    assert "time makes it surer" in advice
    assert "in all" in advice


def test_a_pond_that_falls_less_than_the_air_takes_has_no_tick() -> None:
    for drop, bucket, days in ((0.0, 0.1, 0.5), (0.005, 0.02, 1.0)):
        severity, verdict, advice = told(drop, bucket, days)
        assert severity == "unknown"
        assert "that cannot be, unless water was added" in verdict
        assert "float valve" in advice
    assert told(0.016, 0.020, 1.0)[0] == "unknown"  # likelier added to than not


def test_a_pond_that_runs_out_is_told_by_the_hours_it_has() -> None:
    severity, verdict, advice = told(0.4, 0.0, 1.0 / 24.0)  # half a metre deep on average
    assert severity == "danger"
    assert "an hour" in verdict
    assert "empty in about 900 s" in advice
    assert "a day" not in verdict + advice
    drawn = leak(WorkedPond(example_pond()), drop=0.2, bucket=0.0, time=3600.0, level=None,
                 stands="in", area=None)  # fmt: skip
    assert drawn.severity == "danger"


def test_a_bucket_in_the_sun_tells_less_than_one_in_the_pond() -> None:
    assert told(0.010, 0.010, 4.0)[0] == "right"
    assert told(0.010, 0.010, 4.0, "beside")[0] == "right"  # the pond lost less than by a pan
    assert told(0.020, 0.012, 2.0)[0] == "wrong"
    assert "wait for damp" in told(0.05, 0.05, 1.0)[2]


def test_dew_is_no_loss_of_nothing() -> None:
    cold = {"water": 283.15, "air": 303.15, "area": 10.0, "hose": None}
    dew = week_loss(WORKED, humidity=0.9, wind="some", **cold)  # type: ignore[arg-type]
    assert dew.dew
    assert dew.week.high == 0.0
    assert "gathers dew: nothing evaporates" in str(dew.remarks[0])
    open_yet = week_loss(WORKED, humidity=None, wind="some", **{**cold, "air": 293.15})  # type: ignore[arg-type]
    assert not open_yet.dew
    assert open_yet.week.likely == 0.0 < open_yet.week.high
    assert "mostly gathers dew" in " ".join(str(one) for one in open_yet.remarks)
    hot = week_loss(WORKED, humidity=0.5, wind="some", **{**cold, "water": 298.15})  # type: ignore[arg-type]
    assert "dew" not in " ".join(str(one) for one in hot.remarks)


def test_an_area_that_does_not_fit_the_water_is_said_first() -> None:
    for area, fits in ((5000.0, False), (0.5, False), (5.0, True), (40.0, True)):
        found = week_loss(WORKED, water=298.15, air=298.15, humidity=0.6, wind="some",
                          area=area, hose=None)  # fmt: skip
        assert fits is not bool(found.doubt), area
    test = leak(WORKED, drop=0.03, bucket=0.003, time=10 * DAY, level=None, stands="in",
                area=5000.0)  # fmt: skip
    assert "does not fit" in str(test.advice[0])
    assert test.severity == "wrong", "an hour that is left by a wrong area is nobody's"


BROOK = Stream(id="brook", name="Brook", length_m=6.0, width_m=0.5, fall_m=0.5, bed="gravel")
BASIN = Basin(id="b", name="Pond", outline=Rectangle(length_m=5, width_m=2), depth_m=1)
DRY = POND.model_copy(update={"water": Drawn(basins=(BASIN,))})
WET = DRY.model_copy(update={"fed": (BROOK,)})


def test_a_stream_s_water_goes_into_the_air_and_comes_out_of_the_pond() -> None:
    weather = {"water": 298.15, "air": 298.15, "humidity": 0.6, "wind": "some", "hose": None}
    assert beside_the_pond(DRY) == 0.0
    assert beside_the_pond(WET) == pytest.approx(3.0)
    alone = week_loss(WorkedPond(DRY), area=10.0, **weather)  # type: ignore[arg-type]
    both = week_loss(WorkedPond(WET), area=13.0, **weather)  # type: ignore[arg-type]
    assert both.week.likely == pytest.approx(1.3 * alone.week.likely)
    assert both.fall.likely == pytest.approx(1.3 * alone.fall.likely)
    assert both.steps[-1].result.value == pytest.approx(both.fall.likely / DAY)
    assert "splash" in str(both.remarks[-1])
    assert len(both.steps) == len(alone.steps) + 1
    less = week_loss(WorkedPond(WET), area=8.0, **weather)  # type: ignore[arg-type]
    assert less.fall.likely == pytest.approx(alone.fall.likely)


def test_what_a_stream_gives_to_the_air_is_no_leak() -> None:
    def asked(pond: Pond, area: float | None) -> tuple[str, str]:
        found = leak(WorkedPond(pond), drop=0.060, bucket=0.040, time=4.0 * DAY, level=None,
                     stands="in", area=area)  # fmt: skip
        return found.severity, " ".join(str(one) for one in found.advice)

    assert asked(DRY, 10.0)[0] == "wrong"
    severity, advice = asked(WET, 10.0)
    assert severity != "wrong"
    assert "what that may be is counted" in advice
    typed = WET.model_copy(update={"water": TypedVolume(volume_m3=5.0)})
    assert "not counted here" in asked(typed, None)[1]
    assert asked(typed, 10.0)[0] == severity
