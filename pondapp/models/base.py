"""What all stored documents have in common."""

from datetime import datetime
from typing import Annotated

from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field
from pydantic_core import PydanticCustomError

from pondapp.models.limits import EARLIEST, LATEST, LONGEST_ID, RESERVED, RESERVED_START

FAR_DATE = "far_date"
"""Kind of the error of a moment that is out of bounds."""
OWN_WORD = "own_word"
"""Kind of the error of an id that is a word of the app itself."""


class Document(BaseModel):
    """Frozen, exact about its fields, and free of inf and nan."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        serialize_by_alias=True,  # the name by which a field is stored, where that is another
    )


def _near(moment: datetime) -> datetime:
    if EARLIEST <= moment < LATEST:
        return moment
    raise PydanticCustomError(FAR_DATE, "the date is out of bounds")


def is_reserved(document_id: str) -> bool:
    """Whether an id is a word of the app itself, which no document may have."""
    return document_id in RESERVED or document_id.startswith(RESERVED_START)


def _no_word(document_id: str) -> str:
    if is_reserved(document_id):
        raise PydanticCustomError(OWN_WORD, "the id is a word of the app itself")
    return document_id


Moment = Annotated[AwareDatetime, AfterValidator(_near)]
"""Far from the ends of the calendar, so that it can be shown in every time zone."""
Id = Annotated[str, Field(min_length=1, max_length=LONGEST_ID, pattern=r"^[A-Za-z0-9_-]+$")]
PartId = Annotated[Id, AfterValidator(_no_word)]
"""Of a part of a pond."""
Name = Annotated[str, Field(min_length=1, max_length=80)]
Note = Annotated[str, Field(max_length=4000)]


class Stored(Document):
    """A document that is stored on its own, under its id, in a numbered version of its format."""

    schema_version: int
    id: Id

    def place(self) -> str:
        """Where it lies among the stored documents of its kind."""
        return self.id


class StoredOfPond(Stored):
    """A document of a pond's log; it lies with the others of that pond, to be read with them."""

    pond_id: Id

    def place(self) -> str:
        """Where it lies among the stored documents of its kind."""
        return f"{self.pond_id}/{self.id}"
