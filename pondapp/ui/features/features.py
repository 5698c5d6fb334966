"""Filters, lips, jets and skimmers: add, change and remove them, each with its band."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.features.kinds import KINDS
from pondapp.answers.features.targets import targets
from pondapp.answers.plumbing.path import (
    Branch,
    assumed_length,
    assumed_lift,
    branch_of,
    feature_of,
    lines_of,
    names_of,
)
from pondapp.answers.plumbing.path_edits import (
    put_feature,
    remove_feature,
    with_branch,
)
from pondapp.answers.plumbing.typed_hose import TypedHose, with_hose
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import WaterFeature
from pondapp.models.limits import MOST_FEATURES
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.features.at_place import rule_card
from pondapp.ui.features.feature_form import (
    BAND_AND_HOSE,
    OWN_BAND,
    USUAL,
    form_of,
    hose_texts,
    missing_of,
    read_feature,
    read_hose,
    texts_of,
)
from pondapp.ui.features.looks import LOOKS
from pondapp.ui.features.told import told_card
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import target_card, three_flows
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.missing import findable, waiting
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.plumbing.hose_fields import HOSE
from pondapp.ui.plumbing.run_answer import run_text
from pondapp.ui.plumbing.what_is_new import only_entry, what_is_new
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

NEW = "new-"
TRIED = "tried"  # the id of what is typed and not kept yet; an address's "new-" is no id
AIM_CHOICES = ((USUAL, "As usual"), ("least", "Its least flow"), ("good", "Its good flow"))
WHOSE = (("rule", "By the rule"), ("own", "My own"))


@ft.component
def FeaturesPage() -> Any:
    """Everything that water passes on its way, and more of it in one touch."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    here = f"/pond/{pond.id}/things"
    controls: list[ft.Control] = []
    if not pond.fed:
        controls.append(
            layout.body(
                t(
                    "Nothing yet. The water goes straight back to the pond "
                    "until you add a filter or a fall."
                )
            )
        )
    try:
        names = names_of(pond).features
        for target in worked_now(pond).targets.places[:-1]:
            rows: list[ft.Control] = [
                layout.titled(LOOKS[target.kind].icon, names[target.place_id]),
                layout.body(layout.sentence(three_flows(target.band, session.system))),
                layout.small(units.tell(target.rule, session.system)),
            ]
            opens = go(f"{here}/{target.place_id}")
            controls.append(layout.tile([layout.card_button(rows, opens)]))
    except PondError as problem:
        controls.append(layout.caution(units.explain(problem, session.system)))
    controls.append(layout.heading(t("Add")))
    if len(pond.fed) < MOST_FEATURES:
        controls += [
            layout.tile(
                [
                    layout.card_button(
                        [
                            layout.titled(look.icon, t(KINDS[kind].title)),
                            layout.small(t(look.line)),
                        ],
                        go(f"{here}/{NEW}{kind}"),
                    )
                ]
            )
            for kind, look in LOOKS.items()
        ]
    else:
        controls.append(layout.body(t("{most} are as many as fit.", most=MOST_FEATURES)))
    return layout.screen(here, t("Filters, lips, jets"), controls)


def _hose_fields(
    pond: Pond, made: WaterFeature | None, branch: Branch | None, typed: Typed,
    errors: dict[str, str], system: str,
) -> list[ft.Control]:  # fmt: skip
    """Lift and hose of what is entered, what counts while they are empty, and its hose's form."""
    lift, length, bore = (BAND_AND_HOSE.draw(typed, one.key, errors) for one in HOSE)
    told = [t("Lift is the height of the outlet above the pond's water.")]
    if not typed.text("lift").strip():
        feeds = (made.id,) if made else ()
        fed = pond if made is None else put_feature(pond, made, new_id)
        other = branch or Branch(id=TRIED, name=TRIED, feeds=feeds)
        height, _ = assumed_lift(fed, other.model_copy(update={"lift_m": None}))
        told.append(t("Lift empty: assuming {lift}.", lift=units.show(height, "head", system)))
    controls: list[ft.Control] = [lift]
    line = next((line for line in lines_of(pond) if branch and branch in line.branches), None)
    if branch and branch.pipe and line:
        run = run_text(branch.pipe, system)
        route = f"/pond/{pond.id}/plumbing/{line.id}/{branch.id}"
        return [
            *controls,
            layout.small(" ".join(told)),
            layout.links([(t("Its hose: {hose}", hose=run), go(route))]),
        ]
    if not typed.text("hose_length").strip():
        metres = units.show(assumed_length(pond), "length", system)
        told.append(t("Length empty: assuming {length} of hose.", length=metres))
    return [*controls, layout.pairs([length, bore]), layout.small(" ".join(told))]


def _changed(pond: Pond, made: WaterFeature, branch: Branch | None, hose: TypedHose) -> Pond:
    """The pond with a feature and its hose as typed."""
    changed = with_hose(put_feature(pond, made, new_id), hose, made.id)
    if branch and branch.lift_m is not None and hose.lift is None:
        changed = with_branch(changed, branch.id, lift_m=None)
    return changed


def _wanted(
    pond: Pond, made: WaterFeature | None, branch: Branch | None, hose: TypedHose, system: str
) -> list[ft.Control]:
    """The band of the feature as it is typed, while it can be told."""
    if made is None:
        return []
    try:
        tried = _changed(pond, made, branch, hose)
        target = targets(tried).place(made.id)
    except PondError as problem:
        return [layout.caution(units.explain(problem, system))]
    wanted = [target_card(target, system)] if target else []
    return [*wanted, *told_card(tried, made, system)]


@ft.component
def FeaturePage() -> Any:
    """One feature: its size, and whose band holds."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, feature_id = session.ponds.get(params.get("pond_id", "")), params.get("thing_id", "")
    feature = feature_of(pond, feature_id) if pond else None
    branch = branch_of(pond, feature_id) if pond and feature else None
    begin: dict[str, str] = {"whose": "rule"}
    if feature:
        begin = texts_of(feature, system) | hose_texts(branch, system)
        begin |= seen(feature, branch and branch.lift_m)
    new = feature_id.removeprefix(NEW) if feature_id.startswith(NEW) else ""
    kind = feature.kind if feature else new
    form = form_of(kind) if kind in KINDS else BAND_AND_HOSE
    typed = use_draft(draft_name("thing", params.get("pond_id", ""), feature_id), begin, form)
    if pond is None:
        return layout.no_pond()
    here = f"/pond/{pond.id}/things"
    if kind not in KINDS:
        gone = [layout.body(t("This is not among the pond's things any more."))]
        return layout.screen(f"{here}/{feature_id}", t("Not there"), gone)
    made, errors = read_feature(typed.texts, kind, feature.id if feature else TRIED, system)
    hose, wrong = read_hose(typed.texts, branch, system)
    errors |= wrong
    made = None if wrong else made
    whose = typed.text("whose", "rule")

    async def keep(_: Any) -> None:
        if made is None:
            return
        kept = made if feature else made.model_copy(update={"id": new_id()})
        what = t("{thing} is saved.", thing=made.name)
        tried = _changed(pond, kept, branch, hose)
        await save_change(tried, what, corrected=only_entry(typed))
        await typed.drop()
        ft.context.page.navigate(here)

    async def remove(_: Any) -> None:
        if feature is None:
            return
        await typed.drop()
        ft.context.page.navigate(here)
        what = t("{thing} is removed.", thing=feature.name)
        await save_change(remove_feature(pond, feature.id, new_id), what)

    look = LOOKS[kind]
    own = OWN_BAND if whose == "own" else ()
    title_of_kind = t(KINDS[kind].title)
    controls: list[ft.Control] = [
        fields.text_field(t("Name (optional)"), typed.text("name"), typed.note("name"),
                          error=errors.get("name"), helper=t("Empty: {title}",
                          title=title_of_kind)),
        *[findable(t(one.label), layout.choice(t(one.label), layout.worded(one.options),
                   typed.text(one.key), typed.note(one.key))) for one in look.choices],
        *[form.draw(typed, one.key, errors) for one in look.asked(typed.texts)],
        layout.choice(t("Wanted flow"), [(key, t(text)) for key, text in WHOSE], whose,
                      typed.note("whose")),
        *[form.draw(typed, one.key, errors) for one in own],
        layout.choice(t("The plan gives it"), layout.worded(AIM_CHOICES),
                      typed.text("aim", USUAL), typed.note("aim")),
        layout.heading(t("Lift and hose")),
        *_hose_fields(pond, made, branch, typed, errors, system),
    ]  # fmt: skip
    button = layout.main_button(t("Save"), keep, disabled=made is None)
    answer = _wanted(pond, made, branch, hose, system)
    if made is None:
        answer += waiting(missing_of(typed.texts, kind, system), wrong=bool(errors))
    if made and branch:
        tried = _changed(pond, made, branch, hose)
        line = next(line for line in lines_of(pond) if branch in line.branches)
        answer += what_is_new(pond, line, tried, typed)
    answer += saved_by(button, typed, begin) if feature else [button]
    if whose == "rule" and KINDS[kind].rules:
        answer.append(rule_card(pond, kind, system))
    if feature:
        answer.append(layout.quiet_button(t("Remove {thing}", thing=feature.name), remove))
    title = feature.name if feature else t("Add: {what}", what=title_of_kind)
    return layout.screen(f"{here}/{feature_id}", title, controls, second=answer)
