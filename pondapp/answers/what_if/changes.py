"""What is tried: a few changes of a pond, of its settings, and of the conditions it is in."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import isfinite
from typing import Literal, cast, get_args

from pondapp.answers.features.lip import NARROWEST_LIP
from pondapp.answers.plumbing.network import MAIN, assumed_pipe, size_names
from pondapp.answers.plumbing.path import feature_of
from pondapp.answers.plumbing.path_edits import with_branch, with_line
from pondapp.answers.plumbing.plumbing import LITTLE, put_pipe
from pondapp.answers.pond import WorkedPond
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.circuit import Branch, Line, Lip, Pipe
from pondapp.models.pond import Pond

What = Literal[
    "pump", "hose", "lift", "width", "speed", "opened", "rest", "clean", "foam", "warmth"
]
"""What can be changed. Of the pond itself: the pump of a line (its id), the size of a hose (as
printed), a lift [m], a lip's width [m]. Of its settings: a pump's speed (a share) and how far a
valve is open (a share of its handle's way, 0 for shut). Of the conditions: a branch at rest, what
clogging leaves of a pump and of a branch's foam (shares; CLEANED for a pump that is cleaned now),
and the water's temperature [degC]."""
OWN: tuple[What, ...] = ("pump", "hose", "lift", "width")
"""What belongs to the pond itself."""
SETTINGS: tuple[What, ...] = ("speed", "opened")
"""What is set by hand: saved as the flows to aim for."""
WORDS: tuple[What, ...] = ("pump", "hose")
"""What is told by a word; all else is a number."""
LEFT = (1.0, 0.8, 0.6)
"""Shares that clogging leaves."""
CLEANED = 2.0
"""In place of such a share, of a pump: cleaned, whatever its readings say that it has lost."""
SHUT = 0.0
POND = "pond"
"""The key of what is about the pond as a whole."""
Value = float | str


@dataclass(frozen=True, slots=True)
class Changes:
    """A small set of changes, each by what is changed and the id of what it is changed of.

    A hose goes by the id of its branch, a main run by the id of its line.
    """

    values: Mapping[tuple[What, str], Value] = field(default_factory=dict)

    def number(self, what: What, key: str) -> float | None:
        """A number that is tried; None where it is left as it is."""
        found = self.values.get((what, key))
        return found if isinstance(found, float) else None

    def word(self, what: What, key: str) -> str | None:
        """A word that is tried; None where it is left as it is."""
        found = self.values.get((what, key))
        return found if isinstance(found, str) else None

    def put(self, what: What, key: str, value: Value | None) -> "Changes":
        """The same with one change more, or with one left as it is."""
        rest = {one: kept for one, kept in self.values.items() if one != (what, key)}
        return Changes(rest if value is None else {**rest, (what, key): value})

    def only(self, *kinds: What) -> "Changes":
        """Those of some kinds."""
        return Changes({one: value for one, value in self.values.items() if one[0] in kinds})

    def another_pump(self, line_id: str) -> bool:
        """Whether another pump is tried in a line."""
        return self.word("pump", line_id) is not None

    @property
    def saved(self) -> "Changes":
        """Those that make another plan; the rest are conditions, which pass."""
        return self.only(*OWN, *SETTINGS)

    @property
    def conditions(self) -> "Changes":
        """Those that pass by themselves: dirt, rest and season."""
        return self.only("rest", "clean", "foam", "warmth")


NOTHING = Changes()


def texts_of(changes: Changes) -> dict[str, str]:
    """The changes as a draft holds them."""
    return {f"{what}.{key}": str(value) for (what, key), value in changes.values.items()}


def changes_of(texts: Mapping[str, str], pond: Pond, lines: tuple[Line, ...]) -> Changes:
    """The changes that a draft holds, without those that this pond has no place for."""
    found: dict[tuple[What, str], Value] = {}
    for name, text in texts.items():
        kind, _, key = name.partition(".")
        if kind in get_args(What):
            what = cast(What, kind)
            value = _read(what, text)
            if value is not None and _fits(what, key, value, pond, lines):
                found[what, key] = value
    return Changes(found)


def _read(what: What, text: str) -> Value | None:
    if what in WORDS:
        return text or None
    try:
        number = float(text)
    except ValueError:
        return None
    return number if isfinite(number) else None


def limits(what: What, pond: Pond) -> tuple[float, float]:
    """Least and most of a number that is tried, in the unit in which it is stored.

    Raises:
        PondError: A changed rule cannot be.
    """
    if what == "lift":
        found = limits_of(Branch, "lift_m")
        return found.low, min(found.high, 20.0)
    if what == "width":
        return NARROWEST_LIP, 5.0
    if what == "warmth":
        return 0.0, 40.0
    if what == "speed":
        return Assumptions().with_overrides(pond.assumptions).pumps.slowest_speed, 1.0
    return 0.0, 1.0


def _fits(what: What, key: str, value: Value, pond: Pond, lines: tuple[Line, ...]) -> bool:
    """Whether a pond has a place for a change."""
    branches = {branch.id: branch for line in lines for branch in line.branches}
    own_lines = {line.id: line for line in lines}
    if isinstance(value, float):
        try:
            low, high = limits(what, pond)
        except PondError:
            return False
        cleaned = what == "clean" and value == CLEANED
        if not (cleaned or low <= value <= high):
            return False
        if what in ("clean", "foam") and not (cleaned or value in LEFT):
            return False
    if what == "pump":
        return key in own_lines and any(pump.id == value for pump in pond.pumps)
    if what == "hose":
        return key in branches or (key in own_lines and own_lines[key].main is not None)
    if what in ("lift", "rest", "foam"):
        return key in branches
    if what == "opened":
        return key in branches and branches[key].valve != "none"
    if what in ("speed", "clean"):
        return key in own_lines
    if what == "width":
        return isinstance(feature_of(pond, key), Lip)
    return key == POND


def pipe_of(worked: WorkedPond, line: Line, key: str) -> Pipe | None:
    """The hose of a run as it is entered, or as it is assumed; None for a main run without one."""
    if key == line.id:
        return line.main
    branch = next(branch for branch in line.branches if branch.id == key)
    if branch.pipe is not None:
        return branch.pipe
    flows = worked.planned.flows
    total = sum(flows.get(one.id, 0.0) for one in line.branches)
    return assumed_pipe(flows.get(key, 0.0) or total or LITTLE, worked.rules.plumbing)


def with_changes(worked: WorkedPond, changes: Changes) -> Pond:
    """The pond with what is changed of itself, and in the water of another season.

    Raises:
        PondError: A changed rule cannot be.
    """
    pond = worked.pond
    for (what, key), value in changes.values.items():
        if what == "pump":
            pond = with_line(pond, key, pump_id=value)
        elif what == "lift":
            pond = with_branch(pond, key, lift_m=value)
        elif what == "width":
            fed = tuple(
                one.model_copy(update={"width_m": value}) if one.id == key else one
                for one in pond.fed
            )
            pond = pond.model_copy(update={"fed": fed})
        elif what == "warmth":
            pond = pond.model_copy(update={"water_temperature_c": value})
        elif what == "hose":
            pond = _with_hose(worked, pond, key, str(value))
    return pond


def _with_hose(worked: WorkedPond, pond: Pond, key: str, size: str) -> Pond:
    """The pond with another size of hose in a run; the series stays."""
    for line in worked.lines:
        if key == line.id or any(branch.id == key for branch in line.branches):
            pipe = pipe_of(worked, line, key)
            if pipe is not None and size in size_names(pipe.series):
                where = MAIN if key == line.id else key
                return put_pipe(pond, line.id, where, pipe.model_copy(update={"size": size}))
    return pond
