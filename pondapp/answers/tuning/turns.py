"""The turns of a valve in one visit: the flow at each setting, and how far to turn it next."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import log

from pondapp.answers.measuring.flow import Measured, measured
from pondapp.answers.measuring.methods import MeasuringAssumptions
from pondapp.answers.tuning.flow_sets import BranchPlace
from pondapp.core.base.errors import NoSolution, PondError
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.filters.bands import FlowBand
from pondapp.core.hydraulics.valve_response import (
    READ,
    Setting,
    TurnGuess,
    chance_of_more,
    next_opening,
    next_share,
)
from pondapp.core.measuring.spread import Spread
from pondapp.models.reading import Container, FillSet, Steadiness

SHARES = (
    (0.1, phrase("a tenth")),
    (1 / 6, phrase("a sixth")),
    (0.25, phrase("a quarter")),
    (1 / 3, phrase("a third")),
    (0.5, phrase("half")),
    (2 / 3, phrase("two thirds")),
    (1.0, phrase("all")),
)
AS_FAR, OR_MORE, HARDLY = 0.83, 1.3, 0.05
APART = 3.0 * READ  # two places of the handle so near are told by the turn between them
AS_OPEN = 0.975

UNTOLD = Message("The last turn moved the flow by less than these fills can tell.")
WRONG_WAY = {
    True: Message(
        "More came after the last turn, not less: it went the other way, or something else changed."
    ),
    False: Message(
        "Less came after the last turn, not more: it went the other way, or something else changed."
    ),
}
"""By whether more came."""
MOVED = {
    (False, "above"): "The last turn took {moved} away; {rest} more has to go.",
    (False, "below"): "The last turn took {moved} away; that is {rest} too much.",
    (True, "below"): "The last turn brought {moved} more; {rest} is still missing.",
    (True, "above"): "The last turn brought {moved} more; that is {rest} too much.",
}
"""By whether more came, and where the flow lies now."""
TURNS = {
    (False, "above"): "Close it further, by about {share} of that turn.",
    (False, "below"): "Open it again, by about {share} of that turn.",
    (True, "below"): "Open it further, by about {share} of that turn.",
    (True, "above"): "Close it again, by about {share} of that turn.",
}
FULL_TURNS = {
    (False, "above"): "Close it further, about as far again.",
    (False, "below"): "Open it again, nearly to where it stood.",
    (True, "below"): "Open it further, about as far again.",
    (True, "above"): "Close it again, nearly to where it stood.",
}
BEYOND = {
    (False, "below"): "Open it again to where it stood, and by about {share} of that turn further.",
    (True, "above"): "Close it again to where it stood, and by about {share} of that turn further.",
}
FULL_BEYOND = {
    (False, "below"): "Open it again to where it stood, and about as far again.",
    (True, "above"): "Close it again to where it stood, and about as far again.",
}
WIDE_OPEN = Message(
    "It is wide open and can give no more: close another branch's valve a little instead."
)


@dataclass(frozen=True, slots=True)
class TimedSetting:
    """A setting of the valve and what was timed there."""

    found: Measured
    container: Container
    opened: float | None
    stands: bool = True
    """Whether a flow of now may be compared with it: it is of today, and no other valve was turned
    since."""


@dataclass(frozen=True, slots=True)
class TurnAdvice:
    """What the last turn did, and how far to turn next."""

    told: Message
    turn: Message | None = None
    """How far; none where the turns say nothing of it."""
    likely: Message | None = None
    """The range of that."""
    opening: Message | None = None
    """Where the handle is to stand, where it is known where it stood."""

    way_too: bool = True
    """Whether it is still to be said which way the valve turns."""


def flow_of_set(
    one: FillSet,
    rules: MeasuringAssumptions,
    band: FlowBand | None = None,
    steadiness: Steadiness | None = None,
) -> Measured | None:
    """The flow of what was timed at one setting of a valve.

    Args:
        one: The fills of the setting.
        rules: The rules of the pond.
        band: What is wanted there.
        steadiness: What earlier fills there had taught about their scatter.

    Returns:
        The flow and its verdict; None where no fill counts, what was filled was not noted, or the
        numbers are those of no flow.
    """
    if one.container is None:
        return None
    try:
        return measured(one.container, one.fills, band, rules, steadiness)
    except PondError:
        return None


def settings_before(
    sets: Sequence[FillSet],
    place: BranchPlace,
    steadiness: Steadiness | None,
    others_turned: Collection[datetime],
    now: datetime,
) -> tuple[TimedSetting, ...]:
    """The settings of this visit before the one of now, oldest first, whose flow is known.

    Args:
        sets: What was timed before each turn.
        place: The branch.
        steadiness: What earlier fills there had taught about their scatter.
        others_turned: When the valves of other branches were last turned.
        now: The time of now.
    """
    found: list[TimedSetting] = []
    begun: datetime | None = None
    for one in sets:
        if one.left:  # nobody knows what was turned until the next fill: another visit
            found, begun = [], None
            continue
        flow = flow_of_set(one, place.rules, place.band, steadiness)
        if flow is not None and one.container is not None and one.until is not None:
            age = (now - one.until).total_seconds()
            alone = all(at <= (begun or one.until) for at in others_turned)
            stands = alone and 0.0 <= age <= place.rules.same_setting
            found.append(TimedSetting(flow, one.container, one.opened, stands))
        begun = one.until
    return tuple(found)


def advice_of_turns(
    place: BranchPlace, before: Sequence[TimedSetting], now: TimedSetting
) -> TurnAdvice | None:
    """How far to turn the valve of a branch next, by what its turns have done so far.

    Args:
        place: The branch.
        before: The settings before each turn, oldest first.
        now: The setting of now, whose flow is beyond doubt not the wanted one.

    Returns:
        The advice; None where no turn says anything: then there are only tables.
    """
    kind = now.found.kind
    if place.valve == "none" or now.found.dry or kind not in ("above", "below"):
        return None
    if now.opened == 1.0 and kind == "below":
        return TurnAdvice(WIDE_OPEN, way_too=False)
    if not before or not before[-1].stands:
        return None
    last = before[-1]
    was, flow = _spread(last, now), _spread(now, last)
    chance = chance_of_more(was, flow)
    if max(chance, 1.0 - chance) < place.rules.sure:
        return TurnAdvice(UNTOLD)
    more = chance > 0.5
    told = Message(
        MOVED[more, kind],
        {
            "moved": Amount(abs(flow.centre - was.centre), "m3/s"),
            "rest": Amount(abs(place.band.target - flow.centre), "m3/s"),
        },
    )
    if last.found.kind == ("above" if more else "below"):
        told = WRONG_WAY[more]
    opening = _opening(place, before, now)
    if opening is not None and last.opened is not None and now.opened is not None:
        turned = now.opened - last.opened
        ends = [(end - now.opened) / turned for end in (opening.low, opening.high)]
        best = (opening.best - now.opened) / turned
        inner, outer = sorted((abs(end) if end * best > 0.0 else 0.0) for end in ends)
        guess = TurnGuess(best, inner, max(outer, abs(best)))
    else:
        guess = next_share(was, flow, place.band.target, place.rules.coverage)
    return TurnAdvice(
        told,
        _turn(more, kind, guess.best),
        _likely(abs(guess.low), abs(guess.high), abs(guess.best)),
        _stands(opening) if opening is not None else None,
    )


def _spread(one: TimedSetting, other: TimedSetting) -> Spread:
    """What is known of a flow, without what both settings have in common: the container."""
    spread = one.found.flow.spread
    return replace(spread, tolerance=0.0) if one.container == other.container else spread


def _opening(
    place: BranchPlace, before: Sequence[TimedSetting], now: TimedSetting
) -> TurnGuess | None:
    """Where the handle is to stand by where it stood, if the last turn can be read off it."""
    last = before[-1]
    if now.opened is None or last.opened is None or abs(now.opened - last.opened) < APART:
        return None
    if (now.opened > last.opened) != (now.found.flow.flow > last.found.flow.flow):
        return None  # less came when it was opened: something else changed
    settings = [
        Setting(_spread(one, now), one.opened)
        for one in before
        if one.stands and one.container == now.container
    ]
    settings.append(Setting(_spread(now, last), now.opened))
    try:
        found = next_opening(settings, place.band.target, place.rules.coverage, place.valve)
    except NoSolution:
        return None
    forwards = found.best > now.opened
    return found if forwards == (now.found.kind == "below") else None


def _turn(more: bool, kind: str, share: float) -> Message:
    if share < -1.0 - AS_FAR:
        return Message(FULL_BEYOND[more, kind])
    if share < -1.0 - HARDLY:
        return Message(BEYOND[more, kind], {"share": _share(-share - 1.0)})
    if abs(share) > AS_FAR:
        return Message(FULL_TURNS[more, kind])
    return Message(TURNS[more, kind], {"share": _share(abs(share))})


def _share(share: float) -> str:
    """A share in words: the nearest of those that people turn by."""
    return min(SHARES, key=lambda one: abs(log(one[0] / max(share, 1e-3))))[1]


def _likely(low: float, high: float, best: float) -> Message | None:
    """The range of a share of the last turn."""
    inner, outer = _share(low), _share(high)
    if best > 1.0 + HARDLY or inner == outer:
        return None
    if high > OR_MORE:
        return Message("That may be {low} of that turn or more.", {"low": inner})
    if low < HARDLY:
        return Message("That may be {high} of that turn at most.", {"high": outer})
    return Message(
        "That may be anything from {low} to {high} of that turn.", {"low": inner, "high": outer}
    )


def _stands(opening: TurnGuess) -> Message:
    """Where the handle is to stand, to the twentieth."""
    low, best, high = (
        f"{100.0 * round(20.0 * share) / 20.0:.0f}"
        for share in (opening.low, opening.best, opening.high)
    )
    if opening.best > AS_OPEN:
        return Message("Going by where the handle stood, it has to be wide open.")
    return Message(
        "By where the handle stood, that is about {best} % open, somewhere from {low} to {high} %.",
        {"low": low, "best": best, "high": high},
    )
