"""What an answer only assumes, each with a touch that leads to its field."""

import flet as ft

from pondapp import units
from pondapp.answers.plumbing.path import Assumed, Line, assumed_of
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import go
from pondapp.words import t


def route_of(pond_id: str, found: Assumed) -> str:
    """The screen that holds the field."""
    if found.what == "power":
        return f"/pond/{pond_id}/pumps/{found.part_id}"
    return f"/pond/{pond_id}/plumbing/{found.line_id}/{found.part_id}"


def assumed_links(pond: Pond, lines: tuple[Line, ...], system: str) -> list[ft.Control]:
    """A list of what is assumed in these lines; nothing where all is entered."""
    found = [one for line in lines for one in assumed_of(pond, line)]
    if not found:
        return []
    rows = [
        (
            t("{assumed}; tap to enter", assumed=units.tell(one.message, system)),
            go(route_of(pond.id, one)),
        )
        for one in found
    ]
    return [layout.heading(t("Assumed so far")), layout.links(rows)]
