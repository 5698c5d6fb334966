"""What is timed and not saved yet, on the screens that lead back to it."""

import flet as ft

from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import come_back
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t, tn

Place = tuple[str, str, str]  # pond, place and its name


def _places(pond: Pond) -> list[Place]:
    named = [(one.id, one.name) for one in pond.fed]
    named += [(branch.id, branch.name) for line in pond.lines for branch in line.branches]
    return [(pond.id, place_id, name) for place_id, name in named]


def _place_of(draft: Draft, places: list[Place]) -> Place | None:
    """Where it was timed, which its name says; of ids that begin alike the longest is meant."""
    fits = [one for one in places if draft.id.startswith(f"fills-{one[0]}-{one[1]}-")]
    return max(fits, key=lambda one: len(one[0] + one[1]), default=None)


def lines() -> list[ft.Control]:
    """A line for each place with fills that are not saved, what was timed last on top."""
    session = session_now()
    timed = [draft for draft in session.drafts.values() if draft.fills]
    if not timed:
        return []
    places = [(NO_POND, OUTLET, t("Outlet"))]
    for pond in session.ponds.values():
        places += _places(pond)
    found = [(draft, place) for draft in timed if (place := _place_of(draft, places))]
    found.sort(key=lambda one: one[0].changed_at.timestamp() if one[0].changed_at else 0.0)
    rows = [
        (
            tn(
                "{count} fill not saved: {place}, {when}",
                "{count} fills not saved: {place}, {when}",
                len(draft.fills),
                place=name,
                when=come_back(draft.changed_at),
            ),
            go(f"/measure/{pond_id}/{place_id}"),
        )
        for draft, (pond_id, place_id, name) in reversed(found)
    ]
    return [layout.links(rows)] if rows else []
