"""What a lip wants by the rule per width, and how wide a lip the water at hand can feed."""

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.filters.bands import FlowBand


def sheet_band(
    width: float, flow_per_width: float, low_factor: float, high_factor: float
) -> FlowBand:
    """Flow that a lip of a width wants.

    Args:
        width: Width of the lip [m], above 0 to 100.
        flow_per_width: Flow of a good sheet over its width [m2/s], above 0 to 1.
        low_factor: Thinnest sheet that still closes, as a share of the rule [-], above 0 to 1.
        high_factor: Heaviest fall, as a multiple of the rule [-], 1 to 10.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Flow is width times flow per width (definition); the rule is common practice.
    """
    require_above("width of the lip", width, 0.0, 100.0, "width")
    require_above("flow per width", flow_per_width, 0.0, 1.0, "m2/s")
    require_above("share for the thinnest sheet", low_factor, 0.0, 1.0, "-")
    require_within("multiple for the heaviest fall", high_factor, 1.0, 10.0, "-")
    target = width * flow_per_width
    return FlowBand(low_factor * target, target, high_factor * target)


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
        Flow is width times flow per width (definition); the rule is common practice.
    """
    require_within("flow", flow, 0.0, 1e3, "m3/s")
    require_within("flow per width", flow_per_width, 1e-6, 1.0, "m2/s")
    return flow / flow_per_width
