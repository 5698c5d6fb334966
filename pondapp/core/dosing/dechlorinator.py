"""Chlorine in tap water: what binds it, and what chloramine leaves behind."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.dosing.molar_masses import (
    ASCORBIC_ACID,
    CHLORINE_GAS,
    NITROGEN,
    THIOSULFATE,
    THIOSULFATE_CRYSTALS,
)

Route = Literal["tetrathionate", "sulfate"]

STOICHIOMETRY = Source("mass balance of the reaction, standard atomic weights", "computed")

LABEL_FIRST = Message(
    "a bottled conditioner has its own strength: its label goes before any sum done here"
)

# Moles of thiosulfate for one mole of chlorine.
_MOLES: dict[Route, float] = {"tetrathionate": 2.0, "sulfate": 0.25}


def thiosulfate_ratio(crystals: bool, route: Route) -> float:
    """Thiosulfate that binds a mass of chlorine.

    Args:
        crystals: Whether it is the usual crystals with five waters, or the dry powder [-].
        route: "tetrathionate" (2 Na2S2O3 + Cl2, the larger and careful dose) or "sulfate"
            (Na2S2O3 + 4 Cl2, much chlorine in alkaline water) [-].

    Returns:
        Mass of thiosulfate over mass of chlorine [-].

    Source:
        By the first route 2 Na2S2O3 + Cl2 -> Na2S4O6 + 2 NaCl, by the other Na2S2O3 + 4 Cl2 + 5 H2O
        -> 2 NaHSO4 + 8 HCl; mass ratio by standard atomic weights (IUPAC 2007). An analytical
        support note prints 7.0 for crystals by the first.

    Example:
        Crystals as they are sold, in neutral water:

        >>> round(thiosulfate_ratio(crystals=True, route="tetrathionate"), 2)
        7.0
    """
    mass = THIOSULFATE_CRYSTALS if crystals else THIOSULFATE
    return _MOLES[route] * mass / CHLORINE_GAS


def ascorbic_acid_ratio() -> float:
    """Vitamin C that binds a mass of chlorine.

    Returns:
        Mass of ascorbic acid over mass of chlorine [-].

    Source:
        M(C6H8O6) / M(Cl2), one mole to one mole; standard atomic weights (IUPAC 2007).

    Example:
        >>> round(ascorbic_acid_ratio(), 3)
        2.484
    """
    return ASCORBIC_ACID / CHLORINE_GAS


def ammonia_from_chloramine(chlorine: float) -> float:
    """Ammonia nitrogen that monochloramine leaves when its chlorine is bound.

    Args:
        chlorine: Chloramine in the water, counted as chlorine [kg/m3], 0 to 0.1.

    Returns:
        Ammonia nitrogen set free [kg/m3].

    Raises:
        OutOfRange: The chlorine is outside its range.

    Source:
        C M(N) / M(Cl2), one mole of nitrogen for one mole of chlorine; standard atomic weights
        (IUPAC 2007).

    Example:
        1 mg/L of chlorine bound as chloramine sets free 0.198 mg/L of ammonia nitrogen:

        >>> round(1e6 * ammonia_from_chloramine(1e-3), 1)  # µg/L
        197.5
    """
    require_within("chloramine, counted as chlorine", chlorine, 0.0, 0.1, "kg/m3")
    return chlorine * NITROGEN / CHLORINE_GAS


@dataclass(frozen=True, slots=True)
class Dechlorination:
    """Dechlorinator for an amount of tap water.

    Attributes:
        mass: Dechlorinator to add [kg].
        ammonia: Ammonia nitrogen that goes into the pond with chloramine [kg].
        ammonia_rise: What that adds to the whole pond [kg/m3].
        tap_water: Tap water that is added [m3].
        chlorine: Chlorine in it [kg/m3].
        ratio: Mass of dechlorinator over mass of chlorine [-].
        pond_volume: Water in the pond afterwards [m3].
        warnings: What to mind.
    """

    mass: float
    ammonia: float
    ammonia_rise: float
    tap_water: float
    chlorine: float
    ratio: float
    pond_volume: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        water = Term("Vt", "tap water added", self.tap_water, "m3")
        chlorine = Term("C", "chlorine in it", self.chlorine, "kg/m3")
        ratio = Term("r", "dechlorinator over chlorine", self.ratio, "-")
        mass = Term("m", "dechlorinator", self.mass, "kg")
        freed = Term("mN", "ammonia nitrogen set free", self.ammonia, "kg")
        pond = Term("V", "water in the pond", self.pond_volume, "m3")
        rise = Term("ΔTAN", "rise of ammonia nitrogen in the pond", self.ammonia_rise, "kg/m3")
        dose = Step(mass, "m = r C Vt", (ratio, chlorine, water), ARITHMETIC)
        if self.ammonia == 0.0:
            return (dose,)
        return (
            dose,
            Step(freed, "mN = C Vt 14.0067 / 70.906", (chlorine, water), STOICHIOMETRY),
            Step(rise, "ΔTAN = mN / V", (freed, pond), ARITHMETIC),
        )


def dechlorinate(
    tap_water: float, chlorine: float, ratio: float, pond_volume: float, chloramine: bool
) -> Dechlorination:
    """Dechlorinator for tap water that goes into a pond.

    Args:
        tap_water: Tap water that is added [m3], 0 to the pond's volume.
        chlorine: Free chlorine, or chloramine counted as chlorine [kg/m3], 0 to 0.1.
        ratio: Mass of dechlorinator over mass of chlorine [-], above 0 to 100.
        pond_volume: Water in the pond afterwards [m3], 1e-4 to 1e5.
        chloramine: Whether the works use chloramine, which leaves ammonia [-].

    Returns:
        Dechlorinator [kg], and the ammonia nitrogen [kg] that chloramine leaves.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        m = r C V; ammonia by stoichiometry. The ratio is a rule or thiosulfate_ratio.

    Example:
        1 m³ of tap water with 0.5 mg/L of chlorine, for a pond of 5 m³:

        >>> top_up = dechlorinate(1.0, 0.5e-3, 7.0, 5.0, chloramine=False)
        >>> round(1000.0 * top_up.mass, 3)  # g
        3.5
    """
    require_within("pond volume", pond_volume, 1e-4, 1e5, "m3")
    require_within("tap water", tap_water, 0.0, pond_volume, "m3")
    require_within("chlorine in the tap water", chlorine, 0.0, 0.1, "kg/m3")
    require_above("dechlorinator over chlorine", ratio, 0.0, 100.0, "-")
    freed = ammonia_from_chloramine(chlorine) * tap_water if chloramine else 0.0
    rise = freed / pond_volume
    warnings: tuple[Message, ...] = (LABEL_FIRST,)
    if freed > 0.0:
        warnings = (
            LABEL_FIRST,
            Message(
                "the chloramine leaves {freed} of ammonia nitrogen, {rise} in the whole pond: "
                "thiosulfate and vitamin C do not bind it, the filter takes it out; test the water "
                "the day after",
                {"freed": Amount(freed, "kg"), "rise": Amount(rise, "kg/m3")},
            ),
        )
    mass = ratio * chlorine * tap_water
    return Dechlorination(mass, freed, rise, tap_water, chlorine, ratio, pond_volume, warnings)


def dose_by_label(water: float, label_dose: float, label_water: float) -> float:
    """Amount of a bottled product from what its label says for some amount of water.

    Args:
        water: Water to treat [m3], 0 to 1e5.
        label_dose: Dose that the label gives [-], in any unit, above 0 to 1e6.
        label_water: Water that the label gives it for [m3], 1e-6 to 1e5.

    Returns:
        Dose in the label's own unit.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        D = D_label V / V_label, proportion.

    Example:
        The label says 5 mL for 40 L; the pond gets 300 L:

        >>> dose_by_label(0.300, 5.0, 0.040)
        37.5
    """
    require_within("water to treat", water, 0.0, 1e5, "m3")
    require_above("dose on the label", label_dose, 0.0, 1e6, "-")
    require_within("water on the label", label_water, 1e-6, 1e5, "m3")
    return label_dose * water / label_water
