from datetime import UTC, datetime, timedelta

from ponds import BARE as POND

from pondapp.answers.care.due import days_between, due, usual_days, with_days
from pondapp.models.circuit import BogFilter, HighFlowFilter
from pondapp.models.entry import Cleaning, Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import MeterReading, Reading

BOX = HighFlowFilter(id="box", name="Box", media_volume_m3=0.03)
WITH_FOAM = POND.model_copy(update={"fed": (BOX,)})
NOW = datetime(2025, 6, 15, 12, tzinfo=UTC)


def ago(days: float) -> datetime:
    return NOW - timedelta(days=days)


def test_what_was_never_done_is_due() -> None:
    found = due(WITH_FOAM, [], NOW)
    assert [one.job for one in found] == ["test", "measure", "clean"]
    assert all(one.is_due and one.last is None for one in found)


def test_the_newest_of_each_kind_counts() -> None:
    meter = MeterReading(flow_m3_s=1e-4, tolerance=0.05)
    log = [
        Entry(id="t", pond_id="p", when=ago(6.5), what=WaterTest(ph=7)),
        Reading(id="r", pond_id="p", place_id="lip", place_name="Lip", taken_at=ago(14),
                method=meter, band=None),
        Entry(id="c", pond_id="p", when=ago(27), what=Cleaning(part="pump")),
        Entry(id="old", pond_id="p", when=ago(99), what=Cleaning(part="all")),
    ]  # fmt: skip
    found = {one.job: one for one in due(POND, log, NOW)}
    assert not found["test"].is_due
    assert str(found["test"].sentence) == "Test the water in 1 day."
    assert found["measure"].is_due
    assert str(found["measure"].sentence) == "Measure a flow: last done 14 days ago."
    assert found["clean"].last == ago(27)
    assert not found["clean"].is_due


def test_own_intervals_and_none_at_all() -> None:
    pond = with_days(with_days(POND, "test", 30), "clean", None)
    assert days_between(pond, "test") == 30
    assert [one.job for one in due(pond, [], NOW)] == ["test", "measure"]
    assert with_days(pond, "test", usual_days(pond, "test")).upkeep == pond.upkeep[1:]


def test_the_usual_interval_is_a_rule_of_the_pond() -> None:
    pond = POND.model_copy(update={"assumptions": {"care.test_every": 3 * 86400.0}})
    assert usual_days(pond, "test") == 3


def test_what_is_dated_in_the_future_is_not_done_yet() -> None:
    log = [Entry(id="t", pond_id="p", when=ago(-3), what=WaterTest(ph=7))]
    assert str(due(POND, log, NOW)[0].sentence) == "Test the water: no test is in the log yet."
    log.append(Entry(id="u", pond_id="p", when=ago(2), what=WaterTest(ph=7)))
    assert str(due(POND, log, NOW)[0].sentence) == "Test the water in 5 days."


def test_with_neither_pump_nor_foam_there_is_nothing_to_clean() -> None:
    def jobs(pond: Pond) -> list[str]:
        return [one.job for one in due(pond, [], NOW)]

    bog = BogFilter(id="bog", name="Bog", bed_volume_m3=0.1)
    assert jobs(POND.model_copy(update={"fed": (bog,)})) == ["test", "measure"]
    assert jobs(POND.model_copy(update={"fed": (bog, BOX)})) == ["test", "measure", "clean"]
