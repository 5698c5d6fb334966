"""What is told when what the app saved is deleted under it: by its user, the browser, a page."""

import flet as ft

from pondapp import units
from pondapp.state.cleared import in_memory, save_again
from pondapp.state.session import Session
from pondapp.store.key_value_store import StoreError
from pondapp.ui.parts import layout
from pondapp.ui.shell import dialog
from pondapp.ui.shell.navigate import say
from pondapp.words import t, tn


def tell(page: ft.Page, session: Session) -> None:
    """Say that it is gone, and offer to save it again."""
    count = len(in_memory(session))
    if not count:
        return
    told = ft.Text(
        tn(
            "Somebody, or the browser, deleted what this app keeps here. It still has "
            "{count} document in hand: a pond, a log entry or what is half done. Once this page "
            "is closed it is gone too.",
            "Somebody, or the browser, deleted what this app keeps here. It still has "
            "{count} documents in hand: ponds, log entries, what is half done. Once this page is "
            "closed they are gone too.",
            count,
        )
    )

    async def again(_: object) -> None:
        try:
            saved = await save_again(session)
        except StoreError as error:
            told.value = units.explain(error, session.system)
            told.update()
            return
        page.pop_dialog()
        say(tn("Saved again: {count} document.", "Saved again: {count} documents.", saved))

    dialog.show(
        page,
        ft.AlertDialog(
            title=ft.Text(t("What was kept here is gone")),
            content=told,
            modal=True,
            actions=[
                layout.main_button(t("Save it again"), again),
                layout.quiet_button(t("Leave it deleted"), lambda _: page.pop_dialog()),
            ],
        ),
    )
