"""Where an item of a log belongs: its pond and, of a reading, its place."""

from typing import Any

import flet as ft

from pondapp.answers.log.log import LogItem
from pondapp.answers.plumbing.path import names_of
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Reading
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.log.earlier import pond_name
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.fold import fold
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import sentence, t


def log_route(pond_id: str) -> str:
    """The screen of a pond's log, or of what was measured without one."""
    return f"/pond/{pond_id}/log" if pond_id in session_now().ponds else "/log"


def _places(pond: Pond | None) -> dict[str, str]:
    if pond is None:
        return {OUTLET: t("Outlet")}
    try:
        found = {place.place_id: place.name for place in worked_now(pond).wanted.places}
    except PondError:  # its own screens say what is wrong
        found = {}
    return found | {key: name for key, name in names_of(pond).branches.items() if key not in found}


def _band(pond: Pond | None, place_id: str) -> Band | None:
    """What is wanted at a place now."""
    try:
        place = worked_now(pond).wanted.place(place_id) if pond else None
    except PondError:
        return None
    if place is None:
        return None
    band = place.band
    return Band(low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high)


def _chosen(item: LogItem, typed: Typed) -> tuple[str, dict[str, str], str]:
    """Pond, its places by id, and the place."""
    session = session_now()
    pond_id = typed.text("pond", item.pond_id)
    if pond_id not in (item.pond_id, NO_POND, *session.ponds):
        pond_id = item.pond_id  # it was deleted meanwhile
    places = _places(session.ponds.get(pond_id))
    here = ""
    if isinstance(item, Reading):
        if pond_id == item.pond_id:
            places = {item.place_id: item.place_name, **places}
        typed_place = typed.text("place", item.place_id)
        here = typed_place if typed_place in places else next(iter(places), "")
    return pond_id, places, here


def moved(item: Any, typed: Typed) -> Any:
    """The item where the texts say that it belongs.

    A reading that is moved is held to what is wanted at its new place.
    """
    pond_id, places, here = _chosen(item, typed)
    changes: dict[str, Any] = {"pond_id": pond_id}
    if isinstance(item, Reading) and here and (pond_id, here) != (item.pond_id, item.place_id):
        band = _band(session_now().ponds.get(pond_id), here)
        changes |= {"place_id": here, "place_name": places[here][:80], "band": band}
        changes["steadiness"] = None  # how steady the flow is elsewhere says nothing of it
    return item.model_copy(update=changes)


def where_fields(item: LogItem, typed: Typed) -> list[Any]:
    """The choice of a pond, and of a place for a reading; nothing where there is no choice."""
    session = session_now()
    pond_id, places, here = _chosen(item, typed)
    ponds = {item.pond_id, *session.ponds}
    if isinstance(item, Reading):
        ponds.add(NO_POND)
    if len(ponds) < 2 and len(places) < 2:
        return []

    def choices() -> list[ft.Control]:
        in_order = sorted(ponds, key=pond_name)
        named = [(one, sentence(pond_name(one)).rstrip(".")) for one in in_order]
        found = [layout.choice(t("Which pond"), named, pond_id, typed.note("pond"))]
        if isinstance(item, Reading):
            options = list(places.items())
            found.append(layout.choice(t("Which place"), options, here, typed.note("place")))
        return found

    said = ", ".join(part for part in (places.get(here, ""), pond_name(pond_id)) if part)
    return [fold("where", t("Where: {where}", where=said), choices)]
