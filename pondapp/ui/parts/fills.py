"""Timed fills at one place: kept with every press, so that a closed browser loses nothing.

What is shared by the screens that time a container: each lays the parts out as it needs them.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.preferences import Draft
from pondapp.models.reading import Container, Fill
from pondapp.sizing.aims import FillAim, fill_aim
from pondapp.sizing.flow import FlowBand
from pondapp.sizing.methods import MeasuringAssumptions
from pondapp.ui import theme
from pondapp.ui.current import session_now
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import draft_name, use_pond_id
from pondapp.ui.parts.navigate import go, say
from pondapp.ui.parts.stopwatch import Stopwatch
from pondapp.ui.parts.written import written
from pondapp.words import t

LONGEST_FILL = 86_400.0
SPENT = ("seconds", "note", "full_weight")  # texts of one reading; all others serve the next too


def fills_draft_id(pond_id: str, place_id: str, method: str = "bucket") -> str:
    """The draft that holds what is timed at a place by one method until it is saved in the log."""
    return draft_name("fills", pond_id, place_id, method)


@dataclass(frozen=True, slots=True)
class FillEntry:
    """The fills at one place that are not saved in the log yet, and how to change them."""

    draft: Draft
    put: Callable[[Draft], None]

    @property
    def fills(self) -> tuple[Fill, ...]:
        """All fills, struck ones among them."""
        return self.draft.fills

    @property
    def running(self) -> bool:
        """Whether a fill is being timed."""
        return self.draft.started_at is not None

    @property
    def container(self) -> Container | None:
        """The container in hand: the one that was chosen, or the first; none if there is none."""
        containers = session_now().preferences.containers
        chosen = self.draft.texts.get("container", "")
        found = next((c for c in containers if c.id == chosen), None)
        return found or (containers[0] if containers else None)

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
        self.put(self.newest.model_copy(update=changes))
        ft.context.page.run_task(session_now().save_draft, self.draft.id)

    def note(self, key: str) -> Callable[[str], None]:
        """A change handler for a field."""
        return lambda text: self.keep(texts={**self.newest.texts, key: text})

    def add_typed(self, system: str) -> None:
        """Make a fill of the time that is typed."""
        texts = self.newest.texts
        seconds, _ = _typed_seconds(texts.get("seconds", ""), system)
        if seconds is not None:
            fill = Fill(seconds=seconds, typed=True)
            self.keep(fills=(*self.newest.fills, fill), texts={**texts, "seconds": ""})

    def stopped(self, seconds: float) -> None:
        """A fill ended; one that ran for over a day was forgotten, not timed."""
        if 0.0 < seconds <= LONGEST_FILL:
            self.keep(started_at=None, fills=(*self.newest.fills, Fill(seconds=round(seconds, 3))))
            return
        self.keep(started_at=None)
        say(t("This fill is not counted: it ran for over a day, or this device's clock was set."))

    def strike(self, index: int) -> Callable[[Any], None]:
        """A click handler that strikes a fill out, or takes it back."""

        def handler(_: Any) -> None:
            fills = self.newest.fills
            if index < len(fills):
                turned = fills[index].model_copy(update={"struck": not fills[index].struck})
                self.keep(fills=(*fills[:index], turned, *fills[index + 1 :]))

        return handler

    def _without_fills(self) -> Draft:
        texts = self.newest.texts.items()
        kept = {key: text for key, text in texts if key.rpartition(".")[2] not in SPENT}
        return Draft(id=self.draft.id, pond_id=self.draft.pond_id, texts=kept)

    def clear(self) -> None:
        """Begin anew at this place; the container stays in hand."""
        anew = self._without_fills()
        self.keep(fills=anew.fills, started_at=None, texts=anew.texts)

    async def saved(self) -> None:
        """Forget the fills: they are in the log now."""
        anew = self._without_fills()
        self.put(anew)
        await session_now().keep_draft(anew)


def use_fills(draft_id: str) -> FillEntry:
    """The fills of a draft as they were left."""
    session = session_now()
    pond_id = use_pond_id()
    _, redraw = ft.use_state(0)

    def put(changed: Draft) -> None:
        session.hold_draft(changed)
        redraw(lambda count: count + 1)

    kept = session.drafts.get(draft_id) or Draft(id=draft_id)
    return FillEntry(kept.model_copy(update={"pond_id": pond_id or kept.pond_id}), put)


def aim_text(container: Container, band: FlowBand, rules: MeasuringAssumptions, system: str) -> str:
    """The fill time to aim for, what else is fine, and what helps where nothing would be sure."""
    window = fill_aim(container, band, rules)
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


def stopwatch(
    entry: FillEntry, *, to_start: str = "", to_stop: str = "", again: bool = False
) -> list[ft.Control]:
    """The big button, smaller once there is a result; a running fill can be thrown away."""
    # Known by a key, the button keeps the keyboard's focus when what is above it comes or goes.
    keyed: Any = Stopwatch
    controls: list[ft.Control] = [
        keyed(
            entry.draft.started_at, lambda pressed: entry.keep(started_at=pressed), entry.stopped,
            to_start=to_start, to_stop=to_stop, again=again, key="stopwatch",
        )
    ]  # fmt: skip
    if entry.running:
        controls.append(
            layout.quiet_button(t("Throw this fill away"), lambda _: entry.keep(started_at=None))
        )
    return controls


def _fill_button(number: int, fill: Fill, system: str, on_click: Callable[[Any], None]) -> Any:
    name = (
        t("Take fill {number} back", number=number)
        if fill.struck
        else t("Strike fill {number}", number=number)
    )
    decoration = ft.TextDecoration.LINE_THROUGH if fill.struck else ft.TextDecoration.NONE
    return ft.OutlinedButton(
        content=ft.Row(
            [
                written(
                    units.show(fill.seconds, "duration", system), size=theme.BODY,
                    style=ft.TextStyle(decoration=decoration),
                ),
                ft.Icon(
                    ft.Icons.UNDO if fill.struck else ft.Icons.CLOSE, size=theme.BODY + 2,
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


def fill_rows(entry: FillEntry, system: str) -> list[ft.Control]:
    """Every fill as a button: a touch strikes it out or takes it back."""
    if not entry.fills:
        return []
    buttons = [
        _fill_button(index + 1, fill, system, entry.strike(index))
        for index, fill in enumerate(entry.fills)
    ]
    return [ft.Row(buttons, wrap=True, spacing=8, run_spacing=8)]


def _typed_seconds(text: str, system: str) -> tuple[float | None, str | None]:
    """A typed time, or what is wrong with it."""
    seconds, error = fields.read_quantity(text, "duration", system)
    if seconds is not None and seconds > LONGEST_FILL:
        return None, t("Write a time of at most a day")
    return seconds, error


def typed_time(entry: FillEntry, system: str) -> list[ft.Control]:
    """A time taken by another clock."""
    typed = entry.text("seconds")
    seconds, error = _typed_seconds(typed, system)
    return [
        fields.quantity_field(
            t("Or type a fill time"), typed, entry.note("seconds"),
            unit=units.unit_for("duration", system), error=error,
        ),
        layout.second_button(
            t("Add this time"), lambda _: entry.add_typed(system), disabled=seconds is None
        ),
    ]  # fmt: skip


def container_choice(entry: FillEntry) -> list[ft.Control]:
    """Which container is filled."""
    containers = session_now().preferences.containers
    chosen = entry.container.id if entry.container else ""
    return [
        layout.choice(
            t("Container"), [(c.id, c.name) for c in containers], chosen, entry.note("container")
        ),
        layout.quiet_button(t("Add or remove containers"), go("/containers")),
    ]
