"""A pond's plan as one plain page to print: no program in it, nothing that is fetched."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from html import escape

from pondapp import units
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.features.kinds import PUMP
from pondapp.answers.log.dates import day_text
from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.picture import picture
from pondapp.answers.picture.states import NOT_MEASURED, PlaceState, states_of
from pondapp.answers.picture.svg import svg
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.plumbing.path import assumed_lift
from pondapp.answers.plumbing.pipe_names import pipe_within, size_text
from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.shopping import bill
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Branch, Pipe
from pondapp.models.pond import Pond
from pondapp.words import current_language, sentence, t, within

STYLE = (
    "body{font:11pt/1.45 system-ui,sans-serif;max-width:44rem;margin:1.5rem auto;padding:0 1rem;"
    "color:#16211f;background:#fff}h1{font-size:1.5rem;margin:0}h2{font-size:1.1rem;margin:1.4rem 0"
    " .4rem}p{margin:.3rem 0}table{border-collapse:collapse;width:100%}th,td{text-align:left;"
    "vertical-align:top;padding:.3rem .5rem .3rem 0;border-bottom:1px solid #b8c4c0}"
    "tr,svg{break-inside:avoid}ol{columns:14rem}.small{font-size:9pt;color:#3d4a47}"
    "td:nth-child(3),td:nth-child(4){white-space:nowrap}"
    # On a phone a table of five columns is moved sideways, and the page is not.
    "@media screen and (max-width:36rem){table{display:block;overflow-x:auto}td{min-width:8rem}}"
)

DRAWING = 640.0  # width of the picture of the pond
VALVES = {"ball": "ball valve", "gate": "gate valve"}


def plan_page(worked: WorkedPond, log: Sequence[LogItem], system: str, now: datetime) -> str:
    """The page, as HTML whose every text is spelled so that a browser takes it for text alone."""
    pond = worked.pond
    day = day_text(now)
    parts = [f"<h1>{escape(pond.name)}</h1>", _small(t("Printed {day}", day=day))]
    try:
        states = states_of(worked, log, now)
        parts += _picture(worked, states, system)
        parts += _flows(worked, states, system)
        parts += _features(worked, states, system)
    except PondError as problem:
        parts.append(_line(units.explain(problem, system)))
    parts += _paths(pond, system)
    parts += _shopping(worked, system)
    parts.append(
        _small(
            t(
                "Flows, bands and sizes are worked out from what was entered; measure before you "
                "trust them. Mains and water kill: use a protected outdoor supply, and unplug "
                "before hands go in. Small children drown in centimetres of water."
            )
        )
    )
    title = escape(pond.name)
    return (
        f'<!DOCTYPE html>\n<html lang="{current_language().code}"><head><meta charset="utf-8">'
        f'<title>{title}</title><meta name="viewport" content="width=device-width">'
        f"<style>{STYLE}</style></head>\n"
        "<body>\n" + "\n".join(parts) + "\n</body></html>\n"
    )


def _line(text: str) -> str:
    return f"<p>{escape(text)}</p>"


def _small(text: str) -> str:
    return f'<p class="small">{escape(text)}</p>'


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table; a column in which nothing stands is left out."""
    filled = list(rows)
    kept = [number for number in range(len(head)) if any(row[number] for row in filled)]
    head, filled = [head[at] for at in kept], [[row[at] for at in kept] for row in filled]
    cells = ["".join(f"<td>{escape(cell)}</td>" for cell in row) for row in filled]
    titles = "".join(f"<th>{escape(cell)}</th>" for cell in head)
    body = "".join(f"<tr>{row}</tr>" for row in cells)
    return f"<table><thead><tr>{titles}</tr></thead><tbody>{body}</tbody></table>"


def _heading(text: str) -> str:
    return f"<h2>{escape(text)}</h2>"


def _picture(worked: WorkedPond, states: Mapping[str, PlaceState], system: str) -> list[str]:
    """The pond cut through, and what its numbers are."""
    drawing = picture(worked, states, DRAWING)
    parts = "".join(
        f"<li>{escape(part.name)}: {escape(within(t(part.state.word)))}</li>"
        for part in drawing.parts
    )
    notes = " ".join(units.tell(note, system) for note in drawing.notes)
    title = t("{pond}, cut through", pond=worked.pond.name)
    return [svg(drawing, title), f"<ol>{parts}</ol>", _small(notes)]


def _flows(worked: WorkedPond, states: Mapping[str, PlaceState], system: str) -> list[str]:
    """What each place wants, what the plan gives it, what was last measured there."""
    plan, found = worked.plan, worked.wanted
    volume = units.show(found.volume, "volume", system)
    parts = [_line(t("The pond holds {volume}.", volume=volume))]
    if isinstance(plan, PondPlan):
        total = units.show(plan.total, "flow", system)
        parts.append(_line(t("Planned: {total} in all", total=total)))
        notes: tuple[Message, ...] = (*plan.notes, *plan.cautions)
    else:
        notes = (*plan.conflicts, *plan.notes)
    parts += [_line(sentence(units.tell(note, system))) for note in notes]
    rows = []
    asked = worked.targets
    for place in found.places:
        flow = plan.at(place.place_id) if isinstance(plan, PondPlan) else None
        own = asked.place(place.place_id) or place
        if (own.band.low, own.band.high) != (place.band.low, place.band.high):
            own = place
        least, good = (units.show(flow, "flow", system) for flow in (own.band.low, own.band.target))
        high = own.band.high
        if place.kind == PUMP:
            band = t("{low} or more", low=units.show(place.band.low, "flow", system))
        elif high is None:
            band = t("least {least}, good {good}", least=least, good=good)
        else:
            most = units.show(high, "flow", system)
            band = t("least {least}, good {good}, most {most}", least=least, good=good, most=most)
        planned = "" if flow is None else units.show(flow, "flow", system)
        said = _measured(states.get(place.place_id, NOT_MEASURED), system)
        rows.append((place.name, band, planned, *said))
    head = (t("Place"), t("Wanted"), t("Planned"), t("Last measured"), t("Verdict"))
    return [*parts, _heading(t("Flows")), _table(head, rows)]


def _measured(state: PlaceState, system: str) -> tuple[str, str]:
    found, reading = state.found, state.reading
    if found is None or reading is None:
        return t("not yet"), ""
    day = day_text(reading.taken_at)
    flow = t("no water") if found.dry else units.show(found.flow.flow, "flow", system)
    verdict = "" if found.kind == "no target" else units.tell(found.verdict, system)
    if state.severity == "unknown" and found.kind != "undecided":  # what was right long ago
        verdict = t(state.word)
    if state.why:
        verdict = sentence(units.tell(state.why, system))
    if reading.earlier:
        return t("{flow}, {day}, corrected", flow=flow, day=day), verdict
    return f"{flow}, {day}", verdict


def _features(worked: WorkedPond, states: Mapping[str, PlaceState], system: str) -> list[str]:
    """What follows from each feature at its pond, of the kinds that have more to say."""
    parts = []
    for feature in worked.pond.fed:
        lines = []
        for one in told_of(worked, feature, states):
            told = (one.value, one.remark) if one.remark else (one.value,)
            words = " ".join(sentence(units.tell(part, system)) for part in told)
            lines.append(_line(f"{t(one.label)}: {words}" if one.label else words))
        if lines:
            parts += [_heading(worked.names.features[feature.id]), *lines]
    return parts


def _pipe(pipe: Pipe | None, system: str) -> str:
    if pipe is None:
        return ""
    length = units.show(pipe.length_m, "length", system)
    return t(
        "{length} of {size} {kind}",
        length=length,
        size=size_text(pipe, system),
        kind=pipe_within(pipe.series),
    )


def _paths(pond: Pond, system: str) -> list[str]:
    """Each pump's branches: hose, lift, valve, and what they feed."""
    features = {feature.id: feature.name for feature in pond.fed}
    pumps = {pump.id: pump.name for pump in pond.pumps}

    def row(branch: Branch) -> tuple[str, ...]:
        fed = ", ".join(features.get(feature, feature) for feature in branch.feeds)
        height, guessed = assumed_lift(pond, branch)
        lift = units.show(height, "head", system)
        lift = t("{value}, assumed", value=lift) if guessed else lift
        valve = t(VALVES[branch.valve]) if branch.valve in VALVES else ""
        return branch.name, _pipe(branch.pipe, system), lift, valve, fed or t("back to the pond")

    head = (t("Branch"), t("Pipe or hose"), t("Lift"), t("Valve"), t("Feeds"))
    parts = []
    for line in pond.lines:
        parts.append(_heading(line.name))
        facts = [pumps.get(line.pump_id or "", t("pump not chosen yet")), _pipe(line.main, system)]
        parts.append(_line(", ".join(fact for fact in facts if fact)))
        parts.append(_table(head, [row(branch) for branch in line.branches]))
    return parts


def _shopping(worked: WorkedPond, system: str) -> list[str]:
    """What is still to be bought, with boxes to tick."""
    try:
        items = [item for item in bill(worked).items if not item.ticked]
    except PondError:
        return []
    if not items:
        return []
    rows = [
        (
            "\u2610",
            units.tell(item.need.name, system),
            units.show_amount(item.need.quantity, item.need.unit, system),
        )
        for item in items
    ]
    return [_heading(t("To buy")), _table(("", t("What"), t("How much")), rows)]
