"""A resolution of a pond's conflicts applied to the pond itself, edit by edit."""

from collections.abc import Callable

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.planning.plan import Resolution
from pondapp.answers.plumbing.path_edits import with_branch, with_line
from pondapp.answers.pond import WorkedPond
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import phrase
from pondapp.core.circuit.edits import (
    AddBranch,
    AddBypass,
    AddPump,
    Edit,
    MergeBranches,
    NewBranch,
    ReplacePump,
    Resize,
    SetAim,
    SetDuty,
    SetTurnover,
    free_name,
)
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.models.limits import MOST_BRANCHES, MOST_LINES
from pondapp.models.pond import Pond
from pondapp.words import t

TURNOVER_RULE = "filters.turnover_whole"
LONGEST_MADE = 76  # letters of a name; a number still fits behind


def apply(worked: WorkedPond, resolution: Resolution, new_id: Callable[[], str]) -> Pond:
    """The pond with a resolution applied to it.

    A stronger pump has still to be chosen, so its line is left without one.

    Args:
        worked: The pond whose plan the resolution is from.
        resolution: One of the resolutions of its conflict.
        new_id: Makes ids for what is added.

    Raises:
        PondError: The changed pond is more than a pond may have; the message says what.
    """
    editing = _Editing(worked, new_id)
    for edit in resolution.edits:
        editing.apply(edit)
    pond = editing.pond
    require_within("number of pumps", len(pond.lines), 1, MOST_LINES, "-")
    for line in pond.lines:
        require_within(
            phrase("branches of {name}", name=line.name), len(line.branches), 1, MOST_BRANCHES, "-"
        )
    return pond


class _Editing:
    """A pond while edits are applied to it, one after the other."""

    def __init__(self, worked: WorkedPond, new_id: Callable[[], str]) -> None:
        self.pond = worked.pond.model_copy(update={"lines": worked.lines})
        self._volume, self._new_id = worked.targets.volume, new_id
        self._made: dict[str, str] = {}

    def _id(self, key: str) -> str:
        """The id of a part by the key that it has in an edit."""
        return self._made.get(key, key)

    def _new_part(self, key: str) -> str:
        """The id of a part that an edit adds, which later edits name by its key."""
        self._made[key] = self._new_id()
        return self._made[key]

    def apply(self, edit: Edit) -> None:
        """Apply one edit."""
        match edit:
            case AddBypass(branch, feature):
                self._bypass(self._id(branch), (feature,))
            case SetAim(key, aim):
                self._put(self._feature(key).model_copy(update={"aim": aim}))
            case Resize(key, size):
                resized = self._feature(key)
                self._put(kind_of(resized).resized(resized, size))
            case AddBranch(pump, new):
                made = self._new_branch(new)
                line = self._line(self._id(pump))
                self.pond = with_line(self.pond, line.id, branches=(*line.branches, made))
            case AddPump():
                self._add_pump(edit)
            case ReplacePump(pump):
                self.pond = with_line(self.pond, self._id(pump), pump_id=None)
            case SetDuty(pump, duty):
                self.pond = with_line(self.pond, self._id(pump), hours_per_day=24.0 * duty)
            case MergeBranches(first, second, bypass):
                self._merge(self._id(first), self._id(second), bypass)
            case SetTurnover(turnover):
                rules = {**self.pond.assumptions, TURNOVER_RULE: turnover / self._volume}
                Assumptions().with_overrides(rules)
                self.pond = self.pond.model_copy(update={"assumptions": rules})

    def _line(self, line_id: str) -> Line:
        return next(line for line in self.pond.lines if line.id == line_id)

    def _branch(self, branch_id: str) -> Branch:
        return next(one for line in self.pond.lines for one in line.branches if one.id == branch_id)

    def _feature(self, feature_id: str) -> WaterFeature:
        return next(feature for feature in self.pond.fed if feature.id == feature_id)

    def _put(self, feature: WaterFeature) -> None:
        fed = tuple(feature if one.id == feature.id else one for one in self.pond.fed)
        self.pond = self.pond.model_copy(update={"fed": fed})

    def _bypass(self, branch_id: str, features: tuple[str, ...]) -> None:
        known = self._branch(branch_id).bypass
        both = tuple(dict.fromkeys((*known, *features)))
        self.pond = with_branch(self.pond, branch_id, bypass=both)

    def _new_branch(self, new: NewBranch) -> Branch:
        """A branch with its features taken from where they were; it is not on the path yet."""
        for line in self.pond.lines:
            for branch in line.branches:
                kept, round_it = (
                    tuple(key for key in keys if key not in new.features)
                    for keys in (branch.feeds, branch.bypass)
                )
                if kept != branch.feeds:
                    self.pond = with_branch(self.pond, branch.id, feeds=kept, bypass=round_it)
        taken = [branch.name for line in self.pond.lines for branch in line.branches]
        name = _heading(new.name, taken)
        return Branch(id=self._new_part(new.key), name=name, valve="ball", feeds=new.features)

    def _add_pump(self, edit: AddPump) -> None:
        moved = [self._branch(self._id(key)) for key in edit.moved]
        own = [self._new_branch(edit.branch)] if edit.branch else []
        lines = [
            line.model_copy(
                update={"branches": tuple(one for one in line.branches if one not in moved)}
            )
            for line in self.pond.lines
        ]
        new = Line(
            id=self._new_part(edit.key),
            name=_heading(edit.name, [line.name for line in lines]),
            hours_per_day=24.0 * edit.duty,
            branches=(*moved, *own),
        )
        self.pond = self.pond.model_copy(update={"lines": (*lines, new)})

    def _merge(self, first: str, second: str, bypass: tuple[str, ...]) -> None:
        gone = self._branch(second)
        feeds = (*self._branch(first).feeds, *gone.feeds)
        self.pond = with_branch(self.pond, first, feeds=feeds)
        self._bypass(first, (*gone.bypass, *bypass))
        for line in self.pond.lines:
            if gone in line.branches:
                kept = tuple(branch for branch in line.branches if branch.id != second)
                self.pond = with_line(self.pond, line.id, branches=kept)


def _heading(name: str, taken: list[str]) -> str:
    """A name that the planner made up, as a heading that no other has, in the reader's language."""
    told = t(name)[:LONGEST_MADE]
    return free_name(told[0].upper() + told[1:], taken)
