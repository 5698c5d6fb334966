"""Save everything to a file, and take a file back in."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.sizing.backup_due import own_items
from pondapp.sizing.dates import moment_text
from pondapp.sizing.log import LogItem
from pondapp.sizing.log_table import log_table
from pondapp.store import backup
from pondapp.store.backup import How, Preview
from pondapp.store.room import Room, ask_to_stay, room
from pondapp.ui.current import session_now
from pondapp.ui.parts import incoming, keeping, layout
from pondapp.ui.parts.answers import rules_at
from pondapp.ui.parts.files import read_picked, save_file
from pondapp.ui.parts.navigate import say
from pondapp.words import t


@dataclass(frozen=True, slots=True)
class Shown:
    """What the screen knows: the file that is looked at, the way to take it in, the room here."""

    preview: Preview | None = None
    how: How = "merge"
    room: Room | None = None
    undo: datetime | None = None


def _today() -> str:
    return datetime.now().astimezone().strftime("%Y-%m-%d")


@ft.component
def BackupPage() -> Any:
    """Backup, restore, and how safe the data is here."""
    session = session_now()
    state, set_state = ft.use_state(Shown())
    preview = state.preview

    def show(**changes: Any) -> None:
        set_state(lambda now: replace(now, **changes))

    async def look() -> None:
        show(room=await room(), undo=await backup.can_take_back(session.box))

    def begin() -> None:
        ft.context.page.run_task(look)

    ft.use_effect(begin, [])

    async def save_all(_: Any) -> None:
        now = datetime.now(UTC)
        made = await backup.everything(session.box, now)
        if await save_file(f"pondapp-{_today()}.json", backup.to_bytes(made)):
            kept = made.documents
            await session.note_backup(now, own_items(kept.reading), own_items(kept.entry))
            say(t("The backup is in your downloads. Copy it to another device too."))

    async def save_table(_: Any) -> None:
        names = {pond.id: pond.name for pond in session.ponds.values()}
        rules = {pond_id: rules_at(pond_id) for pond_id in names}
        await session.read_logs()
        items: tuple[LogItem, ...] = (*session.readings.values(), *session.entries.values())
        table = log_table(items, names, session.system, rules)
        if await save_file(f"pondapp-log-{_today()}.csv", table):
            say(t("The table is in your downloads."))

    async def picked(data: bytes) -> None:
        show(preview=await backup.preview(session.box, data), how="merge")

    async def take_in(_: Any) -> None:
        if preview is None:
            return
        await backup.restore(session.box, preview.backup, state.how, datetime.now(UTC))
        await session.load_anew()
        show(preview=None)
        await look()
        say(t("Restored. You can take it back on this screen."))

    async def take_back(_: Any) -> None:
        await backup.take_back(session.box, datetime.now(UTC))
        await session.load_anew()
        await look()
        say(t("Everything is as it was before."))

    async def ask(_: Any) -> None:
        promised = await ask_to_stay()
        await look()
        if not promised:
            say(t("The browser does not promise it. Keep a backup."))

    if preview is not None:
        return layout.screen(
            "/backup",
            t("Restore"),
            [
                incoming.preview_card(preview),
                *incoming.trouble_lines(preview),
                *incoming.how_choice(preview, state.how, lambda how: show(how=how)),
                layout.main_button(t("Restore"), take_in),
                layout.small(t("You can take it back afterwards.")),
                layout.quiet_button(t("Leave everything as it is"), lambda _: show(preview=None)),
            ],
        )
    last = session.preferences.backed_up_at
    controls: list[ft.Control] = [
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
        layout.main_button(t("Save a backup file"), save_all),
        read_picked(t("Restore from a file"), picked),
    ]
    if state.undo is not None:
        controls.append(
            layout.second_button(
                t("Take back the restore of {when}", when=moment_text(state.undo)), take_back
            )
        )
    if session.readings or session.entries:
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
