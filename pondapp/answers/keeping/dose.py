"""Salt, or what a label wants, for a pond whose volume nobody knows to the litre."""

from dataclasses import dataclass
from math import floor

from pondapp.answers.keeping.pond_volume import PondVolume, volume_span
from pondapp.answers.keeping.water_change import label_step
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step
from pondapp.core.base.messages import Message
from pondapp.core.dosing.dechlorinator import dose_by_label
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.stock.span import Span

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
    "by these numbers more than a hundredth of the pond would be this product: one of them is "
    "mistyped, or the unit is another"
)
TINY = Message("that is too little to be measured out: look at the label and its unit once more")


@dataclass(frozen=True, slots=True)
class Dose:
    """How much to put in.

    Attributes:
        amount: For the least, the likely and the most water [kg], or in the label's unit [-].
        volume: The water.
        remarks: What to mind before it goes in.
        other: In the label's unit, if the label means the other gallon [-]; none for litres.
        steps: The working for the least water: what is safe to put in at first.
        withheld: Whether no amount is to be told: no pond bears it, or nobody can measure it out.
    """

    amount: Span
    volume: PondVolume
    remarks: tuple[Message, ...]
    steps: tuple[Step, ...]
    withheld: bool = False
    other: float | None = None


def salt_for(worked: WorkedPond, before: float, wanted: float) -> Dose:
    """Salt [kg] that brings a pond from one content to another [kg/m3].

    Raises:
        PondError: There is more in it than wanted, or a number is outside its range.
    """
    volume, stock = volume_span(worked), worked.rules.stock
    span = volume.span
    doses = [
        salt_dose(one, before, wanted, stock.salt_caution, stock.salt_most)
        for one in (span.low, span.likely, span.high)
    ]
    amount = Span(*(one.mass for one in doses))
    return Dose(
        amount, volume, doses[0].warnings, doses[0].steps(), withheld=wanted > stock.salt_most
    )


def dose_for(
    worked: WorkedPond, label_dose: float, label_water: float, unit: str, dosed_in: str = "ml"
) -> Dose:
    """A product by its label, which gives so much for so many of a unit of water.

    Raises:
        PondError: A number is outside its range.
    """
    volume = volume_span(worked)
    span, per = volume.span, label_water * WATER_UNITS[unit]
    low, likely, high = (
        dose_by_label(one, label_dose, per) for one in (span.low, span.likely, span.high)
    )
    other = None
    if unit in OTHER_GALLON:
        other = dose_by_label(span.low, label_dose, label_water * WATER_UNITS[OTHER_GALLON[unit]])
    each = label_dose * MILLILITRES.get(dosed_in, 1.0) / per
    slip = each > MISTYPED
    tiny = measured_out(low, dosed_in) <= 0.0
    remark = SLIP if slip else TINY if tiny else STRONG if each > STRONGEST else None
    return Dose(Span(low, likely, high), volume, (remark,) if remark else (),
                (label_step(span.low, label_dose, per, low),), withheld=slip or tiny,
                other=other)  # fmt: skip


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
