"""Whatever a file or a link holds: a clear error or a correct result, and nothing stored half.

FUZZ_CASES sets how many cases each test tries.
"""

import asyncio
import base64
import copy
import json
import os
import zlib
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pondapp.core.errors import PondError
from pondapp.models.backup import KINDS
from pondapp.models.pond import Pond
from pondapp.models.preferences import Preferences
from pondapp.sizing.example import example_pond, example_readings
from pondapp.store import backup, link
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
    | st.sampled_from(["p", "../x", "aside/a", "before/restore", "__proto__", "<b>", "9" * 30])
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


class Memory:
    """The least of a box that a restore needs."""

    def __init__(self) -> None:
        self.texts: dict[str, str] = {}

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        return sorted((key, text) for key, text in self.texts.items() if key.startswith(prefix))

    async def get(self, key: str) -> str | None:
        return self.texts.get(key)

    async def apply(self, changes: dict[str, str | None], expected: Any = None) -> None:
        for key, text in (expected or {}).items():
            assert self.texts.get(key) == text
        for key, text in changes.items():
            if text is None:
                self.texts.pop(key, None)
            else:
                self.texts[key] = text


def begun() -> tuple[bytes, dict[str, str]]:
    """A good file, and the texts of a device."""
    texts = {
        "pond/invented-example": example_pond().model_dump_json(),
        "preferences/app": Preferences().model_dump_json(),
    }
    for reading in example_readings(NOW):
        texts[f"reading/{reading.id}"] = reading.model_dump_json()
    memory = Memory()
    memory.texts = dict(texts)
    return backup.to_bytes(asyncio.run(backup.everything(memory, NOW))), texts  # type: ignore[arg-type]


GOOD, TEXTS = begun()


def take_in(data: bytes, how: backup.How) -> None:
    """Look at the bytes and take them in; assert that the device is whole afterwards."""
    memory = Memory()
    memory.texts = dict(TEXTS)
    try:
        look = asyncio.run(backup.preview(memory, data))  # type: ignore[arg-type]
    except PondError as error:
        say(error)
        assert memory.texts == TEXTS
        return
    assert memory.texts == TEXTS
    asyncio.run(backup.restore(memory, look.backup, how, NOW))  # type: ignore[arg-type]
    assert backup.from_bytes(memory.texts[backup.BEFORE].encode())
    for key, text in memory.texts.items():
        kind, _, rest = key.partition("/")
        if key in look.backup.as_stored:
            assert text in (look.backup.as_stored[key], TEXTS.get(key))
        elif kind in KINDS:
            read_text(kind, rest, KINDS[kind], text)  # readable, each one
    if how == "merge":
        assert memory.texts.keys() >= TEXTS.keys()
    asyncio.run(backup.take_back(memory, NOW))  # type: ignore[arg-type]
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


@given(st.data(), st.sampled_from(["merge", "replace"]))
@fuzz
def test_a_good_file_with_one_value_changed(data: st.DataObject, how: backup.How) -> None:
    plain = copy.deepcopy(json.loads(GOOD))
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


@given(st.integers(0, len(GOOD)), st.integers(0, len(GOOD)), st.binary(max_size=6))
@fuzz
def test_a_good_file_cut_or_spoilt(start: int, end: int, put: bytes) -> None:
    take_in(GOOD[:start] + put + GOOD[max(start, end) :], "merge")


def open_link(text: str) -> None:
    try:
        pond = link.unpacked(text)
    except PondError as error:
        say(error)
        return
    assert link.unpacked(link.packed(pond)).id == pond.id
    assert pond == Pond.model_validate_json(pond.model_dump_json())


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
    squeeze = zlib.compressobj(9, wbits=-15, zdict=link.WORDS)
    data = squeeze.compress(json.dumps(value).encode()) + squeeze.flush()
    open_link(link.VERSION + base64.urlsafe_b64encode(data).decode().rstrip("="))


PLAN = link.packed(example_pond())


@given(st.integers(0, len(PLAN)), st.integers(0, len(PLAN)), st.text(max_size=4))
@fuzz
def test_a_scanned_code_read_wrong(start: int, end: int, put: str) -> None:
    open_link(PLAN[:start] + put + PLAN[max(start, end) :])
