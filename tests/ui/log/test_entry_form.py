"""What is typed on a form becomes an entry, or sentences beside its fields."""

from datetime import UTC, datetime

import pytest

from pondapp import units
from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    FreeNote,
    PumpChange,
    WaterChange,
    WaterTest,
    What,
    WorkDone,
)
from pondapp.ui.log.entry_form import read_entry, texts_of
from pondapp.ui.log.log_words import headline

NOW = datetime(2025, 6, 15, 12, 34, 56, tzinfo=UTC)
EVERY: tuple[What, ...] = (
    WaterTest(temperature_c=18.5, ph=7.4, total_ammonia_kg_m3=0.00025, nitrite_kg_m3=0.0),
    WaterChange(volume_m3=0.2),
    Dose(what="Bacteria", amount="2 caps"),
    Feed(amount_kg=0.03),
    FishChange(change="lost", what="Goldfish", count=2),
    Cleaning(part="filter"),
    PumpChange(what="The larger one"),
    WorkDone(what="Net taken down", job="net-off"),
    FreeNote(),
)


def read(texts: dict[str, str], kind: str) -> tuple[Entry | None, dict[str, str]]:
    return read_entry(texts, kind, "e", "p", "metric", NOW)


@pytest.mark.parametrize("system", units.SYSTEMS)
@pytest.mark.parametrize("what", EVERY, ids=lambda what: str(what.kind))
def test_an_entry_that_is_only_looked_at_stays_as_it_is(what: What, system: str) -> None:
    when = datetime(2025, 6, 1, 9, 30, tzinfo=UTC)
    entry = Entry(id="e", pond_id="p", when=when, what=what, note="windy")
    made, errors = read_entry(texts_of(entry, system), what.kind, "e", "p", system, NOW)
    assert errors == {}
    assert made is not None
    assert made.when == when
    assert made.note == "windy"
    assert texts_of(made, system) == texts_of(entry, system)
    assert headline(made, system)


def test_a_moment_left_alone_is_not_judged_by_a_clock_that_was_set_back() -> None:
    later = NOW.replace(year=2026)
    entry = Entry(id="e", pond_id="p", when=later, what=WaterChange(volume_m3=0.2))
    texts = {**texts_of(entry, "metric"), "note": "put right"}
    made, errors = read_entry(texts, "water_change", "e", "p", "metric", NOW, later)
    assert (made, errors) == (entry.model_copy(update={"note": "put right"}), {})  # to the second
    _, errors = read_entry(texts, "water_change", "e", "p", "metric", NOW)
    assert "date" in errors


def test_left_alone_the_time_is_now() -> None:
    made, _ = read({"changed_water": "200"}, "water_change")
    assert made is not None
    assert made.when == NOW.replace(second=0)


def test_decimal_commas_and_nothing_of_a_poison_is_a_value() -> None:
    made, errors = read({"temperature": "18,5", "ammonia": "0", "general_hardness": "8"},
                        "water_test")  # fmt: skip
    assert errors == {}
    assert made is not None
    assert isinstance(made.what, WaterTest)
    assert made.what.temperature_c == 18.5
    assert made.what.total_ammonia_kg_m3 == 0.0
    assert made.what.general_hardness_kg_m3 == pytest.approx(0.142784)


@pytest.mark.parametrize(
    ("kind", "texts", "field"),
    [
        ("water_test", {"ph": "15"}, "ph"),
        ("water_test", {"oxygen": "wet"}, "oxygen"),
        ("feed", {"feed": "0"}, "feed"),
        ("fish", {"what": "Tench", "count": "1.5"}, "count"),
        ("dose", {"what": "x" * 81}, "what"),
        ("cleaning", {"date": "soon"}, "date"),
        ("cleaning", {"date": "2030-01-01"}, "date"),
        ("cleaning", {"time": "25:00"}, "time"),
        ("note", {"note": "x" * 4001}, "note"),
    ],
)
def test_what_is_wrong_is_told_beside_its_field(
    kind: str, texts: dict[str, str], field: str
) -> None:
    made, errors = read(texts, kind)
    assert made is None
    assert set(errors) == {field}
    assert len(errors[field]) > 15


@pytest.mark.parametrize("kind", ["water_test", "water_change", "dose", "fish", "note"])
def test_an_empty_form_is_no_entry_and_no_error(kind: str) -> None:
    assert read({}, kind) == (None, {})
