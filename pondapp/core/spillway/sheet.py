"""How thick a sheet of water is, from its flow, and how wide a lip the flow feeds."""

from math import cbrt

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.hydraulics.solve import root
from pondapp.core.spillway.weirs import WeirFlow, weir_flow_rehbock

THINNEST = 0.0005  # m; a film: no weir formula means anything there
THICKEST = 2.0  # m
BRINK_SHARE = 0.715  # of the critical depth, at the edge of a level floor; from memory: Rouse


def head_over_lip(flow: float, width: float, crest_height: float) -> WeirFlow:
    """Depth of the water behind a lip that carries a flow.

    Args:
        flow: Flow over the lip [m3/s], above 0 to 1e3.
        width: Width of the lip [m], 0.01 to 100.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100.

    Returns:
        The state of the lip: its head [m], and the warnings of the formula.

    Raises:
        OutOfRange: An argument is outside its range.
        NoSolution: The water makes no closed sheet, or more than two metres of head.

    Source:
        Rehbock's formula (weir_flow_rehbock), solved for the head (root).

    Example:
        By the rule of 4.14 L/s for each metre of lip:

        >>> lip = head_over_lip(4.1399e-3, 1.0, 0.3)
        >>> round(1000.0 * lip.head, 1)  # mm
        16.2
    """
    require_above("flow", flow, 0.0, 1e3, "m3/s")

    def surplus(head: float) -> float:
        return weir_flow_rehbock(head, width, crest_height).flow - flow

    if surplus(THINNEST) > 0.0:
        raise NoSolution(
            "{flow} over a lip of {width} is a film thinner than {thin}, not a sheet",
            flow=Amount(flow, "m3/s"),
            width=Amount(width, "width"),
            thin=Amount(THINNEST, "m"),
        )
    if surplus(THICKEST) < 0.0:
        raise NoSolution(
            "{flow} over a lip of {width} would stand higher than {thick} behind it",
            flow=Amount(flow, "m3/s"),
            width=Amount(width, "width"),
            thick=Amount(THICKEST, "m"),
        )
    head = root(surplus, THINNEST, THICKEST, 0.0)
    return weir_flow_rehbock(head, width, crest_height)


def critical_depth(flow_per_width: float) -> float:
    """Depth at which a flow passes a level floor with the least energy.

    Args:
        flow_per_width: Flow over width [m2/s], 0 to 10.

    Returns:
        Critical depth [m].

    Raises:
        OutOfRange: The argument is outside its range.

    Source:
        yc = (q² / g)^(1/3); any textbook of hydraulics.

    Example:
        5 L/s for each metre:

        >>> round(1000.0 * critical_depth(0.005), 2)  # mm
        13.66
    """
    require_within("flow per width", flow_per_width, 0.0, 10.0, "m2/s")
    return cbrt(flow_per_width**2 / GRAVITY)


def brink_depth(flow_per_width: float) -> float:
    """Thickness of the sheet right at the edge of a level lip.

    Args:
        flow_per_width: Flow over width [m2/s], 0 to 10.

    Returns:
        Thickness at the edge [m]; less than the head behind the lip.

    Raises:
        OutOfRange: The argument is outside its range.

    Source:
        ye = 0.715 yc, free overfall from a level floor: H. Rouse, Discharge characteristics of the
        free overfall, Civil Engineering 6 (1936), from memory.

    Example:
        >>> round(1000.0 * brink_depth(0.005), 2)  # mm
        9.77
    """
    return BRINK_SHARE * critical_depth(flow_per_width)


def width_fed(flow: float, flow_per_width: float) -> float:
    """Width of lip that a flow feeds.

    Args:
        flow: Flow at hand [m3/s], 0 to 1e3.
        flow_per_width: Flow of a good sheet over its width [m2/s], 1e-6 to 1; times the low
            factor for the widest lip, times the high factor for the narrowest.

    Returns:
        Width [m].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        b = Q / q (definition); the rule is common practice.

    Example:
        4000 L/h by the rule of 4 m³/h for 30 cm:

        >>> round(width_fed(4.0 / 3600, 4.0 / 3600 / 0.30), 2)
        0.3
    """
    require_within("flow", flow, 0.0, 1e3, "m3/s")
    require_within("flow per width", flow_per_width, 1e-6, 1.0, "m2/s")
    return flow / flow_per_width
