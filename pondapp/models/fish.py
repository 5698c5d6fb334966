"""The fish that a pond carries, or is to carry."""

from typing import Annotated

from pydantic import Field

from pondapp.models.base import Document, Id, Name

FishLength = Annotated[float, Field(gt=0, le=2)]


class FishGroup(Document):
    """Fish of one kind and about one length."""

    id: Id
    name: Name
    species: Id | None = None
    """Of the list of common pond fish; none where the kind was typed."""
    count: Annotated[int, Field(ge=1, le=100_000)]
    length_m: FishLength
    grown_length_m: FishLength | None = None
    """The length to allow for, where they are to grow."""
