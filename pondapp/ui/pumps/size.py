"""Choosing a pump with no pond at all: for the shop aisle."""

from collections.abc import Callable
from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.answers.pumps.pumps import TARIFF, limits
from pondapp.answers.pumps.quick import (
    MOST_WATER,
    FilterChoice,
    QuickPond,
    QuickPump,
    quick_pond,
    quick_pump,
    usual_tariff,
)
from pondapp.answers.pumps.shop import Way, box_numbers, hose_text, lift_steps, way
from pondapp.core.base.errors import PondError
from pondapp.models.base import Limits, limits_of
from pondapp.models.circuit import Lip
from pondapp.models.preferences import Draft
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.answers import target_card
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.money import told_price
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.plumbing.hose_fields import BORE, HOSE, HOSE_LENGTH, LIFT
from pondapp.ui.pond.new_pond import FORM as NEW_POND_FORM
from pondapp.ui.pond.new_pond import NEW_POND
from pondapp.ui.pumps.label_fields import PUMP_FLOW, PUMP_HEAD, PUMP_WATTS
from pondapp.ui.pumps.pump_answer import MARKS
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

DRAFT = "size"
BEGIN = {"ask": "pond", "filter": "bog", "hose": "ribbed"}
ASKS = (("pond", "What must the pump deliver?"), ("pump", "What does a pump really deliver?"))
FILTERS = (
    ("bog", "Bog: slow gravel bed"),
    ("high_flow", "High-flow: foam and loose media"),
    ("both", "Both"),
    ("none", "None yet"),
)
HOSES = (("ribbed", "Ribbed inside"), ("smooth", "Smooth inside"))
FORM = Form(
    (
        QuantityField("volume", "The pond holds", "volume", Limits(0.0, MOST_WATER, above=True)),
        QuantityField(
            "lip", "Waterfall lip width", "width", limits_of(Lip, "width_m"),
            "Leave empty if there is none",
        ),
        LIFT.reworded(helper="From the pond's water up to the outlet"),
        BORE.reworded(helper="Hose is sold by its inside"),
        HOSE_LENGTH,
        PUMP_FLOW,
        PUMP_HEAD,
        PUMP_WATTS.reworded(helper="For the cost; leave empty if not known"),
        QuantityField("tariff", "Price of electricity", "tariff", Limits(*limits(TARIFF))),
    )
)  # fmt: skip
TAKEN = ("volume", "lip", "pump_flow", "pump_head", "pump_watts", *(one.key for one in HOSE))
"""What goes along into the form that adds a pond, whose fields have the same keys."""
OTHER = "other"
USUAL_SHARE = 0.6  # of a label, to guess a hose by while no pond is typed


def pond_answer(texts: dict[str, str], values: dict[str, float]) -> QuickPond | None:
    """What the pump must deliver, once the water is known."""
    if "volume" not in values:
        return None
    choice = cast("FilterChoice", texts.get("filter", "bog"))
    return quick_pond(values["volume"], choice, values.get("lip"))


def way_of(texts: dict[str, str], values: dict[str, float], flow: float, system: str) -> Way:
    """The way of the water as typed, with a usual lift and the hose to buy where it is not."""
    ribbed = texts.get("hose", BEGIN["hose"]) == "ribbed"
    lift, bore, length = (values.get(one.key) for one in (LIFT, BORE, HOSE_LENGTH))
    return way(lift, bore, length, ribbed, flow, system)


def pump_answer(
    texts: dict[str, str], values: dict[str, float], errors: dict[str, str],
    pond: QuickPond | None, system: str,
) -> tuple[QuickPump, Way] | None:  # fmt: skip
    """What the pump really delivers, once its label is known, and on which way."""
    given = [values.get(key) for key in ("pump_flow", "pump_head")]
    wrong = {"lift", "bore", "hose_length", "tariff"} & errors.keys()
    if None in given or wrong:
        return None
    flow, head = cast("list[float]", given)
    wanted = (pond.good, pond.pump) if pond else ()
    here = way_of(texts, values, wanted[0] if wanted else USUAL_SHARE * flow, system)
    found = quick_pump(here, flow, head, values.get("pump_watts"), values.get("tariff"), wanted)
    return found, here


def _wanted(
    texts: dict[str, str], values: dict[str, float], errors: dict[str, str]
) -> QuickPond | PondError | None:
    """What the pump must deliver or why that cannot be; none while something is still to type."""
    if "lip" in errors:
        return None
    try:
        return pond_answer(texts, values)
    except PondError as problem:
        return problem


def as_new_pond(texts: dict[str, str], values: dict[str, float], system: str) -> dict[str, str]:
    """What was typed here, as texts of the form that adds a pond."""
    taken = {key: texts[key] for key in TAKEN if texts.get(key, "").strip()}
    found = pond_answer(texts, values)
    if found and found.bog:
        taken |= NEW_POND_FORM.write({"bog": found.bog.volume}, system)
    high_flow = texts.get("filter", "bog") in ("high_flow", "both")
    inside = texts.get("hose", BEGIN["hose"])
    return {
        **taken, "shape": "typed", "high_flow": "yes" if high_flow else "no", "hose": inside,
    }  # fmt: skip


def _choice(
    label: str, options: tuple[tuple[str, str], ...], chosen: str, on_choose: Callable[[str], None]
) -> ft.Control:
    return layout.choice(label, layout.worded(options), chosen, on_choose)


def _lift(typed: Typed, values: dict[str, float], errors: dict[str, str], system: str
          ) -> list[ft.Control]:  # fmt: skip
    """The lift, in steps that a thumb can choose; any other one in a field."""
    steps = lift_steps(system)
    other = typed.text("lift_by") == OTHER
    lift = values.get("lift")
    near = [str(n) for n, step in enumerate(steps) if lift is not None and abs(lift - step) < 1e-3]
    if typed.text("lift").strip() and not near:
        other = True

    def choose(value: str) -> None:
        if value == OTHER:
            typed.put({**typed.texts, "lift_by": OTHER})
        else:
            step = FORM.write({"lift": steps[int(value)]}, system)
            typed.put({**typed.texts, "lift_by": "", **step})

    options = [(str(n), units.show(step, "head", system)) for n, step in enumerate(steps)]
    chosen = OTHER if other else next(iter(near), "")
    lines = [
        layout.choice(
            t("Lift: from the water up to the outlet"), [*options, (OTHER, t("Other"))], chosen,
            choose, in_rows=True,
        )
    ]  # fmt: skip
    return [*lines, FORM.draw(typed, "lift", errors)] if other else lines


def _assumed(here: Way, system: str) -> list[ft.Control]:
    """What counts without having been typed, and where to mend it."""
    lines = []
    if here.lift_assumed:
        lift = units.show(here.lift, "head", system)
        lines.append(layout.body(t("Assuming {lift} of lift: choose yours above.", lift=lift)))
    if here.size:
        lines.append(layout.small(t("With up to {hose}, or wider.", hose=hose_text(here, system))))
    return lines


def _box_card(
    texts: dict[str, str], values: dict[str, float], found: QuickPond, system: str
) -> ft.Control:
    """The numbers to look for on a pump's box, for a good flow and for the least."""
    here = way_of(texts, values, found.good, system)
    good, least = (units.show(flow, "flow", system) for flow in (found.good, found.pump))
    same = found.pump == found.good
    asked = [(found.good, t("For a good flow: {flow} up there", flow=good))]
    if same:
        asked = [(found.good, t("For {flow} up there", flow=good))]
    else:
        asked.append((found.pump, t("For the least that will do: {flow} up there", flow=least)))
    lines: list[ft.Control] = [layout.heading(t("Look for this on the box"))]
    for flow, name in asked:
        try:
            box = box_numbers(here, flow, system)
        except PondError as problem:
            told = units.explain(problem, system)
            lines.append(layout.fact(name, t("No pump for a pond"), told))
            continue
        probably = units.show(box.probable_flow, "flow", system)
        lines.append(
            layout.fact(
                name,
                t("{flow} and {head}, or more", flow=units.show(box.label_flow, "flow", system),
                  head=units.show(box.label_head, "head", system)),
                t("{flow} is probably enough.", flow=probably),
            )
        )  # fmt: skip
    if found.apart > 1.01 * found.good:
        lines.append(
            layout.body(
                t(
                    "This is for one after another. If each gets a branch of its own, as in a pond "
                    "that you save: {flow} up there.",
                    flow=units.show(found.apart, "flow", system),
                )
            )
        )
    lines += _assumed(here, system)
    lines.append(ShowWorking(t("the least flow"), found.steps, system))
    if not same:
        lines.append(ShowWorking(t("the good flow"), found.good_steps, system))
    return layout.card(lines, strong=True)


def _pond_form(
    typed: Typed, values: dict[str, float], errors: dict[str, str], system: str
) -> list[ft.Control]:
    return [
        FORM.draw(typed, "volume", errors),
        _choice(t("Filter"), FILTERS, typed.text("filter", "bog"), typed.note("filter")),
        FORM.draw(typed, "lip", errors),
        *_lift(typed, values, errors, system),
    ]


def _pond_part(
    typed: Typed, values: dict[str, float], errors: dict[str, str],
    found: QuickPond | PondError | None, system: str,
) -> list[ft.Control]:  # fmt: skip
    if {"lip", "lift"} & errors.keys():
        return []
    if isinstance(found, PondError):
        return [layout.caution(units.explain(found, system))]
    if found is None:
        return [layout.small(t("The amount of water is enough to begin."))]
    lines = [_box_card(typed.texts, values, found, system)]
    if found.conflict:
        told = layout.sentence(units.tell(found.conflict, system))
        ways = [
            layout.body(
                t(
                    "{change} In all: {flow}.",
                    change=layout.sentence(units.tell(way.changes[0], system)),
                    flow=units.show(way.pump, "flow", system),
                )
            )
            for way in found.resolutions
            if len(way.changes) == 1
        ]
        lines.append(
            layout.card([layout.heading(t("This can't all work")), layout.body(told),
                         layout.small(t("Any one of these makes it work:")), *ways])
        )  # fmt: skip
    if found.bog and found.bog_heavy:
        size = units.show(found.bog.volume, "volume", system)
        heavy = units.show(found.bog_heavy.volume, "volume", system)
        lines.append(
            layout.card(
                [
                    layout.fact(
                        t("Bog filter, outside volume"),
                        t("{least} or more", least=size),
                        t("{volume} for many or large fish.", volume=heavy),
                    ),
                    ShowWorking(t("the bog's size"), found.bog.steps, system),
                ]
            )
        )  # fmt: skip
    return lines + [target_card(place, system) for place in found.places]


def _money(found: QuickPump, *, entered: bool, system: str) -> list[ft.Control]:
    if found.costs is None:
        return []
    cost = found.costs
    energy = units.show(cost.energy_per_year, "energy", system)
    price = told_price(cost.tariff, entered, system)
    return [
        layout.fact(
            t("Electricity"),
            units.by_month_and_year(cost.per_year),
            t("{energy} a year, running all day, at {price}.", energy=energy, price=price),
        )
    ]  # fmt: skip


def _pump_form(
    typed: Typed, values: dict[str, float], errors: dict[str, str], system: str
) -> list[ft.Control]:
    lines: list[ft.Control] = [
        *[FORM.draw(typed, key, errors) for key in ("pump_flow", "pump_head")],
        *_lift(typed, values, errors, system),
        FORM.draw(typed, "bore", errors),
        _choice(t("The hose is"), HOSES, typed.text("hose", "ribbed"), typed.note("hose")),
        *[FORM.draw(typed, key, errors) for key in ("hose_length", "pump_watts")],
    ]
    if typed.text("pump_watts").strip():
        usual = units.show(usual_tariff(), "tariff", system)
        lines.append(FORM.draw(typed, "tariff", errors, helper=t("If empty: {price}", price=usual)))
    return lines


def _pump_part(
    typed: Typed, values: dict[str, float], errors: dict[str, str],
    pond: QuickPond | PondError | None, system: str,
) -> list[ft.Control]:  # fmt: skip
    known = pond if isinstance(pond, QuickPond) else None
    try:
        answered = pump_answer(typed.texts, values, errors, known, system)
    except PondError as problem:
        told = units.explain(problem, system)
        return [layout.card([layout.body(told)], strong=True), cautions.mains()]
    if answered is None:
        return [
            layout.small(t("The two numbers on the label are enough to begin.")), cautions.mains(),
        ]  # fmt: skip
    found, here = answered
    span = units.show_range(found.given.low, found.given.high, "flow", system)
    answer: list[ft.Control] = [
        layout.fact(
            t("It really delivers"),
            span,
            t("At a head of about {head}, clean or due for cleaning. A label tells no more; bends "
              "and valves take some, too.", head=units.show(found.point.head, "head", system)),
        )
    ]  # fmt: skip
    if known:
        names = (t("Good flow"), t("Least that will do"))
        for flow, given, name in zip((known.good, known.pump), found.verdicts, names, strict=True):
            answer.append(_verdict(name, flow, here.odds(given), system))
            if known.good == known.pump:
                break
    answer += _assumed(here, system)
    answer += _money(found, entered="tariff" in values, system=system)
    answer.append(ShowWorking(t("what it delivers"), found.steps, system))
    remarks = [layout.small(layout.sentence(units.tell(m, system))) for m in found.remarks()]
    return [layout.card(answer, strong=True), *remarks, cautions.mains()]


def _verdict(name: str, flow: float, odds: str, system: str) -> ft.Control:
    """The two questions answered together, where both were asked."""
    mark, word = MARKS[odds]
    told = t("{name}, {flow}: {word}", name=name, flow=units.show(flow, "flow", system),
             word=t(word).lower())  # fmt: skip
    return layout.marked(mark, told)


@ft.component
def SizePage() -> Any:
    """A pond in three numbers, or a pump on the shelf."""
    session = session_now()
    system = session.system
    typed = use_draft(DRAFT, BEGIN, FORM)
    read = FORM.read(typed.texts, system)
    values, errors = read.values, read.errors
    ask = typed.text("ask", "pond")

    async def make_pond(_: Any) -> None:
        begun = session.drafts.get(NEW_POND) or Draft(id=NEW_POND)
        texts = {**begun.texts, **as_new_pond(typed.texts, values, system)}
        await session.drafts.save(NEW_POND_FORM.filled(begun, texts))
        ft.context.page.navigate("/new")

    pond = _wanted(typed.texts, values, errors)
    form, answer = (_pond_form, _pond_part) if ask == "pond" else (_pump_form, _pump_part)
    return layout.screen(
        "/size",
        t("Choose a pump"),
        [
            _choice(t("Your question"), ASKS, ask, typed.note("ask")),
            *form(typed, values, errors, system),
        ],
        second=[
            *answer(typed, values, errors, pond, system),
            layout.second_button(t("Save as a pond"), make_pond, disabled=not values),
            layout.quiet_button(t("How this works"), go("/help/size")),
        ],
    )
