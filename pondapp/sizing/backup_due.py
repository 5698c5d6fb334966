"""When there is enough to lose that a backup is worth the minute."""

MANY_READINGS = 5
"""Readings that are in no backup: about an hour of work at a pond."""


def backup_due(readings: int, backed_up: int) -> int:
    """How many readings are in no backup, once they are many; else 0.

    They are counted and not dated: a clock that is set back must not silence the reminder.
    """
    missing = readings - backed_up
    return missing if missing >= MANY_READINGS else 0
