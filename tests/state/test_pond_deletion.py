"""Deleting a pond: nothing is gone before the undo has passed, and everything after it."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.preferences import Draft
from pondapp.state.drafts import is_about
from pondapp.state.session import Session
from pondapp.store.documents import read_text
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import Changed

READINGS = example_readings(datetime(2025, 6, 1, tzinfo=UTC))


@pytest.fixture
def session(tmp_path: Path) -> Session:
    made = Session(FolderStore(tmp_path))
    asyncio.run(_fill(made))
    return made


async def _fill(session: Session) -> None:
    other = READINGS[0].model_copy(update={"id": "other", "pond_id": "none"})
    for reading in (*READINGS, other):
        await session.logs.save_reading(reading)
    await session.drafts.save(Draft(id=f"fills-{EXAMPLE}-box"))
    await session.ponds.save(example_pond())


def kept(session: Session) -> list[str]:
    return asyncio.run(session.store.keys())


def test_a_pond_marked_as_deleted_is_off_the_screens_and_still_on_the_device(
    session: Session,
) -> None:
    before = kept(session)
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    assert session.ponds == {}
    assert kept(session) == before
    session.deletion.restore(pond)
    assert session.ponds == {EXAMPLE: pond}
    asyncio.run(session.deletion.delete(pond))  # the time runs out after the undo
    assert kept(session) == before


def test_what_is_forgotten_is_gone_with_its_readings_and_nothing_else(session: Session) -> None:
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    asyncio.run(session.deletion.delete(pond))
    assert kept(session) == ["reading/none/other"]
    assert set(session.logs.readings) == {"other"}
    session.deletion.restore(pond)  # too late
    assert session.ponds == {}


@pytest.mark.parametrize(
    ("name", "about"),
    [
        ("fills-e-lip-bucket", "e"), ("water-e", "e"), ("pump-new-e", "e"), ("thing-e-x-a", "e-x"),
        ("entry-e-x", "e-x"), ("pumps-", None), ("pond-new", None), ("size", None),
        ("fills-none-outlet", None), ("waterfall", None), ("care-other", None),
    ],
)  # fmt: skip
def test_early_drafts_belong_to_the_pond_that_their_name_says(name: str, about: str | None) -> None:
    draft, ponds = Draft(id=name), ("e", "e-x", "l")
    assert [pond for pond in ponds if is_about(draft, pond, ponds)] == ([about] if about else [])


def test_deleting_a_pond_of_one_letter_deletes_no_draft_that_has_it(session: Session) -> None:
    asyncio.run(session.ponds.save(example_pond().model_copy(update={"id": "e"})))
    asyncio.run(session.drafts.save(Draft(id="entry-e-new-note")))
    before = set(kept(session))
    pond = session.deletion.mark_deleted("e")
    assert pond is not None
    asyncio.run(session.deletion.delete(pond))
    assert before - set(kept(session)) == {"pond/e", "draft/entry-e-new-note"}


def test_a_pond_whose_id_is_a_word_of_the_app_takes_no_readings_with_it(session: Session) -> None:
    """Early versions took such a pond from a link; readings without a pond lie under that word."""
    for word in ("none", "outlet"):
        pond = example_pond().model_copy(update={"id": word, "name": word})
        asyncio.run(session.store.put(f"pond/{word}", pond.model_dump_json()))
    asyncio.run(session.load())
    assert {"own-none", "own-outlet"} < set(session.ponds)
    assert session.ponds["own-none"].name == "none"
    before = set(kept(session))
    gone = session.deletion.mark_deleted("own-none")
    assert gone is not None
    asyncio.run(session.deletion.delete(gone))
    assert before - set(kept(session)) == {"pond/own-none"}


def test_a_draft_of_an_early_version_opens() -> None:
    early = '{"schema_version":1,"id":"fills-p-lip","texts":{"note":"windy"},"fills":[]}'
    found = read_text("draft", "fills-p-lip", Draft, early)
    assert (found.texts, found.pond_id) == ({"note": "windy"}, None)


def test_a_pond_loaded_anew_is_not_forgotten_by_an_older_deletion(session: Session) -> None:
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    asyncio.run(session.ponds.save(example_pond()))
    asyncio.run(session.deletion.delete(pond))
    assert EXAMPLE in session.ponds
    assert f"pond/{EXAMPLE}" in kept(session)


def test_an_unknown_pond_is_no_matter(session: Session) -> None:
    assert session.deletion.mark_deleted("nobody") is None


def other_tab(session: Session) -> Session:
    """A second tab over the same storage, which has not heard of the first."""
    made = Session(FolderStore(session.store.folder))  # type: ignore[attr-defined]
    asyncio.run(made.load())
    return made


def test_what_another_tab_saved_a_moment_ago_is_not_deleted(session: Session) -> None:
    other = other_tab(session)
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    changed = pond.model_copy(update={"name": "Renamed"})
    asyncio.run(other.ponds.save(changed))
    with pytest.raises(Changed, match="was not deleted"):
        asyncio.run(session.deletion.delete(pond))
    assert session.ponds[EXAMPLE].name == "Renamed"
    assert {f"reading/{one.storage_key()}" for one in READINGS} <= set(kept(session))


def test_a_reading_saved_a_moment_ago_keeps_its_pond(session: Session) -> None:
    other = other_tab(session)
    newer = READINGS[0].model_copy(update={"id": "newer"})
    asyncio.run(session.logs.read_all())
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    asyncio.run(other.logs.save_reading(newer))
    with pytest.raises(Changed, match="was not deleted"):
        asyncio.run(session.deletion.delete(pond))
    assert {f"reading/{newer.storage_key()}", f"pond/{EXAMPLE}"} <= set(kept(session))
    assert EXAMPLE in session.ponds


def test_a_reading_saved_while_its_pond_is_deleted_keeps_it(session: Session) -> None:
    newer = READINGS[0].model_copy(update={"id": "newer"})
    other = other_tab(session)
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    before = kept(session)
    plain = session.store.apply

    async def apply(*arguments: Any) -> None:
        await other.logs.save_reading(newer)  # between the look and the step
        await plain(*arguments)

    session.store.apply = apply  # type: ignore[method-assign]
    with pytest.raises(Changed, match="was not deleted"):
        asyncio.run(session.deletion.delete(pond))
    assert set(kept(session)) == {*before, f"reading/{newer.storage_key()}"}
    assert {one.id for one in session.logs.readings_of(EXAMPLE)} == {
        "newer",
        *(one.id for one in READINGS),
    }


def test_a_pond_that_another_tab_works_on_stays(session: Session) -> None:
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    newer = READINGS[0].model_copy(update={"id": "newer"})
    session.apply_remote_change("reading", newer.storage_key(), newer)
    assert session.ponds == {EXAMPLE: pond}
    before = kept(session)
    asyncio.run(session.deletion.delete(pond))
    assert kept(session) == before


@pytest.mark.parametrize("when", ["before", "while it is deleted", "new", "heard of"])
def test_what_another_tab_types_about_a_pond_keeps_it(session: Session, when: str) -> None:
    draft = Draft(id="health", pond_id=EXAMPLE, texts={"note": "before"})
    if when != "new":
        asyncio.run(session.drafts.save(draft))
    other = other_tab(session)
    pond = session.deletion.mark_deleted(EXAMPLE)
    assert pond is not None
    typed = draft.model_copy(update={"texts": {"note": "typed since"}})
    plain = session.store.apply

    async def apply(*arguments: Any) -> None:
        await other.drafts.save(typed)  # between the look and the step
        await plain(*arguments)

    if when == "while it is deleted":
        session.store.apply = apply  # type: ignore[method-assign]
    else:
        asyncio.run(other.drafts.save(typed))
    if when == "heard of":
        session.apply_remote_change("draft", "health", other.drafts["health"])
        asyncio.run(session.deletion.delete(pond))
    else:
        with pytest.raises(Changed, match="was not deleted"):
            asyncio.run(session.deletion.delete(pond))
    assert EXAMPLE in session.ponds
    assert session.drafts["health"].texts == {"note": "typed since"}
    assert {f"pond/{EXAMPLE}", "draft/health"} <= set(kept(session))
