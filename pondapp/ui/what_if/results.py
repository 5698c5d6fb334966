"""Both states side by side: now, what if, and the difference, for each part and for the whole."""

from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.care.due import days_text
from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import PUMP
from pondapp.answers.fish.stock import GOOD, Fit, Stock
from pondapp.answers.picture.badges import RADIUS
from pondapp.answers.picture.picture import Part
from pondapp.answers.picture.states import PlaceState
from pondapp.answers.what_if.judging import DECIDED, band_at
from pondapp.answers.what_if.told import ToxicAmmonia
from pondapp.answers.what_if.trial import HARDLY
from pondapp.answers.what_if.tried_state import CalculatedFlow, TriedState
from pondapp.ui.fish.fish_answer import FITS
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.answers import band_text, state_text
from pondapp.ui.parts.kept import kept
from pondapp.ui.parts.written import written
from pondapp.ui.pond.picture import plate
from pondapp.ui.shell import theme
from pondapp.words import t, within

MINUS = "\u2212"
DIGITS = 2  # a calculated flow is known no better
FINEST = 4  # tells apart what differs by the least that is told
COLUMNS = 12  # of a row, side by side where there is room for a pair


def _cell(name: str, value: str, *, strong: bool = False) -> ft.Control:
    lines: list[ft.Control] = [
        written(name, size=theme.SMALL, color=ft.Colors.ON_SURFACE_VARIANT),
        written(value, size=theme.BODY, weight=ft.FontWeight.W_700 if strong else None),
    ]
    return ft.MergeSemantics(ft.Column(lines, spacing=0, tight=True))


Row = tuple[str, str, str]
"""A number of now, the one that is tried, and what lies between them; empty where nothing does."""


def _numbers(row: Row) -> ft.Control:
    """Two numbers and what lies between them; one alone where both are the same."""
    now, tried, difference = row
    if not difference and t("Not known yet") not in (now, tried):
        return written(t("{amount}, unchanged", amount=tried), size=theme.BODY)
    return _three(row)


def _three(row: Row) -> ft.Control:
    """Two numbers and what lies between them, where both are known."""
    now, tried, difference = row
    cells = [_cell(t("Now"), now), _cell(t("Then"), tried, strong=bool(difference))]
    if t("Not known yet") not in (now, tried):
        cells.append(_cell(t("Difference"), difference or t("none")))
    place: Any = {"xs": COLUMNS, "pair": COLUMNS // len(cells)}  # "not known" is longer
    parts = [ft.Container(cell, col=place) for cell in cells]
    return layout.beside(parts, spacing=4, run_spacing=0)


def signed(more: float, amount: str) -> str:
    """An amount with the sign of a difference."""
    return f"+{amount}" if more > 0.0 else f"{MINUS}{amount}"


def _shown(value: float | None, kind: str, system: str) -> str:
    return t("Not known yet") if value is None else units.show(value, kind, system, DIGITS)


def _row(now: float | None, tried: float | None, kind: str, system: str) -> Row:
    """An amount in both states, and what lies between them.

    Both are told as roughly as they are known, yet so that what differs reads differently, and what
    nobody could tell apart reads the same.
    """
    if now is None or tried is None:
        return _shown(now, kind, system), _shown(tried, kind, system), ""
    more = tried - now
    if abs(more) <= HARDLY * max(abs(now), abs(tried)):
        same = units.show(tried, kind, system, DIGITS)
        return same, same, ""
    digits = DIGITS
    while digits < FINEST and units.show(now, kind, system, digits) == units.show(
        tried, kind, system, digits
    ):
        digits += 1
    before, after = (units.show(one, kind, system, digits) for one in (now, tried))
    if before == after:  # a sum of money has no more digits
        return before, after, ""
    return before, after, signed(more, units.show(abs(more), kind, system, DIGITS))


def _base(key: str, now: TriedState, tried: TriedState, system: str) -> str:
    """That readings tell the flows of a part, and how closely; empty where none do."""
    if not now.read_at(key):
        return ""
    spans = [
        units.show_range(found.low, found.high, "flow", system)
        if found
        else t("not known closely enough")
        for found in (now.flow_at(key), tried.flow_at(key))
    ]
    if spans[0] == spans[1]:
        return t("By all readings ({span})", span=spans[0])
    return t("By all readings (now {now}, then {then})", now=spans[0], then=spans[1])


def _block(
    title: str,
    state: PlaceState | None,
    said: str,
    rows: Sequence[tuple[str, Row]],
    mark: Callable[[], ft.Control],
    marked: tuple[Any, ...],
    system: str,
    before: PlaceState | None = None,
) -> ft.Control:
    """A part with its word, that of now too where it becomes another."""
    word = state_text(state, system) if state else ""
    if state and before and before.word != state.word:
        seen, then = (within(state_text(one, system)) for one in (before, state))
        word = t("Now: {now}. Then: {then}", now=seen, then=then)
    line = ". ".join(one for one in (word, said) if one)
    strong = bool(state and state.severity in ("danger", "wrong"))
    return kept(
        (title, line, strong, *rows, marked),
        lambda: _drawn(title, line, rows, mark(), strong=strong),
    )


def _drawn(
    title: str, line: str, rows: Sequence[tuple[str, Row]], mark: ft.Control, *, strong: bool
) -> ft.Control:
    weight = ft.FontWeight.W_600 if strong else None
    head = ft.Row(
        [
            mark,
            ft.Column(
                [
                    written(title, size=theme.BODY, weight=ft.FontWeight.W_600),
                    *([written(line, size=theme.SMALL, weight=weight)] if line else []),
                ],
                spacing=0, tight=True, expand=True,
            ),
        ],
        spacing=8,
    )  # fmt: skip
    below: list[ft.Control] = []
    for what, row in rows:
        below += [layout.small(what)] if what else []
        below.append(_numbers(row))
    return ft.Container(
        ft.Column(
            [head, *below], spacing=4, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
        ),
        padding=ft.Padding.symmetric(horizontal=theme.GAP, vertical=8),
    )  # fmt: skip


def _flow(found: CalculatedFlow | None) -> float | None:
    return found.flow if found else None


def flow_numbers(key: str, now: TriedState, tried: TriedState, system: str) -> ft.Control:
    """The flow at a part of the picture in both states.

    Always in three places: what stands below must not move under a thumb.
    """
    row = _row(_flow(now.flow_at(key)), _flow(tried.flow_at(key)), "flow", system)
    return kept(row, lambda: _three(row))


def of_part(part: Part, now: TriedState, tried: TriedState, system: str) -> ft.Control:
    """A part of the picture: its flow, of a pump its head, of a lip the sheet of water."""
    flows = [_flow(state.flow_at(part.key)) for state in (now, tried)]
    rows = [(_base(part.key, now, tried, system), _row(flows[0], flows[1], "flow", system))]
    if part.kind == PUMP:
        heads = [state.line(part.key).head for state in (now, tried)]
        said = t("Head at the pump, its valves as they stand")
        rows.append((said, _row(heads[0], heads[1], "head", system)))
    sheets = [state.sheets.get(part.key) for state in (now, tried)]
    if any(sheets):
        thick = [
            sheet.thickness if sheet else flow and 0.0
            for sheet, flow in zip(sheets, flows, strict=True)
        ]
        said = t("Thickness of the sheet at the edge")
        rows.append((said, _row(thick[0], thick[1], "small", system)))
    band = band_at(tried.worked, part.key)
    wanted = t("Wanted {flow}", flow=within(band_text(band, system))) if band else ""
    if part.state.severity == "danger" and flows[1] == 0.0:
        dies = t("A filter that stands still dies within hours, and then poisons the pond")
        wanted = ". ".join(one for one in (wanted, dies) if one)
    found, number = part.state.severity, str(part.number)

    def mark() -> ft.Control:
        radius = theme.drawn(theme.TOUCH) * RADIUS
        size = 2 * radius + 6
        return cv.Canvas(
            plate(found, number, size / 2, size / 2, radius), width=size, height=size
        )  # fmt: skip

    before = now.places.get(part.key)
    return _block(part.name, part.state, wanted, rows, mark, (found, number), system, before)


def _mark(found: Severity) -> ft.Control:
    ink = theme.SEVERITY[found][1]
    return ft.Container(
        ft.Icon(severity.MARKS[found], size=theme.drawn(theme.TITLE), color=ink),
        bgcolor=theme.SEVERITY[found][0], border_radius=theme.RADIUS, padding=4,
    )  # fmt: skip


def _plain(icon: ft.IconData) -> ft.Control:
    return ft.Container(
        ft.Icon(icon, size=theme.drawn(theme.TITLE), color=ft.Colors.PRIMARY), padding=4
    )


def of_whole(
    now: TriedState, tried: TriedState, ammonia: ToxicAmmonia | None, system: str
) -> Iterator[ft.Control]:
    """What the pond as a whole gets and costs: oxygen, filter, ammonia, watts, money."""
    if now.stock or tried.stock or tried.stock_doubts:
        yield from _life(now, tried, system)
    if ammonia is not None:
        yield _ammonia(ammonia, system)
    rows = [("", _row(now.power, tried.power, "power", system))]
    if now.per_year is not None or tried.per_year is not None:  # else the watts say it
        rows.append((t("In a year"), _row(now.per_year, tried.per_year, "money", system)))
    bolt = ft.Icons.BOLT
    yield _block(t("Electricity"), None, "", rows, lambda: _plain(bolt), (), system)


def _life(now: TriedState, tried: TriedState, system: str) -> Iterator[ft.Control]:
    """Oxygen and filter: what there is beside what is needed, or why that is not known."""
    before, after = now.stock, tried.stock
    doubts = [layout.sentence(units.tell(one, system)) for one in tried.stock_doubts]
    said = [*doubts, *_left_out(after, system)]
    use = made = ""
    if after:
        grams = units.show(after.oxygen_use.likely, "grams", system, DIGITS)
        use = t("Fish and filter use {mass} an hour.", mass=grams)
        grams = units.show(after.ammonia.likely, "grams", system, DIGITS)
        made = t("The fish give off {mass} of ammonia nitrogen a day.", mass=grams)
    yield _balance(
        t("Oxygen at night"), " ".join([use, *said]).strip(),
        t("Falls and open water bring in an hour"),
        before.oxygen_supply.likely if before else None,
        after.oxygen_supply.likely if after else None,
        after.balance.oxygen_fit if after else "unknown", system, sure=not doubts,
    )  # fmt: skip
    yield _balance(
        t("Filter"), " ".join([made, *said]).strip(), t("The filters can take out in a day"),
        before.capacity.likely if before else None, after.capacity.likely if after else None,
        after.balance.filter_fit if after else "unknown", system, sure=not doubts,
    )  # fmt: skip


def _left_out(found: Stock | None, system: str) -> list[str]:
    """What brings no oxygen and takes out no ammonia at night, and why."""
    if found is None or not found.left_out:
        return []
    told = "; ".join(units.tell(one, system) for one in found.left_out)
    return [t("Not counted, because not known or not always running:"), layout.sentence(told)]


def _balance(
    title: str, about: str, what: str, now: float | None, tried: float | None, fit: Fit,
    system: str, *, sure: bool,
) -> ft.Control:  # fmt: skip
    """What there is beside what is needed. Enough by calculated flows is no tick."""
    if fit in GOOD:
        fit = GOOD[1] if sure else "unknown"
    found: Severity = "unknown" if fit in (*GOOD, "unknown") else "wrong"
    rows = [(what, _row(now, tried, "grams", system))]
    state = PlaceState(found, FITS[fit])
    return _block(title, state, about, rows, lambda: _mark(found), (found,), system)


def _ammonia(found: ToxicAmmonia, system: str) -> ft.Control:
    days = (datetime.now(UTC) - found.read_at).days
    age = t("{age} old", age=days_text(days)) if days else t("Less than a day old")
    about = [t("By the newest test, {age}.", age=within(age))]
    about += [units.tell(one, system) for one in found.about()]
    state = PlaceState("danger", DECIDED["above"][1]) if found.limit_passed else None
    row = _row(found.now, found.tried, "concentration", system)

    def mark() -> ft.Control:
        return _mark("danger") if state else _plain(ft.Icons.SCIENCE_OUTLINED)

    title, said = t("Toxic ammonia"), " ".join(about)
    return _block(title, state, said, [("", row)], mark, (bool(state),), system)
