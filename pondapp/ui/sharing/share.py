"""Give a plan to somebody else: as a code to scan, a link, or a file; no server is in between."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.sharing.html_report import plan_page
from pondapp.models.pond import Pond
from pondapp.store import link
from pondapp.store.backup import everything
from pondapp.store.backup_file import plan_file
from pondapp.store.browser import page
from pondapp.ui.parts import layout
from pondapp.ui.parts.files import file_name, save_file, save_pieces
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


@ft.component
def SharePage() -> Any:
    """All ways to share one pond."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    route, title = f"/pond/{pond.id}/share", t("Share or print")
    address, trouble = address_of(pond)

    async def share(_: Any) -> None:
        answer = await page.ask("share", title=pond.name, url=address)
        if answer not in ("done", "cancelled"):
            await copy(_)

    async def copy(_: Any) -> None:
        await ft.Clipboard().set(address)
        say(t("The link is copied. Paste it into a message."))

    def as_file() -> tuple[str, bytes]:
        return file_name(pond.name, "plan", "json"), plan_file(pond, datetime.now(UTC))

    async def share_plan(_: Any) -> None:
        name, data = as_file()
        answer = await page.ask("share", title=pond.name, name=name, data=data)
        if answer not in ("done", "cancelled") and await save_file(name, data):
            say(t("This browser cannot pass a file on. The plan is in your downloads."))

    async def save_plan(_: Any) -> None:
        if await save_file(*as_file()):
            say(t("The plan is in your downloads."))

    async def save_pond(_: Any) -> None:
        pieces = everything(session.store, datetime.now(UTC), pond_id=pond.id)
        if await save_pieces(file_name(pond.name, "pond", "jsonl"), pieces):
            say(t("The pond and its log are in your downloads."))

    async def show_printed(_: Any) -> None:
        log = session.logs.items_of(pond.id)
        printed = plan_page(worked_now(pond), log, session.system, datetime.now(UTC))
        if await page.ask("show", seconds=3, data=printed) == "done":
            return
        if await save_file(file_name(pond.name, "plan", "html"), printed.encode()):
            say(t("The page is in your downloads. Open it to print it."))

    controls: list[ft.Control] = [*code_card(address)] if address else []
    if trouble:
        controls.append(layout.body(trouble))
    if address:
        controls += [
            layout.main_button(t("Share the link"), share),
            layout.second_button(t("Copy the link"), copy),
        ]
    controls += [
        layout.second_button(t("Open a page to print"), show_printed),
        layout.second_button(t("Share the plan as a file"), share_plan),
        layout.second_button(t("Save the plan as a file"), save_plan),
        layout.second_button(t("Save the pond with its log as a file"), save_pond),
        layout.small(
            t(
                "The link holds the plan itself: filters, pipes, pumps, fish, without the log. "
                "Whoever opens it looks at the plan first and then decides to keep it. "
                "A file is opened under Backup and restore."
            )
        ),
    ]
    return layout.screen(route, title, controls)


def address_of(pond: Pond) -> tuple[str, str]:
    """The link of a plan, and why there is none."""
    app = page.address()
    if not app:
        return "", t("This app runs without an address, so there is no link. Share a file.")
    try:
        return link.link(pond, app), ""
    except link.TooLong as error:
        return "", layout.sentence(t(error.message.template))


def code_card(address: str) -> list[ft.Control]:
    """The code to scan from this screen, or why it would not be read."""
    try:
        picture = link.code(address)
    except link.TooLong as error:
        return [layout.small(layout.sentence(t(error.message.template)))]
    return [
        ft.Row(
            [
                ft.Image(
                    src=picture,
                    width=theme.CODE,
                    height=theme.CODE,
                    fit=ft.BoxFit.CONTAIN,
                    filter_quality=ft.FilterQuality.NONE,
                    border_radius=theme.RADIUS,
                    semantics_label=t("Code of the link to this plan, to scan with a phone"),
                )
            ],
            alignment=ft.MainAxisAlignment.CENTER,
        ),
        layout.small(t("Scan it with the other phone's camera.")),
    ]
