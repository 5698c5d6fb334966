"""A pump as it is on its box: typed in the shop, judged in the pond's own circuit at once."""

from collections.abc import Mapping
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.plumbing.path import line_name, lines_of
from pondapp.answers.pumps.pumps import curve_of, put_pump, shelf, without_pump
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.circuit import Pump
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.parts import cautions, fields, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.pumps.label_fields import PUMP_FLOW, PUMP_HEAD, PUMP_WATTS
from pondapp.ui.pumps.line_asked import line_asked
from pondapp.ui.pumps.pump_answer import answer_lines
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

NEW = "new"
TRIED = "tried"  # the id of a pump that is typed and not kept yet
FEWEST_POINTS = 3
MOST_POINTS = 30
POINT = Form(
    (
        QuantityField("pump_flow", "Flow {number}", "flow", limits_of(Pump, "points", 0)),
        QuantityField("pump_head", "Head {number}", "head", limits_of(Pump, "points", 1)),
    )
)
FORM = Form(
    (
        PUMP_FLOW.reworded(label="Flow", helper="Largest, at no height"),
        PUMP_HEAD.reworded(label="Head", helper="Largest, at no flow"),
        PUMP_WATTS,
        QuantityField("price", "Price", "money", limits_of(Pump, "price")),
    ),
    lists={"points": POINT},
)
KNOWN_BY = (("points", "Yes, I read points off it"), ("label", "No, only the label"))


def points_of(texts: Mapping[str, str]) -> list[str]:
    """The names of the points, as many as are asked for."""
    count = int(texts.get("count", str(FEWEST_POINTS)))
    return [str(number) for number in range(1, count + 1)]


def _read_points(
    texts: Mapping[str, str], system: str, errors: dict[str, str]
) -> list[tuple[float, float]]:
    points = []
    for name in points_of(texts):
        read = POINT.read(texts, system, name)
        errors |= read.errors
        flow, head = read.values.get("pump_flow"), read.values.get("pump_head")
        if flow is not None and head is not None:
            points.append((flow, head))
        elif flow is not None and not read.errors:
            errors[f"{name}.pump_head"] = t("Write the head at this flow")
        elif head is not None and not read.errors:
            errors[f"{name}.pump_flow"] = t("Write the flow at this head")
    return points


def read_pump(
    texts: Mapping[str, str], system: str, pump_id: str, default_name: str
) -> tuple[Pump | None, dict[str, str]]:
    """The pump that the texts describe, or none and what is wrong, by field."""
    by_points = texts.get("known_by") == "points"
    read = FORM.read(texts, system)
    values, errors = read.values, read.errors
    points = _read_points(texts, system, errors) if by_points else []
    name = texts.get("name", "").strip() or default_name
    if wrong := fields.name_error(name):
        errors["name"] = wrong
    if errors:
        return None, errors
    pump = Pump(
        id=pump_id,
        name=name,
        max_flow_m3_s=values.get("pump_flow"),
        max_head_m=values.get("pump_head"),
        power_w=values.get("pump_watts"),
        price=values.get("price"),
        adjustable=texts.get("adjustable") == "yes",
        points=tuple(sorted(points)),
    )
    if points:
        try:
            curve_of(pump)
        except PondError as problem:
            errors["points"] = units.explain(problem, system)
            return None, errors
    return pump, errors


def texts_of(pump: Pump, system: str) -> dict[str, str]:
    """A pump on the shelf as texts to edit."""
    amounts = {
        "pump_flow": pump.max_flow_m3_s,
        "pump_head": pump.max_head_m,
        "pump_watts": pump.power_w,
        "price": pump.price,
    }
    texts = {
        "name": pump.name,
        "adjustable": "yes" if pump.adjustable else "no",
        "known_by": "points" if pump.points else "label",
        "count": str(max(FEWEST_POINTS, len(pump.points))),
        **FORM.write(amounts, system),
    }
    for number, (flow, head) in enumerate(pump.points, 1):
        texts |= POINT.write({"pump_flow": flow, "pump_head": head}, system, str(number))
    return texts


def _points_part(typed: Typed, errors: dict[str, str]) -> list[ft.Control]:
    controls: list[ft.Control] = [
        layout.small(t("Read three or more points off the curve on the box, at any flow."))
    ]
    names = points_of(typed.texts)
    for name in names:
        keys = (f"{name}.{one.key}" for one in POINT.fields)
        controls.append(layout.pairs([FORM.draw(typed, key, errors, number=name) for key in keys]))
    if "points" in errors:
        controls.append(fields.wrong(errors["points"]))
    if len(names) < MOST_POINTS:
        more = typed.note("count")
        controls.append(
            layout.quiet_button(t("One more point"), lambda _: more(str(len(names) + 1)))
        )
    return controls


def _judged(pond: Pond, pump: Pump, system: str) -> list[ft.Control]:
    """What this pump is worth here, or why that cannot be told."""
    try:
        found = shelf(
            worked_now(put_pump(pond, pump)), line_asked(pond), worked_now(pond).planned.flows
        )
    except PondError as problem:
        return [layout.body(units.explain(problem, system))]
    answer = next(answer for answer in found.answers if answer.pump.id == pump.id)
    return answer_lines(answer, found, system)


@ft.component
def PumpFormPage() -> Any:
    """Five fields, with the verdict under them while typing."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond = session.ponds.get(params.get("pond_id", ""))
    pump_id = params.get("pump_id", NEW)
    known = next((p for p in pond.pumps if p.id == pump_id), None) if pond else None
    empty = {"known_by": "label", "adjustable": "no"}
    begin = {**texts_of(known, system), **seen(known)} if known else empty
    typed = use_draft(
        draft_name("pump", pump_id, pond.id if pond else ""),
        begin,
        FORM,
    )
    route = f"/pond/{pond.id if pond else ''}/pumps/{pump_id}"
    if pond is None or (known is None and pump_id != NEW):
        return layout.screen(
            route, t("No such pump"), [layout.body(t("This pump is not on this device."))]
        )
    default = t("Pump {number}", number=len(pond.pumps) + 1)
    made, errors = read_pump(typed.texts, system, known.id if known else TRIED, default)
    if made and not any((made.points, made.max_flow_m3_s, made.max_head_m, made.power_w)):
        made = None  # a name alone is no pump yet
    shelf_route = f"/pond/{pond.id}/pumps"
    by_points = typed.text("known_by") == "points"

    async def keep(_: Any) -> None:
        if made is None:
            return
        pump = made if known else made.model_copy(update={"id": new_id()})
        await save_change(put_pump(pond, pump), t("{name} is among your pumps.", name=pump.name))
        await typed.drop()
        ft.context.page.navigate(shelf_route)

    async def take_off(_: Any) -> None:
        if known is None:
            return
        await save_change(without_pump(pond, known.id), t("{name} is removed.", name=known.name))
        await typed.drop()
        ft.context.page.navigate(shelf_route)

    typing: list[ft.Control] = [
        fields.text_field(
            t("Name"), typed.text("name"), typed.note("name"), error=errors.get("name"),
            helper=t("{name} if you leave it empty", name=default),
        ),
        layout.small(t("The largest flow and the largest head that the box promises:")),
        layout.pairs([FORM.draw(typed, key, errors) for key in ("pump_flow", "pump_head")]),
        *(_points_part(typed, errors) if by_points else []),
        layout.pairs([FORM.draw(typed, key, errors) for key in ("pump_watts", "price")]),
    ]  # fmt: skip
    answer: list[ft.Control] = []
    if len(lines_of(pond)) > 1:
        line = line_name(pond, line_asked(pond))
        answer.append(layout.small(t("Tried in the pipes of {line}.", line=line)))
    if made and (made.points or made.max_flow_m3_s or made.max_head_m):
        answer.append(
            ft.Semantics(
                live_region=True,
                content=layout.card(_judged(pond, made, system), strong=True),
            )
        )
    elif errors:
        answer.append(layout.small(t("Correct what is marked above, then the answer comes.")))
    else:
        answer.append(layout.small(t("Flow and head from the box are enough to begin.")))
    words = t("Save the changes") if known else t("Add this pump")
    button = layout.main_button(words, keep, disabled=made is None)
    answer += [
        *(saved_by(button, typed, begin) if known else [button]),
        layout.choice(
            t("Is there a curve on the box?"), [(key, t(label)) for key, label in KNOWN_BY],
            typed.text("known_by", "label"), typed.note("known_by"),
        ),
        layout.choice(
            t("Can its speed be set?"), layout.yes_no(),
            typed.text("adjustable", "no"), typed.note("adjustable"), in_rows=True,
        ),
    ]  # fmt: skip
    if known:
        answer.append(layout.quiet_button(t("Remove this pump"), take_off))
    answer.append(cautions.mains())
    title = known.name if known else t("A pump from the box")
    return layout.screen(route, title, typing, second=answer)
