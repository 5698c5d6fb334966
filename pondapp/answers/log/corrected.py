"""An item of a log that is corrected: what it was stays with it."""

from datetime import datetime
from typing import Any, TypeVar, cast

from pondapp.answers.log.log import LogItem
from pondapp.models.entry import EarlierEntry
from pondapp.models.limits import MOST_EARLIER
from pondapp.models.reading import EarlierReading, Reading

Item = TypeVar("Item", bound=LogItem)
PARTS_OF_READING = ("pond_id", "place_name", "taken_at", "method", "note")
PARTS_OF_ENTRY = ("pond_id", "when", "what", "note")


def corrected(before: LogItem, after: Item, at: datetime) -> Item:
    """The item as it is now, with what is another now added to what it was earlier.

    The first of many corrections and the newest are kept.
    """
    earlier: Any = before.earlier
    if isinstance(before, Reading) and isinstance(after, Reading):
        was = _changed(before, after, PARTS_OF_READING)
        if before.place_id != after.place_id:  # two places may have one name
            was["place_name"] = before.place_name
        newest: Any = EarlierReading(changed_at=at, **was) if was else None
    else:
        was = _changed(before, after, PARTS_OF_ENTRY)
        newest = EarlierEntry(changed_at=at, **was) if was else None
    if newest is not None:
        earlier = (*earlier, newest)
    if len(earlier) > MOST_EARLIER:
        earlier = (earlier[0], *earlier[1 - MOST_EARLIER :])
    changed: Any = after.model_copy(update={"earlier": earlier})
    return cast("Item", changed)


def _changed(before: LogItem, after: LogItem, parts: tuple[str, ...]) -> dict[str, Any]:
    was = {name: getattr(before, name) for name in parts}
    return {name: value for name, value in was.items() if value != getattr(after, name)}
