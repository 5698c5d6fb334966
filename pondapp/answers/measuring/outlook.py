"""What the verdict will be when the fill that is running ends, for every time it may take.

Whoever shows it can then say the verdict the moment the fill ends, without asking.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from math import sqrt

from pydantic import ValidationError

from pondapp.answers.care.severity import Severity
from pondapp.answers.measuring.flow import SEVERITY, Kind, Message, counted_times, decision_of
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import PondError
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.verdict import Decision, FillWindow
from pondapp.models.limits import MOST_FILLS
from pondapp.models.reading import Fill, Steadiness

WORDS: dict[Kind, Message] = {
    "within": Message("Right"),
    "below": Message("Too little"),
    "above": Message("Too much"),
    "undecided": Message("Not decided yet"),
}
"""Each verdict in a word."""
LIKELY: dict[Kind, Message] = {
    "below": Message("Likely too little"),
    "above": Message("Likely too much"),
}
"""The same where all says so, but the flow is not known well enough for a verdict."""
ROUGH = Message("known too roughly")
CLOSE = Message("close to a limit")
SHORTEST = 0.1  # s; no press is told from the one before it in less
RATIO = 2.0  # of one time to the next where one looks first
FINE, COARSE = 1.002, 1.03  # the same where a verdict changes, and where one may hide


@dataclass(frozen=True, slots=True)
class Outlook:
    """One verdict, for all times from the end of the stretch before.

    Attributes:
        up_to: The longest such time of the next fill [s]; none for the last stretch.
        kind: The verdict on all fills with that one.
        word: The verdict in a word.
        why: Why there is none yet; empty where there is one.
        severity: How bad it is.
    """

    up_to: float | None
    kind: Kind
    word: Message
    why: Message
    severity: Severity


def word_of(kind: Kind, decision: Decision | None) -> Message:
    """A verdict in a word, or where the flow lies most likely while there is none."""
    if kind == "undecided" and decision is not None and decision.wide:
        return LIKELY.get(decision.likely, WORDS[kind])
    return WORDS[kind]


@dataclass(frozen=True, slots=True)
class _Found:
    """A verdict and what it rests on: where both are the same, nothing lies between."""

    kind: Kind
    word: Message = WORDS["undecided"]
    wide: bool = True
    likeliest: str = ""
    close: bool = False
    """Whether it is so close to another verdict that there may be one near by."""

    @property
    def told(self) -> tuple[Kind, Message, Message]:
        """What is told of it."""
        if self.kind != "undecided":
            return self.kind, self.word, Message("")
        return self.kind, self.word, ROUGH if self.wide else CLOSE


def _found(said: Decision | None) -> _Found:
    if said is None:  # such a time cannot be
        return _Found("undecided")
    chances = {"below": said.below, "within": said.inside, "above": said.above}
    likeliest = max(chances, key=lambda kind: chances[kind])
    missing, width = said.rule.sure - chances[likeliest], said.share / said.rule.widest
    clear = missing < -0.02 and width < 0.9
    close = not clear and missing < 0.1 and width < 1.2
    return _Found(said.kind, word_of(said.kind, said), said.wide, likeliest, close)


def outlook(
    method_kind: str,
    entered: Entered,
    band: FlowBand | None,
    rules: Assumptions,
    steadiness: Steadiness | None = None,
) -> tuple[Outlook, ...]:
    """The verdicts that the next fill can bring, from the shortest to the longest.

    The judge is the one of all flows. The limits between its verdicts are found by bisection, to
    0.2 % of a time; a verdict that holds for less than 1 % of a time may be left out.

    Args:
        method_kind: The way of measuring.
        entered: What was entered so far, with all fills.
        band: What is wanted there.
        rules: The rules of the pond.
        steadiness: What earlier fills there had taught about their scatter.

    Returns:
        The stretches of time; none where nothing is wanted, where more than a time decides, or
        where something is missing or cannot be.
    """
    if band is None:
        return ()
    method = METHODS[method_kind]
    so_far = tuple(entered.fills)[1 - MOST_FILLS :]

    def decision(seconds: float) -> Decision | None:
        fills = (*so_far, Fill.model_construct(seconds=seconds))
        try:
            made = method.entered(replace(entered, fills=fills), rules)
            flow = method.flow_by_times(made, rules.measuring, steadiness) if made else None
            return decision_of(flow, band, rules.measuring) if flow else None
        except (PondError, ValidationError):  # the result says what is wrong
            return None

    amount = method.amount_timed(entered)
    times = _looked_at(amount, so_far, band) if amount else []
    # In the middle are usual times: if one of those says nothing, none does.
    if not times or decision(times[len(times) // 2]) is None:
        return ()
    return tuple(
        Outlook(end, kind, word, why, SEVERITY[kind])
        for end, (kind, word, why) in _limits(decision, times)
    )


def right_times(
    method_kind: str,
    entered: Entered,
    band: FlowBand | None,
    rules: Assumptions,
    steadiness: Steadiness | None = None,
) -> FillWindow | None:
    """The fill times that are right, and the one to aim for; none where no time says it."""
    try:
        return METHODS[method_kind].window(entered, band, rules, steadiness) if band else None
    except PondError:  # the result says what is wrong
        return None


def _looked_at(amount: float, fills: Iterable[Fill], band: FlowBand) -> list[float]:
    """Times [s] to look at first: so many that no two verdicts lie between two of them."""
    times = [SHORTEST]
    while times[-1] * RATIO < DAY:
        times.append(times[-1] * RATIO)
    timed = counted_times(list(fills))
    if timed:  # what the fills say together is surest if the next one shows their mean
        times.append(sum(timed) / len(timed))
    for flow in (band.low, band.target, band.high):
        if flow:
            times.append((len(timed) + 1) * amount / flow - sum(timed))
    return sorted({time for time in times if SHORTEST <= time <= DAY} | {DAY})


def _limits(
    decision: Callable[[float], Decision | None], times: list[float]
) -> list[tuple[float | None, tuple[Kind, Message, Message]]]:
    """Where the verdict changes, each with the verdict before it; the last without an end."""
    limits: list[tuple[float | None, tuple[Kind, Message, Message]]] = []

    def look(from_time: float, first: _Found, to_time: float, last: _Found) -> None:
        if first == last and not first.close:
            return
        changes = first.told != last.told
        if to_time <= from_time * (FINE if changes else COARSE):
            if changes:
                limits.append((sqrt(from_time * to_time), first.told))
            return
        middle = sqrt(from_time * to_time)
        between = _found(decision(middle))
        look(from_time, first, middle, between)
        look(middle, between, to_time, last)

    at, now = times[0], _found(decision(times[0]))
    for time in times[1:]:
        then = _found(decision(time))
        look(at, now, time, then)
        at, now = time, then
    return [*limits, (None, now.told)]
