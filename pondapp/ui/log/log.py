"""The log of a pond: everything in time order, newest first, to be searched and added to."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.due import due
from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.care.reminders import reminders
from pondapp.answers.log.log import FLOW, KINDS, LogItem, by_month, searched
from pondapp.answers.log.log_names import TITLES
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.keeping.calculators import calculators
from pondapp.ui.log.log_words import day_of, headline, mark, month_of, off, shortened
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.layout import Click
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

PAGE = 12  # items drawn at first: more than a phone shows at once
MORE = 30  # and with each touch on "Show older"
ALL = "all"


def item_row(
    item: LogItem, pond: Pond | None, system: str, choose: Click | None, *, chosen: bool
) -> ft.Control:
    """An item, which opens on a touch: beside the list, or on a screen of its own."""
    trouble = off(item, pond)
    below = [
        day_of(item),
        trouble,
        "" if item_is_note(item) else shortened(item.note),
        t("corrected") if item.earlier else "",
    ]
    words = ft.Column(
        [
            written(headline(item, system), size=theme.BODY, color=ft.Colors.ON_SURFACE),
            layout.small(". ".join(part for part in below if part)),
        ],
        spacing=2,
        expand=True,
    )
    icon = ft.Icons.ERROR_OUTLINE if trouble else mark(item)
    row = ft.Row(
        [ft.Icon(icon, size=theme.drawn(theme.TITLE), color=ft.Colors.PRIMARY), words],
        spacing=theme.GAP,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )
    here = f"/pond/{pond.id}/log" if pond else "/log"
    opens = layout.card_button([row], choose or go(f"{here}/{item.id}"))
    if not chosen:
        return opens
    marked = ft.Container(opens, bgcolor=ft.Colors.PRIMARY_CONTAINER, border_radius=theme.RADIUS)
    return ft.Semantics(selected=True, content=marked)


def detail(item: LogItem, pond: Pond | None) -> list[ft.Control]:
    """The chosen item beside the list, with all that its own screen has."""
    from pondapp.ui.log.entry import EntryForm, ReadingForm  # of no use where there is no room

    keyed: Any = ReadingForm if isinstance(item, Reading) else EntryForm
    if isinstance(item, Reading):
        return [layout.heading(t(TITLES[FLOW])), keyed(item, key=item.id)]
    kind = item.what.kind
    return [layout.heading(t(TITLES[kind])), keyed(pond, kind, item, key=item.id)]


def item_is_note(item: LogItem) -> bool:
    """Whether the headline is the note already."""
    return isinstance(item, Entry) and item.what.kind == "note"


def due_card(pond: Pond, log: list[LogItem], system: str) -> ft.Control:
    """What is due, quietly, and where to say how often."""
    now = datetime.now(UTC)
    told = [(one.sentence, one.is_due) for one in due(pond, log, now)]
    lamp = lamp_change(pond, now)
    if lamp is not None and lamp.is_due:
        told.append((lamp.sentence, True))
    told += [(one.sentence, True) for one in reminders(pond, log, now) if one.is_due]
    rows: list[ft.Control] = [
        ft.Row(
            [
                ft.Icon(
                    ft.Icons.SCHEDULE if is_due else ft.Icons.CHECK,
                    size=theme.drawn(theme.BODY),
                    color=ft.Colors.ON_SURFACE_VARIANT,
                ),
                written(units.tell(sentence, system), size=theme.SMALL, expand=True,
                        weight=ft.FontWeight.W_600 if is_due else None),
            ],
            spacing=8,
        )
        for sentence, is_due in told
    ]  # fmt: skip
    change = layout.aside(t("Reminders and calendar"), go(f"/pond/{pond.id}/log/due"))
    rows.append(change)
    return layout.card(rows)


@ft.component
def LogPage() -> Any:
    """What was measured and done at a pond, or measured without one."""
    session = session_now()
    system = session.system
    asked = ft.use_route_params().get("pond_id", NO_POND)
    pond = session.ponds.get(asked)
    text, set_text = ft.use_state("")
    kind, set_kind = ft.use_state(ALL)
    shown, set_shown = ft.use_state(PAGE)
    chosen, set_chosen = ft.use_state("")
    if pond is None and asked != NO_POND:
        return layout.no_pond()
    here = f"/pond/{pond.id}/log" if pond else "/log"
    log = session.logs.items_of(asked)
    if pond:
        title = t("Log of {pond}", pond=pond.name)
        add = layout.main_button(t("Add to the log"), go(f"{here}/new"))
    else:
        title = t("Measured without a pond")
        add = layout.main_button(t("Measure a flow"), go(f"/measure/{NO_POND}/{OUTLET}"))
    if not session.logs.is_read(asked):
        return layout.screen(here, title, [add, layout.body(t("Reading the log."))])
    found = searched(log, text, None if kind == ALL else kind)
    controls: list[ft.Control] = [add]
    if pond:
        controls.append(due_card(pond, log, system))
    if log and pond:
        controls.append(layout.second_button(t("Charts and trends"), go(f"{here}/charts")))
        told = go(f"/pond/{pond.id}/learned")
        controls.append(layout.second_button(t("What the readings tell"), told))
    if pond:
        controls.append(fold("calculators", t("Care and calculators"), lambda: [calculators(pond)]))
    if log:
        controls.append(fields.text_field(t("Search the log"), text, set_text))
        if pond:
            controls.append(kind_filter(kind, set_kind))
    else:
        controls.append(layout.body(t("No readings yet.")))
    beside = layout.two_columns()
    picked = next((one for one in log if one.id == chosen), next(iter(found), None))

    def choose(item: LogItem) -> Click | None:
        return (lambda _: set_chosen(item.id)) if beside else None

    for _, part in by_month(found[:shown]):
        controls.append(layout.heading(month_of(part[0])))
        rows = [
            item_row(item, pond, system, choose(item), chosen=beside and item is picked)
            for item in part
        ]
        controls.append(layout.tile(rows))
    if log and not found:
        controls.append(layout.body(t("Nothing in the log fits that.")))
    if len(found) > shown:
        rest = len(found) - shown
        controls.append(
            layout.second_button(
                t("Show older ({count} more)", count=rest), lambda _: set_shown(shown + MORE)
            )
        )
    controls += other_logs(pond)
    controls.append(layout.quiet_button(t("How this works"), go("/help/log")))
    second = detail(picked, pond) if beside and picked else []
    return layout.screen(here, title, controls, second=second)


def other_logs(pond: Pond | None) -> list[ft.Control]:
    """The way from a pond's log to what was measured without one, and from there to the ponds'."""
    session = session_now()
    if pond is None:
        ponds = sorted(session.ponds.values(), key=lambda one: one.name.lower())
        links = [(t("Log of {pond}", pond=one.name), go(f"/pond/{one.id}/log")) for one in ponds]
        return [layout.links(links)] if links else []
    if not session.logs.items_of(NO_POND):
        return []
    return [layout.links([(t("Measured without a pond"), go("/log"))])]


def kind_filter(kind: str, choose: Any) -> Any:
    """Which kinds are shown."""
    options = [(ALL, t("Everything")), *[(one, t(TITLES[one])) for one in KINDS]]
    chosen = next(text for value, text in options if value == kind)
    return fold(
        "kinds",
        t("Show: {what}", what=chosen),
        lambda: [layout.choice(t("Show"), options, kind, choose, in_rows=True)],
    )
