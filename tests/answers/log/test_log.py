from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.log.log import KINDS, by_month, kind_of, moment, newest_first, searched
from pondapp.models.entry import Cleaning, Dose, Entry, FishChange, FreeNote, What
from pondapp.models.reading import MeterReading, Reading

START = datetime(2025, 4, 1, 12, tzinfo=UTC)


def entry(day: float, what: What, note: str = "") -> Entry:
    when = START + timedelta(days=day)
    return Entry(id=f"e{day}", pond_id="p", when=when, what=what, note=note)


def reading(day: float, note: str = "") -> Reading:
    return Reading(
        id=f"r{day}", pond_id="p", place_id="lip", place_name="Slate lip",
        taken_at=START + timedelta(days=day), note=note,
        method=MeterReading(flow_m3_s=3e-4, tolerance=0.05), band=None,
    )  # fmt: skip


LOG = newest_first(
    [
        entry(0, FreeNote(), "Heron seen"),
        entry(3, Dose(what="Bacteria", amount="2 caps")),
        reading(40, "After the heron"),
        entry(33, Cleaning(part="pump")),
        entry(34, FishChange(change="lost", what="Shubunkin", count=1)),
    ]
)


def test_newest_first_whatever_the_kind() -> None:
    assert [item.id for item in LOG] == ["r40", "e34", "e33", "e3", "e0"]
    assert {kind_of(item) for item in LOG} < set(KINDS)


@pytest.mark.parametrize(
    ("text", "kind", "ids"),
    [
        ("", None, ["r40", "e34", "e33", "e3", "e0"]),
        ("HERON", None, ["r40", "e0"]),
        ("heron slate", None, ["r40"]),
        ("caps", None, ["e3"]),
        ("shub", "fish", ["e34"]),
        ("shub", "dose", []),
        ("water change", None, []),
        ("", "flow", ["r40"]),
        ("2025-05", None, ["r40", "e34", "e33"]),
    ],
)
def test_search_and_filter(text: str, kind: str | None, ids: list[str]) -> None:
    assert [item.id for item in searched(LOG, text, kind)] == ids


@settings(max_examples=40)
@given(st.lists(st.integers(0, 700), max_size=30, unique=True))
def test_months_keep_every_item_in_order(days: list[int]) -> None:
    items = newest_first([entry(day, Cleaning(part="all")) for day in days])
    parts = by_month(items)
    assert [item for _, part in parts for item in part] == items
    for _, part in parts:
        months = {moment(item).astimezone().strftime("%Y-%m") for item in part}
        assert len(months) == 1
