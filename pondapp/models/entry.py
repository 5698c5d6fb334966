"""What is written in a pond's log beside flow readings: tests, work done, fish, feed, notes."""

from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from pondapp.models.base import Document, Id, Moment, Name, Note, StoredOfPond, TypedUpTo
from pondapp.models.circuit import FEATURES
from pondapp.models.limits import MOST_EARLIER

Concentration = Annotated[float, Field(ge=0, le=1), TypedUpTo(0.1)]
Hardness = Annotated[float, Field(ge=0, le=10), TypedUpTo(5.0)]
PARTS = ("pump", "filter", *FEATURES, "all")


def _a_part(part: str) -> str:
    if part not in PARTS:
        raise ValueError("there is no such part")
    return part


Part = Annotated[str, AfterValidator(_a_part), Field(json_schema_extra={"enum": list(PARTS)})]
"""Of a pond, as it is cleaned: a kind of water feature, or what several of them are."""


class WaterTest(Document):
    """Values of the water, as many as were read."""

    kind: Literal["water_test"] = "water_test"
    temperature_c: Annotated[float, Field(ge=-2, le=45)] | None = None
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    total_ammonia_kg_m3: Concentration | None = None
    """Both kinds of ammonia together, as nitrogen."""
    nitrite_kg_m3: Concentration | None = None
    nitrate_kg_m3: Annotated[float, Field(ge=0, le=1)] | None = None
    general_hardness_kg_m3: Hardness | None = None
    """As calcium carbonate, like the carbonate hardness."""
    carbonate_hardness_kg_m3: Hardness | None = None
    oxygen_kg_m3: Concentration | None = None
    salt_kg_m3: Annotated[float, Field(ge=0, le=400), TypedUpTo(100.0)] | None = None

    @model_validator(mode="after")
    def _holds_a_value(self) -> "WaterTest":
        if all(getattr(self, name) is None for name in type(self).model_fields if name != "kind"):
            raise ValueError("a water test needs at least one value")
        return self


class WaterChange(Document):
    """Water let out and replaced."""

    kind: Literal["water_change"] = "water_change"
    volume_m3: Annotated[float, Field(gt=0, le=1e5)]


class Dose(Document):
    """A treatment, and how much of it in the words of its label."""

    kind: Literal["dose"] = "dose"
    what: Name
    amount: Annotated[str, Field(max_length=80)] = ""


class Feed(Document):
    """What the fish were given."""

    kind: Literal["feed"] = "feed"
    amount_kg: Annotated[float, Field(gt=0, le=1000)]


class FishChange(Document):
    """Fish that came or went."""

    kind: Literal["fish"] = "fish"
    change: Literal["added", "lost"]
    what: Name
    count: Annotated[int, Field(ge=1, le=100_000)]


class Cleaning(Document):
    """What was cleaned."""

    kind: Literal["cleaning"] = "cleaning"
    part: Part


class PumpChange(Document):
    """The pump that runs from now on, or what was done to it."""

    kind: Literal["pump_change"] = "pump_change"
    what: Name


class WorkDone(Document):
    """Other work: of the season, of a reminder, or what one calls it."""

    kind: Literal["work"] = "work"
    what: Name
    job: Id | None = None
    """What it was a tick for: a job of the season, or a reminder by its id."""


class Photo(Document):
    """A photo, small enough to be kept among the entries."""

    kind: Literal["photo"] = "photo"
    jpeg: Annotated[str, Field(max_length=130_000, pattern=r"^/9j/[A-Za-z0-9+/]+={0,2}$")]
    """In base64."""


class FreeNote(Document):
    """Nothing but the note."""

    kind: Literal["note"] = "note"


What = Annotated[
    WaterTest
    | WaterChange
    | Dose
    | Feed
    | FishChange
    | Cleaning
    | PumpChange
    | WorkDone
    | Photo
    | FreeNote,
    Field(discriminator="kind"),
]


class EarlierEntry(Document):
    """What an entry was until it was corrected: only what is another now."""

    changed_at: Moment
    pond_id: Id | None = None
    when: Moment | None = None
    what: What | None = None
    note: Note | None = None


class Entry(StoredOfPond):
    """One entry of a pond's log: the document that is stored under its pond and id."""

    schema_version: Literal[1] = 1
    when: Moment
    what: What
    note: Note = ""
    earlier: Annotated[tuple[EarlierEntry, ...], Field(max_length=MOST_EARLIER)] = ()
    """What it was before each correction, the oldest first."""

    @model_validator(mode="after")
    def _says_something(self) -> "Entry":
        if self.what.kind == "note" and not self.note.strip():
            raise ValueError("a note needs its text")
        return self
