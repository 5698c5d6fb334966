"""Pipes with slots under a bed: how much pipe, and how many slots let the water out."""

from dataclasses import dataclass
from math import ceil, sqrt

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import ARITHMETIC, COMMON_PRACTICE, Step, Term

ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class SlottedPipes:
    """Pipes side by side under a square bed.

    Attributes:
        side: Side of the bed [m].
        pipes: How many lie side by side.
        length: Length of all of them [m].
        slots: How many slots let the water out.
        apart: From one slot to the next [m].
        flow: Flow [m3/s].
        speed: Speed in the slots [m/s].
        slot_width: Width of a slot [m].
        slot_length: Length of a slot [m].
    """

    side: float
    pipes: int
    length: float
    slots: int
    apart: float
    flow: float
    speed: float
    slot_width: float
    slot_length: float

    @property
    def open_area(self) -> float:
        """Area of all slots [m2]."""
        return self.slots * self.slot_width * self.slot_length

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "flow through the bed", self.flow, "m3/s")
        speed = Term("v", "speed in the slots", self.speed, "m/s")
        wide = Term("w", "width of a slot", self.slot_width, "small")
        long = Term("l", "length of a slot", self.slot_length, "small")
        count = Term("n", "slots", float(self.slots), "-")
        pipe = Term("L", "length of all pipes", self.length, "m")
        apart = Term("s", "from one slot to the next", self.apart, "small")
        return (
            Step(count, "n = Q / (v w l), rounded up", (flow, speed, wide, long), COMMON_PRACTICE),
            Step(apart, "s = L / n", (pipe, count), ARITHMETIC),
        )


def slotted_pipes(
    flow: float, area: float, spacing: float, speed: float, slot_width: float, slot_length: float
) -> SlottedPipes:
    """Pipes with slots for a bed, which is taken for a square.

    Args:
        flow: Flow through the bed [m3/s], above 0 to 10.
        area: Area of the bed seen from above [m2], 1e-6 to 1e5.
        spacing: From one pipe to the next [m], 0.05 to 5.
        speed: Speed of the water in the slots [m/s], 0.001 to 5.
        slot_width: Width of a slot [m], 0.0005 to 0.05.
        slot_length: Length of a slot [m], 0.005 to 1.

    Returns:
        Pipes and slots: at least one pipe and one slot.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Open area is flow over speed; spacing and speed are common practice.

    Example:
        1000 L/h into half a square metre at 5 cm/s, slots of 3 by 50 mm:

        >>> found = slotted_pipes(1.0 / 3600.0, 0.5, 0.4, 0.05, 0.003, 0.05)
        >>> found.pipes, round(found.length, 2), found.slots
        (2, 1.41, 38)
    """
    require_above("flow through the bed", flow, 0.0, 10.0, "m3/s")
    require_within("area of the bed", area, 1e-6, 1e5, "m2")
    require_within("from one pipe to the next", spacing, 0.05, 5.0, "width")
    require_within("speed in the slots", speed, 0.001, 5.0, "m/s")
    require_within("width of a slot", slot_width, 0.0005, 0.05, "small")
    require_within("length of a slot", slot_length, 0.005, 1.0, "small")
    side = sqrt(area)
    pipes = max(1, ceil(side / spacing * (1.0 - ROUNDING)))
    slots = ceil(flow / (speed * slot_width * slot_length) * (1.0 - ROUNDING))
    length = pipes * side
    return SlottedPipes(
        side, pipes, length, slots, length / slots, flow, speed, slot_width, slot_length
    )
