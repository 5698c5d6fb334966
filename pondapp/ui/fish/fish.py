"""The fish of a pond: how many, how long, how fed; and whether filter and oxygen carry them."""

from typing import Any

import flet as ft

from pondapp.models.pond import Pond
from pondapp.ui.fish import fish_form as form
from pondapp.ui.fish import fish_kinds
from pondapp.ui.fish.fish_answer import answer
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.missing import waiting
from pondapp.ui.parts.names import Texts, added, free_name, listed, take_out
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def _group(typed: Typed, item: str, errors: dict[str, str], wants: list[ft.Control]) -> ft.Control:
    kind = f"{item}.name"
    name = typed.text(kind).strip() or t("Fish")
    told = t("{fish} are removed.", fish=name)
    return layout.card(
        [
            layout.pairs(
                [
                    fields.text_field(t("Kind"), typed.text(kind), typed.note(kind)),
                    *(
                        form.FORM.draw(typed, f"{item}.{one.key}", errors)
                        for one in form.GROUP.fields
                    ),
                ]
            ),
            *wants,
            layout.aside(
                t("Remove {fish}", fish=name), lambda _: take_out(typed, form.GROUPS, item, told)
            ),
        ]
    )  # fmt: skip


def _entries(pond: Pond, typed: Typed, errors: dict[str, str], system: str) -> list[ft.Control]:
    texts = typed.texts
    names = listed(texts, form.GROUPS)
    kinds = fish_kinds.told(pond, typed, system)
    lines = [_group(typed, item, errors, wants) for item, wants in zip(names, kinds, strict=True)]
    if len(names) < form.MOST_GROUPS:
        grow = added(texts, form.GROUPS, free_name(texts, "g"))
        words = t("Add other fish") if names else t("Add fish")
        lines.append(fish_kinds.list_of_kinds(typed, system))
        lines.append(layout.second_button(words, lambda _: typed.put(grow)))
    if names:
        lines.append(
            layout.small(t("Length now, from nose to the tip of the tail. Leave “Grown” empty "
                           "where they are to stay as they are."))
        )  # fmt: skip
    lines += [
        layout.heading(t("Water and feed")),
        layout.pairs(
            [
                form.FORM.draw(typed, "temperature", errors),
                form.FORM.draw(
                    typed, "warmest.temperature", errors,
                    helper=t("If empty: {heat}", heat=form.usual_warmest(pond, system)),
                ),
                form.FORM.draw(typed, "altitude", errors),
            ]
        ),
        layout.small(t("The warmest week of the year is the hardest test: fish use most, and the "
                       "water holds least oxygen.")),
        layout.choice(
            t("How are they fed"), [(value, t(name)) for value, name in form.FED],
            texts.get("fed", "chart"), typed.note("fed"),
        ),
    ]  # fmt: skip
    if texts.get("fed") == "weighed":
        lines.append(form.FORM.draw(typed, "feed", errors))
    return lines


def _answers(typed: Typed, read: form.FishRead, system: str) -> list[ft.Control]:
    """The answer for now or for later, or what is still missing for it."""
    pond = read.pond
    if pond is None:
        return waiting(read.missing, wrong=bool(read.errors))
    if not pond.fish:
        words = t("No fish are entered yet. Where none live, any filter and any oxygen will do.")
        return [layout.card([layout.body(words)])]
    grows = any(group.grown_length_m for group in pond.fish)
    when = typed.text("when", "now") if grows else "now"
    lines: list[ft.Control] = []
    if grows:
        lines.append(
            layout.choice(
                t("Count the fish"), [(value, t(name)) for value, name in form.WHEN],
                when, typed.note("when"),
            )
        )  # fmt: skip
    lines += answer(pond, grown=when == "grown", system=system)
    lines += [
        layout.second_button(t("Filters and falls of this pond"), go(f"/pond/{pond.id}/things")),
        layout.second_button(t("New fish, or a new filter"), go(f"/pond/{pond.id}/log/due")),
    ]
    return lines


def _screen(pond: Pond, typed: Typed, begin: Texts, system: str) -> ft.Control:
    read = form.read_fish(typed.texts, pond, system)

    async def keep(_: Any) -> None:
        if read.pond is None:
            return
        await save_change(read.pond, t("The fish of {pond} are saved.", pond=pond.name))
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}")

    return layout.screen(
        f"/pond/{pond.id}/fish",
        t("Fish of {pond}", pond=pond.name),
        [
            layout.halves(
                _entries(pond, typed, read.errors, system),
                [
                    *_answers(typed, read, system),
                    *saved_by(
                        layout.main_button(t("Save"), keep, disabled=read.pond is None),
                        typed,
                        begin,
                    ),
                ],
            )
        ],
        wide=True,
    )


@ft.component
def FishPage() -> Any:
    """Every keystroke is kept as a draft; the answer follows while typing."""
    session = session_now()
    pond_id = ft.use_route_params().get("pond_id", "")
    pond = session.ponds.get(pond_id)
    begin = form.fish_texts(pond, session.system) | seen(*form.asked_of(pond)) if pond else {}
    typed = use_draft(draft_name("fish", pond_id), begin, form.FORM)
    return layout.no_pond() if pond is None else _screen(pond, typed, begin, session.system)
