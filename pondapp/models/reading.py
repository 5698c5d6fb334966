"""Flow as measured, by any of the ways in which a pond builder can measure it."""

from typing import Annotated, Any, Literal, get_args

from pydantic import AliasChoices, Field, model_validator

from pondapp.models.base import Document, Id, Moment, Name, Note, StoredOfPond
from pondapp.models.limits import MOST_EARLIER, MOST_FILLS, MOST_TURNS

Seconds = Annotated[float, Field(gt=0, le=86_400)]
Kilograms = Annotated[float, Field(ge=0, le=1e4)]
Metres = Annotated[float, Field(gt=0, le=100)]
HalfMetres = Annotated[float, Field(ge=0, le=50)]


class Container(Document):
    """What is filled: how much it holds and how well that is known."""

    id: Id
    name: Name
    volume_m3: Annotated[float, Field(gt=0, le=10)]
    tolerance_m3: Annotated[float, Field(ge=0, le=5)]
    """Half width of the range the true volume lies in."""
    found_by: Literal["printed", "weighed"] = "printed"


class Fill(Document):
    """One time that was taken: a fill of the container, a fall of the level."""

    seconds: Seconds
    typed: bool = False
    excluded: bool = Field(
        default=False,
        validation_alias=AliasChoices("struck", "excluded"),
        serialization_alias="struck",
    )
    """Excluded by the user as an outlier: saved, but not counted. Stored by its first name."""


class WeighedFill(Fill):
    """A fill that was weighed."""

    full_kg: Annotated[float, Field(gt=0, le=1e4)]
    """What the scale showed, container and all."""


Fills = Annotated[tuple[Fill, ...], Field(max_length=MOST_FILLS)]
Opening = Annotated[float, Field(gt=0, le=1)]
"""How far a valve is open, as a share of the way of its handle."""


class FillSet(Document):
    """Fills of one setting of a valve, timed before it was turned."""

    fills: Fills
    container: Container | None = None
    """What was filled; early versions did not note it."""
    opened: Opening | None = None
    """Where the handle stood, if that was noted."""
    until: Moment | None = None
    """When the valve was turned. Early versions kept the fills of several settings as one set."""
    left: bool = False
    """Whether nobody said that it was turned: they were left for hours before the next fill."""


FillSets = Annotated[tuple[FillSet, ...], Field(max_length=MOST_TURNS)]


class Bucket(Document):
    """Fills of a container whose content is known."""

    kind: Literal["bucket"] = "bucket"
    container: Container
    fills: Fills


class WeighedBucket(Document):
    """Fills of any container, each weighed."""

    kind: Literal["weighed"] = "weighed"
    empty_kg: Kilograms
    scale_tolerance_kg: Annotated[float, Field(ge=0, le=100)]
    fills: Annotated[tuple[WeighedFill, ...], Field(max_length=MOST_FILLS)]


class LevelDrop(Document):
    """The level of a basin falls between two marks, with nothing running in."""

    kind: Literal["level_drop"] = "level_drop"
    area_m2: Annotated[float, Field(gt=0, le=1e5)]
    area_tolerance_m2: Annotated[float, Field(ge=0, le=1e5)]
    drop_m: Annotated[float, Field(gt=0, le=10)]
    level_tolerance_m: Annotated[float, Field(ge=0, le=1)]
    fills: Fills


class FilledSpace(Document):
    """A box or bed of known size fills between two marks, with or without gravel in it."""

    kind: Literal["filling"] = "filling"
    volume_m3: Annotated[float, Field(gt=0, le=1e4)]
    volume_tolerance_m3: Annotated[float, Field(ge=0, le=1e4)]
    porosity: Annotated[float, Field(gt=0, le=1)] = 1.0
    porosity_tolerance: Annotated[float, Field(ge=0, le=1)] = 0.0
    fills: Fills


class LipDepth(Document):
    """Depth of the water over a lip, read on a ruler behind it."""

    kind: Literal["lip_depth"] = "lip_depth"
    head_m: Annotated[float, Field(gt=0, le=2)]
    head_tolerance_m: Annotated[float, Field(ge=0, le=2)]
    width_m: Metres
    width_tolerance_m: HalfMetres
    crest_height_m: Metres
    """Height of the edge over the bottom behind it."""


class MeterReading(Document):
    """What a flow meter shows."""

    kind: Literal["meter"] = "meter"
    flow_m3_s: Annotated[float, Field(gt=0, le=10)]
    tolerance: Annotated[float, Field(gt=0, le=1)]
    """Half width of the range the true flow lies in, as a share of the flow."""


class NothingComes(Document):
    """No water at all."""

    kind: Literal["nothing"] = "nothing"
    seen: Literal["outlet", "meter"] = "outlet"
    """At the open end, or on a meter that shows nothing."""


Method = Annotated[
    Bucket | WeighedBucket | LevelDrop | FilledSpace | LipDepth | MeterReading | NothingComes,
    Field(discriminator="kind"),
]
METHODS: tuple[str, ...] = tuple(
    stored.model_fields["kind"].default for stored in get_args(get_args(Method)[0])
)
"""Every way of measuring, in the order in which they are offered."""


class Band(Document):
    """The flow that was wanted when the reading was taken."""

    low_m3_s: float
    target_m3_s: float
    high_m3_s: float | None


class EarlierReading(Document):
    """What a reading was until it was corrected: only what is another now."""

    changed_at: Moment
    pond_id: Id | None = None
    place_name: Name | None = None
    taken_at: Moment | None = None
    method: Method | None = None
    note: Note | None = None


class Steadiness(Document):
    """What earlier fills at a place had taught about their scatter when a reading was taken."""

    earlier: Annotated[float, Field(gt=0, le=1000)]
    """Scatter of one fill there over the one expected by rule."""
    weight: Annotated[int, Field(ge=1, le=1000)]
    """Degrees of freedom that this is worth."""


class Reading(StoredOfPond):
    """One measurement at one place: the document that is stored under its id."""

    schema_version: Literal[1] = 1
    place_id: Id
    place_name: Name
    taken_at: Moment
    method: Method
    band: Band | None
    note: Note = ""
    earlier: Annotated[tuple[EarlierReading, ...], Field(max_length=MOST_EARLIER)] = ()
    """What it was before each correction, the oldest first."""
    steadiness: Steadiness | None = None
    before_turn: FillSets = ()
    """What was timed in the same visit before the valve was turned to where it stood then."""
    opened: Opening | None = None
    """Where its handle stood, if that was noted."""

    @model_validator(mode="before")
    @classmethod
    def _bucket_of_early_readings(cls, data: Any) -> Any:
        """Readings kept before there were other methods hold the bucket's parts themselves."""
        if isinstance(data, dict) and "container" in data and "method" not in data:
            rest = {key: value for key, value in data.items() if key not in ("container", "fills")}
            bucket = {"kind": "bucket", "container": data["container"], "fills": data.get("fills")}
            return {**rest, "method": bucket}
        return data
