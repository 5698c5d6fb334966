"""What a water test says: the toxic share of ammonia, oxygen saturation, and what is off."""

from dataclasses import dataclass

from pondapp import units
from pondapp.core.assumptions import Assumptions
from pondapp.core.constants import ZERO_CELSIUS
from pondapp.core.errors import OutOfRange
from pondapp.core.messages import Amount, Message, Value
from pondapp.core.stock.ammonia import AmmoniaReading, read_ammonia
from pondapp.core.stock.oxygen import salt_water_share, saturation_at_altitude
from pondapp.core.working import Step
from pondapp.models.entry import WaterTest
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that the test says."""

    good: bool
    sentence: Message


@dataclass(frozen=True, slots=True)
class WaterReport:
    """A test, worked out.

    Attributes:
        toxic_share: Share of the ammonia that poisons fish [-].
        toxic: Un-ionised ammonia nitrogen [kg/m3].
        oxygen_full: Oxygen that this water can hold [kg/m3].
        oxygen_share: Oxygen over that [-].
        remarks: What is off first, then what is well.
        steps: The working.
    """

    toxic_share: float | None
    toxic: float | None
    oxygen_full: float | None
    oxygen_share: float | None
    remarks: tuple[Remark, ...]
    steps: tuple[Step, ...]

    @property
    def good(self) -> bool:
        """Whether nothing is off."""
        return all(remark.good for remark in self.remarks)


def _percent(share: float) -> str:
    number = units.significant(100 * share, 2) if share < 1 else units.fixed(100 * share, 0)
    return f"{number} %"


def read_test(test: WaterTest, pond: Pond) -> WaterReport:
    """Work a test out with the pond's altitude; its temperature stands in for one not read.

    Raises:
        PondError: A changed rule cannot be.
    """
    rules = Assumptions().changed(pond.assumptions)
    warmth = pond.water_temperature_c if test.temperature_c is None else test.temperature_c
    kelvin = warmth + ZERO_CELSIUS
    remarks: list[Remark] = []
    steps: list[Step] = []
    ammonia = _ammonia(test, kelvin, rules)
    if ammonia is not None:
        remarks.append(_of_ammonia(ammonia))
        steps += ammonia.steps()
    elif test.total_ammonia_kg_m3:
        remarks.append(
            Remark(False, Message("Read the pH too: it says how much of the ammonia is toxic."))
        )
    full = _full_of_oxygen(test, kelvin, pond.altitude_m)
    share = None
    if test.oxygen_kg_m3 is not None and full is not None:
        share = test.oxygen_kg_m3 / full
    if test.oxygen_kg_m3 is not None:
        remarks.append(_of_oxygen(test.oxygen_kg_m3, share, rules.stock.oxygen_wanted))
    remarks += _of_ranges(test, rules)
    if test.temperature_c is not None and kelvin > rules.stock.feed_until:
        remarks.append(
            Remark(False, Message(
                "{value} is warm: do not feed, aerate, and shade the pond.",
                {"value": Amount(kelvin, "K")},
            ))
        )  # fmt: skip
    if test.temperature_c is None and (ammonia is not None or share is not None):
        remarks.append(
            Remark(True, Message(
                "Worked out with {value}, the pond's usual temperature.",
                {"value": Amount(kelvin, "K")},
            ))
        )  # fmt: skip
    return WaterReport(
        toxic_share=ammonia.share if ammonia else None,
        toxic=ammonia.unionised if ammonia else None,
        oxygen_full=full if test.oxygen_kg_m3 is not None else None,
        oxygen_share=share,
        remarks=tuple(sorted(remarks, key=lambda remark: remark.good)),
        steps=tuple(steps),
    )


def _ammonia(test: WaterTest, kelvin: float, rules: Assumptions) -> AmmoniaReading | None:
    """None also where the formula does not reach."""
    if test.total_ammonia_kg_m3 is None or test.ph is None:
        return None
    try:
        limit = rules.stock.unionised_limit
        return read_ammonia(test.total_ammonia_kg_m3, kelvin, test.ph, limit)
    except OutOfRange:
        return None


def _full_of_oxygen(test: WaterTest, kelvin: float, altitude: float) -> float | None:
    """Oxygen that this water can hold [kg/m3]; None where the formula does not reach."""
    try:
        fresh = saturation_at_altitude(kelvin, altitude).concentration
        return fresh * salt_water_share(kelvin, test.salt_kg_m3 or 0.0)
    except OutOfRange:
        return None


def _of_ammonia(found: AmmoniaReading) -> Remark:
    values: dict[str, Value] = {
        "share": _percent(found.share),
        "free": Amount(found.unionised, "kg/m3"),
        "limit": Amount(found.limit, "kg/m3"),
    }
    if found.unionised > found.limit:
        return Remark(False, Message(
            "Toxic ammonia is {free}, {share} of the total, above {limit}: stop feeding, aerate, "
            "and change water in portions.", values,
        ))  # fmt: skip
    words = "Toxic ammonia is {free}, {share} of the total; up to {limit} is borne."
    return Remark(True, Message(words, values))


def _of_oxygen(oxygen: float, share: float | None, wanted: float) -> Remark:
    values: dict[str, Value] = {
        "oxygen": Amount(oxygen, "kg/m3"),
        "wanted": Amount(wanted, "kg/m3"),
    }
    if share is not None:
        values["share"] = _percent(share)
        words = (
            "Oxygen is {oxygen}, {share} of what this water can hold, below {wanted}: aerate now "
            "and do not feed."
            if oxygen < wanted
            else "Oxygen is {oxygen}, {share} of what this water can hold."
        )
    else:
        words = (
            "Oxygen is {oxygen}, below {wanted}: aerate now and do not feed."
            if oxygen < wanted
            else "Oxygen is {oxygen}."
        )
    return Remark(oxygen >= wanted, Message(words, values))


def _of_ranges(test: WaterTest, rules: Assumptions) -> list[Remark]:
    """The values that are judged by a range alone."""
    water, stock = rules.water, rules.stock
    found: list[Remark | None] = [
        _between(
            test.ph, water.ph_low, water.ph_high, "-", "pH",
            "{name} {value} is low, below {limit}: check the carbonate hardness before anything "
            "else.",
            "{name} {value} is high, above {limit}: ammonia is more toxic now; look for algae, "
            "concrete or limestone.",
        ),
        _between(
            test.nitrite_kg_m3, None, water.nitrite_most, "kg/m3", "Nitrite", "",
            "{name} is {value}, above {limit}: feed less, change water in portions, and do not "
            "clean the filter hard.",
        ),
        _between(
            test.nitrate_kg_m3, None, water.nitrate_most, "kg/m3", "Nitrate", "",
            "{name} is {value}, above {limit}: change water and let plants grow.",
        ),
        _between(
            test.general_hardness_kg_m3, water.general_hardness_low,
            water.general_hardness_high, "hardness", "General hardness",
            "{name} is {value}, below {limit}: the water is very soft.",
            "{name} is {value}, above {limit}: the water is very hard; top up with rain water.",
        ),
        _between(
            test.carbonate_hardness_kg_m3, water.carbonate_hardness_low, None, "hardness",
            "Carbonate hardness",
            "{name} is {value}, below {limit}: the pH can fall suddenly, and the filter starves.",
            "",
        ),
    ]  # fmt: skip
    salt = test.salt_kg_m3
    if salt is not None and salt > stock.salt_caution:
        most = salt > stock.salt_most
        limit = stock.salt_most if most else stock.salt_caution
        words = (
            "Salt is {value}, above {limit}, the most for a pond with fish in it: change water."
            if most
            else "Salt is {value}: plants suffer from {limit} on."
        )
        values = {"value": Amount(salt, "kg/m3"), "limit": Amount(limit, "kg/m3")}
        found.append(Remark(not most, Message(words, values)))
    return [remark for remark in found if remark is not None]


def _between(
    value: float | None, low: float | None, high: float | None, unit: str, name: str,
    too_low: str, too_high: str,
) -> Remark | None:  # fmt: skip
    """A remark on a value outside its range; none where it was not read or all is well."""
    if value is None:
        return None
    if low is not None and value < low:
        words, limit = too_low, low
    elif high is not None and value > high:
        words, limit = too_high, high
    else:
        return None
    values: dict[str, Value] = {
        "name": name,
        "value": Amount(value, unit),
        "limit": Amount(limit, unit),
    }
    return Remark(False, Message(words, values))
