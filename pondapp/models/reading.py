"""Flow as measured with a container and a stopwatch."""

from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from pondapp.models.base import Document, Id, Name, Note, Stored


class Container(Document):
    """What is filled: how much it holds and how well that is known."""

    id: Id
    name: Name
    volume_m3: Annotated[float, Field(gt=0, le=10)]
    tolerance_m3: Annotated[float, Field(ge=0, le=5)]
    """Half width of the range the true volume lies in."""
    found_by: Literal["printed", "weighed"] = "printed"


class Fill(Document):
    """One fill of the container."""

    seconds: Annotated[float, Field(gt=0, le=86_400)]
    typed: bool = False
    struck: bool = False
    """Struck out by the user as a slip; kept, but not counted."""


class Band(Document):
    """The flow that was wanted when the reading was taken."""

    low_m3_s: float
    target_m3_s: float
    high_m3_s: float | None


class Reading(Stored):
    """One measurement at one place: the document that is stored under its id."""

    schema_version: Literal[1] = 1
    id: Id
    pond_id: Id
    place_id: Id
    place_name: Name
    taken_at: AwareDatetime
    container: Container
    fills: tuple[Fill, ...] = Field(max_length=100)
    band: Band | None
    note: Note = ""
