"""What all stored documents have in common."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field


class Document(BaseModel):
    """Frozen, exact about its fields, and free of inf and nan."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


Id = Annotated[str, Field(min_length=1, max_length=64, pattern=r"^[A-Za-z0-9_-]+$")]
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
