"""What a user does, done to the app's own session."""

from datetime import UTC, datetime, timedelta
from typing import Any

from pondapp import units
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.state.cleared import save_again
from pondapp.state.session import Session
from pondapp.store import link

Found = dict[str, Any]


class NotDone(Exception):
    """The app did not say that it was done."""


class NotBegun(Exception):
    """The screen offers no such thing."""


async def do(session: Session, deed: list[Any]) -> None:
    """Return when the app says that it is done; whatever else comes was not acknowledged."""
    kind, *rest = deed
    if kind == "pond":
        pond_id, name = rest
        await session.ponds.save(Pond(id=pond_id, name=name, water=TypedVolume(volume_m3=1)))
    elif kind == "reading":
        reading_id, pond_id, note, days = rest
        if pond_id not in session.ponds:
            raise NotBegun
        await session.logs.save_reading(
            Reading(
                id=reading_id,
                pond_id=pond_id,
                place_id="lip",
                place_name="Lip",
                note=note,
                taken_at=datetime.now(UTC) + timedelta(days=days),  # of a clock that somebody set
                band=None,
                method=MeterReading(flow_m3_s=1e-3, tolerance=0.05),
            )
        )
    elif kind == "strike":
        if rest[0] not in session.logs.readings:
            raise NotBegun
        await session.logs.delete(session.logs.readings[rest[0]])
    elif kind == "draft":
        draft_id, litres = rest
        text = units.edit_text(litres / 1000, "volume", session.system)
        await session.drafts.save(Draft(id=draft_id, texts={"volume": text}))
        if session.drafts.stored.get(draft_id) != session.drafts.get(draft_id):
            raise NotDone("the storage failed again, which is told once")
    elif kind == "drop draft":
        if rest[0] not in session.drafts:
            raise NotBegun
        await session.drafts.delete(rest[0])
    elif kind == "units":
        await session.settings.save(session.preferences.model_copy(update={"units": rest[0]}))
    elif kind == "delete":
        pond = session.deletion.mark_deleted(rest[0])
        if pond is None:
            raise NotBegun
        await session.deletion.delete(pond)
        if pond.id in session.ponds:  # another tab works on it: it is on the screen again
            raise NotDone
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
    else:
        raise ValueError(kind)


async def held(session: Session) -> Found:
    """All that a new start reads, by key."""
    await session.load()
    await session.logs.read_all()
    found: Found = {f"pond/{pond.id}": pond.name for pond in session.ponds.values()}
    for reading in session.logs.readings.values():
        found[f"reading/{reading.pond_id}/{reading.id}"] = reading.note
    for draft in session.drafts.values():
        litres = 1000 * units.parse(draft.texts["volume"], "volume", session.system)
        found[f"draft/{draft.id}"] = litres
    found["units"] = session.system
    if session.device.load_errors:
        found["troubles"] = [str(error) for error in session.device.load_errors]
    return found
