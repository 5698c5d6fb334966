"""Text on a screen that is not saved yet: kept on the device with every keystroke."""

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import cast

import flet as ft
from pydantic import BaseModel

from pondapp.answers.log.dates import day_text, local
from pondapp.models.preferences import Draft
from pondapp.ui.parts.form import NO_AMOUNTS, Form
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

MOST_NAME = 64  # letters in the id of a document
LONG_AGO = timedelta(hours=1)
SEEN = "seen"  # among the texts: what they began from


def draft_name(*parts: str) -> str:
    """The id of a draft about something of a pond: the same each time, and never too long."""
    name = "-".join(parts)
    if len(name) <= MOST_NAME:
        return name
    return f"{parts[0]}-{hashlib.sha256(name.encode()).hexdigest()[:32]}"


def seen(*parts: object) -> dict[str, str]:
    """For the texts that a form begins with: a mark of what is saved, and changes with it."""
    whole = [one.model_dump_json() if isinstance(one, BaseModel) else repr(one) for one in parts]
    return {SEEN: hashlib.sha256("\n".join(whole).encode()).hexdigest()[:16]}


def changed_elsewhere(texts: dict[str, str], begin: dict[str, str]) -> bool:
    """Whether what is saved is no longer what these texts began from."""
    return SEEN in texts and texts[SEEN] != begin.get(SEEN)


def same_words(texts: dict[str, str], begin: dict[str, str]) -> bool:
    """Whether nothing is typed that is not saved."""
    return {**texts, SEEN: ""} == {**begin, SEEN: ""}


def left_long_ago(changed_at: datetime | None) -> bool:
    """Whether what is half done was left so long ago that it may be forgotten."""
    return changed_at is None or abs(datetime.now(UTC) - changed_at) > LONG_AGO


def come_back(changed_at: datetime | None) -> str:
    """When it was left, in words for the middle of a sentence."""
    if changed_at is None:
        return t("an earlier day")  # early versions did not note it
    here, today = local(changed_at), local(datetime.now(UTC)).date()
    clock = here.strftime("%H:%M")
    if here.date() == today:
        return t("today, {time}", time=clock)
    if here.date() == today - timedelta(days=1):
        return t("yesterday, {time}", time=clock)
    return f"{day_text(changed_at)}, {clock}"


@dataclass(frozen=True, slots=True)
class Typed:
    """The texts of a screen, and how to change them."""

    draft_id: str
    texts: dict[str, str]
    put: Callable[[dict[str, str]], None]
    newest: Callable[[], dict[str, str]]  # with keys that are typed but not drawn yet
    changed_at: datetime | None = None
    """When it was last typed in, where something was typed."""
    kept: bool = False
    """Whether something was typed here that is not saved yet."""

    def left(self, begin: dict[str, str]) -> bool:
        """Whether it was typed some time ago, is not saved, and nobody said go on since."""
        typed = any(text != begin.get(key, "") for key, text in self.texts.items() if key != SEEN)
        return self.kept and typed and left_long_ago(self.changed_at)

    def text(self, key: str, default: str = "") -> str:
        """The text of a field."""
        return self.texts.get(key, default)

    def note(self, key: str) -> Callable[[str], None]:
        """A change handler for a field."""
        return lambda text: self.put({**self.newest(), key: text})

    async def drop(self) -> None:
        """Forget the draft: what it held is saved for good."""
        await session_now().drafts.delete(self.draft_id)


def use_pond_id() -> str | None:
    """The pond that this screen is about: its drafts are deleted with it."""
    pond_id = ft.use_route_params().get("pond_id")
    return pond_id if pond_id in session_now().ponds else None


def use_draft(draft_id: str, begin: dict[str, str], form: Form = NO_AMOUNTS) -> Typed:
    """The texts of a form as they were left, or as they begin."""
    session = session_now()
    pond_id = use_pond_id()
    saved = session.drafts.get(draft_id)
    left = dict(saved.texts) if saved else begin
    # What another tab typed since takes the place of what is held here, and so do the texts of
    # another thing: an address may lead from one to the next on the same screen.
    of = (draft_id, session.drafts.remote_revisions.get(draft_id, 0))
    held, set_held = ft.use_state((of, left))
    texts = held[1] if held[0] == of else left
    began = ft.use_ref(begin)
    if saved is None and texts == began.current:
        texts = begin  # nothing is typed yet: what is saved now, by another tab too
    began.current = begin

    latest = ft.use_ref(texts)
    latest.current = texts

    def put(changed: dict[str, str]) -> None:
        latest.current = changed
        set_held(((draft_id, session.drafts.remote_revisions.get(draft_id, 0)), changed))
        kept = session.drafts.get(draft_id) or Draft(id=draft_id)
        now = form.filled(kept, changed)
        session.drafts.hold(now.model_copy(update={"pond_id": pond_id or kept.pond_id}))
        ft.context.page.run_task(session.drafts.save_held, draft_id)

    return Typed(
        draft_id, texts, put, lambda: cast("dict[str, str]", latest.current),
        saved.changed_at if saved else None, saved is not None,
    )  # fmt: skip
