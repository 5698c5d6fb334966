"""Documents by kind, on every store."""

import asyncio
import json
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any, Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.models import migrate
from pondapp.models.base import Stored
from pondapp.models.pond import Pond
from pondapp.models.reading import Bucket, Container, Fill, MeterReading, Reading
from pondapp.models.water import Basin, Drawn, Ellipse
from pondapp.store.documents import QUARANTINES, LoadError, delete, list_all, save, sort_by_pond
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import KeyValueStore, StoreError


class Tub(Stored):
    schema_version: Literal[2] = 2
    id: str
    name: str
    litres: float


POOL = Basin(id="a", name="Pool", outline=Ellipse(length_m=3, width_m=2), depth_m=0.1 + 0.2)
TUB = Tub(id="t1", name="Bütte", litres=40)
OLD = '{"schema_version": 1, "id": "t1", "title": "B\u00fctte", "litres": 40}'
NEWER = '{"schema_version": 3, "id": "t1", "depth": {"of": "something new"}}'


def rename(data: dict[str, Any]) -> dict[str, Any]:
    data["name"] = data.pop("title")
    return data


UNREADABLE = {
    "cut off": '{"schema_version": 2, "id": "t1", "na',
    "empty": "",
    "not a document": "[1, 2]",
    "no version": '{"id": "t1", "name": "x", "litres": 1}',
    "unknown field": '{"schema_version": 2, "id": "t1", "name": "x", "litres": 1, "y": 2}',
    "not a number": '{"schema_version": 2, "id": "t1", "name": "x", "litres": NaN}',
    "other id": '{"schema_version": 2, "id": "t2", "name": "x", "litres": 1}',
    "too deep": "[" * 100_000,
    "old and without a way": '{"schema_version": 1, "id": "t1", "name": "x", "litres": 1}',
    "damaged bytes": '{"schema_version": 2, "id": "t1", "name": "\udcff", "litres": 1}',
}
damaged = pytest.mark.parametrize("text", UNREADABLE.values(), ids=UNREADABLE.keys())


def test_what_was_saved_is_loaded_and_listed(store: KeyValueStore) -> None:
    asyncio.run(save(store, "tub", TUB))
    listed = asyncio.run(list_all(store, "tub", Tub))
    assert listed.documents == (TUB,)
    assert listed.errors == ()
    assert asyncio.run(store.keys()) == ["tub/t1"]


def test_the_app_s_own_documents_come_back_equal(store: KeyValueStore) -> None:
    pond = Pond(
        id="p",
        name="Teich",
        water=Drawn(basins=(POOL,)),
    )
    reading = Reading(
        id="r", pond_id="p", place_id="lip", place_name="Lip",
        taken_at=datetime(2024, 5, 6, 7, 8, 9, 123456, tzinfo=UTC),
        method=Bucket(
            container=Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0002),
            fills=(Fill(seconds=7.3), Fill(seconds=1 / 3, typed=True, excluded=True)),
        ),
        band=None, note="wind\n\"gusts\"",
    )  # fmt: skip
    asyncio.run(save(store, "pond", pond))
    asyncio.run(save(store, "reading", reading))
    assert asyncio.run(list_all(store, "pond", Pond)).documents == (pond,)
    assert asyncio.run(list_all(store, "reading", Reading)).documents == (reading,)


@given(st.floats(allow_nan=False, allow_infinity=False), st.text(st.characters(codec="utf-8")))
@settings(max_examples=40)
def test_no_digit_and_no_letter_is_lost(
    tmp_path_factory: pytest.TempPathFactory, litres: float, name: str
) -> None:
    store = FolderStore(tmp_path_factory.getbasetemp() / "letters")
    tub = Tub(id="t", name=name, litres=litres)
    asyncio.run(save(store, "tub", tub))
    assert asyncio.run(list_all(store, "tub", Tub)).documents == (tub,)


def test_delete_forgets(store: KeyValueStore) -> None:
    asyncio.run(save(store, "tub", TUB))
    asyncio.run(delete(store, "tub", "t1"))
    asyncio.run(delete(store, "tub", "t1", Tub))
    assert asyncio.run(store.keys()) == []


@pytest.mark.parametrize("kind", QUARANTINES)
def test_what_was_set_aside_is_no_kind(store: KeyValueStore, kind: str) -> None:
    for ask in (save(store, kind, TUB), delete(store, kind, "t1")):
        with pytest.raises(StoreError, match="set aside"):
            asyncio.run(ask)


@damaged
def test_an_unreadable_document_is_reported_copied_and_left(
    store: KeyValueStore, text: str
) -> None:
    asyncio.run(store.put("tub/t1", text))
    asyncio.run(save(store, "tub", Tub(id="t9", name="good", litres=9)))
    for _ in range(2):  # looking twice makes no second copy
        listed = asyncio.run(list_all(store, "tub", Tub))
        assert [tub.id for tub in listed.documents] == ["t9"]
        assert [error.key for error in listed.errors] == ["tub/t1"]
        assert listed.errors[0].reason
    assert asyncio.run(store.get("tub/t1")) == text
    assert asyncio.run(store.items("quarantine/")) == [("quarantine/tub/t1/1", text)]


def test_a_copy_of_an_early_version_is_found_and_left(store: KeyValueStore) -> None:
    early = {"aside/tub/t1/1": "cut o", "aside/tub/t1/2": "cut"}
    asyncio.run(store.apply({**early, "tub/t1": "cut o"}))
    asyncio.run(list_all(store, "tub", Tub))
    assert dict(asyncio.run(store.items())) == {**early, "tub/t1": "cut o"}  # no second copy
    asyncio.run(store.put("tub/t1", "cu"))
    asyncio.run(list_all(store, "tub", Tub))
    assert asyncio.run(store.items("quarantine/")) == [("quarantine/tub/t1/1", "cu")]
    assert dict(asyncio.run(store.items("aside/"))) == early


Act = Callable[[KeyValueStore], Any]
acts = pytest.mark.parametrize(
    "act",
    [lambda store: save(store, "tub", TUB), lambda store: delete(store, "tub", "t1", Tub)],
    ids=["save", "delete"],
)


@damaged
@acts
def test_its_text_survives_saving_and_deleting(store: KeyValueStore, text: str, act: Act) -> None:
    asyncio.run(store.put("tub/t1", text))
    asyncio.run(act(store))  # without having been listed before
    assert asyncio.run(store.get("quarantine/tub/t1/1")) == text


def test_each_damage_gets_a_copy_of_its_own(store: KeyValueStore) -> None:
    texts = [f"damage {number}" for number in range(12)]  # past 9: numbers, not letters, count
    for text in texts:
        asyncio.run(store.put("tub/t1", text))
        asyncio.run(list_all(store, "tub", Tub))
    kept = dict(asyncio.run(store.items("quarantine/tub/t1/")))
    assert kept == {f"quarantine/tub/t1/{number + 1}": text for number, text in enumerate(texts)}


def test_deleting_without_the_model_keeps_what_is_no_document(store: KeyValueStore) -> None:
    asyncio.run(store.put("tub/t1", "cut o"))
    asyncio.run(delete(store, "tub", "t1"))
    assert asyncio.run(store.items()) == [("quarantine/tub/t1/1", "cut o")]


def test_a_newer_document_is_reported_and_untouched(store: KeyValueStore) -> None:
    asyncio.run(store.put("tub/t1", NEWER))
    listed = asyncio.run(list_all(store, "tub", Tub))
    assert listed.documents == ()
    reason = "it was saved by a newer version of the app (format 3, known up to 2)"
    assert listed.errors == (LoadError("tub/t1", reason),)
    assert asyncio.run(store.items()) == [("tub/t1", NEWER)]


@acts
def test_a_newer_document_is_neither_replaced_nor_deleted(store: KeyValueStore, act: Act) -> None:
    asyncio.run(store.put("tub/t1", NEWER))
    with pytest.raises(StoreError, match=r"left as it is: .*newer version"):
        asyncio.run(act(store))
    assert asyncio.run(store.items()) == [("tub/t1", NEWER)]


def test_an_older_document_is_brought_up_to_date(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(migrate.STEPS, "tub", (rename,))
    asyncio.run(store.put("tub/t1", OLD))
    assert asyncio.run(list_all(store, "tub", Tub)).documents == (TUB,)
    assert asyncio.run(store.get("tub/t1")) == OLD  # reading writes nothing
    asyncio.run(save(store, "tub", TUB))
    saved = asyncio.run(store.get("tub/t1"))
    assert saved is not None
    assert json.loads(saved)["schema_version"] == 2
    assert asyncio.run(store.keys("quarantine/")) == []


def test_a_full_disk_hides_no_document(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    asyncio.run(save(store, "tub", TUB))
    asyncio.run(store.put("tub/t0", "cut o"))

    async def full(_key: str, _text: str) -> None:
        raise StoreError("no room")

    monkeypatch.setattr(store, "put", full)
    listed = asyncio.run(list_all(store, "tub", Tub))
    assert listed.documents == (TUB,)
    assert listed.errors == (
        LoadError("tub/t0", "its text is damaged (and no copy could be made: no room)"),
    )
    with pytest.raises(StoreError, match="no room"):  # nor may it be replaced then
        asyncio.run(save(store, "tub", Tub(id="t0", name="x", litres=1)))
    assert asyncio.run(store.get("tub/t0")) == "cut o"


def meter(name: str, pond: str) -> Reading:
    return Reading(
        id=name, pond_id=pond, place_id="lip", place_name="Lip",
        taken_at=datetime(2024, 5, 6, tzinfo=UTC),
        method=MeterReading(flow_m3_s=3e-4, tolerance=0.05), band=None,
    )  # fmt: skip


def test_the_log_of_one_pond_is_read_without_the_others(store: KeyValueStore) -> None:
    for reading in (meter("r1", "p"), meter("r2", "p"), meter("r1", "p2")):
        asyncio.run(save(store, "reading", reading))
    assert asyncio.run(store.keys()) == ["reading/p/r1", "reading/p/r2", "reading/p2/r1"]
    listed = asyncio.run(list_all(store, "reading", Reading, "p"))
    assert [reading.id for reading in listed.documents] == ["r1", "r2"]
    assert len(asyncio.run(list_all(store, "reading", Reading)).documents) == 3


def test_a_log_item_in_another_pond_s_place_is_reported(store: KeyValueStore) -> None:
    asyncio.run(store.put("reading/p/r1", meter("r1", "p2").model_dump_json()))
    assert asyncio.run(list_all(store, "reading", Reading, "p")).errors


def test_early_readings_move_to_their_pond(store: KeyValueStore) -> None:
    early = meter("r1", "p")
    asyncio.run(store.put("reading/r1", early.model_dump_json()))
    asyncio.run(store.put("reading/r0", "cut o"))
    assert early in asyncio.run(list_all(store, "reading", Reading)).documents
    for _ in range(2):
        errors = asyncio.run(sort_by_pond(store, "reading", Reading))
        assert [error.key for error in errors] == ["reading/r0"]
        assert asyncio.run(store.keys("reading/")) == ["reading/p/r1", "reading/r0"]
    assert asyncio.run(list_all(store, "reading", Reading, "p")).documents == (early,)


def test_an_interrupted_move_goes_on_and_keeps_the_newer(store: KeyValueStore) -> None:
    newer = meter("r1", "p").model_copy(update={"note": "edited since"})
    asyncio.run(save(store, "reading", newer))
    asyncio.run(store.put("reading/r1", meter("r1", "p").model_dump_json()))
    asyncio.run(sort_by_pond(store, "reading", Reading))
    assert asyncio.run(list_all(store, "reading", Reading)).documents == (newer,)
