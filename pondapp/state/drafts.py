"""What is half done: texts that are typed and fills that are timed, and not saved for good yet."""

import math
import time
from collections.abc import Awaitable, Callable, Iterable, Mapping
from datetime import UTC, datetime
from typing import Any

from pondapp.models.base import Stored
from pondapp.models.limits import MOST_FILLS, MOST_TURNS
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill, FillSet
from pondapp.state.by_id import ById
from pondapp.state.device import Device
from pondapp.state.draft_units import in_units
from pondapp.store.documents import Step, delete, read_text, save
from pondapp.store.key_value_store import Changed, StoreError

# What early drafts are named after whose name goes on with the pond.
ABOUT_A_POND = frozenset(
    {"branch", "care", "entry", "fills", "fish", "health", "line", "pumps", "rule", "run",
     "shopping", "thing", "tune", "water"}
)  # fmt: skip


def is_about(draft: Draft, pond_id: str, others: Iterable[str] = ()) -> bool:
    """Whether a draft goes when the pond goes, and not with one of the others.

    Early ones say so in their name only: a word, and the pond behind or, of a pump, at the end.
    """
    if draft.pond_id is not None:
        return draft.pond_id == pond_id
    word, _, rest = draft.id.partition("-")

    def named(pond: str) -> bool:
        if word in ABOUT_A_POND:
            return rest == pond or rest.startswith(f"{pond}-")
        return word == "pump" and rest.endswith(f"-{pond}")

    # The longest: ids may hold a hyphen, and one may begin as another ends.
    return max(filter(named, (*others, pond_id)), key=len, default=None) == pond_id


def joined(known: Draft | None, theirs: Draft, mine: Draft, *, waited: bool = False) -> Draft:
    """A draft that two tabs changed at once: every fill of both, and the text typed last.

    Given whether what is in hand here had to wait: the storage was full, or a tab was put away.
    """
    began = known.texts if known else {}
    texts = {**theirs.texts, **mine.texts}
    if waited:
        texts |= {key: text for key, text in theirs.texts.items() if began.get(key) != text}
    return mine.model_copy(
        update={
            "texts": texts,
            "kinds": theirs.kinds | mine.kinds,
            **_joined_fills(known, theirs, mine),
        }
    )


def _joined_fills(known: Draft | None, theirs: Draft, mine: Draft) -> dict[str, Any]:
    """Every fill of both, each with the setting of the valve that it was timed at.

    Where one tab turned the valve, what the other added was timed before that.
    """
    began = known.fills if known else ()
    sets = known.before_turn if known else ()
    ours, other = (_since_turned(one, sets) for one in (mine, theirs))
    if not ours and not other:
        fills = (*theirs.fills, *_new(mine.fills[len(began) :], theirs.fills))
        kept = theirs if mine.before_turn == sets else mine  # who took a turn back
        return {"fills": fills, "before_turn": kept.before_turn}
    if ours and other:
        # Both turned it: what they hold is of the same setting at best, and only one counts.
        last = theirs.before_turn[-1].model_copy(update={"fills": theirs.fills, "until": None})
        first = ours[0].model_copy(
            update={"fills": _new(ours[0].fills[len(began) :], other[0].fills)}
        )
        more = [one for one in (last, first, *ours[1:]) if one.fills]
        return _kept(mine, (*theirs.before_turn, *more))
    turner, rest = (mine, theirs) if ours else (theirs, mine)
    turns = ours or other
    added = _new(rest.fills[len(began) :], turns[0].fills)
    closed = turns[0].model_copy(update={"fills": (*turns[0].fills, *added)[-MOST_FILLS:]})
    return _kept(turner, (*sets, closed, *turns[1:]))


def _kept(turner: Draft, sets: tuple[FillSet, ...]) -> dict[str, Any]:
    return {
        "fills": turner.fills, "before_turn": sets[-MOST_TURNS:], "opened": turner.opened,
    }  # fmt: skip


def _since_turned(draft: Draft, before: tuple[FillSet, ...]) -> tuple[FillSet, ...]:
    """The sets that turns of the valve closed since; none where it was not turned."""
    sets = draft.before_turn
    return sets[len(before) :] if sets[: len(before)] == before else ()


def _new(fills: Iterable[Fill], there: Iterable[Fill]) -> tuple[Fill, ...]:
    """The fills that are not there yet: no stopwatch shows the same time twice."""
    timed = {fill.seconds for fill in there if not fill.typed}
    return tuple(fill for fill in fills if fill.typed or fill.seconds not in timed)


PROMPT = 2.0  # seconds; what is held longer and not saved yet had to wait


class Drafts(ById[Draft]):
    """Drafts by their id, in the units and with the decimal mark in use."""

    def __init__(self, device: Device, system: Callable[[], str]) -> None:
        super().__init__()
        self._device = device
        self._system = system
        self.stored: dict[str, Draft | None] = {}
        """As this tab last saw them on the device."""
        self.remote_revisions: dict[str, int] = {}
        """How often another tab changed a draft: screens that hold its texts look at them anew."""
        self.on_first_saved: Callable[[str], Awaitable[None]] | None = None
        """Called with the pond of a draft that was not on the device before."""
        self.failure_reported = False
        self._held_since: dict[str, float] = {}
        """When it was last typed or timed, by a clock that nobody can set."""

    def show(self, drafts: Iterable[Draft], unsaved: Mapping[str, Draft]) -> None:
        """Hold what was read from the device, and what is not saved there yet."""
        self.stored = {draft.id: draft for draft in drafts}
        shown = {draft.id: draft for draft in self.stored.values() if draft is not None}
        self._held = {
            draft_id: self._in_use(draft) for draft_id, draft in {**shown, **unsaved}.items()
        }

    def unsaved(self, drafts: Iterable[Draft]) -> dict[str, Draft]:
        """What is in hand and on no device, together with what was read of the same drafts."""
        there = {draft.id: draft for draft in drafts}
        found = {
            draft_id: self._with_unsaved(draft_id, there.get(draft_id))
            for draft_id in self
            if self.is_unsaved(draft_id)
        }
        return {draft_id: draft for draft_id, draft in found.items() if draft is not None}

    def _in_use(self, draft: Draft) -> Draft:
        return in_units(draft, self._system())

    async def save(self, draft: Draft) -> None:
        """Hold what is half done, and save it."""
        self.hold(draft)
        await self.save_held(draft.id)

    async def save_unseen(self, draft: Draft) -> None:
        """Save what no screen changed: one that holds its texts looks at them anew."""
        self.hold(draft)
        self._note_remote_revision(draft.id)
        await self.save_held(draft.id)

    def hold(self, draft: Draft) -> None:
        """Take what is half done in hand at once: the next key or press adds to it."""
        self._held_since[draft.id] = time.monotonic()
        changed = {"changed_at": datetime.now(UTC)}
        self._held[draft.id] = self._in_use(draft).model_copy(update=changed)

    async def save_all_held(self) -> None:
        """Save all that is in hand."""
        for draft_id in list(self):
            await self.save_held(draft_id)

    async def save_held(self, draft_id: str) -> None:
        """Save what is held by then, together with what another tab adds to it meanwhile.

        A StoreError is raised at the first key that is not saved, not at each.
        """
        try:
            await self._save_held(draft_id)
        except StoreError:
            if not self.failure_reported:
                self.failure_reported = True
                raise
        else:
            self.failure_reported = False

    async def _save_held(self, draft_id: str) -> None:
        async with self._device.writing:
            draft, known = self.get(draft_id), self.stored.get(draft_id)
            before = known and self._in_use(known)
            if draft is None or draft in (known, before):  # deleted, or saved with a later key
                return
            first = known is None
            try:
                await save(self._device.store, "draft", draft, over=known)
            except Changed:
                draft, first = await self._save_joined(draft_id, draft, before)
            self.stored[draft_id] = draft
            if first and draft.pond_id is not None and self.on_first_saved is not None:
                await self.on_first_saved(draft.pond_id)

    async def _save_joined(
        self, draft_id: str, draft: Draft, before: Draft | None
    ) -> tuple[Draft, bool]:
        """Save a draft together with what another tab has just saved of it.

        Returns:
            What was saved, and whether nothing was there: another tab deleted it.
        """
        text = await self._device.store.get(f"draft/{draft_id}")
        theirs = read_text("draft", draft_id, Draft, text) if text else None
        theirs = theirs and self._in_use(theirs)
        held = self.get(draft_id, draft)
        waited = self._waited(draft_id)
        both = joined(before, theirs, held, waited=waited) if theirs else held
        await save(self._device.store, "draft", both)
        newest = self.get(draft_id, held)
        self._held[draft_id] = both if newest is held else joined(held, both, newest)
        self._note_remote_revision(draft_id)
        self._device.on_change()
        return both, theirs is None

    def _waited(self, draft_id: str) -> bool:
        """Whether what is in hand was typed or timed some time ago: then another tab was later."""
        return time.monotonic() - self._held_since.get(draft_id, -math.inf) > PROMPT

    async def delete(self, draft_id: str) -> None:
        """Delete what was half done, once it is saved for good or given up."""
        if self._held.pop(draft_id, None) is not None:
            async with self._device.writing:
                await delete(self._device.store, "draft", draft_id, Draft)
                self.stored.pop(draft_id, None)

    def about(self, pond_id: str, others: Iterable[str]) -> list[str]:
        """The drafts that go when the pond goes, and not with one of the others."""
        known = list(others)
        return [draft_id for draft_id, one in self.items() if is_about(one, pond_id, known)]

    def discard(self, draft_id: str) -> None:
        """Hold nothing of a draft that is gone."""
        self._held.pop(draft_id, None)
        self.stored.pop(draft_id, None)

    # ---- other units

    def conversions(self, system: str) -> list[Step]:
        """Steps that save each draft in these units, and in the language in use."""
        steps: list[Step] = []
        for held in self.values():
            stored = self.stored.get(held.id)
            draft = in_units(held, system)
            if stored is not None and draft != stored:
                steps.append(Step("draft", draft.id, Draft, draft, stored))
        return steps

    def converted(self, steps: Iterable[Step]) -> None:
        """These steps were taken: show the drafts in the units that are in use now."""
        for step in steps:
            if isinstance(step.document, Draft):
                self.stored[step.document.id] = step.document
        self.convert_held()

    def convert_held(self) -> None:
        """Have each draft, and the screen that holds its texts, in the units in use now."""
        for draft_id, held in self.items():
            draft = self._in_use(held)
            if draft != held:
                self._held[draft_id] = draft
                self._note_remote_revision(draft_id)

    # ---- other tabs

    def apply_remote_change(self, draft_id: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        theirs = found if isinstance(found, Draft) else None
        shown = self._with_unsaved(draft_id, theirs)
        self.stored[draft_id] = theirs
        if shown is None:
            self._held.pop(draft_id, None)
        else:
            self._held[draft_id] = shown
        self._note_remote_revision(draft_id)

    def is_unsaved(self, draft_id: str) -> bool:
        """Whether something was typed or timed here that is not on the device yet."""
        known, held = self.stored.get(draft_id), self.get(draft_id)
        return held is not None and held != (known and self._in_use(known))

    def _with_unsaved(self, draft_id: str, found: Draft | None) -> Draft | None:
        """A draft from another tab, with what was typed or timed here and is not saved yet."""
        theirs = found and self._in_use(found)
        if not self.is_unsaved(draft_id):
            return theirs
        known, held = self.stored.get(draft_id), self[draft_id]
        if theirs is None:
            return held
        mine = known and self._in_use(known)
        both = joined(mine, theirs, held, waited=self._waited(draft_id))
        same = (both.texts, both.fills, both.before_turn) == (
            theirs.texts, theirs.fills, theirs.before_turn
        )  # fmt: skip
        return theirs if same else both

    def _note_remote_revision(self, draft_id: str) -> None:
        self.remote_revisions[draft_id] = self.remote_revisions.get(draft_id, 0) + 1
