import json
from datetime import UTC, datetime

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
)

EVERY: tuple[What, ...] = (
    WaterTest(temperature_c=18.5, ph=7.4, total_ammonia_kg_m3=0.00025, salt_kg_m3=0.0),
    WaterChange(volume_m3=0.2),
    Dose(what="Bacteria", amount="2 caps"),
    Feed(amount_kg=0.03),
    FishChange(change="lost", what="Goldfish", count=2),
    Cleaning(part="filter"),
    PumpChange(what="The larger one"),
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
