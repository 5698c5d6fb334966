"""UV lamps: the dose that water gets while it passes one."""

from dataclasses import dataclass
from math import exp, log

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import Source, Step, Term

RADIAL = Source(
    "light of a long lamp spread over rings around it, taken up on its way, water well mixed",
    "computed",
)


@dataclass(frozen=True, slots=True)
class LampDose:
    """What the water gets.

    Attributes:
        dose: Mean dose [J/m2].
        uvc: UV-C light of the lamp [W].
        flow: Water that passes [m3/s].
        path: Way of the light from the sleeve to the wall [m].
        clearness: Share of UV-C that passes 1 cm of this water [-].
    """

    dose: float
    uvc: float
    flow: float
    path: float
    clearness: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return (
            Step(
                Term("H", "mean dose", self.dose, "J/m2"),
                "H = P (1 - exp(-a d)) / (a Q), a = -ln(T) / 1 cm",
                (
                    Term("P", "UV-C light of the lamp", self.uvc, "W"),
                    Term("d", "from the sleeve to the wall", self.path, "small"),
                    Term("T", "UV-C that passes 1 cm of water", self.clearness, "share"),
                    Term("Q", "flow", self.flow, "m3/s"),
                ),
                RADIAL,
            ),
        )


def lamp_dose(uvc: float, flow: float, path: float, clearness: float) -> LampDose:
    """Mean dose of UV-C of the water that passes a lamp in a round chamber.

    Args:
        uvc: UV-C light of the lamp [W], above 0 to 1000.
        flow: Water that passes [m3/s], above 0 to 10.
        path: Way of the light from the sleeve to the wall [m], above 0 to 1.
        clearness: Share of UV-C that passes 1 cm of this water [-], 0.01 to 1.

    Returns:
        Dose [J/m2]; 10 J/m2 is 1 mJ/cm2.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        A lamp of length L gives P exp(-a (r - r0)) / (2 pi r L) at the distance r; its mean over a
        chamber of volume V is P (1 - exp(-a d)) / (a V), and water stays for V / Q. So the volume
        drops out: H = P (1 - exp(-a d)) / (a Q). Walls that throw light back are not counted.

    Example:
        4 W of UV-C, 2000 L/h, 25 mm, water that lets 70 % through a centimetre:

        >>> round(lamp_dose(4.0, 2.0 / 3600.0, 0.025, 0.7).dose)
        119
    """
    require_above("UV-C light of the lamp", uvc, 0.0, 1000.0, "W")
    require_above("flow", flow, 0.0, 10.0, "m3/s")
    require_above("way of the light", path, 0.0, 1.0, "small")
    require_within("UV-C that passes 1 cm of water", clearness, 0.01, 1.0, "share")
    taken_up = -100.0 * log(clearness)  # 1/m
    way = (1.0 - exp(-taken_up * path)) / taken_up if taken_up > 1e-9 else path
    return LampDose(uvc * way / flow, uvc, flow, path, clearness)
