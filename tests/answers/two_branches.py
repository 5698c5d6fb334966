"""A pond of two branches on one pump, which several tests of flows and valves begin from."""

from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

LPH = 1 / 3.6e6
HOSE = Pipe(series="hose, mm", size="25 mm", length_m=4.0)
LINE = Line(
    id="line",
    name="Pump",
    pump_id="pump",
    main=Pipe(series="hose, mm", size="32 mm", length_m=3.0),
    branches=(
        Branch(id="a", name="To bog", pipe=HOSE, lift_m=0.3, valve="ball", feeds=("bog",)),
        Branch(id="b", name="To lip", pipe=HOSE, lift_m=0.8, valve="gate", feeds=("lip",)),
    ),
)
POND = Pond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=1.0),
    fed=(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),
        Lip(id="lip", name="Lip", width_m=0.15),
    ),
    lines=(LINE,),
    pumps=(Pump(id="pump", name="Pump A", max_flow_m3_s=4000 * LPH, max_head_m=3.0),),
)
