"""The log as a table: the reader's units, and nothing that a spreadsheet would run."""

import csv
import io
import re
import unicodedata
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.care.backup_due import MANY_ITEMS, backup_due, own_items
from pondapp.answers.log.log_table import _ANYWHERE, _FIRST, _SPLIT, harmless, log_table
from pondapp.answers.sharing.example import EXAMPLE
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
from pondapp.models.reading import (
    Band,
    Bucket,
    Container,
    EarlierReading,
    Fill,
    MeterReading,
    Reading,
)

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


def entry(what: What, note: str = "", day: int = 4) -> Entry:
    when = datetime(2026, 5, day, 12, tzinfo=UTC)
    return Entry(id=f"e{day}", pond_id="p", when=when, what=what, note=note)


MADE_SAFE = re.compile(rf"^'(?={_FIRST})|(?:^|(?<=[{_SPLIT}]))'(?={_ANYWHERE})")


def as_typed(cell: str) -> str:
    """The text of a cell without the apostrophes that make it harmless."""
    return MADE_SAFE.sub("", cell)


def told(
    items: list[Reading | Entry], ponds: dict[str, str] | None = None, system: str = "metric"
) -> list[dict[str, str]]:
    head, *rest = rows(log_table(items, ponds or {}, system))
    assert len(set(head)) == len(head)
    return [dict(zip(head, row, strict=True)) for row in rest]


def test_every_kind_of_entry_has_a_row_that_tells_what_it_holds() -> None:
    test = WaterTest(temperature_c=20, ph=7.5, total_ammonia_kg_m3=0, nitrate_kg_m3=0.02)
    items: list[Reading | Entry] = [
        reading(day=1),
        entry(test, day=2),
        entry(WaterChange(volume_m3=1.5), day=3),
        entry(Dose(what="Salt", amount="2 scoops"), day=4),
        entry(Feed(amount_kg=0.025), day=5),
        entry(FishChange(change="lost", what="Orfe", count=12345), day=6),
        entry(Cleaning(part="filter"), day=7),
        entry(PumpChange(what="New impeller"), day=8),
        entry(WorkDone(what="Net taken down"), day=8),
        entry(FreeNote(), note="Frogs", day=9),
    ]
    found = told(items)
    assert len({cells["Kind"] for cells in found}) == len(items)
    _, water, change, dose, feed, fish, cleaning, pump, work, note = found
    assert (water["Temperature (°C)"], water["pH"]) == ("20", "7.5")
    assert (water["Ammonia (mg/L)"], water["Nitrate (mg/L)"]) == ("0", "20")
    assert water["Nitrite (mg/L)"] == ""  # not read, which is not zero
    assert change["Water changed (L)"] == "1500"
    assert (dose["What"], dose["How much, as on the label"]) == ("Salt", "2 scoops")
    assert feed["Feed (g)"] == "25"
    assert (fish["How"], fish["Fish"], fish["What"]) == ("Lost", "12345", "Orfe")
    assert cleaning["What"] == "Filter"
    assert (pump["What"], note["Note"]) == ("New impeller", "Frogs")
    assert work["What"] == "Net taken down"
    in_us = told(items, system="us")
    assert in_us[1]["Temperature (°F)"] == "68"
    assert in_us[2]["Water changed (gal)"] == "396.3"


def test_numbers_are_in_the_units_named_above_them() -> None:
    for system, unit, flow in (("metric", "L/h", "3600"), ("us", "gal/h", "951")):
        head, row = rows(log_table([reading()], {"p": "Größe"}, system))
        cells = dict(zip(head, row, strict=True))
        assert cells["Kind"] == "Flow reading"
        assert cells["Pond"] == "Größe"
        assert cells[f"Flow ({unit})"] == flow
        assert cells[f"Wanted to ({unit})"] == ""  # no upper end of the band


def test_oldest_first_and_every_reading_a_row_of_equal_length() -> None:
    impossible = reading(day=2).model_copy(
        update={"method": MeterReading(flow_m3_s=1e-3, tolerance=1)}
    )
    found = rows(log_table([reading(day=3), impossible, reading(day=1)], {}, "metric"))
    assert len(found) == 4
    assert len({len(row) for row in found}) == 1
    assert [row[0][:10] for row in found[1:]] == ["2026-05-01", "2026-05-02", "2026-05-03"]


@pytest.mark.parametrize(
    "text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", " =1", "\r=1", "=cmd|' /C calc'!A0", "＝1"]
)
def test_formulas_are_defused(text: str) -> None:
    assert harmless(text).startswith("'")
    items = [
        reading(note=text, place=text),
        entry(Dose(what=text, amount=text), note=text),
        entry(FishChange(change="added", what=text, count=3)),
        entry(PumpChange(what=text)),
    ]
    for cells in told(items, {"p": text}):
        typed = ("Place", "What", "How much, as on the label", "Note", "Pond")
        assert all(cells[key].startswith("'") for key in typed if cells[key])


@given(st.text(min_size=1, max_size=80), st.text(max_size=200), st.text(max_size=80))
@settings(max_examples=60)
def test_no_cell_starts_a_formula_and_no_text_is_lost(place: str, note: str, pond: str) -> None:
    place, note, pond = (text.encode("utf-8", "replace").decode() for text in (place, note, pond))
    cells = told([reading(note=note, place=place)], {"p": pond}, "us")[0]
    for cell, text in ((cells["Pond"], pond), (cells["Place"], place), (cells["Note"], note)):
        assert as_typed(cell) == text
        assert not runs(cell)


UNSEEN = ("Cc", "Cf", "Zl", "Zp", "Zs")  # control, format, lines, paragraphs, spaces


def test_no_sign_that_cannot_be_seen_hides_a_formula() -> None:
    for number in range(0x110000):
        if unicodedata.category(chr(number)) in UNSEEN:
            assert harmless(f"{chr(number)}=1")[0] == "'", hex(number)


def runs(text: str) -> bool:
    """Whether a spreadsheet may run a part of the text, wherever it splits it."""
    for part in re.split("[;\t\r\n]", text):
        seen = [c for c in part if unicodedata.category(c) not in UNSEEN and c != '"']
        if seen and seen[0] in "=+-@|%＝＋－＠":
            return True
    return False


@pytest.mark.parametrize(
    "before", [";", "\t", "\n", ";\u3000", "\u200b", "\x0b", "\u3000", ';"', "\r\n "]
)
@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_a_formula_behind_a_separator_or_what_cannot_be_seen_is_defused(
    before: str, start: str
) -> None:
    text = f"pH 7{before}{start}HYPERLINK(1)" if before[0] in ";\t\r\n" else f"{before}{start}1"
    assert runs(text)
    assert not runs(harmless(text))
    assert as_typed(harmless(text)) == text
    (cells,) = told([reading(note=text)], {})
    assert as_typed(cells["Note"]) == text
    table = log_table([reading(note=text, place=text[:80])], {"p": text}, "metric").decode(
        "utf-8-sig"
    )
    for delimiter in ",;\t":
        for row in csv.reader(io.StringIO(table, newline=""), delimiter=delimiter):
            assert not any(runs(cell) for cell in row if re.search("HYPERLINK|1$", cell))


formulas = st.lists(
    st.sampled_from([*";\t\n\r'\"=+-@ a1", "\u200b", "\u3000", "\x0b", "\ufeff"]), max_size=12
).map("".join)


@given(formulas)
@settings(max_examples=300)
def test_harmless_text_is_read_back_as_it_was(text: str) -> None:
    assert not runs(harmless(text))
    assert as_typed(harmless(text)) == text


@pytest.mark.parametrize("text", ["Cleaned, +2 fish", "a - b", "pH 7", "5 % more", "Note: - ok"])
def test_ordinary_words_stay_as_they_are(text: str) -> None:
    assert harmless(text) == text


def test_the_reminder_counts_what_is_in_no_backup() -> None:
    assert backup_due(MANY_ITEMS - 1, 0) == 0
    assert backup_due(MANY_ITEMS, 0) == MANY_ITEMS
    assert backup_due(MANY_ITEMS, MANY_ITEMS) == 0
    assert backup_due(0, 50) == 0


def test_the_invented_ponds_log_is_nobodys_loss() -> None:
    mine, invented = entry(FreeNote(), note="a"), entry(FreeNote(), note="b")
    invented = invented.model_copy(update={"pond_id": EXAMPLE})
    assert own_items([mine, invented, reading()]) == 2


def test_a_reading_that_was_corrected_says_so() -> None:
    was = EarlierReading(changed_at=datetime(2026, 5, 3, tzinfo=UTC), note="wrong bucket")
    found = told([reading(day=1), reading(day=2).model_copy(update={"earlier": (was,)})])
    assert [row["Corrected"] for row in found] == ["", "yes"]
