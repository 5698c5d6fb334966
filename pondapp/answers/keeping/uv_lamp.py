"""A UV lamp: whether it fits pond and flow, what dose it gives, and when to change it."""

from dataclasses import dataclass
from datetime import date

from pondapp.answers.care.lamp_change import change_day
from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount, Message, Range, Value
from pondapp.core.filters.uv_lamp import lamp_dose

A_THOUSAND_LITRES = 1.0  # m3


@dataclass(frozen=True, slots=True)
class LampAnswer:
    """What there is to say of a lamp.

    Attributes:
        verdicts: Each with how bad it is, the worst first.
        dose: Least and most dose [J/m2]; none while flow or chamber is not known.
        change_on: Until when it is good; none while nobody says since when it is lit.
        remarks: What is assumed.
        steps: The working of the likely dose.
    """

    verdicts: tuple[tuple[Severity, Message], ...]
    dose: tuple[float, float] | None
    change_on: date | None
    remarks: tuple[Message, ...]
    steps: tuple[Step, ...]


def uv_lamp(
    worked: WorkedPond, *, power: float, uvc: float | None, flow: float | None,
    most: float | None, path: float | None, since: date | None,
    life: float | None = None,
) -> LampAnswer:  # fmt: skip
    """Whether a lamp fits, by each thing that is known of it.

    Args:
        worked: The pond.
        power: Watts of the lamp [W].
        uvc: Its UV-C light [W], if its maker says so.
        flow: Water that passes it [m3/s].
        most: Most flow that its maker allows [m3/s].
        path: From its sleeve to the wall of the chamber [m].
        since: Day from which it has been lit, day and night.
        life: How long it is good by its label [s]; none by the rule.

    Raises:
        PondError: The pond's shape cannot be, or a number is outside its range.
    """
    rules = worked.rules.filters
    volume = water_volume(worked.pond)
    verdicts: list[tuple[Severity, Message]] = [_by_volume(power, volume, rules.lamp_watts)]
    remarks: list[Message] = []
    if most is not None and flow is not None:
        verdicts.append(_by_flow(flow, most))
    dose: tuple[float, float] | None = None
    steps: tuple[Step, ...] = ()
    if flow is not None and path is not None:
        if rules.uvc_passes_low > rules.uvc_passes_high or (
            rules.lamp_uvc_low > rules.lamp_uvc_high
        ):
            raise OutOfRange("the least and the most of a rule about UV lamps are out of order")
        light = (uvc, uvc) if uvc is not None else (
            power * rules.lamp_uvc_low, power * rules.lamp_uvc_high
        )  # fmt: skip
        if uvc is None:
            assumed = {"range": Range(*light, "W")}
            remarks.append(Message("UV-C light is not entered: {range} is assumed.", assumed))
        worst = lamp_dose(light[0] * rules.lamp_aged, flow, path, rules.uvc_passes_low)
        best = lamp_dose(light[1], flow, path, rules.uvc_passes_high)
        dose, steps = (worst.dose, best.dose), best.steps()
        verdicts.append(_by_dose(dose, rules.lamp_dose))
        passes = {"range": Range(rules.uvc_passes_low, rules.uvc_passes_high, "share")}
        remarks.append(
            Message("From an old lamp in murky water to a new one in clear: {range} of the "
                    "light pass 1 cm. The working is that of the best.", passes)
        )  # fmt: skip
    order = sorted(verdicts, key=lambda one: WORST_FIRST.index(one[0]))
    change_on = None
    if since is not None:
        change_on = change_day(since, life or rules.lamp_life)
    return LampAnswer(tuple(order), dose, change_on, tuple(remarks), steps)


def _by_volume(power: float, volume: float, watts: float) -> tuple[Severity, Message]:
    """By the trade's watts for so much water: a rule of thumb never makes a lamp right."""
    needed = watts * volume / A_THOUSAND_LITRES
    values = {"power": Amount(power, "W"), "needed": Amount(needed, "W"),
              "volume": Amount(volume, "m3")}  # fmt: skip
    if power < needed:
        words = "{power} is little for {volume}: the rule of thumb asks for {needed}."
        return "wrong", Message(words, values)
    words = "By the rule of thumb {power} is enough for {volume}, which asks for {needed}."
    return "unknown", Message(words, values)


def _by_flow(flow: float, most: float) -> tuple[Severity, Message]:
    values = {"flow": Amount(flow, "m3/s"), "most": Amount(most, "m3/s")}
    if flow > most:
        words = "{flow} is too fast: its maker allows {most}. Lead the rest past it."
        return "wrong", Message(words, values)
    return "right", Message("{flow} is no more than its maker allows.", values)


def _by_dose(dose: tuple[float, float], wanted: float) -> tuple[Severity, Message]:
    values: dict[str, Value] = {"wanted": Amount(wanted, "J/m2"), "range": Range(*dose, "J/m2")}
    if dose[1] < wanted:
        words = "The dose is {range}, and {wanted} is wanted: slower water, or more light."
        return "wrong", Message(words, values)
    words = (
        "The dose is {range}, and {wanted} is wanted against green water."
        if dose[0] >= wanted
        else "The dose is {range}: whether it reaches the {wanted} wanted is not known."
    )
    return "unknown", Message(words, values)
