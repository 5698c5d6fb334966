from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.features.targets import targets
from pondapp.answers.log.charts import (
    FULLNESS,
    MOST_POINTS,
    TOXIC,
    flow_chart,
    places_in,
    start_of,
    thinned,
    values_read,
    water_chart,
)
from pondapp.answers.log.dates import calendar_marks
from pondapp.answers.log.log import newest_first
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import Lip
from pondapp.models.entry import Cleaning, Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Fill, MeterReading, Reading
from pondapp.models.water import TypedVolume

START = datetime(2025, 4, 1, 12, tzinfo=UTC)
POND = Pond(
    id="p", name="Invented", water=TypedVolume(volume_m3=1),
    fed=(Lip(id="lip", name="Lip", width_m=0.3),),
)  # fmt: skip


def reading(day: float, place: str = "lip") -> Reading:
    return Reading(
        id=f"r{day:.0f}{place}", pond_id="p", place_id=place, place_name=place,
        taken_at=START + timedelta(days=day),
        method=MeterReading(flow_m3_s=1e-3, tolerance=0.05), band=None,
    )  # fmt: skip


def water(day: float, **values: float) -> Entry:
    when = START + timedelta(days=day)
    return Entry(id=f"w{day:.0f}", pond_id="p", when=when, what=WaterTest(**values))


def cleaning(day: float) -> Entry:
    when = START + timedelta(days=day)
    return Entry(id=f"c{day:.0f}", pond_id="p", when=when, what=Cleaning(part="pump"))


LOG = newest_first(
    [
        reading(0), reading(10), reading(11, "bog"), cleaning(12), reading(20),
        water(5, ph=8.4, total_ammonia_kg_m3=5e-4, temperature_c=20.0),
        water(15, oxygen_kg_m3=8e-3, temperature_c=20.0),
    ]
)  # fmt: skip


def test_a_flow_with_its_range_its_band_and_the_cleanings() -> None:
    found = flow_chart(WorkedPond(POND), "lip", LOG, None)
    assert [point.when for point in found.points] == [
        START + timedelta(days=day) for day in (0, 10, 20)
    ]
    assert all(point.low < point.value < point.high for point in found.points)
    band = targets(POND).places[0].band
    assert (found.low, found.high) == (band.low, band.high)
    assert found.cleanings == (START + timedelta(days=12),)


def test_only_the_chosen_time() -> None:
    start = start_of(15, START + timedelta(days=24))
    assert len(flow_chart(WorkedPond(POND), "lip", LOG, start).points) == 2
    assert start_of(None, START) is None


def test_values_that_were_read_and_what_follows_from_them() -> None:
    assert list(places_in(LOG)) == ["lip", "bog"]
    assert values_read(LOG) == ["temperature", "ph", "ammonia", "oxygen", TOXIC, FULLNESS]
    assert len(water_chart(POND, "temperature", LOG, None).points) == 2
    (toxic,) = water_chart(POND, TOXIC, LOG, None).points
    assert 1e-5 < toxic.value < 1e-4
    (fullness,) = water_chart(POND, FULLNESS, LOG, None).points
    assert 0.8 < fullness.value < 1.0


def test_a_long_log_is_thinned_and_keeps_its_ends() -> None:
    log = newest_first([reading(day) for day in range(500)])
    found = flow_chart(WorkedPond(POND), "lip", log, None)
    assert len(found.points) == MOST_POINTS
    assert found.of == 500
    assert found.points[0].when == START
    assert found.points[-1].when == START + timedelta(days=499)


@settings(max_examples=30)
@given(st.integers(0, 300), st.integers(2, 60))
def test_thinning_keeps_order_and_picks_none_twice(count: int, most: int) -> None:
    items = [cleaning(day) for day in range(count)]
    kept = thinned(items, most)
    assert len(kept) == min(count, most)
    assert kept == [item for item in items if item in kept]


@settings(max_examples=60)
@given(
    st.integers(0, 20_000).map(lambda hours: START + timedelta(hours=7 * hours)),
    st.floats(0.5, 9000), st.integers(2, 8),
)  # fmt: skip
def test_marks_of_time_are_few_and_inside(start: datetime, days: float, most: int) -> None:
    end = start + timedelta(days=days)
    marks = [when for when, _, _ in calendar_marks(start, end, most)]
    assert len(marks) <= most + 1
    assert marks == sorted(set(marks))
    assert all(start <= mark <= end for mark in marks)
    if days >= 14 * most:  # too long for a mark each fortnight
        assert all(mark.day == 1 for mark in marks)


def test_a_place_that_is_gone_keeps_the_band_of_its_last_reading() -> None:
    band = Band(low_m3_s=1e-3, target_m3_s=2e-3, high_m3_s=None)
    old = reading(3, "gone").model_copy(update={"band": band})
    found = flow_chart(WorkedPond(POND), "gone", newest_first([old, reading(2, "gone")]), None)
    assert (found.low, found.high) == (1e-3, None)
    bare = flow_chart(WorkedPond(POND), "gone", newest_first([old, reading(9, "gone")]), None)
    assert (bare.low, bare.high) == (None, None)


def test_a_reading_without_a_fill_that_counts_is_no_point() -> None:
    tub = Container(id="t", name="Tub", volume_m3=0.04, tolerance_m3=0.001)
    struck = reading(1).model_copy(
        update={"method": Bucket(container=tub, fills=(Fill(seconds=9.0, excluded=True),))}
    )
    found = flow_chart(WorkedPond(POND), "lip", newest_first([reading(0), struck]), None)
    assert [point.when for point in found.points] == [START]
    assert found.of == 2
