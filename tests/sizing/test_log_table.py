"""The log as a table: the reader's units, and nothing that a spreadsheet would run."""

import csv
import io
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.models.reading import Band, Bucket, Container, Fill, MeterReading, Reading
from pondapp.sizing.backup_due import MANY_READINGS, backup_due
from pondapp.sizing.log_table import FORMULA_STARTS, harmless, log_table

TUB = Container(id="tub", name="Tub", volume_m3=0.009, tolerance_m3=0.0002)


def reading(note: str = "", place: str = "Lip", day: int = 1) -> Reading:
    return Reading(
        id=f"r{day}", pond_id="p", place_id="lip", place_name=place,
        taken_at=datetime(2026, 5, day, 12, tzinfo=UTC),
        method=Bucket(container=TUB, fills=(Fill(seconds=9), Fill(seconds=9), Fill(seconds=9))),
        band=Band(low_m3_s=0.5e-3, target_m3_s=1e-3, high_m3_s=None), note=note,
    )  # fmt: skip


def rows(data: bytes) -> list[list[str]]:
    assert data.startswith(b"\xef\xbb\xbf")
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_numbers_are_in_the_units_named_above_them() -> None:
    for system, unit, flow in (("metric", "L/h", "3600"), ("us", "gal/h", "951")):
        head, row = rows(log_table([reading()], {"p": "Größe"}, system))
        assert head[4] == f"Flow ({unit})"
        assert row[1] == "Größe"
        assert row[4] == flow
        assert row[8] == ""  # no upper end of the band


def test_oldest_first_and_every_reading_a_row_of_equal_length() -> None:
    impossible = reading(day=2).model_copy(
        update={"method": MeterReading(flow_m3_s=1e-3, tolerance=1)}
    )
    found = rows(log_table([reading(day=3), impossible, reading(day=1)], {}, "metric"))
    assert len(found) == 4
    assert {len(row) for row in found} == {11}
    assert [row[0][:10] for row in found[1:]] == ["2026-05-01", "2026-05-02", "2026-05-03"]


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "\r=1", "=cmd|' /C calc'!A0", "＝1"]
)
def test_formulas_are_defused(text: str) -> None:
    assert harmless(text).startswith("'")
    row = rows(log_table([reading(note=text, place=text)], {"p": text}, "metric"))[1]
    assert row[10].startswith("'")
    assert row[2].startswith("'")


@given(st.text(min_size=1, max_size=80), st.text(max_size=200), st.text(max_size=80))
@settings(max_examples=60)
def test_no_cell_starts_a_formula_and_no_text_is_lost(place: str, note: str, pond: str) -> None:
    place, note, pond = (text.encode("utf-8", "replace").decode() for text in (place, note, pond))
    row = rows(log_table([reading(note=note, place=place)], {"p": pond}, "us"))[1]
    for cell, text in ((row[1], pond), (row[2], place), (row[10], note)):
        assert cell.removeprefix("'") == text.removeprefix("'")
        assert not cell.lstrip(" \u00a0\ufeff").startswith(FORMULA_STARTS)


def test_the_reminder_counts_what_is_in_no_backup() -> None:
    assert backup_due(MANY_READINGS - 1, 0) == 0
    assert backup_due(MANY_READINGS, 0) == MANY_READINGS
    assert backup_due(MANY_READINGS, MANY_READINGS) == 0
    assert backup_due(0, 50) == 0
