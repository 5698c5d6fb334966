"""What a user does, done to the app's own session."""

from collections.abc import Coroutine, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

from flet.controls.context import _context_page

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.preferences import EXACT, Draft
from pondapp.models.reading import Bucket, MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.state.cleared import save_again
from pondapp.state.session import Session
from pondapp.store import backup, link
from pondapp.store.backup_file import Written, whole
from pondapp.ui.measuring.fills import FillEntry
from pondapp.ui.shell import notice, touch
from pondapp.ui.shell.session_context import set_session

Found = dict[str, Any]
FILLS = "fills-none-outlet-bucket"  # the draft of what is timed where there is no pond
FORM = {"volume": 1.0, "length": 2.5, "flow": 2e-3, "width": 0.3, "mass": 9.4}
"""What is typed into a form: SI by kind of quantity."""
MEASURING = ("start", "stop", "count", "put away", "log fills")


class NotDone(Exception):
    """The app did not say that it was done."""


class NotBegun(Exception):
    """The screen offers no such thing."""


async def do(session: Session, deed: list[Any]) -> Any:
    """Return when the app says that it is done; whatever else comes was not acknowledged.

    Returns:
        What its user has in hand then: the text of a file, or what the stopwatch was told; of all
        else True.
    """
    kind, *rest = deed
    if kind == "pond":
        pond_id, name = rest
        await session.ponds.save(Pond(id=pond_id, name=name, water=TypedVolume(volume_m3=1)))
    elif kind == "reading":
        reading_id, pond_id, note, days = rest
        method = MeterReading(flow_m3_s=1e-3, tolerance=0.05)
        made = _reading(session, reading_id, pond_id, note, method)
        # Of a clock that somebody set.
        day = datetime.now(UTC) + timedelta(days=days)
        await session.logs.save_reading(made.model_copy(update={"taken_at": day}))
    elif kind == "strike":
        if rest[0] not in session.logs.readings:
            raise NotBegun
        await session.logs.delete(session.logs.readings[rest[0]])
    elif kind == "draft":
        draft_id, litres, pond_id = rest
        text = units.edit_text(litres / 1000, "volume", session.system, digits=10)
        draft = Draft(
            id=draft_id, pond_id=pond_id, texts={"volume": text}, kinds={"volume": "volume"}
        )
        await session.drafts.save(draft)
        _require_kept(session, draft_id)
    elif kind == "drop draft":
        if rest[0] not in session.drafts:
            raise NotBegun
        await session.drafts.delete(rest[0])
    elif kind == "units":
        await session.settings.save(session.preferences.model_copy(update={"units": rest[0]}))
    elif kind == "type forms":
        for number in range(rest[0]):
            await session.drafts.save(_typed_form(session, number))
    elif kind == "set aside":
        await session.logs.read(rest[0])  # what another tab saves from here on is newer
        if session.deletion.mark_deleted(rest[0]) is None:
            raise NotBegun
    elif kind == "forget":
        await _forget(session, session.ponds.pending_deletion.get(rest[0]))
    elif kind == "delete":
        await _forget(session, session.deletion.mark_deleted(rest[0]))
    elif kind == "delete and undo":
        pond = session.deletion.mark_deleted(rest[0])
        if pond is not None:
            session.deletion.restore(pond)
    elif kind == "share":
        pond = session.ponds.get(rest[0])
        if pond is not None and not link.same_plan(link.unpacked(link.packed(pond)), pond):
            raise AssertionError("a shared pond is another one")
    elif kind == "save again":
        await save_again(session)
    elif kind == "backup":
        return await _backup(session)
    elif kind == "restore":
        how, file = rest
        look = await backup.preview(session.store, file.encode())
        await backup.restore(session.store, look, how, datetime.now(UTC))
        await session.reload()
    elif kind == "take back":
        if await backup.can_undo_restore(session.store) is None:
            raise NotBegun
        await backup.undo_restore(session.store, datetime.now(UTC))
        await session.reload()
    elif kind in MEASURING:
        return await _measure(session, kind, rest)
    else:
        raise ValueError(kind)
    return True


def _reading(session: Session, reading_id: str, pond_id: str, note: str, method: Any) -> Reading:
    if pond_id not in session.ponds:
        raise NotBegun
    return Reading(
        id=reading_id, pond_id=pond_id, place_id="lip", place_name="Lip", note=note,
        taken_at=datetime.now(UTC), band=None, method=method,
    )  # fmt: skip


def _require_kept(session: Session, draft_id: str) -> None:
    if session.drafts.stored.get(draft_id) != session.drafts.get(draft_id):
        raise NotDone("the storage failed again, which is told once")


async def _forget(session: Session, pond: Pond | None) -> None:
    if pond is None:
        raise NotBegun
    await session.deletion.delete(pond)
    if pond.id in session.ponds:  # another tab works on it: it is on the screen again
        raise NotDone


async def _backup(session: Session) -> str:
    """The text of a file of everything."""
    now, tally = datetime.now(UTC), Written()
    file = await whole(backup.everything(session.store, now, tally))
    await session.settings.note_backup(now, sum(tally.of_pond.values()), 0)
    return file.decode()


async def _measure(session: Session, kind: str, rest: list[Any]) -> Any:
    """What the screen with the stopwatch does; of a press, what tells whether its time is right."""
    under_way: list[Coroutine[Any, Any, None]] = []
    page: Any = SimpleNamespace(run_task=lambda work, *given: under_way.append(work(*given)))
    _context_page.set(page)
    set_session(session)
    with _told_nowhere():
        return await _press(session, kind, rest, under_way)


@contextmanager
def _told_nowhere() -> Iterator[None]:
    """No screen is drawn, so what is told has no place."""
    show = notice.show
    vars(notice)["show"] = lambda *_: None
    try:
        yield
    finally:
        vars(notice)["show"] = show


async def _press(
    session: Session, kind: str, rest: list[Any], under_way: list[Coroutine[Any, Any, None]]
) -> Any:
    before = session.drafts.get(FILLS) or Draft(id=FILLS)
    entry = FillEntry(before, session.drafts.hold)
    pressed = touch.tick()
    if kind == "put away":
        touch.put_away(pressed)
        return True
    if {"start": entry.running, "stop": not entry.running}.get(kind):
        raise NotBegun
    if kind == "start":
        entry.started(pressed)
    elif kind == "stop":
        entry.stopped(pressed)
    elif kind == "count":
        if before.by_clock is None:
            raise NotBegun
        entry.count_it()
    elif kind == "log fills":
        reading_id, pond_id, note = rest
        if entry.container is None or not entry.fills:
            raise NotBegun
        method = Bucket(container=entry.container, fills=entry.fills)
        await session.logs.save_reading(_reading(session, reading_id, pond_id, note, method))
        await entry.saved()
    try:
        for work in under_way:
            await work
        _require_kept(session, FILLS)
        kept = True
    except (PondError, NotDone):
        kept = False
    return {
        "kept": kept, "pressed": pressed, "run": touch.run(), "from": before.started_tick,
        "on": before.started_on, "asked": before.by_clock,
    }  # fmt: skip


def _typed_form(session: Session, number: int) -> Draft:
    """A form of several quantities; each form has other ones."""
    texts = {
        kind: units.edit_text(value * (1 + number / 10), kind, session.system, digits=10)
        for kind, value in FORM.items()
    }
    return Draft(id=f"form{number}", texts=texts, kinds={kind: kind for kind in FORM})


def _amount(draft: Draft, kind: str, session: Session) -> float:
    """What a text of a draft means, in SI."""
    read = units.parse(draft.texts[kind], kind, session.system)
    exact = draft.texts.get(f"{kind}{EXACT}", "")
    return units.as_stored(read, exact, kind, session.system)


async def forms(session: Session) -> dict[str, float]:
    """What the texts of the forms mean to a new start: SI by form and kind of quantity."""
    await session.load()
    if session.device.load_errors:
        raise AssertionError(str(session.device.load_errors))
    return {
        f"{draft.id}.{kind}": _amount(draft, kind, session)
        for draft in session.drafts.values()
        for kind in draft.kinds
    }


async def held(session: Session) -> Found:
    """All that a new start reads, by key."""
    await session.load()
    await session.logs.read_all()
    # What merging keeps beside a pond that was changed on both sides is an extra, not looked for.
    found: Found = {
        f"pond/{pond.id}": pond.name
        for pond in session.ponds.values()
        if not pond.name.endswith(" (2)")
    }
    for reading in session.logs.readings.values():
        place = f"{reading.pond_id}/{reading.id}"
        found[f"reading/{place}"] = reading.note
        if isinstance(reading.method, Bucket):
            found[f"timed/{place}"] = [fill.seconds for fill in reading.method.fills]
    for draft in session.drafts.values():
        if draft.id == FILLS:
            found[f"draft/{FILLS}"] = [fill.seconds for fill in draft.fills]
            continue
        found[f"draft/{draft.id}"] = 1000 * _amount(draft, "volume", session)
    if not session.settings.first_start:
        found["units"] = session.system
    if session.device.load_errors:
        found["troubles"] = "; ".join(map(str, session.device.load_errors))
    return found
