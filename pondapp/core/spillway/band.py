"""How wide a lip the water at hand can feed."""

from pondapp.core.base.errors import require_within


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
