"""A pump that stands still: how long the oxygen lasts, and when the filter suffers."""

from dataclasses import dataclass
from math import floor, inf

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.keeping.pond_volume import area_in_doubt
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step, Term
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.constants import HOUR
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount, Message, Range
from pondapp.core.stock.biomass import FishGroup, biomass
from pondapp.core.stock.oxygen import saturation_at_altitude
from pondapp.core.stock.respiration import respiration
from pondapp.core.stock.span import NOTHING, Span, exactly
from pondapp.core.stock.still_water import STILL, time_to_oxygen

ALL_NIGHT = 12.0 * HOUR  # s: by then there is light again
MOST_OXYGEN = 2.0  # of what air gives; algae in the sun hardly bring more. Common practice


@dataclass(frozen=True, slots=True)
class PumpOff:
    """What happens while the pump stands still.

    Attributes:
        severity: How bad it is.
        verdict: In a sentence.
        worry: Until there is less oxygen than fish should have [s]: soonest, likely, latest; inf
            where the surface keeps it up.
        danger: Until fish are in danger [s], likewise.
        filter_suffers: When the bacteria of a filter begin to die [s]; none without a filter.
        remarks: What is assumed.
        steps: The working of the likely values.
    """

    severity: Severity
    verdict: Message
    worry: tuple[float, float, float]
    danger: tuple[float, float, float]
    filter_suffers: float | None
    remarks: tuple[Message, ...]
    steps: tuple[Step, ...]


def pump_off(
    worked: WorkedPond, *, temperature: float, oxygen: float | None, area: float | None
) -> PumpOff:
    """How long a pond bears a pump that stands still, at night and without wind to count on.

    Args:
        worked: The pond with its fish.
        temperature: Of the water [K].
        oxygen: In the water now [kg/m3]; none by the rules.
        area: Open water [m2]; none counts as none.

    Raises:
        PondError: A number is outside its range, or the ranges of a rule do not rise.
    """
    pond, rules = worked.pond, worked.rules.stock
    volume = water_volume(pond)
    saturation = saturation_at_altitude(temperature, pond.altitude_m)
    full = saturation.concentration
    remarks = list(area_in_doubt(worked, area))
    if oxygen is not None and oxygen > MOST_OXYGEN * full:
        raise OutOfRange(
            "{oxygen} of oxygen cannot be: in air such water takes up {full}. A meter may show "
            "percent of that",
            oxygen=Amount(oxygen, "kg/m3"),
            full=Amount(full, "kg/m3"),
        )
    if temperature < worked.rules.care.ice_below and area is not None:
        remarks.append(
            Message(
                "No air comes through ice: count as open water only what is free of it. Keep a "
                "hole open, and never break ice with blows."
            )
        )
    if oxygen is None:
        shares = Span(rules.night_oxygen_low, rules.night_oxygen_likely, rules.night_oxygen_high)
        start = shares.times(full)
        assumed = {"range": Range(start.low, start.high, "kg/m3")}
        remarks.append(Message("Oxygen is not measured: {range} is assumed.", assumed))
    else:
        start = exactly(oxygen)
    fish = NOTHING
    if pond.fish:
        groups = tuple(FishGroup(group.count, group.length_m) for group in pond.fish)
        fish = respiration(biomass(groups, rules).total, temperature, rules)
    else:
        remarks.append(Message("No fish are entered, so none are counted."))
    if area is None:
        remarks.append(Message("The open water is not known: no air through it is counted."))
    mud = Span(rules.mud_oxygen_low, rules.mud_oxygen_likely, rules.mud_oxygen_high)
    warmth = rules.respiration_q10 ** ((temperature - 293.15) / 10.0)
    # Without a surface that is known, a pond a metre deep says how much mud there is.
    use = fish.plus(mud.times(warmth * (volume if area is None else area)))
    still = Span(rules.surface_exchange_low, rules.surface_exchange_likely,
                 rules.surface_exchange_high).times(area or 0.0)  # fmt: skip

    def until(limit: float) -> tuple[float, ...]:
        """Soonest with least oxygen and most use, latest the other way round."""
        cases = (
            (still.low, start.low, use.high),
            (still.likely, start.likely, use.likely),
            (still.high, start.high, use.low),
        )
        return tuple(
            time_to_oxygen(volume, air, full, at_first, limit, used)
            for air, at_first, used in cases
        )

    exact = until(rules.oxygen_danger)
    worry, danger = _not_later(until(rules.oxygen_wanted)), _not_later(exact)
    severity, verdict = _verdict(danger, bool(pond.fish))
    alive = any(kind_of(feature).alive for feature in pond.fed)
    used = Term("R", "oxygen that fish, mud and plants use", use.likely, "kg/s")
    step = Step(
        Term("t", "time until fish are in danger", min(exact[1], 1e9), "s"),
        "t = (V / K) ln((C0 - Ce) / (C - Ce)), Ce = Cs - R / K",
        (Term("V", "water in the pond", volume, "m3"),
         Term("K", "exchange through the surface", still.likely, "m3/s"),
         Term("C0", "oxygen at the start", start.likely, "kg/m3"),
         Term("C", "oxygen below which fish are in danger", rules.oxygen_danger, "kg/m3"),
         used),
        STILL,
    )  # fmt: skip
    steps = (*saturation.steps(), *((step,) if danger[1] < inf else ()))
    suffers = rules.filter_bears if alive else None
    return PumpOff(severity, verdict, worry, danger, suffers, tuple(remarks), steps)


def _not_later(times: tuple[float, ...]) -> tuple[float, float, float]:
    """Rounded down to what such an estimate is worth: minutes, tenths of an hour, hours."""

    def rounded(time: float) -> float:
        step = 60.0 if time < HOUR else 0.1 * HOUR if time < 10.0 * HOUR else HOUR
        return time if time == inf else step * floor(time / step)

    low, likely, high = (rounded(time) for time in times)
    return low, likely, high


def _verdict(danger: tuple[float, float, float], fish: bool) -> tuple[Severity, Message]:
    """How soon somebody has to do something; never right, since all of it is assumed."""
    soonest, likely, _ = danger
    if soonest <= 0.0:
        return "danger", Message("The fish are in danger now: bring in air at once.")
    if likely < ALL_NIGHT:
        return "danger", Message(
            "The fish can be in danger after {soonest}, likely after {likely}: bring in air before "
            "that.",
            {"soonest": Amount(soonest, "s"), "likely": Amount(likely, "s")},
        )
    if soonest < ALL_NIGHT:
        return "wrong", Message(
            "The fish may be in danger after {time}: bring in air to be safe.",
            {"time": Amount(soonest, "s")},
        )
    if not fish:
        return "unknown", Message(
            "How long the oxygen lasts is not known without the fish: bring in air to be safe."
        )
    return "unknown", Message(
        "By what is entered the oxygen lasts the night, but that is not sure: bring in air if you "
        "can, and look at the fish at dawn, when there is least."
    )
