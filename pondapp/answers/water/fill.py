"""Volume of a pond that is measured: filled by the clock, salted, or through a water meter."""

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import ARITHMETIC, Term
from pondapp.core.measuring.uncertainty import rectangular
from pondapp.core.volume.fill_methods import FoundVolume as FoundVolume
from pondapp.core.volume.fill_methods import volume_by_salt, volume_by_timed_filling

COVERAGE_FACTOR = 2.0  # JCGM 100:2008, 6.3.3: about 95 %


def likely_range(volume: float, standard_uncertainty: float) -> tuple[float, float]:
    """The range [m3] that holds the true volume in about 95 of 100 cases."""
    half = COVERAGE_FACTOR * standard_uncertainty
    return max(0.0, volume - half), volume + half


def filled_by_clock(
    before: float, after: float | None, time: float, rules: Assumptions
) -> FoundVolume:
    """Volume [m3] from a hose's flow [m3/s] before and, if timed again, after, and the time [s].

    Hours by the clock are known so much better than the flow that their doubt is left out.

    Raises:
        PondError: A number is outside its range.
    """
    last = before if after is None else after
    share = rectangular(rules.measuring.hose_flow_tolerance)
    return volume_by_timed_filling(before, share * before, last, share * last, time, 0.0)


def salted(
    mass: float, before: float, after: float, meter_tolerance: float | None, rules: Assumptions
) -> FoundVolume:
    """Volume [m3] from salt [kg] and the meter's readings [kg/m3] before and after.

    The meter is right within so much [kg/m3] either way, or within the rule's.

    Raises:
        PondError: A number is outside its range, or the rise is lost in the meter's doubt.
    """
    usual = rules.measuring.salt_meter_tolerance
    return volume_by_salt(
        mass,
        mass * rectangular(rules.measuring.salt_mass_tolerance),
        before,
        after,
        rectangular(usual if meter_tolerance is None else meter_tolerance),
        rules.filters.salt_rise_min,
    )


def metered(first: float, last: float, rules: Assumptions) -> FoundVolume:
    """Volume [m3] from a water meter's two readings [m3].

    Raises:
        OutOfRange: The last reading is not above the first.
    """
    if not last > first:
        raise OutOfRange(
            "the meter must show more after the filling, {last}, than before, {first}",
            last=Amount(last, "m3"),
            first=Amount(first, "m3"),
        )
    volume = last - first
    inputs = (
        Term("M1", "meter before", first, "m3"),
        Term("M2", "meter after", last, "m3"),
    )
    doubt = volume * rectangular(rules.measuring.water_meter_tolerance)
    return FoundVolume(volume, doubt, (), inputs, "V = M2 - M1", ARITHMETIC)
