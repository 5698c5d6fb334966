"""One branch: time its fills against the aim, see how far off it is and which way to turn."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Reading
from pondapp.sizing.flow import Measured, fill_window, measured
from pondapp.sizing.flow_sets import BranchPlace, branch_places
from pondapp.sizing.methods import rules_for
from pondapp.sizing.path import Line, lines_of
from pondapp.sizing.tune import moves, off_by
from pondapp.ui.current import session_now
from pondapp.ui.parts import fills, layout
from pondapp.ui.parts.answers import interval_text
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.navigate import say
from pondapp.ui.parts.tuning import TURNED, region, use_turned
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.session import new_id
from pondapp.words import t


def _find(pond: Pond | None, branch_id: str) -> tuple[Line, BranchPlace] | None:
    for line in lines_of(pond) if pond else ():
        if pond and any(branch.id == branch_id for branch in line.branches):
            for place in branch_places(pond, line):
                if place.branch.id == branch_id:
                    return line, place
    return None


def verdict(
    found: Measured, place: BranchPlace, container: Container, system: str
) -> list[ft.Control]:
    """Flow and fill time against the aim, and which way to turn."""
    off = off_by(found, place)
    aim = fill_window(container, place.band).aim
    mean = container.volume_m3 / found.flow.flow
    times = t(
        "A fill takes {mean}; the aim is {aim}.",
        mean=units.show(mean, "duration", system),
        aim=units.show(aim, "duration", system),
    )
    mark = ft.Icons.CHECK_CIRCLE if off.near_enough else ft.Icons.BUILD_CIRCLE
    return [
        layout.marked(mark, units.tell(off.sentence, system)),
        layout.body(times),
        layout.body(units.tell(off.turn, system)),
        layout.small(
            f"{units.show(found.flow.flow, 'flow', system)}: {interval_text(found, system)}"
        ),
    ]


def effects(
    pond: Pond, line: Line, place: BranchPlace, found: Measured, system: str
) -> list[ft.Control]:
    """What turning this valve does to the others, by the circuit as entered."""
    session = session_now()
    try:
        moved = moves(
            pond, line, session.log(pond.id), place.branch.id, found.flow.flow, datetime.now(UTC)
        )
    except PondError as problem:
        said = layout.sentence(units.tell(problem.message, system))
        return [layout.card([layout.heading(t("By the pipes as entered")), layout.body(said)])]
    lines: list[ft.Control] = []
    if moved.opening.template:
        lines.append(layout.body(units.tell(moved.opening, system)))
    for other in moved.others:
        lines.append(
            layout.body(
                t(
                    "{name}: {before} now, about {then} then.",
                    name=other.name,
                    before=units.show(other.before, "flow", system, 2),
                    then=units.show_range(other.low, other.high, "flow", system),
                )
            )
        )
    if moved.ranges:
        lines.append(
            layout.small(
                t("A range, since flows alone do not tell a weak pump from half shut valves.")
            )
        )
    if moved.supposed_open:
        lines.append(
            layout.small(
                t("Taken as wide open, since not timed today: {names}.",
                  names=", ".join(moved.supposed_open))
            )
        )  # fmt: skip
    lines += [layout.small(units.tell(note, system)) for note in moved.notes]
    if not lines:
        return []
    lines.append(ShowWorking(t("the branches after the turn"), lambda: moved.working, system))
    return [layout.card([layout.heading(t("When this valve is at its aim")), *lines])]


@ft.component
def TuneBranchPage() -> Any:
    """Fills, verdict, valve; again until it is right."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, branch_id = session.ponds.get(params.get("pond_id", "")), params.get("branch_id", "")
    pond_id = pond.id if pond else ""
    turned, _ = use_turned(pond_id)
    try:
        at = _find(pond, branch_id)
    except PondError:
        at = None
    place_id = at[1].place_id if at else ""
    entry = fills.use_fills(fills.fills_draft_id(pond_id, place_id))
    route = f"/pond/{pond_id}/tune/{branch_id}"
    if pond is None or at is None:
        gone = [layout.body(t("This branch carries no water by the plan."))]
        return layout.screen(route, t("Not there"), gone)
    line, place = at
    container = entry.container
    if container is None:
        return layout.screen(route, place.name, fills.no_container())
    found = measured(container, entry.fills, place.band, rules_for(pond).measuring)

    async def keep(_: Any) -> None:
        if found is None:
            return
        band = place.band
        await session.keep_reading(
            Reading(
                id=new_id(),
                pond_id=pond.id,
                place_id=place.place_id,
                place_name=place.place_name,
                taken_at=datetime.now(UTC),
                method=Bucket(container=container, fills=entry.fills),
                band=Band(low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high),
            )
        )
        await entry.saved()
        say(t("Saved in the log"))
        ft.context.page.navigate(f"/pond/{pond.id}/tune")

    def anew(_: Any) -> None:
        stamp = datetime.now(UTC).isoformat()
        turned.put({**turned.texts, f"{TURNED}{branch_id}": stamp})
        entry.clear()

    controls: list[ft.Control] = [
        layout.body(fills.aim_text(container, place.band, system)),
        *fills.stopwatch(entry, again=found is not None),
        *fills.fill_rows(entry, system),
    ]
    if found:
        off = off_by(found, place)
        controls.append(
            layout.card([region(verdict(found, place, container, system))], strong=True)
        )
        keep_button = layout.main_button(t("Save this setting"), keep)
        again = layout.second_button(t("I turned the valve: time it again"), anew)
        if off.near_enough:
            controls += [keep_button, again]
        else:
            again = layout.main_button(t("I turned the valve: time it again"), anew)
            controls += [again, layout.second_button(t("Keep it as it is"), keep)]
            controls += effects(pond, line, place, found, system)
    controls.append(
        fold(
            "more",
            t("Container, typed time"),
            lambda: [*fills.typed_time(entry, system), *fills.container_choice(entry)],
        )
    )
    return layout.screen(route, place.name, controls)
