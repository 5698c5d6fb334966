"""Salt, or what a label wants, for a pond whose volume nobody knows to the litre."""

from dataclasses import dataclass

from pondapp.answers.fish.species import SPECIES
from pondapp.answers.keeping.label_dose import WATER_UNITS, by_other_gallon, label_dose
from pondapp.answers.keeping.pond_volume import PondVolume, volume_span
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Step
from pondapp.core.base.messages import Message
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.stock.span import Span
from pondapp.models.pond import Pond
from pondapp.words import t


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
    remarks = (*doses[0].warnings, *bears_less_salt(worked.pond))
    return Dose(amount, volume, remarks, doses[0].steps(), withheld=wanted > stock.salt_most)


def bears_less_salt(pond: Pond) -> tuple[Message, ...]:
    """The fish of this pond that suffer from salt before carp do, as far as they were picked."""
    kinds = {group.species: SPECIES.get(group.species or "") for group in pond.fish}
    names = [t(kind.name) for kind in kinds.values() if kind is not None and not kind.salt]
    if not names:
        return ()
    words = "in this pond, fish that bear less salt than carp: {fish}"
    return (Message(words, {"fish": ", ".join(names)}),)


def dose_for(worked: WorkedPond, dose: float, per: float, unit: str, dosed_in: str = "ml") -> Dose:
    """A product by its label, which gives so much for so many of a unit of water.

    Raises:
        PondError: A number is outside its range.
    """
    volume = volume_span(worked)
    span = volume.span
    least, likely, most = (
        label_dose(water, dose, per * WATER_UNITS[unit], dosed_in)
        for water in (span.low, span.likely, span.high)
    )
    return Dose(
        Span(least.amount, likely.amount, most.amount), volume,
        (least.remark,) if least.remark else (), (least.step,), withheld=least.withheld,
        other=by_other_gallon(least.amount, unit),
    )  # fmt: skip
