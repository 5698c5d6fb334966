"""Two versions of one document, from two devices, made one: the same on both, and nothing is lost.

An item of a log carries what it was before each correction, a pond the marks of its former
versions. So it is known which of two follows from the other, and no clock is asked for that; where
neither does, both are kept. Clocks only say in which order corrections are told.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from itertools import pairwise
from typing import Any, Literal

from pondapp.models.entry import EarlierEntry, Entry
from pondapp.models.limits import EARLIEST, LONGEST_ID, MOST_EARLIER, MOST_PAST
from pondapp.models.pond import Pond
from pondapp.models.reading import EarlierReading, Reading

Outcome = Literal["same", "mine", "theirs", "both"]
"""Which version stays; the same where both say the same, whatever was before."""
Item = Reading | Entry
MARK = 8
"""Letters of the mark of a version: of 200 versions two have the same once in 200,000 ponds."""


@dataclass(frozen=True, slots=True)
class Merged:
    """What is to lie there, and, of a pond that both changed, the version that goes beside it."""

    outcome: Outcome
    document: Any
    beside: Pond | None = None


def merged(mine: Any, theirs: Any) -> Merged | None:
    """Both versions made one; None for what is no pond and no item of a log."""
    if isinstance(mine, Pond) and isinstance(theirs, Pond):
        return _merged_ponds(mine, theirs)
    for kind in (Reading, Entry):
        if isinstance(mine, kind) and isinstance(theirs, kind):
            return _merged_items(mine, theirs)
    return None


# ---- ponds
def mark(pond: Pond) -> str:
    """Names a version of a pond by what is in it; the same in each version of the app."""
    text = pond.model_dump_json(exclude={"past"}, exclude_defaults=True)
    return sha256(text.encode()).hexdigest()[:MARK]


def following(pond: Pond, before: Pond) -> Pond:
    """A pond that knows the version which it takes the place of."""
    other = (mark(before),) if mark(before) != mark(pond) else ()
    return pond.model_copy(update={"past": _past(pond.past, before.past, other)})


def _past(*marks: tuple[str, ...]) -> tuple[str, ...]:
    known = dict.fromkeys(one for some in marks for one in some)
    return tuple(known)[-MOST_PAST:]


def _merged_ponds(mine: Pond, theirs: Pond) -> Merged:
    here, there = mark(mine), mark(theirs)
    if here == there:
        union = {*mine.past, *theirs.past}
        whole = [one.past for one in (mine, theirs) if set(one.past) == union]
        past = max(whole, default=_past(tuple(sorted(union))))
        return Merged("same", mine.model_copy(update={"past": past}))
    newer_here, newer_there = there in mine.past, here in theirs.past
    if newer_here and newer_there:  # a change that was taken back: the one with more behind it
        newer_here = len(mine.past) > len(theirs.past)
        newer_there = len(mine.past) < len(theirs.past)
    if newer_here:
        return Merged("mine", mine)
    if newer_there:
        return Merged("theirs", theirs)
    # Changed on both, or of before versions were noted: any rule will do that both devices have.
    stays, goes = (mine, theirs) if (len(mine.past), here) > (len(theirs.past), there) else (
        theirs, mine
    )  # fmt: skip
    stays = stays.model_copy(update={"past": _past(goes.past, stays.past, (mark(goes),))})
    return Merged("both", stays, _beside(goes))


def _beside(pond: Pond) -> Pond:
    ending = f"-{mark(pond)}"
    changes = {
        "id": f"{pond.id[: LONGEST_ID - len(ending)]}{ending}",
        "name": f"{pond.name[:76]} (2)",
        "past": (),
    }
    return pond.model_copy(update=changes)


# ---- items of a log
@dataclass(frozen=True, slots=True)
class Version:
    """What an item said from a moment on; None: from the beginning."""

    since: datetime | None
    values: dict[str, Any]

    def rank(self) -> tuple[datetime, str]:
        """In which order versions are told, the same on every device."""
        return self.since or EARLIEST, self.text()

    def text(self) -> str:
        """What it said, to be compared."""
        return json.dumps({name: _plain(value) for name, value in self.values.items()})


def _plain(value: Any) -> Any:
    return value.model_dump_json() if hasattr(value, "model_dump_json") else str(value)


def _kind_of_earlier(item: Item) -> Any:
    return EarlierReading if isinstance(item, Reading) else EarlierEntry


def _versions(item: Item) -> Iterator[Version]:
    """All that an item was and is, the newest first."""
    parts = [name for name in _kind_of_earlier(item).model_fields if name != "changed_at"]
    values = {name: getattr(item, name) for name in parts}
    former: Any = item.earlier
    for was in reversed(former):
        yield Version(was.changed_at, values)
        then = {name: getattr(was, name) for name in parts}
        values = {**values, **{name: one for name, one in then.items() if one is not None}}
    yield Version(None, values)


def _merged_items(mine: Item, theirs: Item) -> Merged:
    here = {version.rank(): version for version in _versions(mine)}
    there = {version.rank(): version for version in _versions(theirs)}
    if here.keys() == there.keys():  # they differ in what no correction notes
        newer = max(mine, theirs, key=lambda one: one.model_dump_json())
        return Merged("mine" if newer is mine else "theirs", newer)
    if there.keys() < here.keys():
        return Merged("mine", mine)
    if here.keys() < there.keys():
        return Merged("theirs", theirs)
    told = [version for _, version in sorted({**here, **there}.items())]
    last = told[-1]
    base = mine if last.rank() in here else theirs
    if last.rank() in here and last.rank() in there:
        base = max(mine, theirs, key=lambda one: one.model_dump_json())
    return Merged("both", _told(base, told))


def _told(base: Item, versions: list[Version]) -> Item:
    """An item that says the last of its versions, and that it said the others before."""
    made = _kind_of_earlier(base)
    moment = base.taken_at if isinstance(base, Reading) else base.when
    earlier = []
    for was, now in pairwise(versions):
        other = {name: one for name, one in was.values.items() if one != now.values[name]}
        earlier.append(made(changed_at=now.since or moment, **other))
    if len(earlier) > MOST_EARLIER:
        earlier = [earlier[0], *earlier[1 - MOST_EARLIER :]]
    changes = {**versions[-1].values, "earlier": tuple(earlier)}
    return base.model_copy(update=changes)
