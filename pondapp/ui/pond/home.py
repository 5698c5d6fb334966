"""The first screen: the three uses, and the ponds."""

from collections.abc import Sequence
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.state.ids import NO_POND
from pondapp.state.session import Session
from pondapp.ui.about import install
from pondapp.ui.parts import layout
from pondapp.ui.pond import matters, pond_deletion
from pondapp.ui.pond.small_picture import small_picture
from pondapp.ui.pond.uses import uses
from pondapp.ui.sharing import keeping
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def _named(pond: Pond, system: str) -> str:
    """A pond with its water, where that can be worked out."""
    try:
        volume = units.show(water_volume(pond), "volume", system)
    except PondError:  # its own screen says what is wrong
        return pond.name
    return t("{pond}: {volume}", pond=pond.name, volume=volume)


def _ponds(ponds: Sequence[Pond], session: Session) -> list[ft.Control]:
    """Each pond with what it needs most."""
    rows: list[ft.Control] = []
    for pond in ponds:
        if rows:  # what belongs to one pond stands closer together than two ponds do
            rows.append(ft.Container(height=theme.GAP))
        rows += small_picture(pond)
        name = layout.links([(_named(pond, session.system), go(f"/pond/{pond.id}"))])
        rows += [
            name,
            matters.worst_matter(pond, session.system),
            *matters.latest(pond, session.system),
        ]
    return rows


def _unsaved_fills() -> list[ft.Control]:
    """What was timed and left; its code is read only where there is any."""
    if not any(draft.fills for draft in session_now().drafts.values()):
        return []
    from pondapp.ui.measuring import unsaved

    return unsaved.lines()


@ft.component
def HomePage() -> Any:
    """What can be done, in one touch each."""
    session = session_now()
    ponds = sorted(  # the reader's own before the example
        session.ponds.values(), key=lambda pond: (pond.id == EXAMPLE, pond.name.lower())
    )

    in_danger, others = matters.by_danger(ponds)
    known: list[ft.Control] = [
        *keeping.refusal(),
        *_unsaved_fills(),
        *([layout.heading(t("Your ponds"))] if ponds else []),
        *_ponds(in_danger, session),  # before all else: fish may be dying
        *_ponds(others, session),
    ]
    controls: list[ft.Control] = [uses()]
    if not ponds:
        controls.append(layout.body(t("No pond yet. Add yours, and every reading has a target.")))
    # Never asked for before the screen is there.
    if session.logs.is_read(NO_POND) and session.logs.readings_of(NO_POND):
        controls.append(layout.links([(t("Measured without a pond"), go("/log"))]))
    controls.append(layout.quiet_button(t("Add a pond"), go("/new")))
    controls += pond_deletion.example_buttons()
    controls += [
        layout.caution(
            t(
                "{document} could not be read and was set aside: {reason}",
                document=error.key,
                reason=t(error.reason),
            )
        )
        for error in session.device.load_errors
    ]
    controls += [*keeping.reminder(), *install.hint()]
    about = [
        (t("How this works"), go("/help")),
        (t("Settings: units, language, stopwatch"), go("/settings")),
        (t("Backup and restore"), go("/backup")),
    ]
    controls.append(layout.links(about))
    if not ponds:
        return layout.screen("/", "pondapp", [*known, *controls])
    return layout.screen("/", "pondapp", known, second=controls)
