"""Whatever a file or a link holds: a clear error or a correct result, and nothing stored half.

FUZZ_CASES sets how many cases each test tries.
"""

import asyncio
import base64
import copy
import json
import os
import zlib
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from memory_store import MemoryStore
from used import used

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.core.base.errors import PondError
from pondapp.models.backup import KINDS
from pondapp.models.base import Stored
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
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.store import backup, link
from pondapp.store.backup_file import whole
from pondapp.store.documents import read_text

NOW = datetime(2026, 5, 6, tzinfo=UTC)
CASES = int(os.environ.get("FUZZ_CASES", "120"))
fuzz = settings(
    max_examples=CASES,
    deadline=timedelta(seconds=10),  # bounded time, on a slow machine that does other things too
    suppress_health_check=list(HealthCheck),
)

scalars = (
    st.none()
    | st.booleans()
    | st.integers(-(10**20), 10**20)
    | st.floats()
    | st.text(max_size=12)
    | st.sampled_from(
        ["p", "../x", "aside/a", "quarantine/a", "before/restore", "__proto__", "<b>", "9" * 30]
    )
)
names = st.sampled_from(
    ["id", "schema_version", "pond", "reading", "draft", "preferences", "documents", "as_stored",
     "name", "water", "kind", "method", "fills", "format", "format_version", "saved_at", "holds"]
)  # fmt: skip
values = st.recursive(
    scalars,
    lambda inner: (
        st.lists(inner, max_size=4) | st.dictionaries(names | st.text(), inner, max_size=4)
    ),
    max_leaves=12,
)


def say(error: PondError) -> None:
    """An error is a sentence."""
    assert str(error)


def device(texts: dict[str, str]) -> MemoryStore:
    made = MemoryStore()
    made.texts.update(texts)
    return made


def begun() -> tuple[bytes, bytes, dict[str, str]]:
    """A good file in either format, and the texts of a device."""
    readings = example_readings(NOW)
    entries = [
        Entry(id=f"e{number}", pond_id=EXAMPLE, when=NOW, what=what, note="windy")
        for number, what in enumerate(EVERY)
    ]
    documents: dict[str, list[Stored]] = {
        "pond": [example_pond()], "preferences": [Preferences()],
        "reading": [*readings], "entry": [*entries], "draft": [Draft(id="new", texts={"a": "1"})],
    }  # fmt: skip
    texts = {
        f"{kind}/{one.storage_key()}": one.model_dump_json()
        for kind, some in documents.items()
        for one in some
    }
    first = {"format": "pondapp-backup", "format_version": 1, "holds": "everything"}
    plain = {
        kind: [json.loads(one.model_dump_json()) for one in some]
        for kind, some in documents.items()
    }
    old = json.dumps({**first, "saved_at": NOW.isoformat(), "documents": plain, "as_stored": {}})
    return asyncio.run(whole(backup.everything(device(texts), NOW))), old.encode(), texts


EVERY: tuple[What, ...] = (
    WaterTest(temperature_c=18.5, ph=7.4, total_ammonia_kg_m3=0.00025, oxygen_kg_m3=0.008),
    WaterChange(volume_m3=0.2),
    Dose(what="Bacteria", amount="2 caps"),
    Feed(amount_kg=0.03),
    FishChange(change="lost", what="Goldfish", count=2),
    Cleaning(part="filter"),
    PumpChange(what="The larger one"),
    WorkDone(what="Net taken down", job="net-off"),
    Photo(jpeg="/9j/4AAQ"),
    FreeNote(),
)
GOOD, GOOD_OLD, TEXTS = begun()
PLAN = link.packed(example_pond())


def take_in(data: bytes, how: backup.How) -> None:
    """Look at the bytes, take them in and use them; assert that the device is whole afterwards."""
    memory = device(TEXTS)
    try:
        look = asyncio.run(backup.preview(memory, data))
    except PondError as error:
        say(error)
        assert memory.texts == TEXTS
        return
    assert memory.texts == TEXTS
    if not look.complete:
        how = "merge"
    changed_something = asyncio.run(backup.restore(memory, look, how, NOW))
    for key, text in memory.texts.items():
        kind, _, rest = key.partition("/")
        if key in look.as_stored:
            assert text == look.as_stored[key]
        elif kind in KINDS:
            read_text(kind, rest, KINDS[kind], text)  # readable, each one
    if how == "merge":
        assert memory.texts.keys() >= TEXTS.keys()
    changed = {key for key, text in memory.texts.items() if TEXTS.get(key) != text}
    if any(key.partition("/")[0] in KINDS for key in changed):
        used(device({key: memory.texts[key] for key in memory.texts if "before/" not in key}))
    if changed_something:
        asyncio.run(backup.undo_restore(memory, NOW))
    assert {key: memory.texts[key] for key in TEXTS} == TEXTS


@given(st.binary(max_size=400))
@fuzz
def test_any_bytes(data: bytes) -> None:
    take_in(data, "replace")


@given(values, values, st.sampled_from(["merge", "replace"]))
@fuzz
def test_any_documents(documents: Any, as_stored: Any, how: backup.How) -> None:
    envelope = {"format": "pondapp-backup", "format_version": 1, "saved_at": "2026-01-01T00:00Z"}
    data = json.dumps({**envelope, "documents": documents, "as_stored": as_stored})
    take_in(data.encode("utf-8", "replace"), how)


MOMENTS = ("1970-01-01T00:00:00Z", "2199-12-31T23:59:59Z", "1970-01-01T00:00:00-12:00",
           "2199-12-31T23:59:59+14:00", "9999-12-31T23:59:59-12:00",
           "0001-01-01T00:00:00+14:00")  # fmt: skip
AMOUNTS = (0, 5e-324, 1e-12, 1e-6, 1e-3, 0.5, 1, 2, 7, 10, 14, 24, 40, 45, 50, 100, 400, 500, 1000,
           1e4, 86400, 1e5, 1e7, 1e308, -1, -2, -400, -500)  # fmt: skip
WORDS = ("a", "x" * 64, "x" * 80, "-", "_", "__proto__", "constructor", "none", "outlet", "new",
         "=1+1", "\u202e\u200b", "\u3000=1;=2", "<script>", "%s{0}{name}", "é" * 80,
         "\n\t")  # fmt: skip


def leaves(value: Any, place: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The places of all that is no list and no object."""
    parts = value.items() if isinstance(value, dict) else enumerate(value)
    for key, part in parts:
        if isinstance(part, dict | list):
            yield from leaves(part, (*place, key))
        else:
            yield (*place, key)


@st.composite
def extremes(draw: st.DrawFn) -> dict[str, Any]:
    """A document of the good file with some values at the ends of what is allowed, or past them."""
    key = draw(st.sampled_from(sorted(TEXTS)))
    plain = json.loads(TEXTS[key])
    places = sorted(leaves(plain), key=str)
    for *place, last in draw(st.lists(st.sampled_from(places), min_size=1, max_size=5)):
        holder = plain
        for step in place:
            holder = holder[step]
        now = holder[last]
        if isinstance(now, bool) or now is None or last in ("kind", "schema_version", "jpeg"):
            continue
        if isinstance(now, str) and now[:2] == "20":
            holder[last] = draw(st.sampled_from(MOMENTS))
        elif isinstance(now, str):
            holder[last] = draw(st.sampled_from(WORDS))
        else:
            holder[last] = draw(st.sampled_from(AMOUNTS) | st.just(now))
    kind = key.partition("/")[0]
    ids = [plain["pond_id"], plain["id"]] if kind in ("reading", "entry") else [plain["id"]]
    return {"key": "/".join([kind, *map(str, ids)]), "document": plain}


@given(st.lists(extremes(), min_size=1, max_size=3), st.sampled_from(["merge", "replace"]))
@fuzz
def test_documents_at_the_ends_of_what_is_allowed(lines: list[Any], how: backup.How) -> None:
    head = GOOD[: GOOD.index(b"\n") + 1]
    take_in(head + b"".join(json.dumps(line).encode() + b"\n" for line in lines), how)


@given(st.data(), st.sampled_from(["merge", "replace"]))
@fuzz
def test_a_good_file_with_one_value_changed(data: st.DataObject, how: backup.How) -> None:
    plain = copy.deepcopy(json.loads(GOOD_OLD))
    place: Any = plain
    while True:
        key = data.draw(
            st.sampled_from(list(place) if isinstance(place, dict) else range(len(place)))
        )
        deeper = place[key]
        if isinstance(deeper, dict | list) and deeper and data.draw(st.booleans()):
            place = deeper
            continue
        if isinstance(place, dict) and data.draw(st.booleans()):
            place.pop(key)
        else:
            place[key] = data.draw(values)
        break
    take_in(json.dumps(plain).encode("utf-8", "replace"), how)


@given(st.sampled_from([GOOD, GOOD_OLD]), st.floats(0, 1), st.floats(0, 0.2), st.binary(max_size=6))
@fuzz
def test_a_good_file_cut_or_spoilt(good: bytes, start: float, gap: float, put: bytes) -> None:
    at = round(start * len(good))
    take_in(good[:at] + put + good[at + round(gap * len(good)) :], "merge")


@given(st.sampled_from(["[", '{"a":', '"[', "]", "[]", '["', "[[1],"]), st.integers(1, 9000))
@fuzz
def test_brackets_without_end(part: str, times: int) -> None:
    brackets = part * times
    take_in(brackets.encode(), "merge")
    take_in(GOOD[: GOOD.index(b"\n") + 1] + brackets.encode(), "merge")
    line = f'{{"key":"pond/deep","document":{{"a":{brackets}}}}}\n'
    take_in(GOOD[: GOOD.index(b"\n") + 1] + line.encode(), "merge")
    take_in(GOOD_OLD.replace(b"Slate lip", json.dumps(brackets)[1:-1].encode()), "merge")
    open_link(well_packed(brackets))


def well_packed(text: str) -> str:
    squeeze = zlib.compressobj(9, wbits=-15, zdict=link.WORDS)
    data = squeeze.compress(text.encode("utf-8", "replace")) + squeeze.flush()
    return link.VERSION + base64.urlsafe_b64encode(data).decode().rstrip("=")


def open_link(text: str) -> None:
    try:
        pond = link.unpacked(text)
    except PondError as error:
        say(error)
        return
    assert link.unpacked(link.packed(pond)).id == pond.id
    assert pond == Pond.model_validate_json(pond.model_dump_json())
    if text != PLAN:
        used(device({f"pond/{pond.id}": pond.model_dump_json()}))


@given(st.text(max_size=300))
@fuzz
def test_any_text_as_a_link(text: str) -> None:
    open_link(text)
    open_link(link.VERSION + text)


@given(st.binary(max_size=300))
@fuzz
def test_any_bytes_as_the_packed_part(data: bytes) -> None:
    open_link(link.VERSION + base64.urlsafe_b64encode(data).decode().rstrip("="))


@given(values)
@fuzz
def test_any_document_well_packed(value: Any) -> None:
    open_link(well_packed(json.dumps(value)))


@given(extremes())
@fuzz
def test_a_plan_at_the_ends_of_what_is_allowed(line: dict[str, Any]) -> None:
    if line["key"].startswith("pond/"):
        open_link(well_packed(json.dumps(line["document"])))


@given(st.integers(0, len(PLAN)), st.integers(0, len(PLAN)), st.text(max_size=4))
@fuzz
def test_a_scanned_code_read_wrong(start: int, end: int, put: str) -> None:
    open_link(PLAN[:start] + put + PLAN[max(start, end) :])
