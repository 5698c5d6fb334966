"""What all stored documents have in common."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, get_args, get_origin

from annotated_types import Ge, Gt, Le
from pydantic import AfterValidator, AwareDatetime, BaseModel, ConfigDict, Field
from pydantic.fields import FieldInfo
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
        defer_build=True,  # until the first of them is read: most starts read few kinds
        extra="forbid",
        allow_inf_nan=False,
        serialize_by_alias=True,  # the name by which a field is stored, where that is another
    )


def _near(moment: datetime) -> datetime:
    if EARLIEST <= moment < LATEST:
        return moment
    raise PydanticCustomError(FAR_DATE, "the date is out of bounds")


def _near_day(day: date) -> date:
    if EARLIEST.date() <= day < LATEST.date():
        return day
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
Day = Annotated[date, AfterValidator(_near_day)]
"""Of a calendar, in whichever time zone it is looked at."""
Id = Annotated[str, Field(min_length=1, max_length=LONGEST_ID, pattern=r"^[A-Za-z0-9_-]+$")]
PartId = Annotated[Id, AfterValidator(_no_word)]
"""Of a part of a pond."""
Name = Annotated[str, Field(min_length=1, max_length=80)]
Note = Annotated[str, Field(max_length=4000)]


@dataclass(frozen=True, slots=True)
class TypedUpTo:
    """Marks a stored number of which more may be stored than is typed: more is a slip by then."""

    most: float


@dataclass(frozen=True, slots=True)
class Limits:
    """What an amount that is typed may be, in SI."""

    low: float
    high: float
    above: bool = False
    """Whether the least itself is too little."""
    whole: bool = False
    """Whether it counts things."""
    stored: tuple[type[Document], str, int] | None = None
    """The stored field that says so: its document, its name, and which number of it."""


KELVIN = 273.15  # degrees Celsius are stored, kelvins are counted with


def limits_of(document: type[Document], name: str, which: int = 0) -> Limits:
    """The limits of a stored field; `which` counts the numbers of one that holds several.

    Every number that is typed and stored has a least and a most (LookupError where it has not).
    """
    about = document.model_fields[name]
    kind, marks = list(_numbers(about.annotation, about.metadata))[which]
    low = next(mark for mark in marks if isinstance(mark, Ge | Gt))
    typed = next((mark.most for mark in marks if isinstance(mark, TypedUpTo)), None)
    high: Any = next(mark.le for mark in marks if isinstance(mark, Le))
    least: Any = low.gt if isinstance(low, Gt) else low.ge
    zero = KELVIN if name.endswith("_c") else 0.0
    return Limits(
        low=least + zero,
        high=(high if typed is None else typed) + zero,
        above=isinstance(low, Gt),
        whole=kind is int,
        stored=(document, name, which),
    )


def _numbers(annotation: Any, marks: Iterable[Any]) -> Iterator[tuple[type, list[Any]]]:
    """Every number in the type of a field, with its limits."""
    if get_origin(annotation) is Annotated:
        inner, *own = get_args(annotation)
        parts = (mark.metadata if isinstance(mark, FieldInfo) else [mark] for mark in own)
        yield from _numbers(inner, [mark for part in parts for mark in part])
    elif annotation in (int, float):
        yield annotation, list(marks)
    else:
        for inner in get_args(annotation):
            yield from _numbers(inner, ())


class Stored(Document):
    """A document that is stored on its own, under its id, in a numbered version of its format."""

    schema_version: int
    id: Id

    def storage_key(self) -> str:
        """Where it lies among the stored documents of its kind."""
        return self.id


class StoredOfPond(Stored):
    """A document of a pond's log; it lies with the others of that pond, to be read with them."""

    pond_id: Id

    def storage_key(self) -> str:
        """Where it lies among the stored documents of its kind."""
        return f"{self.pond_id}/{self.id}"
