"""What is typed and pressed between two draws, or while something is being saved, all counts."""

import asyncio
from types import SimpleNamespace
from typing import Any

import pytest
from memory_store import MemoryStore

from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill
from pondapp.state.session import Session
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.method_fields import FORM
from pondapp.ui.shell import touch
from pondapp.ui.shell.session_context import set_session


def started(monkeypatch: pytest.MonkeyPatch) -> tuple[Session, list[Any]]:
    """A session on screen, and what it was asked to do later."""
    session = Session(MemoryStore())
    set_session(session)
    later: list[Any] = []

    def run_task(work: Any, *arguments: Any) -> None:
        later.append((work, arguments))

    page = SimpleNamespace(run_task=run_task)
    monkeypatch.setattr(fills.ft, "context", SimpleNamespace(page=page))
    return session, later


def test_a_press_before_the_keys_are_drawn_or_saved_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    session, later = started(monkeypatch)
    drawn = fills.FillEntry(Draft(id="d", pond_id="p"), session.drafts.hold)
    for text in ("2", "20", "20.5"):
        drawn.note("seconds")(text)
    drawn.note("note")("windy")
    drawn.add_typed("metric")
    drawn.started(touch.tick() - 19.75)
    drawn.stopped(touch.tick())
    drawn.strike(0)(None)
    drawn.strike(7)(None)  # a press at something that is gone by now

    async def all_of_it() -> Draft:
        for work, arguments in later:
            await work(*arguments)
        again = Session(session.store)
        await again.load()
        return again.drafts["d"]

    kept = asyncio.run(all_of_it())
    assert kept == session.drafts["d"]
    assert kept.fills[0] == Fill(seconds=20.5, typed=True, excluded=True)
    assert kept.fills[1].seconds == pytest.approx(19.75, abs=0.05)
    assert (kept.texts, kept.pond_id) == ({"seconds": "", "note": "windy"}, "p")


def test_what_is_typed_beside_fills_keeps_its_meaning_wherever_it_moves(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    session, _ = started(monkeypatch)
    drawn = fills.FillEntry(Draft(id="d", fills=(Fill(seconds=9),)), session.drafts.hold, FORM)
    for key in ("0.full_weight", "empty_weight", "meter_flow", "seconds", "note"):
        drawn.note(key)("10")
    drawn.turned()
    kinds = {
        "before.0.full_weight": "mass", "empty_weight": "mass", "meter_flow": "flow",
        "seconds": "duration",
    }  # fmt: skip
    assert session.drafts["d"].kinds == kinds

    async def use() -> None:
        await session.settings.save(session.preferences.model_copy(update={"units": "us"}))

    asyncio.run(use())
    texts = session.drafts["d"].texts
    assert (texts["before.0.full_weight"], texts["note"]) == ("22", "10")
    assert texts["before.0.full_weight="] == "10.0"
    drawn.clear()
    assert session.drafts["d"].kinds == {"empty_weight": "mass"}
    assert set(session.drafts["d"].texts) == {"empty_weight", "empty_weight="}


def test_what_is_no_time_is_no_fill(monkeypatch: pytest.MonkeyPatch) -> None:
    session, _ = started(monkeypatch)
    drawn = fills.FillEntry(Draft(id="d"), session.drafts.hold)
    for text in ("", "soon", "0", "90000"):
        drawn.note("seconds")(text)
        drawn.add_typed("metric")
    assert session.drafts["d"].fills == ()
