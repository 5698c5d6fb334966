"""Quick sizing, with no pond at all: for the shop aisle."""

from collections.abc import Callable
from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.preferences import Draft
from pondapp.sizing.quick import (
    MOST_WATER,
    FilterChoice,
    QuickPond,
    QuickPump,
    quick_pond,
    quick_pump,
    usual_tariff,
)
from pondapp.ui import theme
from pondapp.ui.current import session_now
from pondapp.ui.pages.pond_form import HOSE, NEW_POND
from pondapp.ui.parts import cautions, fields, layout
from pondapp.ui.parts.answers import target_card
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.navigate import go
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.parts.written import written
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
# Label, kind, least, most, helper.
QUANTITIES: dict[str, tuple[str, str, float, float, str]] = {
    "volume": ("The pond holds", "volume", 1e-3, MOST_WATER, ""),
    "lip": ("Waterfall lip width", "width", 0.01, 50, "Leave empty if there is none"),
    "lift": ("Lift", *HOSE["lift"], "From the pond's water up to the outlet"),
    "bore": ("Hose, inside", *HOSE["bore"], "Hose is sold by its inside"),
    "hose_length": ("Hose length", *HOSE["hose_length"], ""),
    "pump_flow": ("Largest flow on the label", "flow", 1e-6, 1, ""),
    "pump_head": ("Largest head on the label", "head", 0.05, 100, ""),
    "pump_watts": ("Power", "power", 0.1, 20_000, "For the cost; leave empty if not known"),
    "tariff": ("Electricity", "tariff", 0.0, 1000 / 3.6e6, ""),
}
MAY_BE_NOTHING = ("lift", "tariff")


def read_sizes(texts: dict[str, str], system: str) -> tuple[dict[str, float], dict[str, str]]:
    """The amounts typed, in SI, and what is wrong with the others, by field."""
    asked = {key: (kind, low, high) for key, (_, kind, low, high, _) in QUANTITIES.items()}
    return fields.read_quantities(texts, asked, system, zero=MAY_BE_NOTHING)


def pond_answer(texts: dict[str, str], values: dict[str, float]) -> QuickPond | None:
    """What the pump must deliver, once the water is known."""
    if "volume" not in values:
        return None
    choice = cast("FilterChoice", texts.get("filter", "bog"))
    return quick_pond(values["volume"], choice, values.get("lip"))


def pump_answer(
    texts: dict[str, str], values: dict[str, float], errors: dict[str, str]
) -> QuickPump | None:
    """What the pump really delivers, once lift, hose and label are known."""
    needed = ("lift", "bore", "hose_length", "pump_flow", "pump_head")
    if any(key not in values for key in needed) or "tariff" in errors:
        return None
    return quick_pump(
        values["lift"],
        values["bore"],
        values["hose_length"],
        texts.get("hose", "ribbed") == "ribbed",
        values["pump_flow"],
        values["pump_head"],
        values.get("pump_watts"),
        values.get("tariff"),
    )


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
    taken = {
        key: texts[key]
        for key in ("volume", "lip", "pump_flow", "pump_head", "pump_watts", *HOSE)
        if texts.get(key, "").strip()
    }
    found = pond_answer(texts, values)
    if found and found.bog:
        taken["bog"] = units.edit_text(found.bog.volume, "volume", system)
    high_flow = texts.get("filter", "bog") in ("high_flow", "both")
    inside = texts.get("hose", BEGIN["hose"])
    return {
        **taken, "shape": "typed", "high_flow": "yes" if high_flow else "no", "hose": inside,
    }  # fmt: skip


def _amount(key: str, typed: Typed, errors: dict[str, str], system: str) -> ft.Control:
    label, kind, _, _, helper = QUANTITIES[key]
    return fields.quantity_field(
        t(label), typed.text(key), typed.note(key), unit=units.unit_for(kind, system),
        error=errors.get(key), helper=t(helper) if helper else "",
    )  # fmt: skip


def _choice(
    label: str, options: tuple[tuple[str, str], ...], chosen: str, on_choose: Callable[[str], None]
) -> ft.Control:
    return layout.choice(label, layout.worded(options), chosen, on_choose)


def _pond_part(
    typed: Typed, errors: dict[str, str], found: QuickPond | PondError | None, system: str
) -> list[ft.Control]:
    lines: list[ft.Control] = [
        _amount("volume", typed, errors, system),
        _choice(t("Filter"), FILTERS, typed.text("filter", "bog"), typed.note("filter")),
        _amount("lip", typed, errors, system),
    ]
    if "lip" in errors:
        return lines
    if isinstance(found, PondError):
        return [*lines, layout.caution(layout.sentence(units.tell(found.message, system)))]
    if found is None:
        return [*lines, layout.small(t("The amount of water is enough to begin."))]
    wants = layout.fact(
        t("One pump must deliver"),
        t("{least} or more", least=units.show(found.pump, "flow", system)),
        t("Up there, at the outlet: the number on a pump's box is more than that."),
    )  # fmt: skip
    lines.append(layout.card([wants, ShowWorking(t("the pump"), found.steps, system)], strong=True))
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
            for way in found.ways_out
            if len(way.changes) == 1
        ]
        lines.append(
            layout.card([layout.heading(t("The wishes conflict")), layout.body(told),
                         layout.small(t("What settles it, any one of these:")), *ways])
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


def _money(found: QuickPump, system: str) -> list[ft.Control]:
    if found.costs is None:
        return []
    cost = found.costs
    energy = units.show(cost.energy_per_year, "energy", system)
    price = units.show(cost.tariff, "tariff", system)
    return [
        layout.fact(
            t("Electricity in a year"),
            units.readable(cost.per_year),
            t("{energy} at {price}, running all day, in your own money.",
              energy=energy, price=price),
        )
    ]  # fmt: skip


def _pump_part(
    typed: Typed, values: dict[str, float], errors: dict[str, str],
    pond: QuickPond | PondError | None, system: str,
) -> list[ft.Control]:  # fmt: skip
    usual = units.edit_text(usual_tariff(), "tariff", system)
    lines: list[ft.Control] = [
        _amount("lift", typed, errors, system),
        _amount("bore", typed, errors, system),
        _choice(t("The hose is"), HOSES, typed.text("hose", "ribbed"), typed.note("hose")),
        *[_amount(key, typed, errors, system)
          for key in ("hose_length", "pump_flow", "pump_head", "pump_watts")],
    ]  # fmt: skip
    if typed.text("pump_watts").strip():
        lines.append(
            fields.quantity_field(
                t("Price of electricity"), typed.text("tariff"), typed.note("tariff"),
                unit=units.unit_for("tariff", system), error=errors.get("tariff"),
                helper=t("{price} counts while this is empty", price=usual),
            )
        )  # fmt: skip
    try:
        found = pump_answer(typed.texts, values, errors)
    except PondError as problem:
        told = layout.sentence(units.tell(problem.message, system))
        return [*lines, layout.card([layout.body(told)], strong=True), cautions.mains()]
    if found is None:
        lines.append(
            layout.small(t("Lift, hose and the two numbers on the label give the answer."))
        )
        return [*lines, cautions.mains()]
    percent = units.show(found.share, "share", system, 2)
    answer: list[ft.Control] = [
        layout.fact(
            t("It really delivers"),
            units.show(found.point.flow, "flow", system),
            t("{share} of what the label says, at a head of {head}. Bends, valves and dirt take "
              "more.", share=percent, head=units.show(found.point.head, "head", system)),
        )
    ]  # fmt: skip
    if isinstance(pond, QuickPond):
        answer.append(_enough(pond, found.point.flow, system))
    answer += _money(found, system)
    answer.append(ShowWorking(t("what it delivers"), found.steps, system))
    lines.append(layout.card(answer, strong=True))
    lines += [layout.small(layout.sentence(units.tell(m, system))) for m in found.remarks()]
    return [*lines, cautions.mains()]


def _enough(pond: QuickPond, flow: float, system: str) -> ft.Control:
    """The two questions answered together, where both were asked."""
    wanted = units.show(pond.pump, "flow", system)
    enough = flow >= pond.pump
    words = (
        t("Enough: your pond wants {flow}.", flow=wanted)
        if enough
        else t("Too little: your pond wants {flow}.", flow=wanted)
    )
    mark = ft.Icons.CHECK_CIRCLE if enough else ft.Icons.ARROW_CIRCLE_DOWN
    text = written(words, size=theme.BODY, weight=ft.FontWeight.W_600, expand=True)
    return ft.Row([ft.Icon(mark), text], spacing=theme.GAP)


@ft.component
def SizePage() -> Any:
    """A pond in three numbers, or a pump on the shelf."""
    session = session_now()
    system = session.system
    typed = use_draft(DRAFT, BEGIN)
    values, errors = read_sizes(typed.texts, system)
    ask = typed.text("ask", "pond")

    async def make_pond(_: Any) -> None:
        begun = session.drafts.get(NEW_POND) or Draft(id=NEW_POND)
        texts = {**begun.texts, **as_new_pond(typed.texts, values, system)}
        await session.keep_draft(begun.model_copy(update={"texts": texts}))
        ft.context.page.navigate("/new")

    pond = _wanted(typed.texts, values, errors)
    parts = [
        _pond_part(typed, errors, pond, system),
        _pump_part(typed, values, errors, pond, system),
    ]
    make = layout.second_button(t("Make a pond of it"), make_pond, disabled=not values)
    return layout.screen(
        "/size",
        t("Size up"),
        [
            _choice(t("Your question"), ASKS, ask, typed.note("ask")),
            layout.one_or_all(parts, 0 if ask == "pond" else 1),
            layout.narrow(make),
            layout.quiet_button(t("How this works"), go("/help/size")),
        ],
        wide=True,
    )
