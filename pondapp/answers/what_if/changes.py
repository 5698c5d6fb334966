"""What is tried: a few changes of a pond, of its settings, and of the conditions it is in."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from itertools import count
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
from pondapp.models.circuit import Branch, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.words import t

What = Literal[
    "pump", "label_flow", "label_head", "label_watts", "hose", "length", "lift", "width", "speed",
    "opened", "rest", "clean", "foam", "warmth",
]  # fmt: skip
"""What can be changed. Of the pond itself: the pump of a line (its id, or BY_LABEL with the flow
[m3/s], the head [m] and the power [W] of that label), the size of a hose (as printed) and its
length [m], a lift [m], a lip's width [m]. Of its settings: a pump's speed (a share) and how far a
valve is open (a share of its handle's way, 0 for shut). Of the conditions: a branch at rest, what
clogging leaves of a pump and of a branch's foam (shares; CLEANED for a pump that is cleaned now),
and the water's temperature [degC]."""
LABEL: tuple[What, ...] = ("label_flow", "label_head", "label_watts")
"""What a label tells. A draft holds it as it is typed, not here."""
OWN: tuple[What, ...] = ("pump", *LABEL, "hose", "length", "lift", "width")
"""What belongs to the pond itself."""
SETTINGS: tuple[What, ...] = ("speed", "opened")
"""What is set by hand: saved as the flows to aim for."""
MOVES_WATER: tuple[What, ...] = (
    "pump", "hose", "length", "lift", *SETTINGS, "rest", "clean", "foam",
)  # fmt: skip
"""What flows depend on."""
WORDS: tuple[What, ...] = ("pump", "hose")
"""What is told by a word; all else is a number."""
BY_LABEL = "by-label"
"""In place of a pump's id: one that is on no shelf, by its label."""
LEFT = (1.0, 0.8, 0.6)
"""Shares that clogging leaves."""
CLEANED = 2.0
"""In place of such a share, of a pump: cleaned, whatever its readings say that it has lost."""
SHUT = 0.0
SHORTEST_HOSE = 0.1
"""What is tried [m]: shorter, it would be none."""
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
    def without_label(self) -> bool:
        """Whether another pump is tried by a label whose flow or head is not told."""
        return any(
            what == "pump" and value == BY_LABEL
            and None in (self.number("label_flow", key), self.number("label_head", key))
            for (what, key), value in self.values.items()
        )  # fmt: skip

    @property
    def moves_water(self) -> bool:
        """Whether anything is changed that flows depend on."""
        return bool(self.only(*MOVES_WATER).values)

    def shuts(self, branch_id: str) -> bool:
        """Whether no water can flow in a branch any more."""
        return bool(self.number("rest", branch_id)) or self.number("opened", branch_id) == SHUT

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
    return {
        f"{what}.{key}": str(value)
        for (what, key), value in changes.values.items()
        if what not in LABEL
    }


def changes_of(texts: Mapping[str, str], pond: Pond, lines: tuple[Line, ...]) -> Changes:
    """The changes that a draft holds, without those that this pond has no place for."""
    found: dict[tuple[What, str], Value] = {}
    for name, text in texts.items():
        kind, _, key = name.partition(".")
        if kind in get_args(What) and kind not in LABEL:
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
    if what == "length":
        found = limits_of(Pipe, "length_m")
        return SHORTEST_HOSE, found.high
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
        shelf = (BY_LABEL, *(pump.id for pump in pond.pumps))
        # Where it was chosen elsewhere meanwhile, it is no other pump any more.
        return key in own_lines and value in shelf and value != own_lines[key].pump_id
    if what in ("hose", "length"):
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
            pond = _with_pump(pond, changes, key, str(value))
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
    for key in dict.fromkeys(key for what, key in changes.values if what in ("hose", "length")):
        pond = _with_hose(worked, pond, changes, key)
    return pond


def _with_pump(pond: Pond, changes: Changes, line_id: str, pump_id: str) -> Pond:
    """The pond with another pump in a line: of its shelf, or one by its label beside those."""
    if pump_id == BY_LABEL:
        flow, head, watts = (changes.number(what, line_id) for what in LABEL)
        taken = {pump.id for pump in pond.pumps} | {pump.name for pump in pond.pumps}
        number = next(n for n in count(1) if not taken & {f"tried-{n}", _tried_name(n)})
        pump_id = f"tried-{number}"
        pump = Pump(
            id=pump_id, name=_tried_name(number), max_flow_m3_s=flow, max_head_m=head,
            power_w=watts,
        )  # fmt: skip
        pond = pond.model_copy(update={"pumps": (*pond.pumps, pump)})
    return with_line(pond, line_id, pump_id=pump_id)


def _tried_name(number: int) -> str:
    return t("Pump by its label") if number == 1 else t("Pump by its label {number}", number=number)


def _with_hose(worked: WorkedPond, pond: Pond, changes: Changes, key: str) -> Pond:
    """The pond with another size or length of hose in a run; the series stays."""
    for line in worked.lines:
        if key == line.id or any(branch.id == key for branch in line.branches):
            pipe = pipe_of(worked, line, key)
            size, length = changes.word("hose", key), changes.number("length", key)
            if pipe is None:
                return pond
            if size in size_names(pipe.series):
                pipe = pipe.model_copy(update={"size": size})
            if length is not None:
                pipe = pipe.model_copy(update={"length_m": length})
            return put_pipe(pond, line.id, MAIN if key == line.id else key, pipe)
    return pond
