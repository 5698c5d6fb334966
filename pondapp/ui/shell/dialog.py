"""A dialog that the stopwatch of the page does not lie over."""

from typing import Any

import flet as ft

from pondapp.ui.shell import pad_room


def show(page: ft.Page, dialog: ft.AlertDialog) -> None:
    """Show a dialog; the stopwatch comes back when it is closed."""

    def closed(_: Any) -> None:
        page.run_task(pad_room.cover, False)

    dialog.on_dismiss = closed
    page.run_task(pad_room.cover, True)
    page.show_dialog(dialog)
