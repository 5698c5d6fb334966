"""A product by its label: how much for so much water, and what is a slip or cannot be measured."""

from dataclasses import dataclass
from math import floor

from pondapp.answers.rules.working import Step, Term
from pondapp.core.base.messages import Message
from pondapp.core.base.working import ARITHMETIC
from pondapp.core.dosing.dechlorinator import dose_by_label

LITRE, US_GALLON, IMPERIAL_GALLON = 1e-3, 3.785411784e-3, 4.54609e-3  # m3
WATER_UNITS = {"L": LITRE, "usgal": US_GALLON, "impgal": IMPERIAL_GALLON}
"""What a label may count water in [m3]."""
OTHER_GALLON = {"usgal": "impgal", "impgal": "usgal"}
MILLILITRES = {"usfloz": 29.5735295625, "impfloz": 28.4130625, "tsp": 5.0, "drop": 0.05}
"""What else than millilitres a label may dose in; a drop and a spoon are common practice."""
STRONGEST = 2e3  # mL or g to 1 m3: hardly a pond product asks for more; common practice
MISTYPED = 1e4  # mL, g or pieces to 1 m3, a hundredth of the water: no label means that
HALF, QUARTER = 2.0, 4.0  # to one tablet; a large one breaks in two, a quarter is the least
SMALLEST = 0.05  # mL or g: one drop; common practice

STRONG = Message(
    "that is more than pond products ask for: look at the label once more, at how much water it "
    "gives the dose for"
)
SLIP = Message(
    "by these numbers more than a hundredth of the water would be this product: one of them is "
    "mistyped, or the unit is another"
)
TINY = Message("that is too little to be measured out: look at the label and its unit once more")


@dataclass(frozen=True, slots=True)
class LabelDose:
    """How much of a product for an amount of water.

    Attributes:
        amount: In the label's unit [-].
        remark: What is odd about it.
        withheld: Whether no amount is to be told: it is a slip, or nobody can measure it out.
        step: The working.
    """

    amount: float
    remark: Message | None
    withheld: bool
    step: Step


def label_dose(water: float, dose: float, per: float, dosed_in: str) -> LabelDose:
    """By a label that gives a dose, in a unit of its own, for some water [m3].

    Raises:
        PondError: A number is outside its range.
    """
    amount = dose_by_label(water, dose, per)
    each = dose * MILLILITRES.get(dosed_in, 1.0) / per
    slip = each > MISTYPED
    tiny = measured_out(amount, dosed_in) <= 0.0
    remark = SLIP if slip else TINY if tiny else STRONG if each > STRONGEST else None
    step = Step(
        Term("D", "dose, in the unit of the label", amount, "-"), "D = Dl V / Vl",
        (Term("Dl", "dose on the label", dose, "-"),
         Term("V", "water to treat", water, "m3"),
         Term("Vl", "water on the label", per, "m3")),
        ARITHMETIC,
    )  # fmt: skip
    return LabelDose(amount, remark, slip or tiny, step)


def by_other_gallon(amount: float, unit: str) -> float | None:
    """The same dose [-], if the label means the other gallon; none where it counts in litres."""
    other = OTHER_GALLON.get(unit)
    return None if other is None else amount * WATER_UNITS[unit] / WATER_UNITS[other]


def measured_out(amount: float, unit: str) -> float:
    """So much of an amount in the label's unit as can be measured out, and never more; else 0.

    Drops are counted, a tablet is broken in two, and what is less than half of one in four.
    """
    if unit == "drop":
        return float(floor(amount + 1e-9))
    if unit == "tablet":
        part = QUARTER if amount < 1.0 / HALF else HALF
        return floor(part * amount + 1e-9) / part
    return amount if amount * MILLILITRES.get(unit, 1.0) >= SMALLEST else 0.0
