"""Sample ponds that tests begin from, all of them invented."""

from typing import Any

from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

LPH = 1 / 3.6e6
"""A litre an hour [m3/s]."""
BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=0.1)
BOX = HighFlowFilter(id="box", name="Box")
LIP = Lip(id="lip", name="Lip", width_m=0.30)
NARROW_LIP = Lip(id="lip", name="Lip", width_m=0.15)


def invented(*features: object, volume: float = 1.0, **more: Any) -> Pond:
    """A pond of so many cubic metres with these features."""
    water = TypedVolume(volume_m3=volume)
    known = {"id": "p", "name": "Invented", "water": water, "fed": features}
    return Pond.model_validate({**known, **more})


BARE = invented()
"""Water and nothing else."""
TWO_FEATURES = invented(BOG, LIP)
THREE_FEATURES = invented(BOG, BOX, LIP)
"""A bog, and a box whose water falls over a lip, while nobody has said where water runs."""

HOSE = Pipe(series="hose, mm", size="25 mm", length_m=4.0)


def two_branches(to_bog: dict[str, Any], to_lip: dict[str, Any], **more: Any) -> Line:
    """One pump that feeds the bog and the lip, each by its own branch."""
    branches = (
        Branch(id="a", name="To bog", feeds=("bog",), **to_bog),
        Branch(id="b", name="To lip", feeds=("lip",), **to_lip),
    )
    return Line(id="line", name="Pump", branches=branches, **more)


LINE = two_branches(
    {"pipe": HOSE, "lift_m": 0.3, "valve": "ball"},
    {"pipe": HOSE, "lift_m": 0.8, "valve": "gate"},
    pump_id="pump",
    main=Pipe(series="hose, mm", size="32 mm", length_m=3.0),
)
PUMP = Pump(id="pump", name="Pump A", max_flow_m3_s=4000 * LPH, max_head_m=3.0)
TWO_BRANCHES = invented(BOG, NARROW_LIP, lines=(LINE,), pumps=(PUMP,))
"""A bog and a narrow lip on one pump, each behind a valve."""
