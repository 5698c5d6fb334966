"""What the app holds in memory while it runs, and how it is kept on the device."""

import asyncio
import uuid
from collections.abc import AsyncIterator, Callable, Iterable
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any, Literal, cast

from pondapp import units
from pondapp.answers.care.backup_due import own_items
from pondapp.answers.log.dates import read_date
from pondapp.answers.log.log import LogItem, newest_first
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.core.base.errors import PondError
from pondapp.models.base import Stored
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences, UnitSystem
from pondapp.models.reading import Container, Reading
from pondapp.store.box import Box, Changed, StoreError
from pondapp.store.documents import (
    ANYTHING,
    Anything,
    Step,
    Trouble,
    delete,
    free_reserved,
    list_all,
    read_text,
    save,
    sort_by_pond,
    take_steps,
)
from pondapp.store.room import ask_to_stay
from pondapp.words import as_day, current_language, nearest_language, set_language, t


def first_preferences(language: str = "en") -> Preferences:
    """What counts until the user chooses: a language, and containers named in it."""
    set_language(language)
    return Preferences(
        language=language,
        containers=(
            Container(
                id="bucket9", name=t("Bucket, 9 L mark"), volume_m3=0.009, tolerance_m3=0.0002
            ),
            Container(
                id="bucket10", name=t("Bucket, 10 L mark"), volume_m3=0.010, tolerance_m3=0.0002
            ),
            Container(id="tub40", name=t("Tub, 40 L"), volume_m3=0.040, tolerance_m3=0.001),
        ),
    )


# The kind of quantity that a field of this name holds in any draft.
DRAFT_KINDS = {
    "volume": "volume",
    "length": "length",
    "width": "length",
    "depth": "length",
    "bog": "volume",
    "lip": "width",
    "pump_flow": "flow",
    "pump_head": "head",
    "flow": "flow",
    "holds": "volume",
    "holds_give": "volume",
    "weighs": "mass",
    "weighs_give": "mass",
    "jet": "flow",
    "opening": "width",
    "band_low": "flow",
    "band_best": "flow",
    "band_high": "flow",
    "diameter": "length",
    "cut_length": "length",
    "cut_width": "length",
    "spacing": "length",
    "tape_width": "length",
    "along": "length",
    "across": "length",
    "shelf_depth": "width",
    "shelf_width": "width",
    "fill_flow_before": "flow",
    "fill_flow_after": "flow",
    "salt_mass": "mass",
    "meter_first": "water_meter",
    "meter_last": "water_meter",
    "temperature": "temperature",
    "altitude": "length",
    "feed": "small_mass",
    "ammonia": "concentration",
    "nitrite": "concentration",
    "nitrate": "concentration",
    "oxygen": "concentration",
    "general_hardness": "hardness",
    "carbonate_hardness": "hardness",
    "salt_level": "salt",
    "changed_water": "volume",
    "fish_length": "width",
    "grown_length": "width",
    "media": "volume",
    "fall_height": "width",
    "box_length": "width",
    "box_width": "width",
    "tub_across": "width",
    "rise": "width",
    "water_area": "area",
    "space": "volume",
    "drop": "small",
    "level_give": "small",
    "area_give": "share",
    "space_give": "share",
    "gaps": "share",
    "gaps_give": "share",
    "empty_weight": "mass",
    "full_weight": "mass",
    "scale_give": "mass",
    "depth_over_lip": "small",
    "depth_give": "small",
    "lip_width": "width",
    "lip_give": "width",
    "crest": "width",
    "meter_flow": "flow",
    "meter_give": "share",
    "lift": "head",
    "bore": "bore",
    "hose_length": "length",
    "pump_watts": "power",
    "tariff": "tariff",
    "price_length": "price_length",
    "price_area": "per_area",
    "price_volume": "price_volume",
    **{f"rule_{kind}": kind for kind in units.KINDS},
}


DATE = "date"  # the key of a day in any draft


def draft_kind(key: str) -> str | None:
    """The kind of quantity in a field of a draft; "a.length" is the length of the thing a."""
    return DRAFT_KINDS.get(key.rpartition(".")[2])


def in_units(draft: Draft, system: str) -> Draft:
    """A draft with its numbers in these units and with the decimal mark of the language in use.

    One that does not say what its numbers are in is taken to be so already.
    """
    mark = cast('Literal[".", ","]', current_language().decimal)
    before, point = draft.units or system, draft.decimal or mark
    texts = draft.texts
    if point != mark or before != system:
        texts = {key: _rewritten(key, text, before, system, point) for key, text in texts.items()}
    return draft.model_copy(
        update={"texts": texts, "units": cast("UnitSystem", system), "decimal": mark}
    )


def _rewritten(key: str, text: str, before: str, after: str, point: str) -> str:
    """A text of a field that means the same in other units; nonsense stays as it is."""
    if key == DATE and before != after:  # 6/1 is a day of June in one system, of January elsewhere
        try:
            return as_day(read_date(text, before, datetime.now(UTC).date()))
        except PondError:
            return text
    kind = draft_kind(key)
    if kind is None:
        return text
    text = units.repointed(text, point)
    return text if before == after else units.rewritten(text, kind, before, after)


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


def joined(known: Draft | None, theirs: Draft, mine: Draft) -> Draft:
    """A draft that two tabs changed at once: every fill of both, and the text typed last."""
    before = len(known.fills) if known else 0
    began = known.texts if known else {}
    texts = {**theirs.texts, **mine.texts}
    if theirs.changed_at and mine.changed_at and theirs.changed_at > mine.changed_at:
        # What is in hand here waited longer: the storage was full, or a tab was put away.
        texts |= {key: text for key, text in theirs.texts.items() if began.get(key) != text}
    return mine.model_copy(
        update={
            "texts": texts,
            "fills": (*theirs.fills, *mine.fills[before:]),
        }
    )


PARTS_OF_PLACE = 3  # kind, pond and id
LOGS: dict[str, type[Reading] | type[Entry]] = {"reading": Reading, "entry": Entry}
NO_POND = "none"  # where readings without a pond lie
OUTLET = "outlet"  # the one place where there is no pond


def new_id() -> str:
    """An identifier that no other device will make."""
    return uuid.uuid4().hex


@dataclass
class Session:
    """Everything loaded, and the box it came from.

    Logs grow without end, so each pond's is read by itself: on the first look, or in the
    background after the first screen.
    """

    box: Box
    preferences: Preferences = field(default_factory=first_preferences)
    ponds: dict[str, Pond] = field(default_factory=dict)
    readings: dict[str, Reading] = field(default_factory=dict)
    entries: dict[str, Entry] = field(default_factory=dict)
    drafts: dict[str, Draft] = field(default_factory=dict)
    troubles: list[Trouble] = field(default_factory=list)
    earlier: dict[str, list[Pond]] = field(default_factory=dict)
    leaving: dict[str, Pond] = field(default_factory=dict)
    """Ponds that the user deleted and can still have back: nothing of them is gone yet."""
    refused: StoreError | None = None
    """Why nothing could be read at the start: then nothing is kept either."""
    changed: Callable[[], None] = lambda: None
    asking: asyncio.Future[bool] | None = None
    """Held, so that a question that is under way is not dropped."""
    writing: asyncio.Lock = field(default_factory=asyncio.Lock)
    """Held while a document is compared and saved, so that this tab is not taken for two."""
    foreign: dict[str, int] = field(default_factory=dict)
    """How often another tab changed a draft: screens that hold its texts look at them anew."""
    _stored: dict[str, Stored | None] = field(default_factory=dict)
    """By key: drafts and preferences as this tab last saw them on the device."""
    _reads: dict[str, asyncio.Task[None]] = field(default_factory=dict)
    _draft_trouble_told: bool = False
    _sorting: asyncio.Task[list[Trouble]] | None = None
    _read: set[str] = field(default_factory=set)
    _asked: set[str] = field(default_factory=set)
    _sorted: dict[str, list[LogItem]] = field(default_factory=dict)

    async def load(self) -> None:
        """Read all but the logs from the device; what can't be read is reported, not lost."""
        try:
            await free_reserved(self.box)
            ponds = await list_all(self.box, "pond", Pond)
        except StoreError as failure:
            self.refused, self._draft_trouble_told = failure, True
            raise
        self.refused = None
        drafts = await list_all(self.box, "draft", Draft)
        preferences = await list_all(self.box, "preferences", Preferences)
        self.ponds = {pond.id: pond for pond in ponds.documents}
        self.readings, self.entries, self._sorted = {}, {}, {}
        self._reads, self._read, self._sorting = {}, set(), None
        self._stored = {f"draft/{draft.id}": draft for draft in drafts.documents}
        for found in preferences.documents:
            self.preferences = found
            self._stored[f"preferences/{found.id}"] = found
        set_language(self.preferences.language)
        self.drafts = {draft.id: in_units(draft, self.system) for draft in drafts.documents}
        self.troubles = [
            trouble for part in (ponds, drafts, preferences) for trouble in part.troubles
        ]

    @property
    def first_start(self) -> bool:
        """Whether nothing was ever chosen on this device."""
        return not any(key.startswith("preferences/") for key in self._stored)

    def greet(self, language: str | None) -> None:
        """Begin in the language that the device is set to; nothing is kept until one chooses."""
        self.preferences = first_preferences(nearest_language(language))

    async def read_logs(self, pause: float = 0.0) -> None:
        """Read the log of every pond, one after the other, with a pause [s] for the screen."""
        for pond_id in (*self.ponds, NO_POND, *await self._ponds_gone()):
            await asyncio.sleep(pause)
            await self._reading_log(pond_id)
            self.changed()  # the first screen says how each pond is, and what is in no backup

    async def _ponds_gone(self) -> list[str]:
        """Ponds that are not on this device while something of their log is."""
        try:
            places = [key.split("/") for kind in LOGS for key in await self.box.keys(f"{kind}/")]
        except StoreError:
            return []  # reading the logs tells of it
        found = {parts[1] for parts in places if len(parts) == PARTS_OF_PLACE}
        return sorted(found - {NO_POND, *self.ponds, *self.leaving})

    def _reading_log(self, pond_id: str) -> asyncio.Task[None]:
        if pond_id not in self._reads:
            self._reads[pond_id] = asyncio.create_task(self._read_log(pond_id))
        return self._reads[pond_id]

    async def _read_log(self, pond_id: str) -> None:
        found: list[Trouble] = []
        reads = self._reads
        try:
            if self._sorting is None:
                self._sorting = asyncio.create_task(sort_by_pond(self.box, "reading", Reading))
                found += await self._sorting
            else:
                await self._sorting
            readings = await list_all(self.box, "reading", Reading, pond_id)
            entries = await list_all(self.box, "entry", Entry, pond_id)
            if reads is not self._reads:  # everything was loaded anew meanwhile
                return
            found += [*readings.troubles, *entries.troubles]
            # What was saved meanwhile is newer than what was read.
            self.readings = {item.id: item for item in readings.documents} | self.readings
            self.entries = {item.id: item for item in entries.documents} | self.entries
        except StoreError as failure:
            if self.refused is None:  # else it is said already
                found.append(Trouble(f"reading/{pond_id}", str(failure)))
        self.troubles += found
        self._read.add(pond_id)
        self._sorted.pop(pond_id, None)
        self._sorted.pop(NO_POND, None)
        if found or pond_id in self._asked:
            self.changed()

    def log_is_read(self, pond_id: str) -> bool:
        """Whether a pond's log is all there; until then it looks empty."""
        return pond_id in self._read

    @property
    def system(self) -> str:
        """The unit system in use."""
        return self.preferences.units

    async def keep_preferences(self, preferences: Preferences) -> None:
        """Save what the user chose.

        What is typed keeps its meaning in other units and another language: it is saved anew in the
        same step, and each draft says what its numbers are in.
        """
        key = f"preferences/{preferences.id}"
        before = self.preferences
        if (before.units, before.language) != (preferences.units, preferences.language):
            for draft_id in list(self.drafts):  # what another tab typed meanwhile joins first
                await self.save_draft(draft_id)
        async with self._alone(t("the settings")):
            set_language(preferences.language)
            known = self._stored.get(key)
            changed = [Step("preferences", preferences.id, Preferences, preferences, known)]
            for held in self.drafts.values():
                stored = self._stored.get(f"draft/{held.id}")
                draft = in_units(held, preferences.units)
                if stored is not None and draft != stored:
                    changed.append(Step("draft", draft.id, Draft, draft, stored))
            try:
                await take_steps(self.box, changed)
            except BaseException:
                set_language(before.language)
                raise
            self.preferences = preferences
            for step in changed:
                self._stored[f"{step.kind}/{step.place}"] = step.document
            self._reread_drafts()
        self.changed()

    def _reread_drafts(self) -> None:
        """Have each draft, and the screen that holds its texts, in the units in use now."""
        for draft_id, held in self.drafts.items():
            draft = in_units(held, self.system)
            if draft != held:
                self.drafts[draft_id] = draft
                self.foreign[draft_id] = self.foreign.get(draft_id, 0) + 1

    async def keep_pond(self, pond: Pond) -> None:
        """Save a pond; what it was before can be had back."""
        async with self._alone(pond.name):
            before = self.ponds.get(pond.id)
            await save(self.box, "pond", pond, over=before or self.leaving.get(pond.id))
            self._ask_at_the_first(pond.id)
            if before is not None and before != pond:
                self.earlier.setdefault(pond.id, []).append(before)
            self.ponds[pond.id] = pond
            self.leaving.pop(pond.id, None)
        self.changed()

    @asynccontextmanager
    async def _alone(self, what: str, item: LogItem | None = None) -> AsyncIterator[None]:
        """Save one after the other; if another tab was faster, take its version over and say so."""
        try:
            async with self.writing:
                yield
        except Changed as error:
            if item is None:
                await self.load_anew()
            else:
                await self._read_again(item)
            raise Changed(
                "Another tab or window changed {what} a moment ago, so nothing was saved here. "
                "Look at what is saved now, then save again.",
                what=what,
            ) from error

    async def _read_again(self, item: LogItem) -> None:
        """Take over one item of a log as it is on the device."""
        kind: str = "reading" if isinstance(item, Reading) else "entry"
        text = await self.box.get(f"{kind}/{item.place()}")
        with suppress(PondError):  # what a newer app wrote is reported at the next start
            found = read_text(kind, item.place(), type(item), text) if text else None
            self.heard(kind, item.place(), found)
        self.changed()

    def set_aside(self, pond_id: str) -> Pond | None:
        """Take a pond off the screens; what is on the device stays until it is forgotten."""
        pond = self.ponds.pop(pond_id, None)
        self._sorted.clear()
        if pond is not None:
            self.leaving[pond_id] = pond
            self.changed()
        return pond

    def bring_back(self, pond: Pond) -> None:
        """Put a pond that was set aside on the screens again."""
        if self.leaving.get(pond.id) is pond:
            self.ponds[pond.id] = self.leaving.pop(pond.id)
            self.changed()

    async def forget(self, pond: Pond) -> None:
        """Delete a pond that is still set aside, its log, and what is half done, in one step.

        Raises:
            Changed: Another tab saved something of this pond that is not known here; nothing is
                deleted then, and the pond is on the screens again.
        """
        if self.leaving.get(pond.id) is not pond:
            return
        await self._reading_log(pond.id)
        drafts = [key for key, one in self.drafts.items() if is_about(one, pond.id, self.ponds)]
        try:
            async with self.writing:
                if self.leaving.get(pond.id) is not pond:  # taken back while waiting
                    return
                steps = [Step("pond", pond.id, Pond, None, pond)]
                steps += [Step("draft", draft_id, Draft, None) for draft_id in drafts]
                steps += await self._leaving_log(pond.id)
                await take_steps(self.box, steps)
                late = [key for kind in LOGS for key in await self.box.keys(f"{kind}/{pond.id}/")]
                if late:  # saved while this was under way: with its pond it can be seen
                    await save(self.box, "pond", pond, over=None)
                    raise Changed("{key} was changed in another tab", key=late[0])
        except Changed as error:
            await self.load_anew()
            raise Changed(
                "Another tab or window saved something of {what} a moment ago, so it was not "
                "deleted. Look at it, then delete it again.",
                what=pond.name,
            ) from error
        del self.leaving[pond.id]
        for item in list(self.whole_log(pond.id)):
            (self.readings if isinstance(item, Reading) else self.entries).pop(item.id, None)
        self._sorted.pop(pond.id, None)
        for draft_id in drafts:
            self.drafts.pop(draft_id, None)
            self._stored.pop(f"draft/{draft_id}", None)
        self.earlier.pop(pond.id, None)
        self.changed()

    async def _leaving_log(self, pond_id: str) -> list[Step]:
        """Steps that delete the log of a pond; Changed where it holds what is not known here."""
        known = {item.id: item for item in self.whole_log(pond_id)}
        steps: list[Step] = []
        for kind, model in LOGS.items():
            found = await list_all(self.box, kind, model, pond_id)
            for item in found.documents:
                if known.get(item.id) != item:
                    raise Changed("{key} was changed in another tab", key=item.id)
                steps.append(Step(kind, item.place(), model, None, item))
        return steps

    async def take_back(self, pond_id: str) -> None:
        """Undo the last change of a pond since the app was started."""
        earlier = self.earlier.get(pond_id)
        if not earlier:
            return
        async with self._alone(earlier[-1].name):
            await save(self.box, "pond", earlier[-1], over=self.ponds.get(pond_id))
            self.ponds[pond_id] = earlier.pop()
        self.changed()

    async def keep_reading(self, reading: Reading) -> None:
        """Save a reading."""
        known = self.readings.get(reading.id)
        async with self._alone(reading.place_name, reading):
            await save(self.box, "reading", reading, over=known or ANYTHING)
            await self._keep_its_pond(reading.pond_id)
        self._ask_at_the_first(reading.pond_id)
        self.readings[reading.id] = reading
        self._log_changed(reading.pond_id)

    async def _keep_its_pond(self, pond_id: str) -> None:
        """What was saved must be seen: another tab may have deleted its pond a moment ago."""
        pond = self.ponds.get(pond_id)
        if pond is not None and await self.box.get(f"pond/{pond_id}") is None:
            await save(self.box, "pond", pond, over=None)

    def _ask_at_the_first(self, pond_id: str) -> None:
        """Ask the browser to keep everything once there is something of one's own to lose."""
        if pond_id == EXAMPLE or self.asking is not None:
            return
        known: tuple[LogItem, ...] = (*self.readings.values(), *self.entries.values())
        if all(one == EXAMPLE for one in self.ponds) and not own_items(known):
            self.asking = asyncio.ensure_future(ask_to_stay())

    async def keep_entry(self, entry: Entry) -> None:
        """Save any other entry of a log."""
        known = self.entries.get(entry.id)
        async with self._alone(t("the log"), entry):
            await save(self.box, "entry", entry, over=known or ANYTHING)
            await self._keep_its_pond(entry.pond_id)
        self._ask_at_the_first(entry.pond_id)
        self.entries[entry.id] = entry
        self._log_changed(entry.pond_id)

    async def move_log_item(self, item: LogItem, before: LogItem) -> None:
        """Save an item of a log with another pond, and forget it where it was, in one step."""
        kind, model = ("reading", Reading) if isinstance(item, Reading) else ("entry", Entry)
        async with self._alone(t("the log"), before):
            step = Step(kind, before.place(), model, None, self.log_item(before) or ANYTHING)
            await take_steps(self.box, [Step(kind, item.place(), model, item, None), step])
        held: dict[str, Any] = self.readings if isinstance(item, Reading) else self.entries
        held[item.id] = item
        self._log_changed(before.pond_id)
        self._log_changed(item.pond_id)

    def log_item(self, item: LogItem) -> LogItem | None:
        """What a reading or an entry is by now; None if it is gone."""
        held: dict[str, Any] = self.readings if isinstance(item, Reading) else self.entries
        found: LogItem | None = held.get(item.id)
        return found

    async def drop_log_item(self, item: LogItem) -> None:
        """Delete a reading or an entry; saving it again takes that back."""
        async with self._alone(t("the log"), item):
            await self._delete(item, over=self.log_item(item) or ANYTHING)
        self._log_changed(item.pond_id)

    async def _delete(self, item: LogItem, over: LogItem | Anything = ANYTHING) -> None:
        if isinstance(item, Reading):
            await delete(self.box, "reading", item.place(), Reading, over=over)
            self.readings.pop(item.id, None)
        else:
            await delete(self.box, "entry", item.place(), Entry, over=over)
            self.entries.pop(item.id, None)

    def _log_changed(self, pond_id: str) -> None:
        self._sorted.pop(pond_id, None)
        self._sorted.pop(NO_POND, None)  # it holds what is left of ponds that are gone
        self.changed()

    async def note_backup(self, at: datetime, readings: int, entries: int) -> None:
        """Remember that everything is in a file now."""
        noted = {
            "backed_up_at": at,
            "backed_up_readings": readings,
            "backed_up_entries": entries,
        }
        await self.keep_preferences(self.preferences.model_copy(update=noted))

    async def load_anew(self) -> None:
        """After a restore: what is shown is what is on the device."""
        self.earlier.clear()
        self.leaving.clear()
        await self.load()
        self.changed()
        await self.read_logs()

    async def keep_draft(self, draft: Draft) -> None:
        """Hold what is half done, and save it."""
        self.hold_draft(draft)
        await self.save_draft(draft.id)

    def hold_draft(self, draft: Draft) -> None:
        """Take what is half done in hand at once: the next key or press adds to it."""
        self.drafts[draft.id] = in_units(draft, self.system).model_copy(
            update={"changed_at": datetime.now(UTC)}
        )

    async def save_draft(self, draft_id: str) -> None:
        """Save what is held by then, together with what another tab adds to it meanwhile.

        A StoreError is told at the first key that is not kept, not at each.
        """
        try:
            await self._save_draft(draft_id)
        except StoreError:
            if not self._draft_trouble_told:
                self._draft_trouble_told = True
                raise
        else:
            self._draft_trouble_told = False

    async def _save_draft(self, draft_id: str) -> None:
        key = f"draft/{draft_id}"
        async with self.writing:
            draft = self.drafts.get(draft_id)
            known = self._stored.get(key)
            mine = known if isinstance(known, Draft) else None
            before = mine and in_units(mine, self.system)
            if draft is None or draft in (mine, before):  # dropped since, or saved with a later key
                return
            try:
                await save(self.box, "draft", draft, over=mine)
            except Changed:
                text = await self.box.get(key)
                theirs = read_text("draft", draft_id, Draft, text) if text else None
                theirs = theirs and in_units(theirs, self.system)
                held = self.drafts.get(draft_id, draft)
                draft = joined(before, theirs, held) if theirs else held
                await save(self.box, "draft", draft)
                newest = self.drafts.get(draft_id, held)
                self.drafts[draft_id] = draft if newest is held else joined(held, draft, newest)
                self.foreign[draft_id] = self.foreign.get(draft_id, 0) + 1
                self.changed()
            self._stored[key] = draft

    def _beside_unsaved(self, draft_id: str, found: Draft | None) -> Draft | None:
        """A draft from another tab, with what was typed or timed here and is not saved yet."""
        known, held = self._stored.get(f"draft/{draft_id}"), self.drafts.get(draft_id)
        theirs = found and in_units(found, self.system)
        mine = in_units(known, self.system) if isinstance(known, Draft) else None
        if held is None or held == mine:
            return theirs
        if theirs is None:
            return held
        both = joined(mine, theirs, held)
        return theirs if (both.texts, both.fills) == (theirs.texts, theirs.fills) else both

    def heard(self, kind: str, place: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        document_id = place.rpartition("/")[2]
        shown = found
        if kind == "draft" and (found is None or isinstance(found, Draft)):
            shown = self._beside_unsaved(document_id, found)
        if kind in ("draft", "preferences"):
            self._stored[f"{kind}/{place}"] = found
        if isinstance(found, Preferences):
            self.preferences = found
            set_language(found.language)
            self._reread_drafts()
        held: dict[str, dict[str, Any]] = {
            "pond": self.ponds,
            "reading": self.readings,
            "entry": self.entries,
            "draft": self.drafts,
        }
        if kind in held:
            if shown is None:
                held[kind].pop(document_id, None)
            else:
                held[kind][document_id] = shown
        if isinstance(found, Reading | Entry) and found.pond_id in self.leaving:
            self.bring_back(self.leaving[found.pond_id])  # somebody works on it
        if kind == "draft":
            self.foreign[document_id] = self.foreign.get(document_id, 0) + 1
        if kind == "pond":  # what was undone here would undo the other's change
            self.earlier.pop(document_id, None)
            self.leaving.pop(document_id, None)
        self._sorted.clear()

    async def drop_draft(self, draft_id: str) -> None:
        """Forget what was half done, once it is saved for good or given up."""
        if self.drafts.pop(draft_id, None) is not None:
            async with self.writing:
                await delete(self.box, "draft", draft_id, Draft)
                self._stored.pop(f"draft/{draft_id}", None)

    def whole_log(self, pond_id: str) -> list[LogItem]:
        """Everything in a pond's log, newest first; empty while it is being read."""
        if pond_id not in self._read:
            self._asked.add(pond_id)
            self._reading_log(pond_id)
        if pond_id not in self._sorted:
            items: tuple[LogItem, ...] = (*self.readings.values(), *self.entries.values())
            # What is left of ponds that are gone is shown with what never had one.
            known = {*self.ponds, *self.leaving}
            mine = (
                item
                for item in items
                if item.pond_id == pond_id or (pond_id == NO_POND and item.pond_id not in known)
            )
            self._sorted[pond_id] = newest_first(mine)
        return self._sorted[pond_id]

    def log(self, pond_id: str) -> list[Reading]:
        """A pond's readings, newest first."""
        return [item for item in self.whole_log(pond_id) if isinstance(item, Reading)]
