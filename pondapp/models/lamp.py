"""The UV lamp of a pond, by its label."""

from typing import Annotated

from pydantic import Field

from pondapp.models.base import Day, Document
from pondapp.models.circuit import FlowAmount


class UvLamp(Document):
    """A lamp, as far as its owner entered it."""

    power_w: Annotated[float, Field(gt=0, le=1000)]
    uvc_w: Annotated[float, Field(gt=0, le=500)] | None = None
    """Its UV-C light, if its maker says so."""
    flow_m3_s: FlowAmount | None = None
    """Water that passes it; none is all that is planned."""
    most_flow_m3_s: FlowAmount | None = None
    """That its maker allows."""
    path_m: Annotated[float, Field(ge=0.002, le=0.5)] | None = None
    """From its glass to the wall of the chamber."""
    life_s: Annotated[float, Field(ge=100 * 3600, le=50_000 * 3600)] | None = None
    """Hours that its label gives it; none go by the rule."""
    lit_since: Day | None = None
    """When it was new."""
