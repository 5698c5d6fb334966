"""Whether filter, oxygen and fish go together, in words and ranges."""

from datetime import UTC, datetime

import flet as ft

from pondapp import units
from pondapp.answers.fish.feeding_now import feeding_now
from pondapp.answers.fish.stock import (
    GOOD,
    Fit,
    Lever,
    Message,
    Span,
    Stock,
    StockInYear,
    stock,
    toxic_shares,
)
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t, within

MARKS: dict[Fit, ft.IconData] = {
    "enough": ft.Icons.CHECK_CIRCLE,
    "likely enough": ft.Icons.CHECK_CIRCLE_OUTLINE,
    "unknown": ft.Icons.HELP_OUTLINE,
    "likely too little": ft.Icons.ERROR_OUTLINE,
    "too little": ft.Icons.ERROR,
}
FITS: dict[Fit, str] = {
    "enough": "Enough",
    "likely enough": "Likely enough",
    "unknown": "Not known yet",
    "likely too little": "Likely too little",
    "too little": "Too little",
}
SIDES = {"filter": "the filter", "oxygen": "the oxygen"}


def span_text(span: Span, system: str) -> str:
    """A range of masses."""
    return units.show_range(span.low, span.high, "mass", system)


def little_text(span: Span, system: str) -> str:
    """A range of what fish and filter turn over in a day: in grams for everybody, side by side."""
    return units.show_range(span.low, span.high, "grams", system)


def _side(title: str, fit: Fit, asked: str, given: str, *, earned: bool) -> ft.Control:
    """One of the two balances: what is asked for, what there is, and whether it will do.

    What rests on something assumed or planned is likely at best.
    """
    fit = fit if earned or fit not in GOOD else GOOD[1]
    return layout.card(
        [
            layout.marked(MARKS[fit], t("{what}: {fit}", what=title, fit=within(t(FITS[fit])))),
            layout.body(asked),
            layout.body(given),
        ]
    )


def lever_text(lever: Lever, system: str) -> str:
    """A change that would help, with its number, and what it settles."""
    settles = t(" and ").join(t(SIDES[side]) for side in lever.settles)
    told = layout.sentence(units.tell(lever.message, system))
    return t("{change} That solves {sides}.", change=told, sides=settles)


def _levers(found: Stock, system: str) -> list[ft.Control]:
    if not found.balance.levers:
        return []
    lines = [layout.body(lever_text(lever, system)) for lever in found.balance.levers]
    return [
        layout.card(
            [
                layout.heading(t("How to make it work")),
                layout.small(t("Each alone, on the likely values. Go a step at a time.")),
                *lines,
            ]
        )
    ]


def _told(messages: tuple[Message, ...], system: str) -> list[ft.Control]:
    return [layout.small(layout.sentence(units.tell(line, system))) for line in messages]


def _verdict(found: StockInYear, system: str) -> ft.Control:
    """The plain answer, and at once what it does not know: with that it may turn."""
    shown = found.worse
    lines: list[ft.Control] = [layout.body(_when(found, system))]
    other = found.usual if shown is found.warmest else found.warmest
    if other.temperature != shown.temperature:
        heat = units.show(other.temperature, "temperature", system)
        said = units.tell(other.verdict, system)
        lines.append(layout.body(t("At {heat}: {verdict}", heat=heat, verdict=said)))
    fish, feed = span_text(shown.fish, system), span_text(shown.feed, system)
    lines.append(layout.small(t("All fish: {mass}. Feed: {feed} a day.", mass=fish, feed=feed)))
    if shown.left_out:
        lines.append(layout.body(t("Not counted, because not known or not always running:")))
        lines += _told(shown.left_out, system)
    told = severity.card(found.severity, units.tell(shown.verdict, system), lines)
    return ft.Semantics(live_region=True, content=told)


def _when(found: StockInYear, system: str) -> str:
    """At which temperature the answer holds, and whether that was entered."""
    shown = found.worse
    heat = units.show(shown.temperature, "temperature", system)
    if shown is found.usual:
        return t("In the water as it is now, {heat}.", heat=heat)
    if found.assumed:
        return t("In the warmest week: {heat} is assumed, enter yours.", heat=heat)
    return t("In the warmest week, {heat}.", heat=heat)


def toxic_caution(pond: Pond, system: str) -> ft.Control:
    """How much of the ammonia in a test is poison, in this water."""
    shares = ", ".join(
        t("{share} at pH {ph}", share=units.show(share, "share", system, 2),
          ph=units.significant(ph))
        for ph, share in toxic_shares(pond)
    )  # fmt: skip
    return layout.caution(
        t(
            "a part of the ammonia in a test is poison to fish, the more the warmer the water and "
            "the higher its pH. In your water: {shares}. Test every few days while a filter is "
            "new, and stop feeding when ammonia shows.",
            shares=shares,
        )
    )


def answer(pond: Pond, *, grown: bool, system: str) -> list[ft.Control]:
    """The plain answer, then both balances, levers and what was counted."""
    try:
        worked, log = worked_now(pond), session_now().logs.items_of(pond.id)
        flows = standing_flows(worked, log, datetime.now(UTC))
        found = stock(worked, grown=grown, flows=flows)
        feed = feeding_now(worked, log, datetime.now(UTC))
    except PondError as problem:
        return [layout.caution(units.explain(problem, system))]
    shown = found.worse
    balance, earned = shown.balance, found.severity == "right"
    heat = units.show(feed.temperature, "temperature", system)
    counted: list[ft.Control] = []
    if shown.counted:
        counted = [layout.heading(t("Counted")), *_told(shown.counted, system)]
    if shown.through_filters:
        counted += _told((shown.through_filters,), system)
    return [
        _verdict(found, system),
        _side(
            t("Filter"),
            balance.filter_fit,
            t("The fish give off {mass} of ammonia nitrogen a day.",
              mass=little_text(shown.ammonia, system)),
            t("The filters take out {mass} a day.", mass=little_text(shown.capacity, system)),
            earned=earned,
        ),
        _side(
            t("Oxygen at night"),
            balance.oxygen_fit,
            t("Fish and filter use {mass} an hour.", mass=little_text(shown.oxygen_use, system)),
            t("Falls and open water bring {mass} an hour.",
              mass=little_text(shown.oxygen_supply, system)),
            earned=earned,
        ),
        *_levers(shown, system),
        layout.card(
            [
                layout.heading(t("Feeding in the water as it is now")),
                layout.small(heat),
                *(layout.body(layout.sentence(units.tell(one, system))) for one in feed.advice),
                layout.small(t("Common practice, no source.")),
            ]
        ),
        *[
            layout.caution(units.tell(message, system)) for message in balance.warnings
        ],
        layout.card([*counted, ShowWorking(t("fish and filter"), shown.steps, system)]),
        toxic_caution(pond, system),
    ]  # fmt: skip
