"""What is corrected keeps what it was, the first and the newest of many corrections."""

from datetime import UTC, datetime, timedelta

from pondapp.answers.log.corrected import corrected
from pondapp.models.entry import Entry, FreeNote, WaterChange
from pondapp.models.limits import MOST_EARLIER
from pondapp.models.reading import Bucket, Container, Fill, MeterReading, Reading
from pondapp.store.documents import read_text

THEN = datetime(2026, 5, 6, tzinfo=UTC)
NOW = datetime(2026, 5, 7, tzinfo=UTC)
TUB = Container(id="tub", name="Tub", volume_m3=0.01, tolerance_m3=0.0002)


def reading() -> Reading:
    return Reading(
        id="r", pond_id="p", place_id="lip", place_name="Lip", taken_at=THEN, band=None,
        method=Bucket(container=TUB, fills=(Fill(seconds=9.5), Fill(seconds=9.7))),
    )  # fmt: skip


def test_only_what_is_another_now_is_kept() -> None:
    before = reading()
    after = corrected(before, before.model_copy(update={"note": "windy"}), NOW)
    (was,) = after.earlier
    assert (was.note, was.method, was.pond_id, was.changed_at) == ("", None, None, NOW)
    method = MeterReading(flow_m3_s=1e-3, tolerance=0.05)
    again = corrected(after, after.model_copy(update={"method": method}), NOW)
    assert [one.note for one in again.earlier] == ["", None]
    assert again.earlier[1].method == before.method
    assert corrected(again, again.model_copy(), NOW) == again  # nothing changed, nothing added


def test_a_move_keeps_where_it_was() -> None:
    before = reading()
    moved = before.model_copy(update={"pond_id": "q", "place_id": "bog", "place_name": "Lip"})
    (was,) = corrected(before, moved, NOW).earlier
    assert (was.pond_id, was.place_name, was.taken_at) == ("p", "Lip", None)


def test_an_entry_keeps_what_it_was() -> None:
    before = Entry(id="e", pond_id="p", when=THEN, what=WaterChange(volume_m3=0.2), note="a")
    after = Entry(id="e", pond_id="p", when=NOW, what=WaterChange(volume_m3=2.0), note="a")
    (was,) = corrected(before, after, NOW).earlier
    assert (was.what, was.when, was.note) == (before.what, THEN, None)


def test_many_corrections_are_bounded_and_stored() -> None:
    item = Entry(id="e", pond_id="p", when=THEN, what=FreeNote(), note="first")
    for number in range(50):
        changed = item.model_copy(update={"note": f"note {number}"})
        item = corrected(item, changed, NOW + timedelta(minutes=number))
    assert len(item.earlier) == MOST_EARLIER
    notes = [one.note for one in item.earlier]
    assert (notes[0], notes[1], notes[-1]) == ("first", "note 30", "note 48")
    assert read_text("entry", "p/e", Entry, item.model_dump_json()) == item


def test_readings_without_a_trail_open() -> None:
    text = reading().model_dump_json(exclude={"earlier"})
    assert read_text("reading", "p/r", Reading, text).earlier == ()
