"""The page's stopwatch: what it shows, the room that the screen leaves for it, and its presses.

It is HTML of the page (`web/templates/pad.js`), so that it counts before Python is there. Where
there is no page, the framework's own button stands in its place.
"""

import asyncio
import json
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.aims import ENOUGH_FILLS
from pondapp.answers.measuring.flow import FlowBand, Measured
from pondapp.answers.measuring.methods import Assumptions
from pondapp.answers.measuring.outlook import WORDS, Outlook, outlook, right_times, word_of
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered
from pondapp.models.preferences import Draft
from pondapp.models.press import PRESSES, Press
from pondapp.models.reading import Steadiness
from pondapp.state import presses
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.store import json_text
from pondapp.store.browser import page as browser
from pondapp.store.key_value_store import StoreError
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.stopwatch import Stopwatch, note_stop
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import flow_text
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.shell import pad_room, touch
from pondapp.ui.shell.session_context import session_now
from pondapp.words import current_language, t

BREATH = 0.1  # seconds
_taking = asyncio.Lock()  # a press that comes while others are saved waits for its turn


@dataclass(frozen=True, slots=True)
class Pad:
    """What a screen's stopwatch is about."""

    route: str
    pond_id: str
    place_id: str
    method: str
    title: str
    wanted: str
    """What to aim for, in one line."""
    to_start: str
    to_stop: str
    entered: Entered
    """What the next fill joins."""
    band: FlowBand | None
    """What is wanted there."""
    rules: Assumptions
    steadiness: Steadiness | None
    found: Measured | None = None
    """What the fills so far say."""
    asked: int = ENOUGH_FILLS
    """How many fills are asked for."""
    anew: bool = False
    """Whether the next start begins a new set of fills."""
    branch_id: str = ""
    """The branch whose valve was turned then."""

    @property
    def right(self) -> dict[str, float | None] | None:
        """The fill times that are right [s]."""
        window = right_times(self.method, self.entered, self.band, self.rules, self.steadiness)
        if window is None:
            return None
        return {"fastest": window.shortest, "aim": window.aim, "slowest": window.longest}

    def outlook(self) -> Sequence[Outlook]:
        """What the next fill can say; working it out takes longer than a screen may."""
        return outlook(self.method, self.entered, self.band, self.rules, self.steadiness)


def _words(pad: Pad) -> dict[str, str]:
    return {
        "start": t("Start"),
        "stop": t("Stop"),
        "toStart": pad.to_start,
        "toStop": pad.to_stop,
        "enough": t("Enough fills"),
        "more": t("Tap to time one more"),
        "count": t("Fill {n} of {m}", n="{n}", m="{m}"),
        "now": t("now"),
    }


def _verdict(found: Measured, system: str) -> dict[str, str]:
    """The verdict in a word; beside it the interval, or why there is none and what would decide."""
    told = {"detail": units.show_range(found.flow.low, found.flow.high, "flow", system, digits=3)}
    if found.kind not in WORDS:
        return {**told, "word": "", "severity": ""}
    if found.open_why:
        told["detail"] = ": ".join(units.tell(one, system) for one in found.open_why)
    word = word_of(found.kind, found.decision)
    return {**told, "word": units.tell(word, system), "severity": found.severity}


def _result(pad: Pad, system: str) -> dict[str, Any] | None:
    """What is measured so far, and where the needle stands: in fill times, as the bar counts."""
    found = pad.found
    if found is None or found.dry:
        return None
    shown: dict[str, Any] = {
        "number": flow_text(found, system),
        **_verdict(found, system),
    }
    flow, amount = found.flow, METHODS[pad.method].amount_timed(pad.entered)
    if amount and pad.right:
        times = {"time": flow.flow, "from": flow.high, "to": flow.low}
        shown |= {end: amount / one if one > 0.0 else None for end, one in times.items()}
    return shown


def state_of(entry: fills.FillEntry, pad: Pad, system: str) -> dict[str, Any]:
    """All that the page has to know to show the stopwatch without asking."""
    draft, aids = entry.draft, session_now().preferences.aids
    pond = session_now().ponds.get(pad.pond_id)
    counted = () if entry.left else draft.fills  # what was left is not gone on with unasked
    since = None
    if draft.started_at is not None:
        tick = draft.started_tick
        since = {
            "run": draft.started_on if tick is not None else "",
            "t": None if tick is None else 1000.0 * tick,
            "wall": draft.started_at,
        }
    return {
        "route": pad.route,
        "pond": pad.pond_id,
        "pondName": pond.name if pond else "",
        "place": pad.place_id,
        "method": pad.method,
        "title": pad.title,
        "wanted": pad.wanted,
        "words": _words(pad),
        "decimal": current_language().decimal,
        "fills": [{"seconds": one.seconds, "excluded": one.excluded} for one in counted],
        "asked": pad.asked,
        "since": since,
        "at": 1000.0 * draft.changed_at.timestamp() if draft.changed_at else 0.0,
        "band": pad.right,
        "result": None if entry.left else _result(pad, system),
        "outlook": [],
        "anew": pad.anew or entry.left,
        "branch": pad.branch_id,
        "aids": {
            "sound": aids.sound,
            "vibration": aids.vibration,
            "countdown": aids.countdown,
            "keys": aids.keys,
        },
        "taken": draft.taken,
    }


def _told(outlook: Sequence[Outlook], system: str) -> list[dict[str, Any]]:
    return [
        {
            "upTo": one.up_to,
            "word": units.tell(one.word, system),
            "detail": units.tell(one.why, system),
            "severity": one.severity,
        }
        for one in outlook
    ]


@ft.component
def _Told(
    route: str, state: dict[str, Any], outlook: Callable[[], Sequence[Outlook]] = tuple
) -> Any:
    """In place of the page's stopwatch, which lies over it; the page hears what it shows."""
    page = ft.context.page
    system = session_now().system
    task: Any = ft.use_ref(None)

    async def tell() -> None:
        await browser.ask("pad", state=json.dumps(state))
        await asyncio.sleep(BREATH)  # what the screen shows comes first
        if found := _told(outlook(), system):
            await browser.ask("pad", state=json.dumps({**state, "outlook": found}))

    def begin() -> None:
        task.current = page.run_task(tell)

    ft.use_effect(lambda: pad_room.appears(route), [route], cleanup=lambda: pad_room.goes(route))
    ft.use_effect(begin, [json.dumps(state)], cleanup=lambda: task.current.cancel())
    return ft.Container()


def stopwatch(entry: fills.FillEntry, pad: Pad) -> layout.Foot:
    """The stopwatch of a screen, at its foot."""
    if browser.has_pad():
        told = _Told(pad.route, state_of(entry, pad, session_now().system), pad.outlook)
        return layout.Foot(told, pad_room.foot_height(), pad_room.side_width())

    def start(pressed: float) -> None:
        if pad.anew and pad.branch_id:
            ft.context.page.run_task(note_turn, pad.pond_id, pad.branch_id)
        entry.started(pressed, anew=pad.anew or entry.left, method=pad.method)

    # Known by a key, the button keeps the keyboard's focus when what is above it comes or goes.
    keyed: Any = Stopwatch
    button = keyed(
        entry.elapsed, start, entry.stopped,
        to_start=pad.to_start, to_stop=pad.to_stop, key="stopwatch",
    )  # fmt: skip
    return layout.Foot(button, pad_room.foot_height())


def no_stopwatch(route: str) -> layout.Foot | None:
    """For a screen that has none now: the next start shows none there before Python is up."""
    if not browser.has_pad():
        return None
    return layout.Foot(_Told(route, {"route": route, "none": True}), 0.0)


async def note_turn(pond_id: str, branch_id: str) -> None:
    """The valve of a branch was turned: what was read at the others before is of another state."""
    from pondapp.ui.tuning.tuning import TURNED  # its screens are not read for a press elsewhere

    drafts = session_now().drafts
    name = draft_name("tune", pond_id)
    draft = drafts.get(name) or Draft(id=name, pond_id=pond_id)
    stamp = {f"{TURNED}{branch_id}": datetime.now(UTC).isoformat()}
    await drafts.save_unseen(draft.model_copy(update={"texts": {**draft.texts, **stamp}}))


async def take_presses(text: str) -> None:
    """Take presses that the page hands over, in their order, and tell it which ones are saved.

    Raises:
        StoreError: One is not saved; the page keeps it, and hands it over at its next start.
    """
    handed = PRESSES.validate_python(json.loads(json_text.check(text)))
    saved: list[str] = []
    failure: StoreError | None = None
    async with _taking:
        for number, press in enumerate(handed):
            try:
                if await _take(press, {one.id for one in handed[number:]}):
                    saved.append(press.id)
            except StoreError as problem:
                failure = problem
    if saved:
        await browser.ask("taken", ids=json.dumps(saved))
    if failure is not None:
        raise failure


async def _take(press: Press, still_handed: Collection[str]) -> bool:
    """Take a press; returns whether it is saved."""
    session = session_now()
    known = press.pond in session.ponds
    pond_id, place_id = (press.pond, press.place) if known else (NO_POND, OUTLET)
    entry = fills.entry_of(pond_id, place_id, press.method)
    held = entry.newest
    # What was handed before the press that was taken last was taken then too.
    if held.taken not in still_handed and not presses.is_taken(held, press):
        if press.anew and known and press.branch:
            await note_turn(pond_id, press.branch)
        entry.take(press)
        if press.kind == "stop":
            note_stop(touch.tick())
        session.device.on_change()
    await session.drafts.save_held(entry.draft.id)
    return not session.drafts.is_unsaved(entry.draft.id)
