"""What the air takes of a pond in a hot week, and whether the rest is a leak."""

from dataclasses import dataclass
from typing import Literal

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.keeping.pond_volume import area_in_doubt
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step, Term
from pondapp.answers.water.volume import volume_of, water_volume
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY, HOUR, ZERO_CELSIUS
from pondapp.core.base.messages import Amount, Message, Range
from pondapp.core.base.working import ARITHMETIC
from pondapp.core.dosing.evaporation import Weather, water_loss
from pondapp.core.dosing.leak import leak_test
from pondapp.core.stock.span import Span, exactly
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

Wind = Literal["unknown", "sheltered", "some", "open"]
Stands = Literal["in", "beside"]
WEEK = 7.0 * DAY  # s


def open_water(pond: Pond) -> float | None:
    """Surface of the pond [m2] as drawn; none where only its volume is known.

    Raises:
        PondError: A shape cannot be.
    """
    measured = pond.measured_volume.volume_m3 if pond.measured_volume else None
    return volume_of(pond.water, measured).area


def beside_the_pond(pond: Pond) -> float:
    """Water [m2] that lies open beside the pond's own, in its streams."""
    return sum(kind_of(feature).open_water(feature) for feature in pond.fed)


def has_falls(pond: Pond) -> bool:
    """Whether water falls from anything, and wets more than its own surface."""
    return any(kind_of(feature).falls for feature in pond.fed)


def warm_week(pond: Pond, rules: Assumptions) -> float:
    """Water of the warmest week [K], as entered or by the rule."""
    given = pond.warmest_temperature_c
    return rules.stock.warmest_water if given is None else given + ZERO_CELSIUS


DEW = Message(
    "The air is so warm and damp that water of this temperature gathers dew: nothing evaporates."
)
DEW_AT_TIMES = Message(
    "In such air water of this temperature mostly gathers dew; only drier air takes any of it."
)


@dataclass(frozen=True, slots=True)
class WeekLoss:
    """What a week takes.

    Attributes:
        fall: Of the level in a day [m].
        week: Water lost in a week [m3].
        share: Of the pond in a week [-].
        top_up: How long the hose runs for the likely week [s]; none while its flow is not known.
        dew: Whether the air gives water rather than takes it.
        doubt: What makes all of it doubtful.
        remarks: What is assumed and what is left out.
        steps: The working of the likely values.
    """

    fall: Span
    week: Span
    share: float
    top_up: float | None
    dew: bool
    doubt: tuple[Message, ...]
    remarks: tuple[Message, ...]
    steps: tuple[Step, ...]


def week_loss(
    worked: WorkedPond, *, water: float, air: float, humidity: float | None, wind: Wind,
    area: float, hose: float | None,
) -> WeekLoss:  # fmt: skip
    """What a week of such weather takes of a pond.

    Args:
        worked: The pond.
        water: Temperature of the water [K].
        air: Mean temperature of the air, day and night [K].
        humidity: Of the air [-]; none by the rules.
        wind: Over the water, in a word.
        area: Open water with the falls [m2].
        hose: Flow of the hose [m3/s].

    Raises:
        PondError: A number is outside its range, or the ranges of a rule do not rise.
    """
    stock = worked.rules.stock
    speeds = {
        "sheltered": stock.wind_sheltered, "some": stock.wind_some, "open": stock.wind_open,
    }  # fmt: skip
    remarks: list[Message] = []
    if wind == "unknown":
        speed = Span(*speeds.values())
        remarks.append(Message("The wind is not known: from sheltered to open is counted."))
    else:
        speed = exactly(speeds[wind])
    if humidity is None:
        driest, likely, dampest = stock.humidity_low, stock.humidity_likely, stock.humidity_high
        damp = (dampest, likely, driest)
        remarks.append(
            Message(
                "The humidity is not entered: {range} is assumed.",
                {"range": Range(driest, dampest, "share")},
            )
        )
    else:
        damp = (humidity, humidity, humidity)
    still = Span(stock.still_share_low, stock.still_share_likely, stock.still_share_high)
    splash = has_falls(worked.pond) or beside_the_pond(worked.pond) > 0.0
    loss = water_loss(Weather(water, air, damp, speed), still, area, splash)
    week = loss.flow.times(WEEK)
    # What falls and streams lose comes out of the pond as well, so its level falls by more.
    own = open_water(worked.pond)
    shared = max(1.0, area / own) if own else 1.0
    steps = loss.steps()
    if shared > 1.0 and own:
        lowered = Step(
            Term("Ep", "fall of the pond's level", shared * loss.rate.likely, "m/s"), "Ep = Q / Ap",
            (Term("Q", "water lost", loss.flow.likely, "m3/s"),
             Term("Ap", "open water of the pond alone", own, "m2")),
            ARITHMETIC,
        )  # fmt: skip
        steps = (*steps, lowered)
    if loss.rate.high == 0.0:
        remarks.append(DEW)
    elif loss.rate.likely == 0.0:
        remarks.append(DEW_AT_TIMES)
    return WeekLoss(
        fall=loss.rate.times(shared * DAY),
        week=week,
        share=week.likely / water_volume(worked.pond),
        top_up=week.likely / hose if hose else None,
        dew=loss.rate.high == 0.0,
        doubt=area_in_doubt(worked, area),
        remarks=(*remarks, *loss.warnings),
        steps=steps,
    )


@dataclass(frozen=True, slots=True)
class Leak:
    """Whether a pond leaks.

    Attributes:
        severity: How it stands.
        verdict: In a sentence.
        advice: What to do next.
        steps: The working.
    """

    severity: Severity
    verdict: Message
    advice: tuple[Message, ...]
    steps: tuple[Step, ...]


WHERE_IT_GOES = (
    Message(
        "Stop the pump and test once more: if the level now falls as in the bucket, the water goes "
        "at a fall, in a stream, at a hose or a filter; else at the liner."
    ),
    Message(
        "At the liner the level falls as far as the hole and stays there: look round the pond at "
        "that height. Mind the fish: do not let it fall below half."
    ),
)
WATER_ADDED = Message(
    "Rain, a hose or a float valve that fills up hides a leak: shut off what fills the pond, and "
    "test again on dry days."
)
STREAM_COUNTED = Message(
    "A stream gives water to the air too while it runs: what that may be is counted."
)
STREAM_LEFT_OUT = Message(
    "A stream gives water to the air too while it runs, which is not counted here: draw the pond, "
    "or test while the pump is off."
)
SOON = 2.0 * DAY  # s: a pond that is empty so soon is a matter of hours
GOING_ON = Message("Leave both marks as they are, and read both again later: time makes it surer.")


def _time_left(pond: Pond, drop: float, rate: float, area: float | None) -> float | None:
    """How long until a leak [m/s] has emptied the pond [s], where that is soon.

    Raises:
        PondError: A shape cannot be.
    """
    if isinstance(pond.water, TypedVolume):
        if not area:
            return None
        depth = water_volume(pond) / area
    else:
        depth = max(one.depth_m for one in pond.water.basins)
    if rate * SOON < depth - drop:
        return None
    return max(depth - drop, 0.0) / rate


def _with_streams(pond: Pond, ratio: Span, area: float | None) -> tuple[Span, tuple[Message, ...]]:
    """What the air takes of the pond over what it takes of the bucket, with what streams lose.

    Nobody says whether the pump ran meanwhile: from a stream that stood still to one that ran.
    """
    beside, own = beside_the_pond(pond), open_water(pond) or area
    if not beside:
        return ratio, ()
    if not own:
        return ratio, (STREAM_LEFT_OUT,)
    more = beside / own
    wider = Span(ratio.low, ratio.likely * (1.0 + 0.5 * more), ratio.high * (1.0 + more))
    return wider, (STREAM_COUNTED,)


def leak(
    worked: WorkedPond, *, drop: float, bucket: float, time: float, level: float | None,
    stands: Stands, area: float | None,
) -> Leak:  # fmt: skip
    """Say whether a pond leaks, from its level and a bucket's beside it.

    Args:
        worked: The pond.
        drop: Fall of the pond's level [m].
        bucket: Fall in the bucket [m].
        time: How long it went on [s].
        level: How far one reading of a level may be off [m]; none by the rule.
        stands: Whether the bucket stood in the pond or beside it.
        area: Open water [m2], where it is known.

    Raises:
        PondError: A number is outside its range, or the ranges of a rule do not rise.
    """
    rules = worked.rules
    stock = rules.stock
    ratio = (
        Span(stock.bucket_low, stock.bucket_likely, stock.bucket_high)
        if stands == "in"
        else Span(stock.pan_low, stock.pan_likely, stock.pan_high)
    )
    ratio, streams = _with_streams(worked.pond, ratio, area)
    found = leak_test(
        drop, bucket, time, stock.level_tolerance if level is None else level, ratio,
        stock.least_leak, certainty(rules.measuring),
    )  # fmt: skip
    # How wide the interval is over the fall says nothing here: a pond that holds falls by nothing.
    kind = found.decision.likely
    told = {"seen": Amount(drop, "small"), "expected": Amount(found.expected, "small")}
    if found.added >= found.decision.rule.sure:
        words = Message(
            "The pond fell {seen}, and the air took about {expected}: that cannot be, unless water "
            "was added.", told,
        )  # fmt: skip
        return Leak("unknown", words, (WATER_ADDED,), found.steps())
    a_day = found.leak.times(DAY)
    least = Amount(stock.least_leak * DAY, "small")
    if kind == "within" and found.added < 0.5:
        words = Message("No leak: nothing of {least} a day or more shows.", {"least": least})
        return Leak("right", words, streams, found.steps())
    if kind == "above":
        doubt = area_in_doubt(worked, area)
        area = None if doubt else area
        left = _time_left(worked.pond, drop, found.leak.likely, area)
        if left is not None:
            an_hour = found.leak.times(HOUR)
            lost = {"range": Range(an_hour.low, an_hour.high, "small")}
            words = Message("It leaks: {range} an hour go beside what the air takes.", lost)
            soon = Message(
                "The pond is empty in about {time} at this rate: care for the fish first.",
                {"time": Amount(left, "s")},
            )
            return Leak("danger", words, (soon, *streams, *WHERE_IT_GOES), found.steps())
        daily = {"range": Range(a_day.low, a_day.high, "small")}
        words = Message("It leaks: {range} a day go beside what the air takes.", daily)
        advice: tuple[Message, ...] = (*doubt, *streams, *WHERE_IT_GOES)
        if area is not None:
            volume = {"lost": Amount(float(f"{a_day.likely * area:.2g}"), "m3")}
            advice = (Message("About {lost} a day.", volume), *advice)
        return Leak("wrong", words, advice, found.steps())
    words = Message(
        "Not decided yet: the pond fell {seen}, and the air takes about {expected}.",
        told,
    )
    steps = [GOING_ON]
    if found.enough is None:
        steps.append(
            Message("So much evaporates that a bucket cannot tell: wait for damp, still days.")
        )
    elif found.enough > time:
        steps.append(
            Message(
                "A pond that holds is told from one that leaks in about {time} in all.",
                {"time": Amount(found.enough, "s")},
            )
        )
    return Leak("unknown", words, (*steps, *streams), found.steps())
