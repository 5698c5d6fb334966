import json
from datetime import UTC, datetime, timedelta, timezone

import pytest
from pydantic import ValidationError

from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    FreeNote,
    Photo,
    PumpChange,
    WaterChange,
    WaterTest,
    What,
    WorkDone,
)
from pondapp.store.documents import read_text
from pondapp.store.key_value_store import StoreError

EVERY: tuple[What, ...] = (
    WaterTest(temperature_c=18.5, ph=7.4, total_ammonia_kg_m3=0.00025, salt_kg_m3=0.0),
    WaterChange(volume_m3=0.2),
    Dose(what="Bacteria", amount="2 caps"),
    Feed(amount_kg=0.03),
    FishChange(change="lost", what="Goldfish", count=2),
    Cleaning(part="filter"),
    PumpChange(what="The larger one"),
    WorkDone(what="Net taken down", job="net-off"),
    WorkDone(what="Reeds cut"),
    Photo(jpeg="/9j/4AAQ"),
    FreeNote(),
)


def entry(what: What, note: str = "windy") -> Entry:
    return Entry(
        id="e", pond_id="p", when=datetime(2025, 6, 1, 9, 30, tzinfo=UTC), what=what, note=note
    )


@pytest.mark.parametrize("what", EVERY, ids=lambda what: str(what.kind))
def test_every_kind_comes_back_equal(what: What) -> None:
    assert Entry.model_validate_json(entry(what).model_dump_json()) == entry(what)


def test_an_entry_must_say_something() -> None:
    with pytest.raises(ValidationError, match="needs its text"):
        entry(FreeNote(), note=" ")
    with pytest.raises(ValidationError, match="at least one value"):
        WaterTest()


def test_a_kind_holds_its_own_values_only() -> None:
    kept = json.loads(entry(EVERY[1]).model_dump_json())
    kept["what"]["kind"] = "feed"
    with pytest.raises(ValidationError):
        Entry.model_validate(kept)
    kept["what"] = {"kind": "sunbathing"}
    with pytest.raises(ValidationError):
        Entry.model_validate(kept)


@pytest.mark.parametrize("jpeg", ["", "iVBORw0K", "/9j/<svg>", "/9j/" + "A" * 130_000])
def test_a_photo_is_a_small_jpeg_or_nothing(jpeg: str) -> None:
    with pytest.raises(ValidationError):
        Photo(jpeg=jpeg)


@pytest.mark.parametrize(
    ("when", "kept"),
    [
        ("1970-01-01T00:00:00Z", True), ("2199-12-31T23:59:59Z", True),
        ("2199-12-31T23:00:00-12:00", False), ("2200-01-01T05:00:00+12:00", True),
        ("9999-12-31T23:59:59-12:00", False), ("0001-01-01T00:00:00+12:00", False),
        ("1969-12-31T23:59:59Z", False), ("1970-01-01T05:00:00+12:00", False),
    ],
)  # fmt: skip
def test_a_moment_is_one_that_every_time_zone_can_show(when: str, kept: bool) -> None:
    text = entry(FreeNote()).model_dump_json().replace("2025-06-01T09:30:00Z", when)
    if not kept:
        with pytest.raises(StoreError, match="not from 1970 to 2199"):
            read_text("entry", "p/e", Entry, text)
        return
    found = read_text("entry", "p/e", Entry, text)
    for hours in (-12, 14):
        assert found.when.astimezone(timezone(timedelta(hours=hours))) == found.when
