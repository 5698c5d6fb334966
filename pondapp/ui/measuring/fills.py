"""Timed fills at one place: kept with every press, so that a closed browser loses nothing.

What is shared by the screens that time a container: each lays the parts out as it needs them.
"""

import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, Literal

import flet as ft

from pondapp import units
from pondapp.answers.measuring.aims import FillAim, fill_aim
from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.measuring.methods import MeasuringAssumptions
from pondapp.answers.methods.kinds import BUCKET, METHODS
from pondapp.answers.planning.on_branch import passed
from pondapp.answers.plumbing.path import lines_of
from pondapp.models.base import limits_of
from pondapp.models.limits import MOST_FILLS, MOST_TURNS
from pondapp.models.preferences import EXACT, Draft
from pondapp.models.press import Press
from pondapp.models.reading import Container, Fill, FillSet, Reading, Steadiness
from pondapp.state import presses
from pondapp.state.ids import new_id
from pondapp.ui.measuring.stopwatch import bounced
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import come_back, draft_name, left_long_ago, use_pond_id
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme, touch
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t, tn

SECONDS = limits_of(Fill, "seconds")
FORM = Form((QuantityField("seconds", "Or type a fill time", "duration", SECONDS),))
BEFORE = "before."  # in front of texts of fills from before a valve was turned
_NOTED = timedelta(seconds=1)  # a turn is noted with the fills before it, and then with its branch
# Texts of one reading; all others serve the next too.
READ = ("seconds", "full_weight", "meter_flow", "depth_over_lip")
SPENT = (*READ, "note")


def fills_draft_id(pond_id: str, place_id: str, method: str = "bucket") -> str:
    """The draft that holds what is timed at a place by one method until it is saved in the log."""
    return draft_name("fills", pond_id, place_id, method)


def _turned_since(reading: Reading) -> datetime | None:
    """When the valve of its branch was turned last, if that was since the reading before it."""
    from pondapp.ui.tuning.tuning import turned_in  # its screens are not read for a press elsewhere

    session = session_now()
    pond = session.ponds.get(reading.pond_id)
    draft = session.drafts.get(draft_name("tune", reading.pond_id))
    if pond is None or draft is None:
        return None
    ends = {one.id: (one.id, *passed(one)) for line in lines_of(pond) for one in line.branches}
    branch_id = next((key for key, at in ends.items() if reading.place_id in at), None)
    if branch_id is None:
        return None
    turned = turned_in(draft.texts).get(branch_id)
    readings = session.logs.readings_of(pond.id)
    before = [one.taken_at for one in readings if one.place_id in ends[branch_id]]
    return turned if turned and before and max(before) < turned else None


@dataclass(frozen=True, slots=True)
class FillEntry:
    """The fills at one place that are not saved in the log yet, and how to change them."""

    draft: Draft
    put: Callable[[Draft], None]
    form: Form = FORM
    """What else is typed with them."""

    @property
    def fills(self) -> tuple[Fill, ...]:
        """All fills, excluded ones among them."""
        return self.draft.fills

    @property
    def running(self) -> bool:
        """Whether a fill is being timed."""
        return self.draft.started_at is not None

    @property
    def elapsed(self) -> Callable[[], float] | None:
        """How long the fill has run by now, where one does."""
        begun, begun_at = self.draft.started_tick, self.draft.started_at
        if begun_at is None:
            return None
        if begun is not None and not self.only_by_clock:
            return lambda: touch.tick() - begun
        return lambda: time.time() - begun_at

    @property
    def only_by_clock(self) -> bool:
        """Whether a fill runs that the stopwatch of another start of the app began."""
        return self.running and self.draft.started_on != touch.run()

    @property
    def left(self) -> bool:
        """Whether what was timed or read here was left some time ago, and nobody said go on."""
        read = any(self.text(key) for key in READ) or self.draft.by_clock is not None
        held = bool(self.fills) or read
        return held and not self.running and left_long_ago(self.draft.changed_at)

    @property
    def container(self) -> Container | None:
        """The container in hand: the one that was chosen, or the first; none if there is none."""
        return _chosen(self.draft)

    def text(self, key: str, begin: str = "") -> str:
        """The text of a field, or what it begins with."""
        return self.draft.texts.get(key, begin)

    @property
    def newest(self) -> Draft:
        """The draft with what was typed and pressed since it was drawn."""
        held = session_now().drafts.get(self.draft.id, self.draft)
        return held.model_copy(update={"pond_id": self.draft.pond_id})

    def keep(self, **changes: Any) -> None:
        """Change the draft and keep it on the device."""
        now = self.newest
        if "texts" in changes:
            now = self.form.filled(now, changes.pop("texts"))
        self.put(now.model_copy(update=changes))
        ft.context.page.run_task(session_now().drafts.save_held, self.draft.id)

    def note(self, key: str) -> Callable[[str], None]:
        """A change handler for a field.

        Whoever goes on with something that was left long ago by another word than "go on" does not
        mean its times: they stay in sight, not counted. What belongs to one of them is such a word.
        """

        def noted(text: str) -> None:
            now = self.newest
            forgotten = now.fills and now.started_at is None and left_long_ago(now.changed_at)
            if forgotten and "." not in key:
                self.turned()
            self.keep(texts={**self.newest.texts, key: text})

        return noted

    def fill_another(self, container_id: str) -> None:
        """Take another container in hand.

        What is timed already counts as fills of it from now on, which is right where the wrong one
        was in hand and wrong where the containers changed: whoever measures is told, and can undo.
        """
        before = self.text("container")
        self.note("container")(container_id)
        now = self.newest
        counted = sum(not fill.excluded for fill in now.fills)
        chosen = _chosen(now)
        if not counted or chosen is None or chosen == _chosen(self.draft):
            return

        async def undo() -> None:
            self.keep(texts={**self.newest.texts, "container": before})

        told = tn(
            "{count} fill counts as one of {container} now.",
            "{count} fills count as fills of {container} now.",
            counted, container=chosen.name,
        )  # fmt: skip
        say(told, undo)

    def add_typed(self, system: str) -> None:
        """Make a fill of the time that is typed."""
        texts = self.newest.texts
        seconds = FORM.read(texts, system).values.get("seconds")
        if seconds is not None:
            fill = Fill(seconds=seconds, typed=True)
            counted = (*self.newest.fills, fill)[-MOST_FILLS:]
            self.keep(fills=counted, texts={**texts, "seconds": ""})

    def started(self, pressed: float, *, anew: bool = False, method: str = "") -> None:
        """A fill began at this tick of Python's own clock, perhaps of a new set."""
        self.take(self._press("start", pressed, anew=anew, method=method))

    def stopped(self, pressed: float) -> None:
        """A fill ended at this tick."""
        now = self.newest
        begun = now.started_tick if now.started_on == touch.run() else None
        seconds = None if begun is None else pressed - begun
        away = begun is not None and touch.away_since(begun)
        self.take(self._press("stop", pressed, seconds=seconds, away=away))

    def _press(self, kind: Literal["start", "stop"], pressed: float, **more: Any) -> Press:
        wall = time.time() - (touch.tick() - pressed)
        of: dict[str, Any] = {"route": "", "pond": "", "place": "", "method": "", **more}
        return Press(id=new_id(), run=touch.run(), wall=wall, tick=pressed, kind=kind, **of)

    def take(self, press: Press) -> None:
        """Take a press of a stopwatch, and keep what it makes of the fills."""
        if presses.is_taken(self.newest, press):
            return
        if press.anew:
            self.turned(self.container if press.method in ("", BUCKET) else None)
        taken = presses.take(self.newest, press)
        self.put(taken.draft)
        ft.context.page.run_task(session_now().drafts.save_held, self.draft.id)
        if not taken.counted:
            told = t(
                "This fill is not counted: it ran for over a day, or this device's clock was set."
            )
            say(told)

    def cancelled(self, _: Any = None) -> None:
        """The fill that runs is no fill."""
        self.keep(started_at=None, started_on=None, started_tick=None)

    def turned(self, container: Container | None = None) -> None:
        """A valve was turned: what was timed before stays in sight and does not count.

        Args:
            container: What was filled, where its content is what makes a flow of the times.
        """
        now = self.newest
        if not now.fills:
            self.keep(by_clock=None, opened=None)
            return
        left = left_long_ago(now.changed_at)
        closed = FillSet(
            fills=now.fills[-MOST_FILLS:], container=container, opened=now.opened,
            until=now.changed_at if left else datetime.now(UTC), left=left,
        )  # fmt: skip
        sets = (*now.before_turn, closed)
        dropped = _count(sets[:-MOST_TURNS])
        texts = _moved(now.texts, BEFORE, BEFORE, -dropped) if dropped else now.texts
        texts = _moved(texts, "", BEFORE, _count(now.before_turn) - dropped)
        self.keep(fills=(), before_turn=sets[-MOST_TURNS:], by_clock=None, opened=None, texts=texts)

    def not_turned(self, _: Any = None) -> None:
        """The valve was not turned the last time: the fills before that count with the others."""
        now = self.newest
        if not now.before_turn:
            return
        *sets, last = now.before_turn
        earlier, both = _count(sets), len(last.fills) + len(now.fills)
        dropped = max(0, both - MOST_FILLS)
        own = _moved(now.texts, "", "", len(last.fills) - dropped)
        texts = _moved(own, BEFORE, "", -earlier - dropped, start_at=earlier)
        self.keep(
            fills=(*last.fills, *now.fills)[-MOST_FILLS:], before_turn=tuple(sets),
            opened=now.opened or last.opened, texts=texts,
        )  # fmt: skip

    def strike(self, index: int) -> Callable[[Any], None]:
        """A click handler that strikes a fill out, or takes it back."""

        def handler(_: Any) -> None:
            fills = self.newest.fills
            if index < len(fills):
                turned = fills[index].model_copy(update={"excluded": not fills[index].excluded})
                self.keep(fills=(*fills[:index], turned, *fills[index + 1 :]))

        return handler

    def go_on(self, _: Any = None) -> None:
        """What was left some time ago is still meant."""
        self.keep()

    def start_over(self, _: Any = None) -> None:
        """What was left some time ago is not meant any more; one touch brings it back."""
        before = self.newest

        async def undo() -> None:
            self.put(before)
            await session_now().drafts.save_held(before.id)

        self.clear()
        say(t("Started over."), undo)

    def count_it(self, _: Any = None) -> None:
        """Take a time that only the device's clock tells."""
        now = self.newest
        if now.by_clock is not None:
            fill = Fill(seconds=now.by_clock, typed=True)
            self.keep(by_clock=None, fills=(*now.fills, fill)[-MOST_FILLS:])

    def leave_it_out(self, _: Any = None) -> None:
        """Leave a time out that only the device's clock tells."""
        self.keep(by_clock=None)

    def _without_fills(self) -> Draft:
        texts = self.newest.texts.items()
        spent = {f"{key}{mark}" for key in SPENT for mark in ("", EXACT)}
        kept = {key: text for key, text in texts if key.rpartition(".")[2] not in spent}
        anew = Draft(id=self.draft.id, pond_id=self.draft.pond_id, taken=self.newest.taken)
        return self.form.filled(anew, kept)

    def clear(self) -> None:
        """Begin anew at this place; the container stays in hand."""
        anew = self._without_fills()
        self.keep(
            fills=(), before_turn=(), opened=None, started_at=None, started_on=None,
            started_tick=None, by_clock=None, texts=anew.texts,
        )  # fmt: skip

    def with_turns(self, reading: Reading) -> Reading:
        """A reading of these fills, with what was timed before each turn of the valve.

        A turn before which nothing was timed is noted too, since the last reading was taken before.
        """
        now, sets = self.newest, self.newest.before_turn
        at = _turned_since(reading)
        if at and all(one.until is None or one.until < at - _NOTED for one in sets):
            sets = (*sets, FillSet(fills=(), until=at))[-MOST_TURNS:]
        return reading.model_copy(update={"before_turn": sets, "opened": now.opened})

    async def saved(self) -> None:
        """Forget the fills: they are in the log now."""
        anew = self._without_fills()
        self.put(anew)
        await session_now().drafts.save(anew)


def _count(sets: Iterable[FillSet]) -> int:
    return sum(len(one.fills) for one in sets)


def _moved(
    texts: Mapping[str, str], start: str, to: str, by: int, *, start_at: int = 0
) -> dict[str, str]:
    """Texts of single fills, "<start><number>.<what>", from a number on, under other numbers."""
    kept: dict[str, str] = {}
    moved: dict[str, str] = {}
    for key, text in texts.items():
        number, dot, what = key.removeprefix(start).partition(".")
        mine = key.startswith(start) and dot and number.isdecimal()
        if mine and int(number) >= start_at:
            if int(number) + by >= 0:
                moved[f"{to}{int(number) + by}.{what}"] = text
        else:
            kept[key] = text
    return {**kept, **moved}


def use_fills(draft_id: str, form: Form = FORM) -> FillEntry:
    """The fills of a draft, and what is typed with them, as they were left."""
    session = session_now()
    pond_id = use_pond_id()
    _, redraw = ft.use_state(0)

    def put(changed: Draft) -> None:
        session.drafts.hold(changed)
        redraw(lambda count: count + 1)

    kept = session.drafts.get(draft_id) or Draft(id=draft_id)
    return FillEntry(kept.model_copy(update={"pond_id": pond_id or kept.pond_id}), put, form)


def entry_of(pond_id: str, place_id: str, method: str) -> FillEntry:
    """The fills at a place, for a press that no screen waits for."""
    drafts = session_now().drafts
    if not method:
        first = drafts.get(fills_draft_id(pond_id, place_id))
        chosen = first.texts.get("method", BUCKET) if first else BUCKET
        method = chosen if METHODS[chosen].timed else BUCKET
    draft_id = fills_draft_id(pond_id, place_id, method)
    held = drafts.get(draft_id) or Draft(id=draft_id)
    of = pond_id if pond_id in session_now().ponds else None
    return FillEntry(held.model_copy(update={"pond_id": of or held.pond_id}), drafts.hold)


def _chosen(draft: Draft) -> Container | None:
    containers = session_now().preferences.containers
    chosen = draft.texts.get("container", "")
    found = next((c for c in containers if c.id == chosen), None)
    return found or (containers[0] if containers else None)


def container_at(pond_id: str, place_id: str) -> Container | None:
    """The container in hand at a place; none if there is none at all."""
    draft_id = fills_draft_id(pond_id, place_id)
    return _chosen(session_now().drafts.get(draft_id) or Draft(id=draft_id))


def right_times_text(
    container: Container,
    band: FlowBand,
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None,
    system: str,
) -> tuple[str, str]:
    """The fill time to aim for and what else is fine, in a line; and what helps if none is sure."""
    window = fill_aim(container, band, rules, steadiness)
    time = units.show(window.aim, "duration", system)
    if not window.sure:
        return t("Aim for {time}.", time=time), _not_sure(window, system)
    if window.shortest is None:
        longest = units.show(window.longest, "duration", system)
        return t("Aim for {time}; {longest} or less is fine.", time=time, longest=longest), ""
    span = units.show_range(window.shortest, window.longest, "duration", system, 3)
    return t("Aim for {time}; {span} is fine.", time=time, span=span), ""


def aim_text(
    container: Container,
    band: FlowBand,
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None,
    system: str,
) -> str:
    """The fill time to aim for, what else is fine, and what helps where nothing would be sure."""
    window = fill_aim(container, band, rules, steadiness)
    aim = t(
        "Aim for {time} in {container}.",
        time=units.show(window.aim, "duration", system),
        container=container.name,
    )
    if not window.sure:
        return f"{aim} {_not_sure(window, system)}"
    if window.shortest is None:
        longest = units.show(window.longest, "duration", system)
        return f"{aim} {t('{longest} or less is fine.', longest=longest)}"
    span = units.show_range(window.shortest, window.longest, "duration", system, 3)
    return f"{aim} {t('Anything from {span} is fine.', span=span)}"


def _not_sure(window: FillAim, system: str) -> str:
    """What helps where three fills of the container cannot tell that a flow is right."""
    volume = units.show(window.volume, "volume", system) if window.volume else ""
    if window.fills and volume:
        return t(
            "Three fills of it cannot tell for sure whether that is right: time {count}, or use a "
            "container of {volume} or more.",
            count=window.fills, volume=volume,
        )  # fmt: skip
    if window.fills:
        return t(
            "Three fills of it cannot tell for sure whether that is right: time {count}.",
            count=window.fills,
        )
    if volume:
        return t(
            "Its fills cannot tell for sure whether that is right: use a container of {volume} or "
            "more.",
            volume=volume,
        )
    return t(
        "What is wanted is so narrow that no bucket can tell for sure whether a flow is right. "
        "Weigh the water of each fill, and time many."
    )


def no_container() -> list[ft.Control]:
    """What to do while there is nothing to fill."""
    return [
        layout.body(t("Add the bucket or tub that you will fill first.")),
        layout.main_button(t("Add a container"), go("/containers")),
    ]


def while_running(entry: FillEntry) -> list[ft.Control]:
    """For the screen above the button while a fill runs."""
    told = t(
        "The app was started again while this fill ran. Its time will be by this device's clock."
    )
    cancel = layout.quiet_button(t("Cancel this fill"), entry.cancelled)
    return [*([layout.body(told)] if entry.only_by_clock else ()), cancel]


def come_back_card(entry: FillEntry) -> ft.Control:
    """What was left here some time ago, and whether it is still meant."""
    counted = len(entry.fills)
    when = come_back(entry.draft.changed_at)
    said = (
        t("What is typed here is from {when}.", when=when)
        if not counted
        else tn("{count} fill from {when}.", "{count} fills from {when}.", counted, when=when)
    )
    return layout.card(
        [
            layout.marked(ft.Icons.HISTORY, said),
            layout.second_button(t("Go on"), entry.go_on),
            layout.second_button(t("Start over"), entry.start_over),
        ],
        strong=True,
    )


def by_clock_card(entry: FillEntry, system: str) -> list[ft.Control]:
    """A time that only the device's clock tells, and whether it counts."""
    seconds = entry.draft.by_clock
    if seconds is None:
        return []
    said = t(
        "This device slept, its clock was set, or the app was started again while the fill ran. "
        "By the clock it took {time}; if the clock was set, that is wrong.",
        time=units.show(seconds, "duration", system),
    )
    return [
        layout.card(
            [
                layout.body(said),
                layout.second_button(t("Count it"), entry.count_it),
                layout.second_button(t("Don't count it"), entry.leave_it_out),
            ],
            strong=True,
        )
    ]


def before_turn(entry: FillEntry, system: str) -> list[ft.Control]:
    """Fills from before a valve was turned: in sight, not counted."""
    if not entry.draft.before_turn:
        return []
    again = layout.quiet_button(t("Nothing was turned: count those too"), entry.not_turned)
    times = "; ".join(
        ", ".join(units.show(fill.seconds, "duration", system) for fill in one.fills)
        for one in entry.draft.before_turn
    )
    return [
        layout.small(t("Timed before, not counted: {times}", times=times)),
        *([] if entry.running else [again]),
    ]


def valve_turned(entry: FillEntry, container: Container | None) -> list[ft.Control]:
    """The action after turning a valve: what was timed before does not count any more."""
    if not entry.fills or entry.running:
        return []

    async def turn(_: Any) -> None:
        if not await bounced():
            entry.turned(container)

    return [layout.second_button(t("Valve turned"), turn)]


def _fill_button(number: int, fill: Fill, system: str, on_click: Callable[[Any], None]) -> Any:
    name = (
        t("Take fill {number} back", number=number)
        if fill.excluded
        else t("Strike fill {number}", number=number)
    )
    decoration = ft.TextDecoration.LINE_THROUGH if fill.excluded else ft.TextDecoration.NONE
    return ft.OutlinedButton(
        content=ft.Row(
            [
                written(
                    units.show(fill.seconds, "duration", system), size=theme.BODY,
                    style=ft.TextStyle(decoration=decoration),
                ),
                ft.Icon(
                    ft.Icons.UNDO if fill.excluded else ft.Icons.CLOSE, size=theme.BODY + 2,
                    semantics_label=name,
                ),
            ],
            tight=True,
            spacing=6,
        ),
        height=theme.tall(theme.TOUCH),
        on_click=on_click,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=theme.RADIUS),
            padding=ft.Padding.symmetric(horizontal=theme.GAP),
        ),
    )  # fmt: skip


def fill_chips(entry: FillEntry, system: str) -> ft.Control:
    """Every fill as a button, in a row that is there before the first of them."""
    if entry.fills:
        return fill_rows(entry, system)[0]
    none = layout.small(t("No fill timed yet"))
    return ft.Container(
        none, height=theme.tall(theme.TOUCH), alignment=ft.Alignment.CENTER_LEFT
    )  # fmt: skip


def fill_rows(entry: FillEntry, system: str) -> list[ft.Control]:
    """Every fill as a button: a touch strikes it out or takes it back."""
    if not entry.fills:
        return []
    buttons = [
        _fill_button(index + 1, fill, system, entry.strike(index))
        for index, fill in enumerate(entry.fills)
    ]
    return [ft.Row(buttons, wrap=True, spacing=8, run_spacing=8)]


def typed_time(entry: FillEntry, system: str) -> list[ft.Control]:
    """A time taken by another clock."""
    read = FORM.read(entry.draft.texts, system)
    return [
        FORM.draw(entry, "seconds", read.errors),
        layout.second_button(
            t("Add this time"), lambda _: entry.add_typed(system), disabled=not read.values
        ),
    ]


def container_choice(
    entry: FillEntry, choose: Callable[[str], None] | None = None
) -> list[ft.Control]:
    """Which container is filled."""
    containers = session_now().preferences.containers
    chosen = entry.container.id if entry.container else ""
    return [
        layout.choice(
            t("Container"),
            [(c.id, c.name) for c in containers],
            chosen,
            choose or entry.fill_another,
        ),
        layout.quiet_button(t("Add or remove containers"), go("/containers")),
    ]


def container_chip(entry: FillEntry, aim: str) -> Any:
    """The container in hand, and what to aim for in it; a touch shows the others."""
    keyed: Any = ContainerChip
    return keyed(entry, aim, key="container")


@ft.component
def ContainerChip(entry: FillEntry, aim: str) -> Any:
    """What `container_chip` makes."""
    shown, set_shown = ft.use_state(False)
    name = entry.container.name if entry.container else ""
    words: list[ft.Control] = [
        written(name, size=theme.BODY, weight=ft.FontWeight.W_600, color=ft.Colors.ON_SURFACE)
    ]
    if aim:
        words.append(layout.small(aim))
    head = ft.TextButton(
        content=ft.Row(
            [
                ft.Column(words, spacing=0, tight=True, expand=True),
                ft.Icon(
                    ft.Icons.EXPAND_LESS if shown else ft.Icons.EXPAND_MORE,
                    size=theme.drawn(theme.TITLE),
                    semantics_label=t("Choose another container"),
                ),
                ft.Container(width=1, height=theme.TOUCH),  # no lower, and higher for large text
            ],
            spacing=8,
        ),
        on_click=lambda _: set_shown(not shown),
        style=ft.ButtonStyle(
            bgcolor=ft.Colors.SURFACE_CONTAINER,
            shape=layout.rounded(),
            padding=ft.Padding.symmetric(horizontal=theme.GAP, vertical=2),
            visual_density=ft.VisualDensity.STANDARD,
        ),
    )  # fmt: skip

    def choose(container_id: str) -> None:
        entry.fill_another(container_id)
        set_shown(False)

    told = ft.MergeSemantics(ft.Semantics(expanded=shown, content=head))
    return layout.column([told, *(container_choice(entry, choose) if shown else ())])
