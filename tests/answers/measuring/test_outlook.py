"""The outlook says of a fill that is still running what the verdict will be when it has ended."""

import random
from dataclasses import replace
from itertools import groupby
from math import exp, log

import pytest
from ponds import LPH

from pondapp.answers.measuring.aims import fill_aim
from pondapp.answers.measuring.flow import FlowBand, Kind
from pondapp.answers.measuring.methods import measured_by
from pondapp.answers.measuring.outlook import Outlook, outlook, right_times
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Entered
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import PondError
from pondapp.models.limits import MOST_FILLS
from pondapp.models.reading import Container, Fill, Steadiness

RULES = Assumptions()
BAND = FlowBand(low=400 * LPH, target=600 * LPH, high=1200 * LPH)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.010, tolerance_m3=0.0001)
TIMED = ("bucket", "filling", "level_drop")


def fills(*seconds: float) -> tuple[Fill, ...]:
    return tuple(Fill(seconds=value) for value in seconds)


def at(stretches: tuple[Outlook, ...], seconds: float) -> Outlook:
    return next(one for one in stretches if one.up_to is None or seconds <= one.up_to)


def real(
    kind: str, entered: Entered, band: FlowBand, rules: Assumptions, steady: Steadiness | None,
    seconds: float,
) -> Kind:  # fmt: skip
    """The verdict on the fills with one more that was really timed."""
    timed = replace(entered, fills=(*entered.fills, Fill(seconds=seconds)))
    method = METHODS[kind].entered(timed, rules)
    assert method is not None
    try:
        found = measured_by(method, band, rules.measuring, steady)
    except PondError:  # a second and a day, as times of one basin: no verdict
        return "undecided"
    assert found is not None
    return found.kind


def random_place(
    dice: random.Random,
) -> tuple[str, Entered, FlowBand, Assumptions, Steadiness | None]:
    """A way of measuring, what was entered, and what is wanted: all as it may come."""
    kind = dice.choice(TIMED)
    volume = exp(dice.uniform(log(0.001), log(0.2)))
    container = Container(
        id="c", name="Tub", volume_m3=volume, tolerance_m3=volume * dice.choice((0.0, 0.005, 0.05))
    )
    known = {"water_area": 2.0, "drop": volume / 2.0, "space": volume, "gaps": 0.4}
    entered = Entered(
        known, "known", gravel=dice.random() < 0.5, container=container
    )  # fmt: skip
    amount = METHODS[kind].amount_timed(entered)
    assert amount is not None
    usual = exp(dice.uniform(log(1.5), log(120.0)))
    flow = amount / usual
    low = flow * dice.uniform(0.2, 1.3)
    target = low * dice.uniform(1.0, 1.5)
    band = FlowBand(low, target, dice.choice((None, target * dice.uniform(1.0, 1.6))))
    scatter = dice.choice((0.005, 0.02, 0.15))
    timed = [
        Fill(seconds=usual * exp(dice.gauss(0.0, scatter)), excluded=dice.random() < 0.15)
        for _ in range(dice.choice((0, 0, 1, 1, 2, 3, 5, 9)))
    ]
    overrides = {"measuring.reaction_sd": dice.choice((0.05, 0.1, 0.4))}
    steady = Steadiness(earlier=dice.uniform(0.4, 3.0), weight=dice.choice((4, 9, 30)))
    return (
        kind,
        replace(entered, fills=tuple(timed)),
        band,
        RULES.with_overrides(overrides),
        dice.choice((None, steady)),
    )


@pytest.mark.parametrize("seed", range(10))
def test_outlook_is_the_verdict_that_comes(seed: int) -> None:
    dice = random.Random(seed)
    seen: set[Kind] = set()
    for _ in range(50):
        kind, entered, band, rules, steady = random_place(dice)
        stretches = outlook(kind, entered, band, rules, steady)
        amount = METHODS[kind].amount_timed(entered)
        assert amount is not None
        usual = [amount / band.low, amount / band.target, *(f.seconds for f in entered.fills)]
        nexts = [dice.choice(usual) * exp(dice.gauss(0.0, s)) for s in (0.01, 0.05, 0.2, 0.5)]
        for seconds in (*nexts, exp(dice.uniform(log(0.2), log(0.9 * DAY)))):
            said = at(stretches, seconds).kind
            near = [
                real(kind, entered, band, rules, steady, seconds * by) for by in (1, 0.995, 1.005)
            ]
            seen.add(said)
            assert said in near, (kind, seconds, stretches)
            limits = [one.up_to for one in stretches if one.up_to]
            close = any(abs(limit / seconds - 1.0) < 0.005 for limit in limits)
            assert said == near[0] or close or len(set(near)) > 1
    assert seen >= {"within", "below", "undecided"}


def test_first_fill_goes_from_too_much_to_too_little() -> None:
    stretches = outlook("bucket", Entered({}, container=BUCKET), BAND, RULES)
    assert [(str(one.word), str(one.why), one.severity) for one in stretches] == [
        ("Not decided yet", "known too roughly", "unknown"),
        ("Likely too much", "known too roughly", "unknown"),
        ("Too much", "", "wrong"),
        ("Not decided yet", "close to a limit", "unknown"),
        ("Right", "", "right"),
        ("Not decided yet", "close to a limit", "unknown"),
        ("Too little", "", "wrong"),
    ]
    ends = [one.up_to for one in stretches]
    assert ends[-1] is None
    assert ends[:-1] == sorted(end for end in ends if end)


def test_more_does_no_harm() -> None:
    open_ended = replace(BAND, high=None)
    stretches = outlook("bucket", Entered({}, container=BUCKET), open_ended, RULES)
    kinds = [kind for kind, _ in groupby(one.kind for one in stretches)]
    assert kinds == ["undecided", "within", "undecided", "below"]


def test_excluded_fills_do_not_count() -> None:
    struck = Fill(seconds=20.0, excluded=True)
    with_it = Entered({}, fills=(struck, *fills(61.0)), container=BUCKET)
    without = Entered({}, fills=fills(61.0), container=BUCKET)
    assert outlook("bucket", with_it, BAND, RULES) == outlook("bucket", without, BAND, RULES)


def test_of_very_many_fills_the_oldest_goes() -> None:
    """As it does when the fill is really timed: a reading holds no more."""
    many = Entered({}, fills=fills(*[90.0] * MOST_FILLS), container=BUCKET)
    assert outlook("bucket", many, BAND, RULES)


@pytest.mark.parametrize(
    ("kind", "entered", "band"),
    [
        ("bucket", Entered({}, container=BUCKET), None),
        ("bucket", Entered({}), BAND),
        ("weighed", Entered({"empty_weight": 0.4}), BAND),
        ("level_drop", Entered({"water_area": 2.0}, "known"), BAND),
        ("meter", Entered({"meter_flow": 1e-4}), BAND),
        ("nothing", Entered({}), BAND),
        ("level_drop", Entered({"water_area": 1e9, "drop": 0.05}, "known"), BAND),
    ],
)
def test_no_outlook_where_a_time_says_nothing(
    kind: str, entered: Entered, band: FlowBand | None
) -> None:
    assert outlook(kind, entered, band, RULES) == ()


def test_tolerance_that_cannot_be_gives_no_outlook() -> None:
    bad = BUCKET.model_copy(update={"tolerance_m3": 0.02})
    assert outlook("bucket", Entered({}, container=bad), BAND, RULES) == ()


def test_right_times_are_those_that_the_screen_tells() -> None:
    found = right_times("bucket", Entered({}, container=BUCKET), BAND, RULES)
    told = fill_aim(BUCKET, BAND, RULES.measuring)
    assert found is not None
    assert (found.shortest, found.aim, found.longest) == (told.shortest, told.aim, told.longest)
    assert right_times("bucket", Entered({}, container=BUCKET), None, RULES) is None
    assert right_times("weighed", Entered({"empty_weight": 0.4}), BAND, RULES) is None
    basin = Entered({"water_area": 2.0, "drop": 0.05}, "known")
    falling = right_times("level_drop", basin, BAND, RULES)
    assert falling is not None
    assert falling.longest == pytest.approx(0.1 / BAND.low)


def test_the_aim_goes_by_how_steady_the_place_itself_is() -> None:
    def longest(steadiness: Steadiness | None) -> float:
        entered = Entered({}, container=BUCKET)
        found = right_times("bucket", entered, BAND, RULES, steadiness)
        assert found is not None
        return found.longest

    steady, restless = Steadiness(earlier=0.3, weight=20), Steadiness(earlier=2.5, weight=20)
    assert longest(restless) < longest(None) < longest(steady)
    assert longest(steady) < BUCKET.volume_m3 / BAND.low
