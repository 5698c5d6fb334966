"""A pond as designed: its water, what the water runs through, and what drives it."""

from typing import Annotated, Literal

from pydantic import Field

from pondapp.models.base import Document, Id, Name, Stored

Length = Annotated[float, Field(gt=0, le=500)]
Volume = Annotated[float, Field(gt=0, le=1e5)]


class TypedVolume(Document):
    """A volume the user knows."""

    kind: Literal["typed"] = "typed"
    volume_m3: Volume


class BoxShape(Document):
    """Length, width and mean depth of a pond with a rectangular or elliptical outline."""

    kind: Literal["rectangle", "ellipse"]
    length_m: Length
    width_m: Length
    depth_m: Annotated[float, Field(gt=0, le=20)]


Water = Annotated[TypedVolume | BoxShape, Field(discriminator="kind")]


class BogFilter(Document):
    """A slow planted gravel bed; its volume is the outside volume of the bed."""

    kind: Literal["bog"] = "bog"
    id: Id
    name: Name
    bed_volume_m3: Annotated[float, Field(gt=0, le=1e4)]


class HighFlowFilter(Document):
    """A fast filter box of foam and loose media, usually under a waterfall."""

    kind: Literal["high_flow"] = "high_flow"
    id: Id
    name: Name


class Lip(Document):
    """A waterfall's edge."""

    kind: Literal["lip"] = "lip"
    id: Id
    name: Name
    width_m: Annotated[float, Field(gt=0, le=50)]


Fed = Annotated[BogFilter | HighFlowFilter | Lip, Field(discriminator="kind")]


class Pump(Document):
    """A pump by its label."""

    name: Name
    max_flow_m3_s: Annotated[float, Field(gt=0, le=1)] | None = None
    max_head_m: Annotated[float, Field(gt=0, le=100)] | None = None
    power_w: Annotated[float, Field(gt=0, le=20_000)] | None = None


class Pond(Stored):
    """One pond: the document that is stored under its id."""

    schema_version: Literal[1] = 1
    id: Id
    name: Name
    water: Water
    fed: tuple[Fed, ...] = ()
    pump: Pump | None = None
    assumptions: dict[str, float] = Field(default_factory=dict)
