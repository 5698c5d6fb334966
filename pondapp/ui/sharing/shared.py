"""A plan that somebody shared: looked at first, kept only when the user says so."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.store import link
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.pond.picture import of_plan
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


@ft.component
def SharedPage() -> Any:
    """Nothing of the link is stored, run or asked for; it is read and shown."""
    session = session_now()
    system = session.system
    route, title = "/shared", t("A shared plan")
    text = ft.use_route_params().get("plan", "")
    leave = layout.quiet_button(t("Do not keep it"), go("/"))
    try:
        pond = link.unpacked(text)
    except PondError as problem:
        said = units.explain(problem, system)
        home = layout.main_button(t("To the first screen"), go("/"))
        return layout.screen(route, title, [layout.body(said), home])
    mine = session.ponds.get(pond.id)
    same = mine is not None and link.same_plan(mine, pond)

    async def keep(kept: Pond, said: str) -> None:
        await session.ponds.save(kept)
        ft.context.page.navigate(f"/pond/{kept.id}")
        say(said)

    async def keep_it(_: Any) -> None:
        await keep(pond, t("{pond} is on this device now.", pond=pond.name))

    async def keep_beside(_: Any) -> None:
        name = t("{pond} (shared)", pond=pond.name[:60])
        other = pond.model_copy(update={"id": new_id(), "name": name})
        await keep(other, t("{pond} is on this device now.", pond=name))

    async def take_over(_: Any) -> None:
        if mine is None:
            return

        async def undo() -> None:
            await session.ponds.undo(mine.id)

        await session.ponds.save(pond.model_copy(update={"shopping": mine.shopping}))
        ft.context.page.navigate(f"/pond/{pond.id}")
        say(t("{pond} is as in the shared plan now.", pond=pond.name), undo=undo)

    controls: list[ft.Control] = [
        *of_plan(pond),
        layout.card(plan_lines(pond, system), strong=True),
    ]
    if mine is None:
        controls += [layout.main_button(t("Keep this pond"), keep_it), leave]
    elif same:
        controls += [
            layout.body(t("You have this very plan already.")),
            layout.main_button(t("Open it"), go(f"/pond/{pond.id}")),
        ]
    else:
        controls += [
            layout.body(t("You have this pond too, in another version.")),
            layout.main_button(t("Keep it beside mine"), keep_beside),
            layout.second_button(t("Change mine to this plan"), take_over),
            leave,
        ]
    return layout.screen(route, title, controls)


def plan_lines(pond: Pond, system: str) -> list[ft.Control]:
    """What the plan is about, in a few lines."""
    lines: list[ft.Control] = [layout.heading(pond.name)]
    try:
        found = worked_now(pond).wanted
    except PondError as problem:
        return [*lines, layout.body(units.explain(problem, system))]
    lines.append(layout.fact(t("The pond holds"), units.show(found.volume, "volume", system)))
    lines += [layout.fact(place.name, band_text(place.band, system)) for place in found.places]
    if pond.pumps:
        lines.append(layout.fact(t("Pumps"), ", ".join(pump.name for pump in pond.pumps)))
    return lines
