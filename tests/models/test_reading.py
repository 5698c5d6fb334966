"""A reading holds any method, and those kept before there were several are still read."""

import json
from datetime import UTC, datetime

import pytest
from pydantic import ValidationError

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

FILLS = (Fill(seconds=54.0), Fill(seconds=55.0, excluded=True))
METHODS: tuple[Method, ...] = (
    Bucket(
        container=Container(id="b", name="B", volume_m3=0.009, tolerance_m3=0.0002), fills=FILLS
    ),
    WeighedBucket(
        empty_kg=0.4, scale_tolerance_kg=0.05, fills=(WeighedFill(seconds=50.0, full_kg=9.3),)
    ),
    LevelDrop(
        area_m2=2.0, area_tolerance_m2=0.1, drop_m=0.02, level_tolerance_m=0.001, fills=FILLS
    ),
    FilledSpace(
        volume_m3=0.1, volume_tolerance_m3=0.005, porosity=0.4, porosity_tolerance=0.05, fills=FILLS
    ),
    LipDepth(
        head_m=0.012, head_tolerance_m=0.001, width_m=0.3, width_tolerance_m=0.005,
        crest_height_m=0.1,
    ),
    MeterReading(flow_m3_s=3e-4, tolerance=0.05),
)  # fmt: skip


def reading(method: Method) -> Reading:
    return Reading(
        id="r", pond_id="p", place_id="bog", place_name="Bog",
        taken_at=datetime(2025, 6, 1, 9, 30, tzinfo=UTC), method=method, band=None,
    )  # fmt: skip


@pytest.mark.parametrize("method", METHODS, ids=lambda method: str(method.kind))
def test_every_method_comes_back_equal(method: Method) -> None:
    assert Reading.model_validate_json(reading(method).model_dump_json()) == reading(method)


def test_a_reading_without_a_method_of_its_own_is_a_bucket() -> None:
    kept = json.loads(reading(METHODS[0]).model_dump_json())
    bucket = kept.pop("method")
    del bucket["kind"]
    assert Reading.model_validate_json(json.dumps({**kept, **bucket})) == reading(METHODS[0])


def test_neither_both_nor_none() -> None:
    kept = json.loads(reading(METHODS[0]).model_dump_json())
    with pytest.raises(ValidationError):
        Reading.model_validate({**kept, "container": kept["method"]["container"]})
    del kept["method"]
    with pytest.raises(ValidationError):
        Reading.model_validate(kept)


def test_an_excluded_fill_is_stored_by_the_name_it_has_always_had() -> None:
    assert Fill.model_validate_json('{"seconds": 9.0, "struck": true}').excluded
    assert json.loads(Fill(seconds=9.0, excluded=True).model_dump_json())["struck"] is True
