"""The picture of a pond on the first screen, which does not wait for its code.

That is read with the first log, behind the first screen.
"""

import flet as ft

from pondapp.models.pond import Pond
from pondapp.ui.shell.session_context import session_now


def small_picture(pond: Pond) -> list[ft.Control]:
    """The picture, which opens the pond; nothing until the log of the pond is read."""
    if not session_now().logs.is_read(pond.id):
        return []
    from pondapp.ui.pond.picture import small

    return small(pond)
