"""A clogged pump or foam: what is left of the flow at the same head."""

from dataclasses import replace

from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import phrase
from pondapp.core.calibration.learned import scaled_run
from pondapp.core.hydraulics.network import Outlet
from pondapp.core.hydraulics.pump_curve import PumpCurve, ScaledCurve

LEAST_LEFT = 0.2
"""Clogged further than that [-], nobody knows how a pump or its foam behaves."""


def clogged_pump(curve: PumpCurve, left: float) -> PumpCurve:
    """The curve of a pump whose inlet, foam or impeller is dirty.

    Args:
        curve: The clean pump.
        left: Share of its flow that it still gives at each head [-], 0.2 to 1.

    Returns:
        Curve of head [m] over flow [m3/s].

    Raises:
        OutOfRange: The share is outside its range.

    Source:
        H(Q) = H_clean(Q / s): the same head at a share s of the flow; definition of the share, as
        dirt counts in the odds of a pump.

    Example:
        At the head at which it gave 2 L/s it gives 1.6 L/s:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> clean = LabelCurve(4.0, 4e-3)
        >>> clogged_pump(clean, 0.8).head_at(1.6e-3) == clean.head_at(2e-3)
        True
    """
    require_within("share that a clogged pump gives", left, LEAST_LEFT, 1.0, "-")
    return curve if left == 1.0 else ScaledCurve(curve, left, 1.0)


def clogged_branch(outlet: Outlet, left: float) -> Outlet:
    """A branch whose filter foam is dirty.

    Args:
        outlet: The branch with clean foam.
        left: Share of the water that comes through at the same head [-], 0.2 to 1.

    Returns:
        The branch; each of its losses [-] is by the square of the share larger.

    Raises:
        OutOfRange: The share is outside its range, or the loss beyond what is worked out.

    Source:
        h = (f L / D + ΣK) v² / 2g (Darcy-Weisbach): with 1 / s² times the loss the same head
        drives s times the flow, as far as the friction factor stays; definition of the share.

    Example:
        Three fifths of the water come through:

        >>> from pondapp.core.hydraulics.run import Run
        >>> fall = Outlet("fall", Run(0.0, 0.040, 0.0, 4.0), 1.0)
        >>> round(clogged_branch(fall, 0.6).run.fittings, 2)
        11.11
    """
    what = phrase("share that passes the clogged foam of {name}", name=outlet.name)
    require_within(what, left, LEAST_LEFT, 1.0, "-")
    if left == 1.0:
        return outlet
    more = left**-2
    return replace(outlet, run=scaled_run(outlet.run, more), valve=outlet.valve * more)
