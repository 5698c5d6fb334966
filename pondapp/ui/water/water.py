"""How much water a pond holds: a known volume, basins drawn up, or a volume that was measured."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.rules.beyond import beyond_volume
from pondapp.answers.water.volume import Assumptions, PondVolume, volume_of
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.water import Drawn, MeasuredVolume, Water
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.missing import still_missing
from pondapp.ui.parts.names import Texts
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.water import water_form as form
from pondapp.ui.water.water_basins import basins_part
from pondapp.ui.water.water_measured import measured_part
from pondapp.words import t

FIRST_BASIN = "b0"


def _why(water: Water, measured: MeasuredVolume | None, computed: float | None, system: str) -> str:
    """Which of the volumes counts, and why."""
    if measured is None:
        return t("From the drawing.") if isinstance(water, Drawn) else t("As you know it.")
    if computed is None:
        return t("Measured, so it is used instead of the volume that you typed.")
    gives = units.show(computed, "volume", system)
    return t("Measured, so this is used; the drawing gives {volume}.", volume=gives)


def _counted(
    read: form.WaterRead, measured: form.MeasuredRead
) -> tuple[PondVolume | None, PondError | None]:
    """What the whole pond holds, or why it can't be; neither while something is missing."""
    if read.water is None or not measured.ready:
        return None, None
    try:
        return volume_of(read.water, measured.volume.volume_m3 if measured.volume else None), None
    except PondError as trouble:
        return None, trouble


def _whole(
    found: PondVolume, water: Water, measured: MeasuredVolume | None, system: str
) -> ft.Control:
    """What the whole pond holds, and whether measure and drawing agree."""
    lines = [
        layout.fact(
            t("The pond holds"),
            units.show(found.volume, "volume", system),
            _why(water, measured, found.computed, system),
        )
    ]
    if found.area is not None:
        lines.append(layout.fact(t("Open water"), units.show(found.area, "area", system)))
    told = [layout.body(layout.sentence(units.tell(message, system))) for message in found.warnings]
    if len(found.basins) > 1 or (found.basins and measured):
        told.append(ShowWorking(t("the pond's volume"), found.steps, system))
    return layout.card([*lines, *told], strong=True)


def _waiting(read: form.WaterRead, measured: form.MeasuredRead) -> ft.Control:
    """Why it can't be saved yet."""
    if read.errors or measured.errors or any(one.trouble for one in read.basins.values()):
        return layout.small(t("Correct what is marked above, then save."))
    if read.water is None:
        missing = [label for one in read.basins.values() for label in one.missing]
        return still_missing(list(dict.fromkeys(missing)) or [t("Volume")])
    return layout.small(t("Finish the measured volume, or choose “Not measured”."))


@ft.component
def WaterPage() -> Any:
    """Every keystroke is kept as a draft; drawing and volume follow while typing."""
    session = session_now()
    system = session.system
    pond_id = ft.use_route_params().get("pond_id", "")
    pond = session.ponds.get(pond_id)
    begin: Texts = {}
    if pond:
        asked = seen(pond.water, pond.measured_volume)
        begin = {**form.water_texts(pond, system, FIRST_BASIN), **asked}
    typed = use_draft(draft_name("water", pond_id), begin, form.FORM)
    if pond is None:
        return layout.no_pond()
    return _screen(pond, typed, begin, system)


def _screen(pond: Pond, typed: Typed, begin: Texts, system: str) -> ft.Control:
    try:
        rules = Assumptions().with_overrides(pond.assumptions)
    except PondError as problem:
        told = units.explain(problem, system)
        return layout.screen(f"/pond/{pond.id}/water", pond.name, [layout.caution(told)])
    texts = typed.texts
    read = form.read_water(texts, system)
    measured = form.read_measured(texts, system, pond.measured_volume, rules)
    whole, trouble = _counted(read, measured)

    async def keep(_: Any) -> None:
        if whole is None:
            return
        changed = {"water": read.water, "measured_volume": measured.volume}
        what = t("The water of {pond} is saved.", pond=pond.name)
        await save_change(pond.model_copy(update=changed), what)
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}")

    how = texts.get("how", "typed")
    ways = [(value, t(name)) for value, name in form.HOW]
    controls: list[ft.Control] = [layout.choice(t("How much water"), ways, how, typed.note("how"))]
    if how == "drawn":
        controls += basins_part(typed, read, rules, system)
    else:
        controls.append(form.FORM.draw(typed, "volume", read.errors))
    answer: list[ft.Control] = []
    if whole and read.water:
        answer.append(_whole(whole, read.water, measured.volume, system))
        if beyond := beyond_volume(whole.volume, rules):
            answer.append(layout.caution(units.tell(beyond, system)))
    elif trouble:
        answer.append(layout.caution(units.explain(trouble, system)))
    else:
        answer.append(_waiting(read, measured))
    button = layout.main_button(t("Save"), keep, disabled=whole is None)
    answer += saved_by(button, typed, begin)
    if how == "drawn":
        answer.append(cautions.children())
    controls.append(layout.halves(measured_part(typed, pond, measured, rules, system), answer))
    return layout.screen(f"/pond/{pond.id}/water", t("Water of {pond}", pond=pond.name),
                         controls, wide=True)  # fmt: skip
