"""What follows from a stream at its pond."""

import re
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from samples_of_kinds import SAMPLES

from pondapp import units
from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.features.kind import Told
from pondapp.answers.features.stream import KIND, running, sheet_of, water_of
from pondapp.answers.features.targets import targets
from pondapp.answers.picture.states import states_of
from pondapp.answers.plumbing.path import assumed_lift, lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.shopping import bill
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Range
from pondapp.models.circuit import Stream
from pondapp.models.pond import Pond
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume, Water

RULES = Assumptions()
DRAWN = Drawn(
    basins=(Basin(id="b", name="Pond", outline=Rectangle(length_m=4, width_m=2), depth_m=1),)
)
BROOK = SAMPLES["stream"]
assert isinstance(BROOK, Stream)
NOW = datetime(2026, 11, 27, 12, tzinfo=UTC)
FLOW = 8.0 / 3600.0  # the plan's: all of the pond once an hour


def pond_with(*streams: Stream, water: Water = DRAWN, **more: Any) -> Pond:
    return Pond(id="p", name="Invented", water=water, fed=streams, **more)


def told(
    *streams: Stream, water: Water = DRAWN, read: float | None = FLOW / 2, days: int = 1
) -> tuple[Told, ...]:
    """What is told of the first stream, each read so many days ago; of less than is planned."""
    worked = WorkedPond(pond_with(*streams, water=water))
    meter = MeterReading(flow_m3_s=read or 0.0, tolerance=0.03) if read else None
    log = [
        Reading(
            id=f"r-{one.id}", pond_id="p", place_id=one.id, place_name=one.name,
            taken_at=NOW - timedelta(days=days), method=meter, band=None,
        )
        for one in streams
        if meter
    ]  # fmt: skip
    return told_of(worked, streams[0], states_of(worked, log, NOW))


def changed(**values: Any) -> Stream:
    assert isinstance(BROOK, Stream)
    return BROOK.model_copy(update=values)


def severities(found: tuple[Told, ...]) -> list[str]:
    return [one.severity for one in found if one.severity]


def words(found: tuple[Told, ...], system: str = "metric") -> str:
    parts = [part for one in found for part in (one.value, one.remark) if part]
    return " ".join(units.tell(part, system) for part in parts)


def test_it_wants_flow_by_its_width_and_is_lifted_as_high_as_it_falls() -> None:
    pond = pond_with(BROOK)
    place = targets(pond).places[0]
    assert place.asked == pytest.approx(8.0 / 3600.0 * 0.5)
    assert place.aim == "good"
    assert [step.result.value for step in place.steps()] == [
        place.band.low, place.band.target, place.band.high,
    ]  # fmt: skip
    assert assumed_lift(pond, lines_of(pond)[0].branches[0]) == (BROOK.fall_m, True)


def test_depth_and_speed_are_those_of_the_planned_flow() -> None:
    found = told(BROOK)
    channel = running(BROOK, FLOW)
    assert found[1].value.values["range"] == Range(channel.depth.low, channel.depth.high, "small")
    assert "stand out of the water" in words(found)
    assert found[1].steps()
    smooth = told(changed(bed="liner", pools=None))
    assert "stand out of the water" not in words(smooth)


def test_a_range_tells_its_unit_once_and_has_two_digits() -> None:
    said = [units.tell(one.value, "metric") for one in told(BROOK)]
    for unit in ("mm", "m/s", "min", "L"):
        ranges = [one for one in said if re.fullmatch(rf"[\d.,]+ to [\d.,]+ {unit}", one)]
        assert ranges, (unit, said)
    assert re.search(r"rises by [\d.]+ to [\d.]+ mm", " ".join(said))


def test_the_pond_rises_by_what_runs_back() -> None:
    water = water_of(BROOK, FLOW, RULES)
    rise = water.returning.times(1 / 8.0)
    for rim, severity in (
        (rise.high * 1.01, "right"), (rise.high * 0.99, "wrong"), (rise.low * 0.99, "wrong"),
        (None, "unknown"),
    ):  # fmt: skip
        found = told(changed(freeboard_m=rim))
        assert severities(found)[0] == severity
    assert "may overflow" in words(told(changed(freeboard_m=rise.high * 0.99)))
    assert "and overflows" in words(told(changed(freeboard_m=rise.low * 0.99)))


def test_what_flows_counts_where_it_is_more_than_planned() -> None:
    rim = water_of(BROOK, FLOW, RULES).returning.high / 8.0 * 1.01
    brook = changed(freeboard_m=rim)
    found = told(brook, read=1.5 * FLOW)
    assert severities(found)[0] == "wrong"
    assert "overflow" in words(found)
    assert "Up to 12,400 L/h, as measured" in words(found)  # 12,000 L/h, and 3 % of doubt
    less = told(brook)
    assert severities(less) == ["right", "right"]
    assert "8,000 L/h, as planned Less was measured." in words(less)


@pytest.mark.parametrize(("read", "days"), [(None, 1), (1.5 * FLOW, 400), (1.5 * FLOW, -5)])
def test_a_plan_that_nobody_measured_is_no_tick(read: float | None, days: int) -> None:
    rise = water_of(BROOK, FLOW, RULES).returning.high / 8.0
    found = told(changed(freeboard_m=rise * 1.01), read=read, days=days)
    assert severities(found) == ["unknown", "unknown"]
    assert "As planned the pond rises by" in words(found)
    assert "As planned the pond sinks by" in words(found)
    assert "No reading says how much flows now." in words(found)
    assert severities(told(changed(freeboard_m=rise * 0.9), read=read, days=days))[0] == "wrong"


def test_the_first_start_may_leave_the_pump_dry() -> None:
    sink = water_of(BROOK, FLOW, RULES).filling.times(1 / 8.0)
    for inlet, severity in (
        (sink.high * 1.01, "right"), (sink.high * 0.99, "wrong"), (None, "unknown"),
    ):  # fmt: skip
        found = told(changed(inlet_depth_m=inlet))
        assert severities(found)[1] == severity
    assert "run dry" in words(told(changed(inlet_depth_m=sink.low / 2)))


def test_a_stream_that_empties_the_pond_at_its_first_start_is_a_danger() -> None:
    # Three pools of 2 m by 1 m, 0.3 m deep, keep 1.8 m³.
    pools = {"pools": 3, "pool_length_m": 2.0, "pool_width_m": 1.0, "pool_depth_m": 0.3}
    large = changed(length_m=8.0, weir_width_m=0.3, **pools)
    for volume, severity in ((2.5, "danger"), (1.5, "danger"), (20.0, "unknown")):
        water = TypedVolume(volume_m3=volume)
        assert severities(told(large, water=water, read=None))[-1] == severity
        assert severities(told(large, water=water))[-1] == "unknown", "it has run"
    text = words(told(large, water=TypedVolume(volume_m3=1.5)))
    assert "the pond holds 1,500 L: fill the stream by a hose first" in text
    drawn = told(large, read=None, water=DRAWN.model_copy(
        update={"basins": (DRAWN.basins[0].model_copy(update={"depth_m": 0.3}),)}
    ))  # fmt: skip
    assert "danger" in severities(drawn)
    assert "sinks by" not in words(drawn), "no level below the floor"


def test_when_the_power_fails_all_streams_run_back() -> None:
    alone = water_of(BROOK, FLOW, RULES).returning.times(1 / 8.0)
    both = told(changed(freeboard_m=alone.high * 1.01), changed(id="two", name="Second"))
    assert severities(both)[0] == "wrong"


def test_what_is_not_known_is_asked_for() -> None:
    no_area = told(BROOK, water=TypedVolume(volume_m3=8.0))
    assert "Draw the pond" in words(no_area)
    assert severities(no_area) == ["unknown"]
    no_pools = told(changed(pool_depth_m=None))
    assert severities(no_pools) == ["unknown"]
    assert "how large the pools are" in words(no_pools)
    assert severities(told(changed(pools=0, pool_depth_m=None))) == ["right", "right"]


def test_what_cannot_be_is_said_and_the_rest_told() -> None:
    steep = told(changed(fall_m=6.0))
    assert severities(steep) == ["unknown"]
    assert "waterfall" in words(steep)
    with pytest.raises(OutOfRange):
        running(changed(fall_m=6.0), FLOW)
    film = told(changed(weir_width_m=20.0))
    assert [one.label for one in film[1:3]] == ["How deep its water is", "How fast it runs"]
    assert "film" in words(film)
    other = told(BROOK, changed(id="two", name="Second", pool_length_m=5.0))
    assert "longer than the stream" in words(other)


def test_it_is_told_in_the_readers_units() -> None:
    assert "in" in words(told(BROOK), "us")
    assert "mm" not in words(told(BROOK), "us")


def test_liner_and_stones_are_on_the_list() -> None:
    items = {item.key: item for item in bill(WorkedPond(pond_with(BROOK))).items}
    sheet = sheet_of(BROOK, RULES)
    assert items["liner.one"].need.quantity == pytest.approx(sheet.area)
    assert sheet.length == pytest.approx(6.0 + 4 * 0.25 + 0.6)
    assert sheet.width == pytest.approx(1.0 + 2 * 0.45 + 0.6)
    stones = items["gravel.one"].need
    assert stones.quantity == 24  # 6 m by 0.5 m by 0.1 m, 5 % to spare, 1520 kg/m3, bags of 20 kg
    assert stones.working()[0].result.value == pytest.approx(6.0 * 0.5 * 0.1)
    smooth = bill(WorkedPond(pond_with(changed(bed="liner"))))
    assert "gravel.one" not in [item.key for item in smooth.items]


def test_no_filter_may_be_smaller_for_it() -> None:
    told_beside_fish = KIND.stock_words((BROOK,), 8.0, RULES)
    assert "nothing of it is counted" in units.tell(told_beside_fish, "metric")


def test_a_pond_that_overflows_is_an_open_matter_once() -> None:
    low = changed(freeboard_m=0.001)
    pond = pond_with(low, low.model_copy(update={"id": "two", "name": "Second"}))
    matters = open_matters(WorkedPond(pond), [], datetime(2026, 7, 1, tzinfo=UTC)).matters
    found = [one for one in matters if "its rim" in one.sentence.template]
    assert [(one.severity, one.goal, one.at) for one in found] == [("wrong", "place", "one")]
    calm = open_matters(WorkedPond(pond_with(BROOK)), [], datetime(2026, 7, 1, tzinfo=UTC)).matters
    assert not [one for one in calm if "its rim" in one.sentence.template]


def test_a_time_has_two_digits_in_the_unit_that_it_is_told_in() -> None:
    pools = {"pool_length_m": 0.8, "pool_width_m": 1.6, "pool_depth_m": 0.2, "weir_width_m": 0.3}
    brook = changed(length_m=3.0, pools=2, **pools)
    (time,) = (one for one in told(brook) if one.label == "Time on its way")
    assert units.tell(time.value, "metric") == "4.1 to 4.7 min"  # not 4.17, of 250 s


def test_its_open_water_is_that_of_bed_and_pools() -> None:
    plain = Stream(id="s", name="Bare", length_m=5.0, width_m=0.4, fall_m=0.5, bed="cobbles")
    assert KIND.open_water(plain) == pytest.approx(2.0)
    pools = {"pool_length_m": 0.8, "pool_width_m": 0.6, "pool_depth_m": 0.2, "weir_width_m": 0.3}
    held = plain.model_copy(update={"pools": 2, **pools})
    assert KIND.open_water(held) == pytest.approx(3.4 * 0.4 + 1.6 * 0.6)
    assert KIND.open_water(plain.model_copy(update={"pools": 2})) == pytest.approx(2.0)
