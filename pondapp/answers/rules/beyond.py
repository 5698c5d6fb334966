"""A plain remark beside a number that is outside what a garden pond can be."""

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message


def beyond_power(power: float, rules: Assumptions) -> Message | None:
    """A remark on watts [W] that no pump for a garden pond draws."""
    most = rules.pumps.power_most
    if power <= most:
        return None
    return Message(
        "Hardly a pump for a garden pond draws more than {most}: check the numbers behind this.",
        {"most": Amount(most, "W")},
    )


def beyond_volume(volume: float, rules: Assumptions) -> Message | None:
    """A remark on more water [m3] than a garden pond holds."""
    most = rules.water.volume_most
    if volume <= most:
        return None
    return Message(
        "Hardly a garden pond holds more than {most}: check its sides, its depth and their units.",
        {"most": Amount(most, "m3")},
    )
