"""Keeping what was entered: how much is there, what takes it away, and the reminder."""

import flet as ft

from pondapp import units
from pondapp.answers.care.backup_due import backup_due, own_items
from pondapp.store.browser.room import Room
from pondapp.store.key_value_store import StoreError
from pondapp.ui.parts import layout
from pondapp.ui.shell import dialog
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def _refused_words(refused: StoreError) -> str:
    reason = units.explain(refused, session_now().system)
    rest = t(
        "You can measure and choose a pump, but what you enter is gone once this page is closed."
    )
    return f"{reason} {rest}"


def refusal() -> list[ft.Control]:
    """For the first screen: that nothing is kept here, and why."""
    refused = session_now().device.refused
    return [] if refused is None else [layout.caution(_refused_words(refused))]


def tell_refused(page: ft.Page, refused: StoreError) -> None:
    """At the start, on whatever screen it is."""
    title, told = t("Nothing is kept here"), _refused_words(refused)
    close = layout.quiet_button(t("Close"), lambda _: page.pop_dialog())
    dialog.show(page, ft.AlertDialog(title=ft.Text(title), content=ft.Text(told), actions=[close]))


def reminder() -> list[ft.Control]:
    """For the first screen: a line when there is something to lose."""
    session = session_now()
    kept = session.preferences
    own = own_items(session.logs.all_items())
    missing = backup_due(own, kept.backed_up_readings + kept.backed_up_entries)
    if not missing:
        return []
    return [
        layout.card(
            [
                layout.body(
                    t("{count} entries of your logs are on this device only.", count=missing)
                ),
                layout.second_button(t("Save a backup"), go("/backup")),
            ]
        )
    ]


def what_is_here() -> str:
    """How much there is to keep."""
    session = session_now()
    return t(
        "Ponds: {ponds}, readings: {readings}, other log entries: {entries}",
        ponds=len(session.ponds),
        readings=len(session.logs.readings),
        entries=len(session.logs.entries),
    )


def room_lines(room: Room | None) -> list[ft.Control]:
    """Use and limit, and what the browser promises."""
    if room is None:
        return []
    kept = (
        t("The browser has promised to keep it.")
        if room.promised
        else t("The browser may clear it when this device runs out of space.")
    )
    used = t("{used} MB of about {limit} MB in use.", used=room.used_mb, limit=room.limit_mb)
    return [layout.small(f"{used} {kept}")]


def plain_words() -> ft.Control:
    """What takes data away, said before it happens."""
    return layout.card(
        [
            layout.heading(t("What can take it away")),
            layout.small(
                t(
                    "Clearing the browser's history with its site data, or removing the app, "
                    "deletes your ponds."
                )
            ),
            layout.small(t("A private window forgets everything when it is closed.")),
            layout.small(
                t(
                    "On an iPhone or iPad, Safari clears what a site has kept after seven days "
                    "of use without a visit to it; on the home screen the app is spared."
                )
            ),
            layout.small(t("A backup file survives all of these, and a lost phone.")),
        ]
    )
