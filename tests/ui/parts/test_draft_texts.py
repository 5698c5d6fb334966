"""The texts of a screen say which pond they are about, and what they began from."""

import asyncio
from datetime import UTC, datetime
from types import SimpleNamespace

import flet as ft
import pytest
from memory_store import MemoryStore

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.entry import Entry, FreeNote
from pondapp.models.preferences import Draft
from pondapp.state.session import Session
from pondapp.ui.measuring.fills import use_fills
from pondapp.ui.parts.draft import changed_elsewhere, draft_name, same_words, seen, use_draft
from pondapp.ui.shell.session_context import set_session


@pytest.fixture
def session() -> Session:
    made = Session(MemoryStore())
    asyncio.run(made.ponds.save(example_pond()))
    return made


def kept(session: Session) -> list[str]:
    return asyncio.run(session.store.keys())


def entry_of(note: str) -> Entry:
    when = datetime(2026, 5, 6, tzinfo=UTC)
    return Entry(id="e", pond_id="p", when=when, what=FreeNote(), note=note)


@pytest.mark.parametrize(("address", "kept_as"), [(EXAMPLE, EXAMPLE), ("gone", None), (None, None)])
def test_a_screen_says_which_pond_its_texts_are_about(
    session: Session, monkeypatch: pytest.MonkeyPatch, address: str | None, kept_as: str | None
) -> None:
    set_session(session)
    params = {"pond_id": address} if address else {}
    monkeypatch.setattr(ft, "use_route_params", lambda: params)
    monkeypatch.setattr(ft, "use_state", lambda begin: (begin, lambda _: None))
    monkeypatch.setattr(ft, "use_ref", lambda begin: SimpleNamespace(current=begin))
    page = SimpleNamespace(run_task=lambda *_: None)
    monkeypatch.setattr(ft, "context", SimpleNamespace(page=page))
    use_draft("entry-x", {"note": ""}).note("note")("windy")
    use_fills("fills-x").note("seconds")("12")
    assert [session.drafts[name].pond_id for name in ("entry-x", "fills-x")] == [kept_as] * 2


def test_what_is_half_done_goes_with_its_pond_whatever_its_name(session: Session) -> None:
    mine, other = "a" * 32, "b" * 32
    names = {
        pond_id: draft_name("entry", pond_id, f"{number}{pond_id[1:]}")
        for number, pond_id in enumerate((mine, other))
    }
    assert all(pond_id not in name for pond_id, name in names.items())  # too long for an id

    async def use() -> None:
        for pond_id, name in names.items():
            await session.ponds.save(example_pond().model_copy(update={"id": pond_id}))
            await session.drafts.save(Draft(id=name, pond_id=pond_id))
            await session.drafts.save(Draft(id=f"health-{pond_id}"))  # as early versions kept it
            await session.drafts.save(Draft(id=f"rule-{pond_id}-x", pond_id=pond_id))
        pond = session.deletion.mark_deleted(mine)
        assert pond is not None
        await session.deletion.delete(pond)

    asyncio.run(use())
    left = {f"draft/{names[other]}", f"draft/health-{other}", f"draft/rule-{other}-x"}
    assert left == {key for key in kept(session) if "draft" in key and EXAMPLE not in key}


def test_texts_know_what_they_began_from() -> None:
    begin = {"note": "first", **seen(entry_of("first"))}
    other = {"note": "of one", **seen(entry_of("of one"))}
    mine = {**begin, "note": "of two"}
    assert not changed_elsewhere(mine, begin)
    assert changed_elsewhere(mine, other)
    assert not changed_elsewhere({"note": "as early versions kept it"}, other)
    assert same_words(other, {**begin, "note": "of one"})  # both typed the same
    assert seen(entry_of("a")) == seen(Entry.model_validate_json(entry_of("a").model_dump_json()))
    assert seen(1.0, "x") != seen(1.0, "y")
