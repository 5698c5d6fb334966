"""Salt: how much to weigh out for a wanted concentration."""

from dataclasses import dataclass

from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Step, Term


@dataclass(frozen=True, slots=True)
class SaltDose:
    """Salt to add.

    Attributes:
        mass: Salt to add [kg].
        volume: Water in the pond [m3].
        before: Salt in the water now [kg/m3].
        wanted: Salt in the water wanted [kg/m3].
        warnings: What to mind before it goes in.
    """

    mass: float
    volume: float
    before: float
    wanted: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("V", "water in the pond", self.volume, "m3"),
            Term("C1", "salt now", self.before, "kg/m3"),
            Term("C2", "salt wanted", self.wanted, "kg/m3"),
        )
        mass = Term("m", "salt to add", self.mass, "kg")
        return (Step(mass, "m = V (C2 - C1)", inputs, ARITHMETIC),)


def salt_dose(volume: float, before: float, wanted: float, caution: float, most: float) -> SaltDose:
    """Salt that brings a pond to a concentration.

    Args:
        volume: Water in the pond [m3], above 0 to 1e5.
        before: Salt in the water now [kg/m3], 0 to 40.
        wanted: Salt in the water wanted [kg/m3], 0 to 40.
        caution: Salt from which plants suffer [kg/m3], 0 to 40.
        most: Most salt for a pond with fish in it [kg/m3], from the caution to 40.

    Returns:
        Salt to add [kg], with warnings above the two limits.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: There is more salt in the water than wanted; only a water change takes it out.

    Source:
        m = V (C2 - C1), conservation of mass. The two limits are rules.

    Example:
        From 0.5 to 1.5 g/L in 10 m³:

        >>> salt_dose(10.0, 0.5, 1.5, 3.0, 5.0).mass
        10.0
    """
    require_above("pond volume", volume, 0.0, 1e5, "m3")
    require_within("salt now", before, 0.0, 40.0, "kg/m3")
    require_within("salt wanted", wanted, 0.0, 40.0, "kg/m3")
    require_within("salt from which plants suffer", caution, 0.0, 40.0, "kg/m3")
    require_within("most salt", most, caution, 40.0, "kg/m3")
    if before > wanted:
        raise NoSolution(
            "the water holds {before} of salt, more than the {wanted} wanted; salt does not go "
            "away by itself: change {share} of the water for fresh water",
            before=Amount(before, "salt"),
            wanted=Amount(wanted, "salt"),
            share=Amount(1.0 - wanted / before, "share"),
        )
    warnings: tuple[Message, ...] = ()
    if wanted > most:
        warnings = (
            Message(
                "{wanted} of salt is more than {most}: a bath of hours under watch, in a vessel "
                "of its own, and not a pond",
                {"wanted": Amount(wanted, "salt"), "most": Amount(most, "salt")},
            ),
        )
    elif wanted > caution:
        warnings = (
            Message(
                "above {caution} of salt plants suffer, a planted bog too; check your species",
                {"caution": Amount(caution, "salt")},
            ),
        )
    return SaltDose(volume * (wanted - before), volume, before, wanted, warnings)
