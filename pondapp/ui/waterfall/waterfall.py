"""Check a waterfall: its flow against its width, and how it comes by what it wants."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.methods import Assumptions, rules_for
from pondapp.answers.waterfall.lip_setting import (
    LipOfPond,
    LipSetting,
    band_of_lip,
    band_of_water,
    lip_setting,
    lips_of,
)
from pondapp.answers.waterfall.water_sheet import FlowBand, Sheet, sheet_of
from pondapp.answers.waterfall.waterfall import lip_band, lip_steps
from pondapp.core.base.errors import PondError
from pondapp.ui.measuring.readings import when
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import MARKS, spread_text, three_flows
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import in_hand
from pondapp.ui.waterfall.waterfall_link import (
    FORM,
    OTHER,
    WATERFALL,
    flow_texts,
    lip_key,
    spread_in,
)
from pondapp.words import t


def _band(own: FlowBand, whole: FlowBand, typed: bool, system: str) -> ft.Control:
    """What is wanted of the water over a lip, and where that is from."""
    remark = t("Your own range.") if typed else t("By the usual flow per width of lip.")
    if (whole.low, whole.high) != (own.low, own.high):
        remark = t(
            "By all that its water passes. The lip alone: {flows}.", flows=three_flows(own, system)
        )
    return layout.fact(t("This lip needs"), layout.sentence(three_flows(whole, system)), remark)


def _wants(
    band: FlowBand, whole: FlowBand, width: float, rules: Assumptions, own: bool
) -> list[ft.Control]:
    """What a lip wants while no flow over it is known."""
    system = session_now().system
    fact = _band(band, whole, own, system)
    steps = ShowWorking(t("this lip"), lambda: lip_steps(width, rules.waterfalls), system)
    return [layout.card([fact] if own else [fact, steps], strong=True)]


def _sheet(sheet: Sheet, own: bool, past: str, system: str) -> list[ft.Control]:
    """The verdict, how thick the sheet is, and how wide a lip this flow feeds.

    Of a flow that does not tell how it is now, only why that is so.
    """

    def width(value: float) -> str:
        return units.show(value, "width", system)

    thick = units.show(sheet.thickness, "small", system, 2)
    if sheet.behind:
        head = units.show(sheet.behind.head, "small", system, 2)
        behind = t("Behind the lip the water stands {head} over its edge.", head=head)
    else:
        behind = t("A film: it clings to the stone and is no sheet.")
    told: list[ft.Control] = [
        *(
            [layout.marked(ft.Icons.HELP_OUTLINE, past)]
            if past
            else [
                layout.marked(MARKS[sheet.kind], units.tell(sheet.verdict, system)),
                *([layout.body(units.tell(sheet.alone, system))] if sheet.alone else ()),
            ]
        ),
        layout.fact(t("Thickness at the edge"), thick, behind),
        layout.fact(
            t("This flow is a full sheet on a lip of"),
            width(sheet.best_width),
            t(
                "It closes on up to {widest}; on less than {narrowest} it splashes.",
                widest=width(sheet.widest),
                narrowest=width(sheet.narrowest),
            ),
        ),
        _band(sheet.own, sheet.band, own, system),
    ]
    region = ft.Semantics(live_region=True, content=ft.Column(told, spacing=8))
    lines: list[ft.Control] = [region, ShowWorking(t("this sheet"), sheet.steps, system)]
    return [layout.card(lines, strong=True)]


def _feeds(flow: float, rules: Assumptions, system: str) -> list[ft.Control]:
    """How wide a lip a flow feeds, while no width is known."""
    fed = sheet_of(1.0, flow, rules)
    widest = units.show(fed.widest, "width", system)
    return [
        layout.card(
            [
                layout.fact(
                    t("This flow is a full sheet on a lip of"),
                    units.show(fed.best_width, "width", system),
                    t("It closes on up to {widest}.", widest=widest),
                )
            ],
            strong=True,
        )
    ]


def _setting(chosen: LipOfPond, setting: LipSetting | PondError, system: str) -> ft.Control:
    """What pump and valve give the lip its full sheet."""
    if isinstance(setting, PondError):
        told: Sequence[ft.Control] = [layout.body(units.explain(setting, system))]
        return layout.card([layout.heading(t("Pump and valve")), *told])
    flow = units.show(setting.flow, "flow", system)
    said = (*([setting.why] if setting.why else ()), *setting.advice)
    told = [layout.body(layout.sentence(units.tell(line, system))) for line in said]
    title = t("To bring {flow} over {lip}", flow=flow, lip=chosen.lip.name)
    return layout.card([layout.heading(title), *told])


def _chooser(lips: Mapping[str, LipOfPond], which: str, typed: Typed) -> ft.Control:
    """The lips of the ponds, and any other."""
    options = [(key, f"{one.lip.name}, {one.pond.name}") for key, one in lips.items()]
    return layout.choice(
        t("Which lip"), [*options, (OTHER, t("Another lip"))], which,
        lambda key: typed.put({"which": key}),
    )  # fmt: skip


def _begin(chosen: LipOfPond | None, system: str) -> Mapping[str, str]:
    """What the fields begin with: the lip as it is drawn, and the newest flow over it."""
    if chosen is None:
        return {}
    width = FORM.write({"lip": chosen.lip.width_m}, system)
    return {**width, **(flow_texts(chosen.measured, system) if chosen.measured else {})}


@ft.component
def WaterfallPage() -> Any:
    """A lip and a flow in; sheet, widths, and what is missing out."""
    session = session_now()
    system = session.system
    typed = use_draft(WATERFALL, {}, FORM)
    now = datetime.now(UTC)
    lips = {
        lip_key(pond.id, one.lip.id): one
        for pond in sorted(session.ponds.values(), key=lambda pond: pond.name.lower())
        for one in lips_of(worked_now(pond), session.logs.items_of(pond.id), now)
    }
    first = next((key for key, one in lips.items() if one.measured), next(iter(lips), OTHER))
    which = typed.text("which", first)
    chosen = lips.get(which)
    rules = rules_for(chosen.pond if chosen else None)
    texts = {**_begin(chosen, system), **typed.texts}
    read = FORM.read(texts, system)
    width, flow = read.values.get("lip"), read.values.get("flow")

    def type_flow(text: str) -> None:
        # A typed flow has no interval.
        typed.put({**typed.texts, "which": which, "flow": text, "spread": ""})

    def setting() -> LipSetting | PondError | None:
        if chosen is None:
            return None
        try:
            return lip_setting(worked_now(chosen.pond), chosen.lip, in_hand(chosen.pond))
        except PondError as problem:
            return problem

    # The plan behind it takes longer than a keystroke may.
    given = ft.use_memo(setting, [chosen.pond if chosen else None, which])
    spread = spread_in(texts)
    remark = t("Leave empty to see what the lip needs")
    if chosen and chosen.measured and chosen.measured.dry and "flow" not in texts:
        remark = t("No water came at the last reading")
    if spread:
        coverage = rules.measuring.coverage
        span = spread_text(*spread.interval(coverage), coverage, system)
        remark = t("Measured: {span}", span=span)
    # Only of the newest reading is it told when that was; a flow in the draft was timed just now.
    newest = chosen.newest if chosen and "flow" not in typed.texts else None
    past = ""
    if chosen and newest:
        taken = when(newest.reading)
        remark = f"{remark}, {taken}"
        past = layout.sentence(f"{t(chosen.past)}, {taken}") if chosen.past else ""
        if chosen.why:
            past = units.tell(chosen.why, system)
    controls: list[ft.Control] = [
        FORM.draw(typed, "lip", read.errors, begin=texts.get("lip", "")),
        FORM["flow"].draw(
            texts.get("flow", ""), type_flow, system,
            error=read.errors.get("flow"), helper=remark,
        ),
    ]  # fmt: skip
    answer: list[ft.Control] = []
    own = chosen is not None and chosen.lip.band is not None
    try:
        if width is not None:
            band = lip_band(width, rules.waterfalls)
            if chosen and own:
                band = band_of_lip(chosen.pond, chosen.lip)
            whole = band_of_water(worked_now(chosen.pond), chosen.lip, band) if chosen else band
            if flow is not None:
                answer += _sheet(
                    sheet_of(width, flow, rules, spread, band, whole), own, past, system
                )
            elif "flow" not in read.errors:
                answer += _wants(band, whole, width, rules, own)
        elif flow is not None and "lip" not in read.errors:
            answer += _feeds(flow, rules, system)
    except PondError as problem:
        answer.append(layout.caution(units.explain(problem, system)))
    if chosen and given:
        answer.append(_setting(chosen, given, system))
    place = f"{chosen.pond.id}/{chosen.lip.id}" if chosen else "none/outlet"
    answer.append(layout.main_button(t("Measure the flow"), go(f"/measure/{place}")))
    answer.append(layout.quiet_button(t("How this works"), go("/help/waterfall")))
    if lips:
        name = f"{chosen.lip.name}, {chosen.pond.name}" if chosen else t("Another lip")
        controls.insert(0, fold(f"lip-{which}", name, lambda: [_chooser(lips, which, typed)]))
    return layout.screen("/waterfall", t("Check a waterfall"), controls, second=answer)
