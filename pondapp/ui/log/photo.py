"""A photo in a log: picked or taken, made small, and shown."""

import base64
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.log.log import photos_in
from pondapp.models.limits import MOST_PHOTOS
from pondapp.store.backup_file import whole
from pondapp.store.browser.photo import small_photo
from pondapp.store.key_value_store import StoreError
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.files import PickedFile, read_picked
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def _shown(jpeg: str) -> ft.Control:
    return ft.Image(
        src=base64.b64decode(jpeg),
        fit=ft.BoxFit.CONTAIN,
        border_radius=theme.RADIUS,
        semantics_label=t("Photo"),
        gapless_playback=True,
    )


@ft.component
def PhotoPart(typed: Typed, new: bool) -> Any:
    """The photo, and the button that takes another."""
    problem, set_problem = ft.use_state("")
    jpeg = typed.text("jpeg")
    if new and not jpeg and photos_in(session_now().logs.entries.values()) >= MOST_PHOTOS:
        return layout.body(
            t("{most} photos are the most on one device. Delete one first.", most=MOST_PHOTOS)
        )

    async def picked(file: PickedFile) -> None:
        try:
            small = await small_photo(await whole(file.pieces()))
        except StoreError as error:
            set_problem(units.explain(error, session_now().system))
            return
        set_problem("")
        typed.put({**typed.newest(), "jpeg": small})

    label = t("Take another photo") if jpeg else t("Take or choose a photo")
    controls: list[ft.Control] = [_shown(jpeg)] if jpeg else []
    if not new:  # another picture is another entry
        return layout.column(controls)
    controls.append(read_picked(label, picked, pictures=True))
    if problem:
        controls.append(layout.caution(problem))
    controls.append(
        layout.small(
            t(
                "It is made smaller, which takes some seconds, and kept on this device and in your "
                "backups only."
            )
        )
    )
    return layout.column(controls)
