"""A pond's log: everything that was measured or done there, in time order."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from functools import lru_cache
from itertools import groupby
from typing import TypeVar

from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

LogItem = Reading | Entry
Item = TypeVar("Item", Reading, Entry, Reading | Entry)
FLOW = "flow"
KINDS = (
    FLOW, "water_test", "water_change", "dose", "feed", "fish", "cleaning", "pump_change",
    "work", "photo", "note",
)  # fmt: skip


def photos_in(items: Iterable[Entry]) -> int:
    """How many of them are photos."""
    return sum(item.what.kind == "photo" for item in items)


def moment(item: LogItem) -> datetime:
    """When it was measured or done."""
    return item.taken_at if isinstance(item, Reading) else item.when


def newest_first(items: Iterable[LogItem]) -> list[LogItem]:
    """In time order, the newest on top."""
    return sorted(items, key=moment, reverse=True)


def until(items: Iterable[Item], now: datetime) -> list[Item]:
    """What was measured or done by now: an entry that is dated later is no evidence yet."""
    return [item for item in items if moment(item) <= now]


def kind_of(item: LogItem) -> str:
    """One of KINDS."""
    return FLOW if isinstance(item, Reading) else item.what.kind


DAY_FORMS = ("%Y-%m-%d", "%d.%m.%Y")  # all that a reader may see, whichever is in use


@lru_cache(maxsize=16384)
def words_in(item: LogItem) -> str:
    """The words that were typed or chosen, in small letters, to be searched; kept, for speed."""
    when = moment(item).astimezone()
    found = [*(when.strftime(form) for form in DAY_FORMS), item.note]
    if isinstance(item, Reading):
        found.append(item.place_name)
    else:
        found += [
            str(value)
            for key, value in item.what
            if isinstance(value, str) and key not in ("jpeg", "job")
        ]
    return " ".join(found).replace("_", " ").casefold()


def searched(items: Sequence[LogItem], text: str, kind: str | None) -> list[LogItem]:
    """The items of a kind (None: of any) that hold every word of the text."""
    wanted = text.casefold().split()
    return [
        item
        for item in items
        if kind in (None, kind_of(item))
        and (not wanted or all(word in words_in(item) for word in wanted))
    ]


def by_month(items: Iterable[LogItem]) -> list[tuple[datetime, list[LogItem]]]:
    """Items in time order, month by month on this device's clock."""

    def month(item: LogItem) -> tuple[int, int]:
        here = moment(item).astimezone()
        return here.year, here.month

    parts = [list(part) for _, part in groupby(items, key=month)]
    return [(moment(part[0]), part) for part in parts]
