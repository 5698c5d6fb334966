"""Every item of a log can be put right, moved and deleted, with or without a pond."""

import asyncio
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import flet as ft
import pytest
from drawn import FILLS, METHODS, PAIL
from memory_store import MemoryStore

from pondapp import units
from pondapp.answers.log.corrected import corrected
from pondapp.answers.log.log import LogItem
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.entry import Entry, FreeNote
from pondapp.models.preferences import Draft
from pondapp.models.reading import (
    Band,
    Bucket,
    Fill,
    LevelDrop,
    Method,
    Reading,
)
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.state.session import Session
from pondapp.store.key_value_store import Changed
from pondapp.ui.log import entry as page
from pondapp.ui.log.earlier import earlier_card
from pondapp.ui.log.reading_fields import FORM, read_method, texts_of_method
from pondapp.ui.log.where_fields import log_route, moved
from pondapp.ui.parts.draft import Typed
from pondapp.ui.shell.session_context import set_session

WHEN = datetime(2026, 5, 6, tzinfo=UTC)


def reading(method: Method = METHODS[0], pond_id: str = NO_POND) -> Reading:
    return Reading(
        id="r", pond_id=pond_id, place_id=OUTLET, place_name="Outlet", taken_at=WHEN,
        method=method, band=None,
    )  # fmt: skip


def typed(texts: Mapping[str, str]) -> Typed:
    return Typed("d", dict(texts), lambda _: None, lambda: dict(texts))


@pytest.mark.parametrize("system", units.SYSTEMS)
@pytest.mark.parametrize("method", METHODS, ids=lambda method: str(method.kind))
def test_what_is_left_alone_stays_exact(method: Method, system: str) -> None:
    texts = texts_of_method(method, system)
    assert read_method(texts, method, system, [PAIL]) == (method, {})
    assert read_method({}, method, system, [PAIL]) == (method, {})


def test_what_is_left_alone_stays_exact_through_other_units() -> None:
    rough = LevelDrop(area_m2=1.23456789, area_tolerance_m2=0.1, drop_m=0.0123456789,
                      level_tolerance_m=0.002, fills=FILLS)  # fmt: skip

    async def use() -> Mapping[str, str]:
        session = Session(MemoryStore())
        await session.drafts.save(FORM.filled(Draft(id="d"), texts_of_method(rough, "metric")))
        await session.settings.save(session.preferences.model_copy(update={"units": "us"}))
        return session.drafts["d"].texts

    texts = asyncio.run(use())
    assert texts == texts_of_method(rough, "us")
    assert read_method(texts, rough, "us", []) == (rough, {})


def test_every_amount_can_be_put_right() -> None:
    for method in METHODS[:-1]:
        for key in texts_of_method(method, "metric"):
            if key.endswith("struck"):
                new = "yes"
            elif key == "container":
                new = "pail"
            else:
                new = "14"
            found, errors = read_method({key: new}, method, "metric", [PAIL])
            assert errors == {} or found is None
            if not errors and key != "1.struck":
                assert found != method, key
            if not key.endswith("struck") and key != "container":
                assert FORM.find(key) is not None  # it follows a switch of units
            for nonsense in ("", "soon", "-1"):
                if not key.endswith("struck") and key != "container":
                    assert read_method({key: nonsense}, method, "metric", [])[1].keys() == {key}


def test_a_wrong_container_is_changed_and_the_rest_stays() -> None:
    found, _ = read_method({"container": "pail", "0.seconds": "10"}, METHODS[0], "metric", [PAIL])
    assert isinstance(found, Bucket)
    assert (found.container, found.fills[0]) == (PAIL, Fill(seconds=10.0, typed=True))
    assert found.fills[1] == FILLS[1]


def test_an_area_put_right_keeps_its_share_of_doubt() -> None:
    found, _ = read_method({"water_area": "4"}, METHODS[2], "metric", [])
    assert isinstance(found, LevelDrop)
    assert found.area_tolerance_m2 == pytest.approx(0.2)


@pytest.fixture
def session(monkeypatch: pytest.MonkeyPatch) -> Session:
    made = Session(MemoryStore())
    set_session(made)
    asyncio.run(made.ponds.save(example_pond()))
    undone: list[Any] = []
    monkeypatch.setattr(page, "say", lambda _, undo=None: undone.append(undo))
    made.undone = undone  # type: ignore[attr-defined]
    return made


def undo(session: Session) -> None:
    asyncio.run(session.undone.pop()())  # type: ignore[attr-defined]


def keys(session: Session) -> list[str]:
    return [key for key in asyncio.run(session.store.keys()) if not key.startswith("pond/")]


def test_a_reading_without_a_pond_is_moved_to_a_place_and_back(session: Session) -> None:
    item = reading()
    asyncio.run(session.logs.save_reading(item))
    place = WorkedPond(example_pond()).wanted.places[0]
    there = moved(item, typed({"pond": EXAMPLE, "place": place.place_id}))
    asyncio.run(page.save_item(there, item))
    assert keys(session) == [f"reading/{EXAMPLE}/r"]
    kept = session.logs.readings["r"]
    assert (kept.place_name, kept.band) == (
        place.name,
        Band(low_m3_s=place.band.low, target_m3_s=place.band.target, high_m3_s=place.band.high),
    )
    assert (kept.earlier[0].pond_id, kept.earlier[0].place_name) == (NO_POND, "Outlet")
    assert log_route(kept.pond_id) == f"/pond/{EXAMPLE}/log"
    undo(session)
    assert (keys(session), session.logs.readings["r"]) == ([f"reading/{NO_POND}/r"], item)


def test_a_move_does_not_overwrite_what_another_tab_changed(session: Session) -> None:
    item = reading()
    asyncio.run(session.logs.save_reading(item))
    newer = item.model_copy(update={"note": "theirs"})
    asyncio.run(session.store.put(f"reading/{item.storage_key()}", newer.model_dump_json()))
    there = moved(item, typed({"pond": EXAMPLE}))
    with pytest.raises(Changed):
        asyncio.run(page.save_item(there, item))
    assert keys(session) == [f"reading/{NO_POND}/r"]
    assert session.logs.readings["r"] == newer


def test_a_place_that_is_gone_is_not_chosen(session: Session) -> None:
    item = reading()
    assert moved(item, typed({"pond": "gone", "place": "gone"})) == item
    there = moved(item, typed({"pond": EXAMPLE}))
    assert there.place_id == WorkedPond(session.ponds[EXAMPLE]).wanted.places[0].place_id


def words(controls: list[ft.Control]) -> str:
    return repr(controls)


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        (reading(), reading(METHODS[5]), "9.52 s"),
        (reading(), reading().model_copy(update={"note": "windy"}), "note: –"),
        (
            Entry(id="e", pond_id="p", when=WHEN, what=FreeNote(), note="heron"),
            Entry(id="e", pond_id="p", when=WHEN, what=FreeNote(), note="cat"),
            "note: heron",
        ),
    ],
)
@pytest.mark.usefixtures("session")
def test_what_it_was_is_told(before: LogItem, after: LogItem, told: str) -> None:
    card = earlier_card(corrected(before, after, WHEN), "metric")
    assert told in words(card)
    assert earlier_card(after, "metric") == []


def test_a_reading_without_a_pond_is_deleted_and_brought_back(session: Session) -> None:
    item = reading()
    asyncio.run(session.logs.save_reading(item))
    asyncio.run(page.remove_item(item, "metric"))
    assert keys(session) == []
    undo(session)
    assert keys(session) == [f"reading/{NO_POND}/r"]


def test_what_is_left_of_a_pond_that_is_gone_is_in_the_log_without_a_pond() -> None:
    async def use() -> None:
        store = MemoryStore()
        item = reading(pond_id="gone")
        await store.put(f"reading/{item.storage_key()}", item.model_dump_json())
        session = Session(store)
        set_session(session)
        await session.load()
        await session.logs.read_all()
        assert session.logs.items_of(NO_POND) == [item]
        assert session.logs.readings_of("gone") == [item]
        await session.ponds.save(example_pond())
        await session.logs.move(item.model_copy(update={"pond_id": EXAMPLE}), item)
        assert session.logs.items_of(NO_POND) == []
        assert await store.keys("reading/") == [f"reading/{EXAMPLE}/r"]

    asyncio.run(use())


def test_what_was_typed_long_ago_is_asked_about_and_nothing_else() -> None:
    old = datetime(2026, 5, 6, tzinfo=UTC)

    def left(texts: dict[str, str], begin: dict[str, str], at: datetime | None = old) -> bool:
        return Typed("d", texts, lambda _: None, lambda: texts, at, True).left(begin)

    assert left({"ph": "7.4"}, {})
    assert left({"ph": "7.4"}, {}, None)  # early versions did not note when
    assert not left({"ph": "7.4"}, {}, datetime.now(UTC))
    assert not left({"ph": ""}, {})  # typed and taken away again
    assert not left({"note": "a", "seen": "1"}, {"note": "a", "seen": "2"})
    assert not typed({"ph": "7.4"}).left({})  # nothing was kept
