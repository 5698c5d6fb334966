"""When what the app saved is deleted under it: all that is still in memory can be saved again."""

from collections.abc import Iterable, Mapping

from pondapp.models.base import Stored
from pondapp.models.preferences import Draft
from pondapp.state.session import Session


def in_memory(session: Session) -> dict[str, Stored]:
    """All that the app still holds, by the key under which it lies on the device."""
    held: Mapping[str, Iterable[Stored]] = {
        "pond": (*session.ponds.values(), *session.ponds.pending_deletion.values()),
        "reading": session.logs.readings.values(),
        "entry": session.logs.entries.values(),
        "draft": session.drafts.values(),
        "preferences": () if session.settings.first_start else (session.preferences,),
    }
    return {
        f"{kind}/{document.storage_key()}": document
        for kind, documents in held.items()
        for document in documents
    }


async def save_again(session: Session) -> int:
    """Put on the device what is in memory and not on it; how many documents that were."""
    async with session.device.writing:
        there = set(await session.store.keys())
        missing = {key: one for key, one in in_memory(session).items() if key not in there}
        if missing:
            texts = {key: document.model_dump_json() for key, document in missing.items()}
            await session.store.apply(texts, dict.fromkeys(texts))
        for document in missing.values():
            if isinstance(document, Draft):
                session.drafts.stored[document.id] = document
    return len(missing)
