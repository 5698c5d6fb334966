"""Save everything to a file, and take a file back in."""

import asyncio
from collections.abc import AsyncIterator, Callable, Coroutine
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.care.backup_due import own_in_file
from pondapp.answers.log.dates import moment_text
from pondapp.answers.log.log_table import log_table
from pondapp.store import backup
from pondapp.store.backup import How, Preview
from pondapp.store.backup_file import Written
from pondapp.store.browser import page
from pondapp.store.browser.room import Room, ask_to_stay, room
from pondapp.store.key_value_store import Changed
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import rules_at
from pondapp.ui.parts.files import PickedFile, given_file, read_picked, save_file, save_pieces
from pondapp.ui.sharing import incoming, keeping
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t, tn


@dataclass(frozen=True, slots=True)
class Shown:
    """What the screen knows: the file that is looked at, the way to take it in, the room here."""

    preview: Preview | None = None
    how: How = "merge"
    room: Room | None = None
    undo: datetime | None = None
    came: Preview | None = None
    """What was merged last, to say what came of it."""
    busy: str = ""
    """What is under way and takes a while."""


LOOK = 0.3  # seconds between two looks at how far something is
MOST_SENT = 30_000_000  # bytes that a share sheet is handed: they are held in memory, twice


def _today() -> str:
    return datetime.now().astimezone().strftime("%Y-%m-%d")


@ft.component
def BackupPage() -> Any:
    """Backup, restore, and how safe the data is here."""
    session = session_now()
    state, set_state = ft.use_state(Shown())
    preview = state.preview
    busy = bool(state.busy)
    under_way = [layout.small(state.busy)] if busy else []
    copied = preview is None or incoming.room_for_copy(preview, state.how, state.room)

    def show(**changes: Any) -> None:
        set_state(lambda now: replace(now, **changes))

    async def look() -> None:
        show(room=await room(), undo=await backup.can_undo_restore(session.store))

    def begin() -> None:
        ft.context.page.run_task(look)

    ft.use_effect(begin, [])

    async def telling(doing: Coroutine[Any, Any, Any], words: Callable[[], str]) -> Any:
        """What comes of it; until then the screen says how far it is."""
        task = asyncio.ensure_future(doing)
        try:
            while not task.done():
                show(busy=words())
                await asyncio.wait({task}, timeout=LOOK)
            return await task
        finally:
            show(busy="")

    async def save_all(_: Any) -> None:
        now = datetime.now(UTC)
        tally = Written()
        saved = await telling(
            save_pieces(f"pondapp-{_today()}.jsonl", backup.everything(session.store, now, tally)),
            lambda: t("The file is being written: {share} %", share=tally.share),
        )
        if not saved:
            return
        readings, entries = (own_in_file(tally.of_pond, kind) for kind in ("reading", "entry"))
        await session.settings.note_backup(now, readings, entries)
        if tally.too_large:
            say(
                tn(
                    "The backup is in your downloads. {count} damaged text is too large for it "
                    "and stays on this device only.",
                    "The backup is in your downloads. {count} damaged texts are too large for it "
                    "and stay on this device only.",
                    len(tally.too_large),
                )
            )
        else:
            say(t("The backup is in your downloads. Copy it to another device too."))

    async def send(_: Any) -> None:
        name = f"pondapp-{_today()}.json"  # a share sheet passes on few kinds of files
        now, held, size = datetime.now(UTC), [], 0
        async for piece in backup.everything(session.store, now):
            held.append(piece)
            size += len(piece)
            if size > MOST_SENT:
                await save_all(_)
                return
        data = b"".join(held)
        answer = await page.ask("share", title=name, name=name, data=data)
        if answer not in ("done", "cancelled") and await save_file(name, data):
            say(t("This browser cannot pass a file on. It is in your downloads: send it yourself."))

    async def save_table(_: Any) -> None:
        names = {pond.id: pond.name for pond in session.ponds.values()}
        rules = {pond_id: rules_at(pond_id) for pond_id in names}
        await session.logs.read_all()
        table = log_table(session.logs.all_items(), names, session.system, rules)
        if await save_file(f"pondapp-log-{_today()}.csv", table):
            say(t("The table is in your downloads."))

    async def picked(file: PickedFile) -> None:
        read, told = 0, 0

        async def pieces() -> AsyncIterator[bytes]:
            nonlocal read, told
            async for piece in file.pieces():
                yield piece
                read += len(piece)
                if (share := 100 * read // max(1, file.size)) >= told + 5:
                    told = share
                    show(busy=t("The file is being read: {share} %", share=share))

        try:
            found = await backup.preview(session.store, pieces())
            show(preview=found, how="merge", came=None, room=await room())
        finally:
            show(busy="")

    async def look_at(file: Any) -> None:
        await picked(given_file(file))

    def take_opened() -> None:
        """A file that was opened with the app is looked at like one that is picked here."""
        if (file := session.device.opened) is not None:
            session.device.opened = None
            ft.context.page.run_task(look_at, file)

    ft.use_effect(take_opened, [session.device.opened])

    async def take_in(_: Any) -> None:
        if preview is None:
            return
        now, far = datetime.now(UTC), [0]
        try:
            anything = await telling(
                backup.restore(
                    session.store, preview, state.how, now, keep_copy=copied, done=far.append
                ),
                lambda: t("The file is being taken in: {share} %", share=far[-1]),
            )
            await reload()
        except Changed:
            show(preview=None)
            raise
        show(preview=None, came=preview if state.how == "merge" and anything else None)
        await look()
        if not anything:
            say(t("Nothing of the file is new here."))
        elif preview.later:
            say(t("Taken in. Choose the file again for the rest."))
        else:
            say(t("Restored. You can take it back on this screen.") if copied else t("Restored."))

    async def reload() -> None:
        words = t("What is here now is being read.")
        await telling(session.reload(), lambda: words)

    async def undo_restore(_: Any) -> None:
        far = [0]
        await telling(
            backup.undo_restore(session.store, datetime.now(UTC), done=far.append),
            lambda: t("It is being taken back: {share} %", share=far[-1]),
        )
        await reload()
        show(came=None)
        await look()
        say(t("Everything is as it was before."))

    async def ask(_: Any) -> None:
        promised = await ask_to_stay()
        await look()
        if not promised:
            say(t("The browser does not promise it. Keep a backup."))

    names = {pond.id: pond.name for pond in session.ponds.values()}
    merging = state.how == "merge"
    if preview is not None:
        if copied:
            back = [layout.small(t("You can take it back afterwards."))]
        else:
            no_room = t(
                "There is no room for a copy of what is here, so this cannot be taken back. Save "
                "a backup of it first."
            )
            back = [
                layout.caution(no_room),
                layout.second_button(t("Save a backup file"), save_all, disabled=busy),
            ]
        leave = layout.quiet_button(t("Leave everything as it is"), lambda _: show(preview=None))
        return layout.screen(
            "/backup",
            t("Restore"),
            [
                incoming.preview_card(preview),
                *incoming.file_cautions(preview),
                *incoming.problem_lines(preview),
                *incoming.how_choice(preview, state.how, lambda how: show(how=how)),
                *(incoming.merge_card(preview, t("What this brings"), names) if merging else []),
                *incoming.photo_caution(preview, state.how),
                *incoming.later_caution(preview),
                *([] if copied else back),
                layout.main_button(t("Restore"), take_in, disabled=busy),
                *(back if copied else []),
                *under_way,
                *([] if busy else [leave]),
            ],
        )
    last = session.preferences.backed_up_at
    controls: list[ft.Control] = [
        *(incoming.merge_card(state.came, t("What came"), names) if state.came else []),
        layout.card(
            [
                layout.body(keeping.what_is_here()),
                layout.small(
                    t("Last backup: {when}", when=moment_text(last))
                    if last
                    else t("No backup so far.")
                ),
                *keeping.room_lines(state.room),
            ]
        ),
        layout.main_button(t("Save a backup file"), save_all, disabled=busy),
        read_picked(t("Restore from a file"), picked, disabled=busy),
        layout.second_button(t("Send it to another phone"), send, disabled=busy),
        layout.small(
            t(
                "Two phones, one pond: send the file, restore it there and add it to what is "
                "there. Then send one back: both have everything."
            )
        ),
        *under_way,
    ]
    if state.undo is not None:
        controls.append(
            layout.second_button(
                t("Take back the restore of {when}", when=moment_text(state.undo)),
                undo_restore,
                disabled=busy,
            )
        )
    if session.logs.readings or session.logs.entries:
        controls += [
            layout.second_button(t("Save the log as a table (CSV)"), save_table),
            layout.small(
                t("Dates as 2026-11-25 and a decimal point, in every language of the app.")
            ),
        ]
    if state.room is not None and not state.room.promised:
        controls.append(layout.second_button(t("Ask the browser to keep it"), ask))
    controls.append(keeping.plain_words())
    return layout.screen("/backup", t("Backup and restore"), controls)
