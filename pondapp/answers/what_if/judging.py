"""How each place is by the flows of a trial, and what fish, filters and oxygen say to them."""

from collections.abc import Container, Iterator, Mapping

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.features.targets import FlowBand
from pondapp.answers.fish.stock import Stock, stock
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.picture.states import CONFLICT, PlaceState, feeds_life
from pondapp.answers.plumbing.path import feature_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.flow_sets import conflicts_of
from pondapp.answers.waterfall.water_sheet import Sheet, sheet_of
from pondapp.answers.what_if.changes import Changes
from pondapp.answers.what_if.tried_state import CalculatedFlow, TriedState
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.core.measuring.verdict import decide
from pondapp.models.circuit import Lip

DECIDED: Mapping[str, tuple[Severity, str]] = {
    "below": ("wrong", "Too little"),
    "above": ("wrong", "Too much"),
}
"""What can be told of a calculated flow for sure: never that it is right, nobody has seen it."""
LIKELY: Mapping[str, str] = {
    "within": "Likely right",
    "below": "Likely too little",
    "above": "Likely too much",
    "undecided": "Could go either way",
}
"""Where it lies by its chances alone."""
NOTHING_WANTED: tuple[Severity, str] = ("unknown", "Calculated")
NOT_TOLD = PlaceState("unknown", "Not known yet")
RESTS: tuple[Severity, str] = ("unknown", "At rest")


def sheets_of(
    worked: WorkedPond, branches: Mapping[str, CalculatedFlow]
) -> Iterator[tuple[str, Sheet]]:
    """The water over each lip that has any."""
    for line in worked.lines:
        for branch in line.branches:
            found = branches.get(branch.id)
            if found is None or found.flow <= 0.0:
                continue
            for key in branch.feeds:
                lip = feature_of(worked.pond, key)
                target = worked.wanted.place(key)
                if isinstance(lip, Lip) and key not in branch.bypass and target is not None:
                    yield key, sheet_of(
                        lip.width_m, found.flow, worked.rules, found.spread, target.band
                    )  # fmt: skip


def stock_of(
    worked: WorkedPond, branches: Mapping[str, CalculatedFlow], lacking: Mapping[str, float]
) -> tuple[Stock | None, tuple[Message, ...]]:
    """Fish, filter and oxygen by the flows of a trial alone, and why that is not sure.

    A plan's flow never stands in for one that is not known, nor a calculated one for less that was
    seen to come.

    Args:
        worked: The changed pond.
        branches: The calculated flows.
        lacking: What share of its calculated flow was seen to come at a place, where that is less.
    """
    if not worked.pond.fish:
        return None, ()
    flows: dict[str, float] = {}
    unknown = []
    for branch, pump in ((one, line.id) for line in worked.lines for one in line.branches):
        found = branches.get(branch.id)
        if found is not None and not found.open:
            for key in branch.feeds:
                came = (lacking.get(one, 1.0) for one in (pump, branch.id, key))
                flows[key] = found.flow * min(came)
            continue
        fed = [one for key in branch.feeds if (one := feature_of(worked.pond, key))]
        unknown += [one.name for one in fed if kind_of(one).alive or kind_of(one).falls]
    if unknown:
        words = "That cannot be told while the flow of {names} is not known."
        return None, (Message(words, {"names": ", ".join(unknown)}),)
    try:
        usual = stock(worked, grown=False, flows=flows).usual
    except PondError as problem:
        return None, (problem.message,)
    return usual, _too_warm(worked, usual.temperature)


def _too_warm(worked: WorkedPond, temperature: float) -> tuple[Message, ...]:
    """Where no rule says what fish and filters do."""
    limit = worked.rules.stock.feed_until
    if temperature <= limit:
        return ()
    values = {"heat": Amount(temperature, "K"), "limit": Amount(limit, "K")}
    words = (
        "Water of {heat} is above {limit}, up to which fish are fed and the rates of filters are "
        "known: do not feed, aerate, and shade the pond."
    )
    return (Message(words, values),)


def places_of(found: TriedState, changes: Changes) -> Iterator[tuple[str, PlaceState]]:
    """How each part is: by the one rule of decision, and never right, since nobody measured it."""
    worked, conflicts = found.worked, conflicts_of(found.worked)
    for state in found.lines:
        yield state.line.id, _judged(worked, conflicts, state.line.id, state.flow)
        for branch in state.line.branches:
            flow = found.branches.get(branch.id)
            if flow is None:
                yield from ((key, NOT_TOLD) for key in (branch.id, *branch.feeds))
                continue
            for key in (branch.id, *branch.feeds):
                alive = feeds_life(worked.pond, (key,) if key in branch.feeds else branch.feeds)
                planned = worked.planned.flows.get(branch.id, 0.0)
                if flow.flow <= 0.0:
                    rests = changes.number("rest", branch.id) or not planned
                    word = RESTS[1] if rests else "Dry"
                    severity: Severity = "unknown" if rests else "wrong"
                    yield key, PlaceState("danger" if alive else severity, word)
                elif key in branch.bypass:
                    yield key, PlaceState(*NOTHING_WANTED)
                else:
                    yield key, _judged(worked, conflicts, key, flow)


def _judged(
    worked: WorkedPond, conflicts: Container[str], key: str, flow: CalculatedFlow | None
) -> PlaceState:
    if flow is None:
        return NOT_TOLD
    if key in conflicts:
        return PlaceState("wrong", CONFLICT)
    band = band_at(worked, key)
    if band is None:
        return PlaceState(*NOTHING_WANTED)
    decided = decide(flow.spread, band.low, band.high, certainty(worked.rules.measuring))
    if decided.kind in DECIDED:
        return PlaceState(*DECIDED[decided.kind])
    return PlaceState("unknown", LIKELY[decided.likely])


def band_at(worked: WorkedPond, key: str) -> FlowBand | None:
    """What is wanted at a part; None where nothing is."""
    target = worked.wanted.place(key)
    return target.band if target else None
