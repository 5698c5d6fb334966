"""One pond: its water path, what is wrong on it, and the way to everything else about it."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.pond import Pond
from pondapp.sizing.plan import PondPlan, plan_of, wanted
from pondapp.ui.current import session_now, use_pond
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.kinds import NO_WRONG, WRONG
from pondapp.ui.parts.leaving import delete_button
from pondapp.ui.parts.navigate import go
from pondapp.ui.parts.path_drawing import Scene, last_readings, path_drawing
from pondapp.ui.parts.readings import reading_card
from pondapp.words import t, within

# Title, and the rest of the route, of each screen about a pond: one line each.
LINKS = (
    ("Water: shape and volume", "water"),
    ("Fish, feed and oxygen", "fish"),
    ("Least-flow plan", "plan"),
    ("Change the water path", "path"),
    ("Filters, lips, jets", "things"),
    ("Hose, lift and fittings", "plumbing"),
    ("Pumps", "pumps"),
    ("Shopping list", "shopping"),
    ("Tune the valves", "tune"),
    ("Pump health", "health"),
    ("Rules and prices", "rules"),
    ("Log: readings, tests, work done", "log"),
    ("Share or print this plan", "share"),
)  # fmt: skip


def off_places(scene: Scene) -> list[str]:
    """Names of the places whose last reading is outside what is wanted, each with its state."""
    places = [(place.name, scene.state(place.place_id)) for place in scene.found.places]
    return [f"{name}: {within(state.word)}" for name, state in places if state.off]


def summary(scene: Scene) -> ft.Control:
    """The first thing to read: the plan or the conflict, and what is off."""
    system, plan = scene.system, scene.plan
    if isinstance(plan, PondPlan):
        total = units.show(plan.total, "flow", system)
        head = t("Planned: {total} in all", total=total)
        notes = [layout.sentence(units.tell(note, system)) for note in plan.notes]
    else:
        head = t("The wishes conflict")
        notes = [layout.sentence(units.tell(note, system)) for note in (*plan.clashes, *plan.notes)]
    off = off_places(scene)
    if off:
        notes.append(t("To put right: {places}.", places=", ".join(off)))
    rows = [layout.marked(WRONG if notes else NO_WRONG, head), *map(layout.body, notes)]
    if not isinstance(plan, PondPlan):
        ways = go(f"/pond/{scene.pond.id}/plan")
        rows.append(layout.main_button(t("See what settles it"), ways))
    return layout.card(rows, strong=True)


def drawing_of(pond: Pond) -> list[ft.Control]:
    """Summary and water path, or what is wrong with the pond's numbers."""
    session = session_now()
    try:
        plan = plan_of(pond)
        last = last_readings(session.log(pond.id))
        scene = Scene(pond, wanted(pond, plan), plan, last, session.system)
        return [summary(scene), path_drawing(scene)]
    except PondError as problem:
        return [layout.caution(units.tell(problem.message, session.system))]


@ft.component
def PondPage() -> Any:
    """The pond's own screen."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    log = session.log(pond.id)
    newest = reading_card(log[0], session.system) if log else layout.body(t("No readings yet."))
    beside: list[ft.Control] = [
        layout.links([(t(title), go(f"/pond/{pond.id}/{part}")) for title, part in LINKS]),
        layout.heading(t("Newest reading")),
        newest,
        cautions.children(),
        delete_button(pond),
    ]
    halves = layout.halves(drawing_of(pond), beside)
    return layout.screen(f"/pond/{pond.id}", pond.name, [halves], wide=True)
