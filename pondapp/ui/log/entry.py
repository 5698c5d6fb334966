"""Add to a pond's log, or change what is in it."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.log.corrected import corrected
from pondapp.answers.log.entries import MOST_NOTE
from pondapp.answers.log.log import FLOW, KINDS, LogItem
from pondapp.answers.log.log_names import CHANGES, TITLES, parts
from pondapp.answers.log.water_tests import read_test
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.state.ids import NO_POND, new_id
from pondapp.ui.keeping.calculators import calculators, to_water_change, work_out
from pondapp.ui.log.earlier import earlier_card
from pondapp.ui.log.entry_form import FORMS, WORDS, read_entry, texts_of
from pondapp.ui.log.log_words import HINTS, ICONS, day_of, headline, shortened
from pondapp.ui.log.moment_fields import moment_fields, read_moment, texts_of_moment
from pondapp.ui.log.photo import PhotoPart
from pondapp.ui.log.reading_fields import FORM as READING
from pondapp.ui.log.reading_fields import method_parts, read_method, texts_of_method
from pondapp.ui.log.where_fields import log_route, moved, where_fields
from pondapp.ui.measuring.readings import can_be, reading_card
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.draft import (
    Typed,
    changed_elsewhere,
    come_back,
    draft_name,
    same_words,
    seen,
    use_draft,
)
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

NEW = "new"


async def save_item(changed: LogItem, before: LogItem | None) -> None:
    """Save an item of a log; one touch on Undo brings back what was there before.

    What is corrected keeps what it was.
    """
    session = session_now()
    item = changed if before is None else corrected(before, changed, datetime.now(UTC))

    async def put(one: LogItem, over: LogItem | None) -> None:
        if over is not None and over.storage_key() != one.storage_key():
            await session.logs.move(one, over)
        elif isinstance(one, Reading):
            await session.logs.save_reading(one)
        else:
            await session.logs.save_entry(one)

    async def undo() -> None:
        if session.logs.newest(item) != item:
            return  # changed again since, here or in another tab: that would be taken back
        if before is None:
            await session.logs.delete(item)
        else:
            await put(before, item)

    await put(item, before)
    say(t("Saved in the log"), undo=undo)


async def remove_item(item: LogItem, system: str) -> None:
    """Delete an item of a log; one touch on Undo brings it back."""
    session = session_now()

    async def undo() -> None:
        if session.logs.newest(item) is not None:
            return  # it is there again, from another tab
        if isinstance(item, Reading):
            await session.logs.save_reading(item)
        else:
            await session.logs.save_entry(item)

    await session.logs.delete(item)
    say(t("{what} is deleted.", what=headline(item, system)), undo=undo)


@ft.component
def EntryPage() -> Any:
    """What to add, the form for it, or an item that is there."""
    params = ft.use_route_params()
    session = session_now()
    asked, item_id = params.get("pond_id", NO_POND), params.get("item_id", "")
    pond = session.ponds.get(asked)
    if pond is None and asked != NO_POND:
        return layout.no_pond()
    here = log_route(asked)
    kind = item_id.removeprefix(f"{NEW}-")
    if pond and item_id == NEW:
        return layout.screen(f"{here}/{NEW}", t("Add to the log"), kinds_to_add(pond))
    if pond and kind != item_id and kind in KINDS:
        return layout.screen(f"{here}/{item_id}", t(TITLES[kind]), [EntryForm(pond, kind, None)])
    item = next((one for one in session.logs.items_of(asked) if one.id == item_id), None)
    if item is None:
        words = (
            t("This is not in the log any more.")
            if session.logs.is_read(asked)
            else t("Reading the log.")
        )
        return layout.screen(f"{here}/{item_id}", t("Log"), [layout.body(words)])
    if isinstance(item, Reading):
        title, form = t(TITLES[FLOW]), ReadingForm(item)
    else:
        title = t(TITLES[item.what.kind])
        form = EntryForm(pond, item.what.kind, item)
    return layout.screen(f"{here}/{item_id}", title, [form])


def kinds_to_add(pond: Pond) -> list[ft.Control]:
    """Every kind of entry, one touch each; a flow is measured, not typed."""
    opens = {FLOW: "/measure", **{kind: f"/pond/{pond.id}/log/{NEW}-{kind}" for kind in KINDS[1:]}}
    return [
        layout.tile(
            [
                layout.card_button(
                    [layout.titled(ICONS[kind], t(TITLES[kind])), layout.small(t(HINTS[kind]))],
                    go(route),
                )
                for kind, route in opens.items()
            ]
        ),
        layout.heading(t("Care and calculators")),
        calculators(pond),
    ]


def _fields(kind: str, typed: Typed, errors: dict[str, str]) -> list[ft.Control]:
    """The fields of a kind: choices, words, amounts."""
    found: list[ft.Control] = []
    if kind == "cleaning":
        cleaned = [(key, t(text)) for key, text in parts().items()]
        found.append(
            layout.choice(t("What was cleaned"), cleaned, typed.text("part", "pump"),
                          typed.note("part"))
        )  # fmt: skip
    if kind == "fish":
        changes = [(key, t(text)) for key, text in CHANGES.items()]
        found.append(
            layout.choice(t("Added or lost"), changes, typed.text("change", "added"),
                          typed.note("change"), in_rows=True)
        )  # fmt: skip
    found += [
        fields.text_field(t(label), typed.text(key), typed.note(key), error=errors.get(key))
        for key, (label, _) in WORDS.get(kind, {}).items()
    ]
    form = FORMS[kind]
    amounts = [form.draw(typed, one.key, errors) for one in form.fields]
    if kind == "water_test":
        pair = [amounts[0], amounts[1]]
        return [*found, layout.pairs(pair), amounts[2], layout.pairs(amounts[3:])]
    return [*found, *amounts]


def water_report(entry: Entry | None, pond: Pond | None, system: str) -> list[ft.Control]:
    """What a water test says, while it is typed; nothing of values that nobody can judge."""
    if pond is None or entry is None or entry.what.kind != "water_test":
        return []
    report = read_test(entry.what, pond)
    told = [severity.card(one.severity, units.tell(one.sentence, system)) for one in report.remarks]
    found: list[ft.Control] = (
        [ft.Semantics(live_region=True, content=layout.column(told))] if told else []
    )
    if report.steps:
        found.append(ShowWorking(t("toxic ammonia"), lambda: report.steps, system))
    return found


def changed_meanwhile(typed: Typed, begin: dict[str, str], now: LogItem, system: str,
                      keep_both: Any = None) -> list[ft.Control]:  # fmt: skip
    """What another tab made of an item while it was being changed here, and what can be done."""
    if not changed_elsewhere(typed.texts, begin) or same_words(typed.texts, begin):
        return []
    said, note = headline(now, system), shortened(now.note)
    note = "" if note == said else note
    lines: list[ft.Control] = [
        layout.body(t("This was changed meanwhile, in another tab or window. Saved there:")),
        layout.body(said),
        layout.small(". ".join(part for part in (day_of(now), note) if part)),
        layout.quiet_button(t("Take what is saved there"), lambda _: typed.put(begin)),
    ]
    if keep_both is not None:
        lines.append(layout.quiet_button(t("Keep both, mine as a new entry"), keep_both))
    return [ft.Semantics(live_region=True, content=layout.card(lines, strong=True))]


def left_card(typed: Typed, begin: dict[str, str], *, new: bool) -> ft.Control:
    """What was typed some time ago and not saved, and whether it is still meant.

    What was read then is of then: a new entry gets that day.
    """
    before = typed.texts

    def go_on(_: Any) -> None:
        then = texts_of_moment(typed.changed_at) if new and typed.changed_at else {}
        typed.put({**then, **typed.newest()})

    async def undo() -> None:
        typed.put(before)

    def start_over(_: Any) -> None:
        typed.put(begin)
        say(t("Started over."), undo)

    return layout.card(
        [
            layout.marked(
                ft.Icons.HISTORY, t("From {when}, not saved.", when=come_back(typed.changed_at))
            ),
            layout.second_button(t("Go on"), go_on),
            layout.second_button(t("Start over"), start_over),
        ],
        strong=True,
    )


def save_label(typed: Typed, begin: dict[str, str], label: str) -> str:
    """The main action, named for what it does to another tab's version."""
    differs = changed_elsewhere(typed.texts, begin) and not same_words(typed.texts, begin)
    return t("Save mine in its place") if differs else label


@ft.component
def EntryForm(pond: Pond | None, kind: str, entry: Entry | None) -> Any:
    """One entry, as it is typed."""
    session = session_now()
    system = session.system
    pond_id = pond.id if pond else entry.pond_id if entry else NO_POND
    here = log_route(pond_id)
    now = datetime.now(UTC)
    begin = {**texts_of(entry, system), **seen(entry)} if entry else {}
    typed = use_draft(draft_name("entry", pond_id, entry.id if entry else kind), begin, FORMS[kind])
    left = typed.left(begin)
    made, errors = read_entry(
        typed.texts, kind, entry.id if entry else NEW, pond_id, system, now,
        entry.when if entry else None,
    )  # fmt: skip

    async def keep(_: Any, *, beside: bool = False) -> None:
        if made is None:
            return
        as_new = beside or entry is None
        kept = made.model_copy(update={"id": new_id()}) if as_new else moved(made, typed)
        await save_item(kept, None if as_new else entry)
        await typed.drop()
        ft.context.page.navigate(here)

    async def keep_both(_: Any) -> None:
        await keep(_, beside=True)

    async def remove(_: Any) -> None:
        if entry is not None:
            await typed.drop()
            ft.context.page.navigate(here)
            await remove_item(entry, system)

    when = typed.text("date", t("now"))
    note = fields.text_field(t("Note"), typed.text("note"), typed.note("note"), multiline=True,
                             error=errors.get("note"))  # fmt: skip
    controls: list[ft.Control] = [
        *([left_card(typed, begin, new=entry is None)] if left else ()),
        *([PhotoPart(typed, entry is None)] if kind == "photo" else ()),
        *_fields(kind, typed, errors),
        *water_report(made, pond, system),
        *(to_water_change(entry, pond) if entry else work_out(kind, pond)),
        note,
        fold("when", t("When: {when}", when=when), lambda: moment_fields(typed, errors, now)),
        *(where_fields(entry, typed) if entry else ()),
        *(changed_meanwhile(typed, begin, entry, system, keep_both) if entry else ()),
        layout.main_button(
            save_label(typed, begin, t("Save in the log")), keep, disabled=made is None or left
        ),
    ]
    if "date" in errors or "time" in errors:
        controls.insert(-1, layout.small(t("The date or the time is not right yet.")))
    if kind == "dose":
        controls.append(cautions.dosing())
    if entry:
        controls += earlier_card(entry, system)
        controls.append(layout.quiet_button(t("Delete this entry"), remove))
    return ft.Column(
        controls, spacing=theme.GAP, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )


@ft.component
def ReadingForm(reading: Reading) -> Any:
    """A flow reading: all of it can be put right, and what it was stays in sight."""
    session = session_now()
    system = session.system
    here = log_route(reading.pond_id)
    now = datetime.now(UTC)
    begin = {
        **texts_of_moment(reading.taken_at),
        **texts_of_method(reading.method, system),
        "note": reading.note,
        **seen(reading),
    }
    typed = use_draft(draft_name("entry", reading.pond_id, reading.id), begin, READING)
    left = typed.left(begin)
    method, wrong = read_method(typed.texts, reading.method, system, session.preferences.containers)
    when, errors = read_moment(typed.texts, system, now, reading.taken_at)
    errors |= wrong
    note = typed.text("note").strip()
    if len(note) > MOST_NOTE:
        errors["note"] = t("Write at most {most} letters", most=MOST_NOTE)

    async def keep(_: Any) -> None:
        if when is None or method is None or errors:
            return
        changes = {"taken_at": when, "note": note, "method": method}
        await save_item(moved(reading.model_copy(update=changes), typed), reading)
        await typed.drop()
        ft.context.page.navigate(here)

    async def remove(_: Any) -> None:
        await typed.drop()
        ft.context.page.navigate(here)
        await remove_item(reading, system)

    shown = reading if method is None else reading.model_copy(update={"method": method})
    sound = method == reading.method or can_be(shown)
    return ft.Column(
        [
            *([left_card(typed, begin, new=False)] if left else ()),
            reading_card(shown, system),
            fold("method", t("Correct what was measured"),
                 lambda: method_parts(typed, reading.method, errors, system), opened=bool(wrong)),
            *where_fields(reading, typed),
            *moment_fields(typed, errors, now),
            fields.text_field(t("Note"), typed.text("note"), typed.note("note"), multiline=True,
                              error=errors.get("note")),
            *changed_meanwhile(typed, begin, reading, system),
            layout.main_button(
                save_label(typed, begin, t("Save")), keep,
                disabled=bool(errors) or left or not sound or same_words(typed.texts, begin),
            ),
            *earlier_card(reading, system),
            layout.quiet_button(t("Delete this reading"), remove),
        ],
        spacing=theme.GAP,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )  # fmt: skip
