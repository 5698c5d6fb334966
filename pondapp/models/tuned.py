"""Flows that belong together: as the valves were set, or when the pump was clean."""

from typing import Annotated

from pydantic import Field

from pondapp.models.base import Document, Id, Moment, Name


class FlowAt(Document):
    """The flow at one place; it stays when its reading is deleted."""

    place_id: Id
    place_name: Name
    reading_id: Id
    flow_m3_s: Annotated[float, Field(gt=0, le=10)]
    half_width_m3_s: Annotated[float, Field(ge=0, le=10)]
    """Half of the interval that the flow was known to."""


class FlowSet(Document):
    """The flows behind one pump at one time."""

    line_id: Id
    at: Moment
    places: Annotated[tuple[FlowAt, ...], Field(min_length=1, max_length=50)]
