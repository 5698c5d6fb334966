"""A pond as designed: the document that is stored under its id."""

from typing import Annotated, Literal

from pydantic import Field

from pondapp.models.base import Day, Document, Id, Name, PartId, Stored
from pondapp.models.circuit import Aim, Line, Pump, WaterFeature
from pondapp.models.fish import FishGroup
from pondapp.models.lamp import UvLamp
from pondapp.models.limits import (
    MOST_FEATURES,
    MOST_LINES,
    MOST_PAST,
    MOST_PUMPS,
    MOST_REMINDERS,
)
from pondapp.models.tuned import FlowSet
from pondapp.models.water import MeasuredVolume, Water

Mark = Annotated[str, Field(max_length=8)]
Price = Annotated[float, Field(ge=0, le=1e7)]


class OwnItem(Document):
    """A line that the user put on the shopping list."""

    id: Id
    name: Name
    quantity: Annotated[float, Field(gt=0, le=1e6)]
    unit: Annotated[str, Field(max_length=20)] = ""


class Shopping(Document):
    """What the user changed on the shopping list; the lines themselves are worked out."""

    prices: dict[str, Price] = Field(default_factory=dict)
    ticked: tuple[str, ...] = Field(default=(), max_length=500)
    left_out: tuple[str, ...] = Field(default=(), max_length=500)
    own: tuple[OwnItem, ...] = Field(default=(), max_length=200)


class Upkeep(Document):
    """How often the user wants to be reminded of a job; no days is never."""

    job: Literal["clean", "measure", "test"]
    days: Annotated[int, Field(ge=1, le=3650)] | None


class Reminder(Document):
    """Work of its owner's own, on a day, and again every so many days, weeks, months or years."""

    id: PartId
    text: Name
    first: Day
    unit: Literal["once", "days", "weeks", "months", "years"] = "once"
    every: Annotated[int, Field(ge=1, le=400)] = 1
    times: Annotated[int, Field(ge=1, le=1000)] | None = None
    """How often in all; none goes on."""


class Pond(Stored):
    """One pond."""

    schema_version: Literal[3] = 3
    name: Name
    water: Water
    measured_volume: MeasuredVolume | None = None
    water_temperature_c: Annotated[float, Field(ge=0, le=40)] = 18.0
    warmest_temperature_c: Annotated[float, Field(ge=0, le=40)] | None = None
    """Of the warmest week of the year; none where a rule stands in for it."""
    hemisphere: Literal["north", "south"] | None = None
    """Of the earth, for its seasons; none until its owner says so."""
    altitude_m: Annotated[float, Field(ge=-400, le=5000)] = 0.0
    fish: tuple[FishGroup, ...] = Field(default=(), max_length=50)
    lamp: UvLamp | None = None
    feed_kg_day: Annotated[float, Field(ge=0, le=1000)] | None = None
    fed: tuple[WaterFeature, ...] = Field(default=(), max_length=MOST_FEATURES)
    lines: tuple[Line, ...] = Field(default=(), max_length=MOST_LINES)
    """Pumps in place; the first draft of a pond has none and one is assumed."""
    pumps: tuple[Pump, ...] = Field(default=(), max_length=MOST_PUMPS)
    """Pumps to choose from."""
    aim: Aim | None = None
    """What the plan gives every feature that has no choice of its own; None goes by its kind."""
    assumptions: dict[str, float] = Field(default_factory=dict)
    shopping: Shopping = Shopping()
    upkeep: tuple[Upkeep, ...] = Field(default=(), max_length=3)
    """Only jobs whose interval the user changed."""
    reminders: tuple[Reminder, ...] = Field(default=(), max_length=MOST_REMINDERS)
    tuned: Annotated[tuple[FlowSet, ...], Field(max_length=6)] = ()
    """Flows as the valves were set, the last time for each line."""
    clean: Annotated[tuple[FlowSet, ...], Field(max_length=6)] = ()
    """Flows when the pump was clean, the last time for each line."""
    past: tuple[Mark, ...] = Field(default=(), max_length=MOST_PAST)
    """Marks of the versions that it took the place of, the newest last: see `store/merging.py`."""
