"""What a place's earlier fills teach, and that a reading says the same ever after."""

import random
from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.measuring.methods import measured_by, measured_reading
from pondapp.answers.measuring.steadiness import steadiness_at
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    MeterReading,
    Reading,
    WeighedBucket,
    WeighedFill,
)

RULES = MeasuringAssumptions()
NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
TUB = Container(id="t", name="Tub", volume_m3=0.009, tolerance_m3=0.00005)


def reading(number: int, *times: float, place: str = "lip") -> Reading:
    return Reading(
        id=f"r{number}", pond_id="p", place_id=place, place_name="Lip", band=None,
        taken_at=NOW + timedelta(days=number),
        method=Bucket(container=TUB, fills=tuple(Fill(seconds=time) for time in times)),
    )  # fmt: skip


def newest_first(log: list[Reading]) -> list[Reading]:
    return sorted(log, key=lambda one: one.taken_at, reverse=True)


def test_a_steady_place_narrows_the_next_interval_and_the_reading_keeps_it() -> None:
    dice = random.Random(3)
    log = [reading(n, *(20.0 + dice.gauss(0.0, 0.06) for _ in range(3))) for n in range(6)]
    steady = steadiness_at(newest_first(log), "lip", RULES)
    assert steady is not None
    assert steady.earlier < 0.6
    method = reading(9, 20.0, 20.1, 19.95).method
    plain = measured_by(method, None, RULES)
    told = measured_by(method, None, RULES, steady)
    assert plain is not None
    assert told is not None
    assert told.flow.high - told.flow.low < 0.8 * (plain.flow.high - plain.flow.low)
    assert any(step.formula.startswith("s0 = k") for step in told.steps())
    # Saved with what was known then, it says the same whatever the log becomes.
    kept = reading(9, 20.0, 20.1, 19.95).model_copy(update={"steadiness": steady})
    again = Reading.model_validate_json(kept.model_dump_json())
    later = measured_reading(again, RULES)
    assert later is not None
    assert (later.flow.low, later.flow.high) == (told.flow.low, told.flow.high)


def test_a_restless_place_widens_it() -> None:
    log = [reading(n, 20.0, 21.0, 19.2) for n in range(5)]
    steady = steadiness_at(newest_first(log), "lip", RULES)
    assert steady is not None
    assert steady.earlier > 1.3


def test_only_repeated_fills_at_the_place_teach() -> None:
    meter = reading(1, 9.0).model_copy(
        update={"method": MeterReading(flow_m3_s=1e-3, tolerance=0.05)}
    )
    struck = reading(2, 9.0).model_copy(
        update={"method": Bucket(container=TUB, fills=(
            Fill(seconds=9.0), Fill(seconds=9.1, excluded=True)))}
    )  # fmt: skip
    other = reading(3, 9.0, 9.1, place="bog")
    slip = reading(4, 9.52, 7.27)
    assert steadiness_at([slip, other, struck, meter], "lip", RULES) is None
    assert steadiness_at([], "lip", RULES) is None
    assert expected_scatter(RULES).earlier == 1.0


def test_weighed_fills_teach_by_what_they_weigh() -> None:
    def weighed(*fills: tuple[float, float]) -> Reading:
        return reading(1, 9.0).model_copy(
            update={"method": WeighedBucket(
                empty_kg=0.4, scale_tolerance_kg=0.05,
                fills=tuple(WeighedFill(seconds=t, full_kg=m) for t, m in fills))}
        )  # fmt: skip

    even = steadiness_at([weighed((20.0, 9.4), (10.0, 4.9), (15.0, 7.15))], "lip", RULES)
    assert even is not None
    assert even.earlier == pytest.approx((4 / 6) ** 0.5, rel=1e-3)  # no scatter at all was seen
    assert steadiness_at([weighed((20.0, 0.3), (10.0, 4.9))], "lip", RULES) is None
