"""When there is enough to lose that a backup is worth the minute."""

from collections.abc import Iterable, Mapping

from pondapp.answers.log.log import LogItem
from pondapp.answers.sharing.example import EXAMPLE

MANY_ITEMS = 5
"""Readings and entries that are in no backup: about an hour of work at a pond."""


def own_items(items: Iterable[LogItem]) -> int:
    """How much the user wrote down; the invented pond's log is nobody's loss."""
    return sum(1 for item in items if item.pond_id != EXAMPLE)


def own_in_file(of_pond: Mapping[tuple[str, str], int], kind: str) -> int:
    """How many items of the user's own a file holds, by kind and pond."""
    return sum(
        number for (one, pond_id), number in of_pond.items() if one == kind and pond_id != EXAMPLE
    )


def backup_due(items: int, backed_up: int) -> int:
    """How many readings and entries are in no backup, once they are many; else 0.

    They are counted and not dated: a clock that is set back must not silence the reminder.
    """
    missing = items - backed_up
    return missing if missing >= MANY_ITEMS else 0
