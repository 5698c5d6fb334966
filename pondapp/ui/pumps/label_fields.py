"""What a pump's label promises."""

from pondapp.models.base import limits_of
from pondapp.models.circuit import Pump
from pondapp.ui.parts.form import QuantityField

PUMP_FLOW = QuantityField(
    "pump_flow", "Largest flow on the label", "flow", limits_of(Pump, "max_flow_m3_s")
)
PUMP_HEAD = QuantityField(
    "pump_head", "Largest head on the label", "head", limits_of(Pump, "max_head_m")
)
PUMP_WATTS = QuantityField("pump_watts", "Power", "power", limits_of(Pump, "power_w"))
