"""What the user chose for the whole app, and what is half done."""

from typing import Annotated, Literal

from pydantic import Field

from pondapp.models.base import Document, Id, Moment, Stored
from pondapp.models.limits import LATEST
from pondapp.models.reading import Container, Fill, FillSets, Opening, Seconds

UnitSystem = Literal["metric", "us", "imperial"]
DAY = "date"
"""The kind of a text that is a day."""
EXACT = "="
"""At the end of a text's key: the whole amount in SI that the text is a rounding of."""


class StopwatchAids(Document):
    """What helps with the stopwatch, each on or off."""

    sound: bool = True
    """A tone at start and stop, and at both ends of the right times."""
    vibration: bool = True
    """The same in the hand."""
    countdown: bool = False
    """A voice that counts down to the time to aim for."""
    keys: bool = False
    """Keys start and stop: those of the volume, of a remote shutter, space and enter."""


class Preferences(Stored):
    """One document for the whole app."""

    schema_version: Literal[1] = 1
    id: Id = "app"
    units: UnitSystem = "metric"
    language: Annotated[str, Field(max_length=20)] = "en"
    currency: Annotated[str, Field(max_length=8)] = ""
    """What the reader calls money, as "€" or "EUR"; empty: sums are plain numbers."""
    containers: tuple[Container, ...] = ()
    aids: StopwatchAids = StopwatchAids()
    install_hint_left: bool = False
    """Whether the hint to install the app was put away."""
    backed_up_at: Moment | None = None
    """When everything was last saved to a file."""
    backed_up_readings: Annotated[int, Field(ge=0)] = 0
    """How many of the user's readings that file holds."""
    backed_up_entries: Annotated[int, Field(ge=0)] = 0
    """How many of the user's other log entries that file holds."""


class Draft(Stored):
    """Text typed on a screen but not saved yet, and fills timed but not saved yet."""

    schema_version: Literal[3] = 3
    id: Id
    pond_id: Id | None = None
    """The pond that it is about, which goes with it; its name may be too long to say so."""
    texts: dict[str, str] = Field(default_factory=dict)
    kinds: dict[str, str] = Field(default_factory=dict)
    """By the key of each text that is an amount or a day, what kind of quantity it is."""
    units: UnitSystem | None = None
    """What its numbers are in. Early ones do not say: it is what is chosen where they lie."""
    decimal: Literal[".", ","] | None = None
    """The decimal mark that its numbers are written with."""
    changed_at: Moment | None = None
    """When it was last typed or timed."""
    fills: tuple[Fill, ...] = ()
    before_turn: FillSets = ()
    """What was timed before each turn of a valve, oldest first: still in sight, not counted."""
    opened: Opening | None = None
    """Where the handle of the valve stands now, if that was noted."""
    started_at: Annotated[float, Field(ge=0, le=LATEST.timestamp())] | None = None
    """Start of a fill that is running, in seconds since the epoch."""
    started_on: Annotated[str, Field(max_length=64)] | None = None
    """The stopwatch that started it: one for each start of the app, and none goes on in another."""
    started_tick: float | None = None
    """What that stopwatch showed at the start [s]."""
    by_clock: Seconds | None = None
    """The time of a fill by this device's clock, which may have been set: not counted yet."""
    taken: Annotated[str, Field(max_length=200)] | None = None
    """The last press of the page's stopwatch that is in it: the page may hand it over twice."""
