"""Changes of the water path: each gives a new pond and leaves the old one alone.

All start from the lines in force, so the first change of a pond without lines draws them.
"""

from collections.abc import Callable
from typing import Any, Literal

from pondapp.answers.plumbing.path import lines_of
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.models.limits import MOST_BRANCHES, MOST_LINES
from pondapp.models.pond import Pond
from pondapp.words import t

NewId = Callable[[], str]
Valve = Literal["none", "ball", "gate"]


def _with_lines(pond: Pond, lines: list[Line] | tuple[Line, ...]) -> Pond:
    return pond.model_copy(update={"lines": tuple(lines)})


def with_line(pond: Pond, line_id: str, **changes: Any) -> Pond:
    """A pond with something changed about a line."""
    return _with_lines(
        pond,
        [
            line.model_copy(update=changes) if line.id == line_id else line
            for line in lines_of(pond)
        ],
    )


def with_branch(pond: Pond, branch_id: str, **changes: Any) -> Pond:
    """A pond with something changed about a branch."""
    return _with_lines(
        pond,
        [
            line.model_copy(
                update={
                    "branches": tuple(
                        branch.model_copy(update=changes) if branch.id == branch_id else branch
                        for branch in line.branches
                    )
                }
            )
            for line in lines_of(pond)
        ],
    )


def _free(wanted: str, taken: list[str]) -> str:
    name, number = wanted, 2
    while name in taken:
        name, number = f"{wanted} {number}", number + 1
    return name


def _branches(pond: Pond) -> list[Branch]:
    return [branch for line in lines_of(pond) for branch in line.branches]


def _straight(pond: Pond, new_id: NewId) -> Branch:
    return Branch(id=new_id(), name=_free(t("Straight return"), [b.name for b in _branches(pond)]))


def _worth_keeping(branches: tuple[Branch, ...]) -> tuple[Branch, ...]:
    """A lone bare return that nobody has plumbed was only there for want of anything else."""
    if len(branches) == 1 and not (branches[0].feeds or branches[0].pipe):
        return ()
    return branches


def add_branch(pond: Pond, line_id: str, new_id: NewId) -> Pond:
    """A T-piece more on a line: its branch goes straight back to the pond until it feeds a feature.

    A line that is full stays as it is.
    """
    line = next(line for line in lines_of(pond) if line.id == line_id)
    if len(line.branches) >= MOST_BRANCHES:
        return pond
    return with_line(pond, line_id, branches=(*line.branches, _straight(pond, new_id)))


def remove_branch(pond: Pond, branch_id: str) -> Pond:
    """A T-piece less; what the branch fed is left dry. The last branch of a line stays."""
    return _with_lines(
        pond,
        [
            line.model_copy(
                update={"branches": tuple(b for b in line.branches if b.id != branch_id)}
            )
            if len(line.branches) > 1
            else line
            for line in lines_of(pond)
        ],
    )


def add_line(pond: Pond, new_id: NewId) -> Pond:
    """A pump more, which stirs the pond until a branch or a feature is moved to it."""
    lines = lines_of(pond)
    if len(lines) >= MOST_LINES:
        return pond
    name = _free(t("Second pump" if len(lines) == 1 else "Pump"), [line.name for line in lines])
    return _with_lines(
        pond, (*lines, Line(id=new_id(), name=name, branches=(_straight(pond, new_id),)))
    )


def remove_line(pond: Pond, line_id: str) -> Pond:
    """A pump less; its branches go to the first of the others. The last pump stays."""
    lines = lines_of(pond)
    rest = [line for line in lines if line.id != line_id]
    if not rest or len(rest) == len(lines):
        return pond
    gone = next(line for line in lines if line.id == line_id)
    moved = tuple(branch for branch in gone.branches if branch.feeds)
    room = MOST_BRANCHES - len(rest[0].branches)
    rest[0] = rest[0].model_copy(update={"branches": (*rest[0].branches, *moved[:room])})
    return _with_lines(pond, rest)


def move_branch(pond: Pond, branch_id: str, line_id: str, new_id: NewId) -> Pond:
    """A branch hung on another pump; a pump left with nothing stirs the pond."""
    branch = next(b for b in _branches(pond) if b.id == branch_id)
    lines = []
    for line in lines_of(pond):
        kept = tuple(b for b in line.branches if b.id != branch_id)
        if line.id == line_id:
            if len(kept) >= MOST_BRANCHES:
                return pond
            kept = (*_worth_keeping(kept), branch)
        lines.append(line.model_copy(update={"branches": kept or (_straight(pond, new_id),)}))
    return _with_lines(pond, lines)


def _unplugged(pond: Pond, feature_id: str) -> Pond:
    """A feature taken off every branch; a branch that fed nothing else goes with it."""
    lines = []
    for line in lines_of(pond):
        kept = [
            branch.model_copy(
                update={
                    "feeds": tuple(item for item in branch.feeds if item != feature_id),
                    "bypass": tuple(item for item in branch.bypass if item != feature_id),
                }
            )
            for branch in line.branches
            if branch.feeds != (feature_id,)
        ]
        lines.append(line.model_copy(update={"branches": tuple(kept)}))
    return _with_lines(pond, lines)


def _filled(pond: Pond, new_id: NewId) -> Pond:
    """No pump without a branch."""
    lines = [
        line if line.branches else line.model_copy(update={"branches": (_straight(pond, new_id),)})
        for line in pond.lines
    ]
    return _with_lines(pond, lines)


def feed_from(pond: Pond, feature_id: str, branch_id: str, new_id: NewId) -> Pond:
    """A feature moved to the end of a branch."""
    branch = next(b for b in _branches(pond) if b.id == branch_id)
    if feature_id in branch.feeds:
        return pond
    lifted = _unplugged(pond, feature_id)
    return _filled(with_branch(lifted, branch_id, feeds=(*branch.feeds, feature_id)), new_id)


def feed_alone(pond: Pond, feature_id: str, line_id: str, new_id: NewId) -> Pond:
    """A feature on a branch of its own."""
    feature = next(feature for feature in pond.fed if feature.id == feature_id)
    lifted = _unplugged(pond, feature_id)
    line = next(line for line in lifted.lines if line.id == line_id)
    if len(line.branches) >= MOST_BRANCHES:
        return pond
    name = _free(t("To {thing}", thing=feature.name)[:70], [b.name for b in _branches(pond)])
    own = Branch(id=new_id(), name=name, feeds=(feature_id,))
    branches = (*_worth_keeping(line.branches), own)
    return _filled(with_line(lifted, line_id, branches=branches), new_id)


def earlier(pond: Pond, feature_id: str) -> Pond:
    """A feature one place nearer to the pump on its branch."""
    for branch in _branches(pond):
        if feature_id in branch.feeds[1:]:
            order = list(branch.feeds)
            place = order.index(feature_id)
            order[place - 1 : place + 1] = [feature_id, order[place - 1]]
            return with_branch(pond, branch.id, feeds=tuple(order))
    return pond


def set_bypass(pond: Pond, feature_id: str, way_round: bool) -> Pond:
    """A way round a feature, or none."""
    for branch in _branches(pond):
        if feature_id in branch.feeds:
            kept = tuple(item for item in branch.bypass if item != feature_id)
            return with_branch(pond, branch.id, bypass=(*kept, feature_id) if way_round else kept)
    return pond


def set_valve(pond: Pond, branch_id: str, kind: Valve) -> Pond:
    """The valve at the start of a branch."""
    return with_branch(pond, branch_id, valve=kind)


def put_feature(pond: Pond, feature: WaterFeature, new_id: NewId) -> Pond:
    """A feature added or changed; a new one gets a branch of its own where lines are drawn."""
    if any(other.id == feature.id for other in pond.fed):
        fed = tuple(feature if other.id == feature.id else other for other in pond.fed)
        return pond.model_copy(update={"fed": fed})
    grown = pond.model_copy(update={"fed": (*pond.fed, feature)})
    if not pond.lines:
        return grown
    return feed_alone(grown, feature.id, pond.lines[0].id, new_id)


def remove_feature(pond: Pond, feature_id: str, new_id: NewId) -> Pond:
    """A feature less, and its branch if it fed nothing else."""
    fed = tuple(feature for feature in pond.fed if feature.id != feature_id)
    if pond.lines:
        pond = _filled(_unplugged(pond, feature_id), new_id)
    return pond.model_copy(update={"fed": fed})
