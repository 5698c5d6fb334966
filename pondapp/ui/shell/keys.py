"""What is typed reaches its screen's state before that screen can be drawn anew.

The framework tells the text of a field first and calls the field's handler a moment later. A
screen drawn in between would hold the text of the key before, and putting that into the field
would take the newest key away. So a field's handler is called together with the text.
"""

from contextvars import copy_context
from typing import Any

import flet as ft


def hear(page: ft.Page) -> None:
    """Call the handler in a field's `data` at once when its text changes; call this in `main`."""
    apply_patch = page.session.apply_patch
    # The handlers ask for the page, which the framework knows in this context only.
    context = copy_context()

    def apply_and_tell(control_id: int, patch: dict[str, Any]) -> None:
        apply_patch(control_id, patch)
        control = page.session.index.get(control_id)
        if isinstance(control, ft.TextField) and "value" in patch and callable(control.data):
            try:
                context.run(control.data, patch["value"])
            except Exception as problem:  # noqa: BLE001  # as the framework does with a handler's
                page.session.error(str(problem))

    page.session.apply_patch = apply_and_tell  # type: ignore[method-assign]
