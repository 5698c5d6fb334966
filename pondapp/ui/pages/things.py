"""Filters, lips, jets and skimmers: add, change and remove them, each with its band."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.circuit import Fed
from pondapp.models.pond import Pond
from pondapp.sizing.path import thing_of
from pondapp.sizing.path_edits import MOST_THINGS, keep_thing, remove_thing
from pondapp.sizing.plan import names_of
from pondapp.sizing.targets import targets
from pondapp.ui.current import session_now, use_pond
from pondapp.ui.pages.at_place import rule_card
from pondapp.ui.pages.thing_form import Asked, asked_about, read_thing, texts_of
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.again import saved_by
from pondapp.ui.parts.answers import band_text, target_card
from pondapp.ui.parts.change import keep_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.kinds import ICONS, TITLES, WHAT
from pondapp.ui.parts.navigate import go
from pondapp.ui.session import new_id
from pondapp.words import t

NEW = "new-"
WHOSE = (("rule", "By the rule"), ("own", "My own"))


@ft.component
def ThingsPage() -> Any:
    """Everything that water passes on its way, and more of it in one touch."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    here = f"/pond/{pond.id}/things"
    controls: list[ft.Control] = []
    if not pond.fed:
        controls.append(layout.body(t("Nothing yet: the pump only stirs the pond.")))
    try:
        names = names_of(pond).things
        for target in targets(pond).places[:-1]:
            rows: list[ft.Control] = [
                layout.titled(ICONS[target.kind], names[target.place_id]),
                layout.body(band_text(target.band, session.system)),
                layout.small(units.tell(target.rule, session.system)),
            ]
            opens = go(f"{here}/{target.place_id}")
            controls.append(layout.tile([layout.card_button(rows, opens)]))
    except PondError as problem:
        controls.append(layout.caution(units.tell(problem.message, session.system)))
    controls.append(layout.heading(t("Add")))
    if len(pond.fed) < MOST_THINGS:
        controls += [
            layout.tile(
                [
                    layout.card_button(
                        [layout.titled(ICONS[kind], t(title)), layout.small(t(WHAT[kind]))],
                        go(f"{here}/{NEW}{kind}"),
                    )
                ]
            )
            for kind, title in TITLES.items()
        ]
    else:
        controls.append(layout.body(t("{most} are as many as fit.", most=MOST_THINGS)))
    return layout.screen(here, t("Filters, lips, jets"), controls)


def _amount(asked: Asked, typed: Typed, errors: dict[str, str], system: str) -> ft.Control:
    return fields.quantity_field(
        t(asked.label), typed.text(asked.key), typed.note(asked.key),
        unit=units.unit_for(asked.kind, system), error=errors.get(asked.key),
        helper=t(asked.helper) if asked.helper else "",
    )  # fmt: skip


def _wanted(pond: Pond, made: Fed | None, system: str) -> list[ft.Control]:
    """The band of the thing as it is typed, while it can be told."""
    if made is None:
        return []
    try:
        target = targets(keep_thing(pond, made, new_id)).place(made.id)
    except PondError as problem:
        return [layout.caution(units.tell(problem.message, system))]
    return [target_card(target, system)] if target else []


@ft.component
def ThingPage() -> Any:
    """One thing: its size, and whose band holds."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, thing_id = session.ponds.get(params.get("pond_id", "")), params.get("thing_id", "")
    thing = thing_of(pond, thing_id) if pond else None
    begin = {**texts_of(thing, system), **seen(thing)} if thing else {"whose": "rule"}
    typed = use_draft(draft_name("thing", params.get("pond_id", ""), thing_id), begin)
    kind = thing.kind if thing else thing_id.removeprefix(NEW)
    if pond is None:
        return layout.no_pond()
    here = f"/pond/{pond.id}/things"
    if kind not in TITLES:
        gone = [layout.body(t("This is not among the pond's things any more."))]
        return layout.screen(f"{here}/{thing_id}", t("Not there"), gone)
    made, errors = read_thing(typed.texts, kind, thing_id, system)
    whose = typed.text("whose", "rule")

    async def keep(_: Any) -> None:
        if made is None:
            return
        kept = made if thing else made.model_copy(update={"id": new_id()})
        what = t("{thing} is saved.", thing=made.name)
        await keep_change(keep_thing(pond, kept, new_id), what)
        await typed.drop()
        ft.context.page.navigate(here)

    async def remove(_: Any) -> None:
        if thing is None:
            return
        await typed.drop()
        ft.context.page.navigate(here)
        what = t("{thing} is removed.", thing=thing.name)
        await keep_change(remove_thing(pond, thing.id, new_id), what)

    asked = asked_about(kind, whose)
    own = [one for one in asked if one.key.startswith("band_")]
    controls: list[ft.Control] = [
        fields.text_field(t("Name"), typed.text("name"), typed.note("name"),
                          error=errors.get("name"), helper=t("Leave empty for {title}",
                          title=t(TITLES[kind]))),
        *[_amount(one, typed, errors, system) for one in asked if one not in own],
        layout.choice(t("Wanted flow"), [(key, t(text)) for key, text in WHOSE], whose,
                      typed.note("whose")),
        *[_amount(one, typed, errors, system) for one in own],
        *_wanted(pond, made, system),
    ]  # fmt: skip
    button = layout.main_button(t("Keep it"), keep, disabled=made is None)
    controls += saved_by(button, typed, begin) if thing else [button]
    if whose == "rule" and kind != "jet":
        controls.append(rule_card(pond, kind, system))
    if thing:
        controls.append(layout.quiet_button(t("Remove {thing}", thing=thing.name), remove))
    title = thing.name if thing else t("Add: {what}", what=t(TITLES[kind]))
    return layout.screen(f"{here}/{thing_id}", title, controls)
