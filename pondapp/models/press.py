"""A press of the page's stopwatch, as the page hands it over."""

from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from pondapp.models.base import Document

Word = Annotated[str, Field(max_length=200)]


class Press(Document):
    """One press, stamped and judged by the page: a start, or a stop."""

    id: Word
    run: Word
    """The page that was pressed: one for each time that it was loaded."""
    route: Word
    """The screen that was open."""
    pond: Word
    place: Word
    method: Word
    """The way of measuring; empty where the page did not know it yet."""
    wall: float
    """When it was, by the device's clock, which may be set to anything [s since the epoch]."""
    tick: Annotated[float, Field(ge=0)]
    """When it was, by the page's own clock, which nobody can set [s]."""
    kind: Literal["start", "stop"]
    seconds: float | None = None
    """Of a stop: the time since its start by that clock, where this page saw both [s]."""
    anew: bool = False
    """Of a start: whether the fills before it count no more, since a valve was turned."""
    branch: Word = ""
    """The branch whose valve was turned; empty where none was."""
    away: bool = False
    """Whether the page was put away in between, so that the device may have slept."""


PRESSES = TypeAdapter(tuple[Press, ...])
