"""How much water: a volume that is known, or basins drawn up from outline and depth."""

from typing import Annotated, Literal

from pydantic import Field

from pondapp.models.base import Document, Name, PartId

Length = Annotated[float, Field(gt=0, le=500)]
Depth = Annotated[float, Field(gt=0, le=20)]
Volume = Annotated[float, Field(gt=0, le=1e5)]
Point = tuple[Annotated[float, Field(ge=-500, le=500)], Annotated[float, Field(ge=-500, le=500)]]


class Rectangle(Document):
    """Four straight sides."""

    kind: Literal["rectangle"] = "rectangle"
    length_m: Length
    width_m: Length


class Circle(Document):
    """A round pond."""

    kind: Literal["circle"] = "circle"
    diameter_m: Length


class Ellipse(Document):
    """An oval by its two axes, tip to tip."""

    kind: Literal["ellipse"] = "ellipse"
    length_m: Length
    width_m: Length


class LShape(Document):
    """A rectangle with a rectangular corner cut away."""

    kind: Literal["l_shape"] = "l_shape"
    length_m: Length
    width_m: Length
    cut_length_m: Length
    cut_width_m: Length


class Offsets(Document):
    """A free outline by its widths at equal steps along a tape."""

    kind: Literal["offsets"] = "offsets"
    spacing_m: Length
    widths_m: tuple[Annotated[float, Field(ge=0, le=500)], ...] = Field(
        min_length=3, max_length=100
    )


class Corners(Document):
    """A free outline by its corner points, in order round it."""

    kind: Literal["corners"] = "corners"
    points_m: tuple[Point, ...] = Field(min_length=3, max_length=60)


Outline = Annotated[
    Rectangle | Circle | Ellipse | LShape | Offsets | Corners, Field(discriminator="kind")
]


class Shelf(Document):
    """A step in the side: where it lies below the water line, and how far it reaches in."""

    depth_m: Depth
    width_m: Length


class Basin(Document):
    """One body of water: outline at the water line, depth, slope of its sides, shelves."""

    id: PartId
    name: Name
    outline: Outline
    depth_m: Depth
    side_slope: Annotated[float, Field(ge=0, le=10)] = 0.0
    """How far the side runs in for each unit of depth."""
    shelves: tuple[Shelf, ...] = Field(default=(), max_length=6)


class TypedVolume(Document):
    """A volume the user knows."""

    kind: Literal["typed"] = "typed"
    volume_m3: Volume


class Drawn(Document):
    """One basin or several, added up."""

    kind: Literal["drawn"] = "drawn"
    basins: tuple[Basin, ...] = Field(min_length=1, max_length=10)


Water = Annotated[TypedVolume | Drawn, Field(discriminator="kind")]


class MeasuredVolume(Document):
    """A volume found by measuring; it takes precedence over a computed one."""

    volume_m3: Volume
    how: Literal["timed filling", "salt", "meter"]
    standard_uncertainty_m3: Annotated[float, Field(ge=0, le=1e5)] | None = None
