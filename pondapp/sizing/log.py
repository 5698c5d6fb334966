"""A pond's log: everything that was measured or done there, in time order."""

from collections.abc import Iterable
from datetime import datetime

from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

LogItem = Reading | Entry


def moment(item: LogItem) -> datetime:
    """When it was measured or done."""
    return item.taken_at if isinstance(item, Reading) else item.when


def newest_first(items: Iterable[LogItem]) -> list[LogItem]:
    """In time order, the newest on top."""
    return sorted(items, key=moment, reverse=True)
