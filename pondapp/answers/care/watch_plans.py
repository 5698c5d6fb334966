"""Ready-made reminders for the weeks in which fish are in danger: a new filter, new fish."""

from dataclasses import dataclass
from datetime import date, timedelta

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY
from pondapp.models.pond import Pond, Reminder
from pondapp.words import t


@dataclass(frozen=True, slots=True)
class WatchPlan:
    """Reminders that belong together.

    Attributes:
        title: What they are for.
        why: What to know of it.
        reminders: One after the other; each takes an id of its own when it is kept.
    """

    title: str
    why: tuple[str, ...]
    reminders: tuple[Reminder, ...]


def watch_plans(pond: Pond, today: date) -> tuple[WatchPlan, ...]:
    """The plans that begin today, by the rules in force; in the reader's language.

    Raises:
        PondError: A changed rule cannot be.
    """
    care = Assumptions().with_overrides(pond.assumptions).care
    every = max(1, round(care.new_filter_tested / DAY))
    times = max(1, round(care.new_filter_watched / DAY) // every)
    days = max(1, round(care.quarantine / DAY))
    return (
        WatchPlan(
            "The first weeks of a filter",
            (
                "Its bacteria need weeks to grow. Until then ammonia rises first and nitrite after "
                "it: feed little, and change water when a test says so. Common practice, no "
                "source.",
            ),
            (
                Reminder(id="filter", text=t("Test ammonia and nitrite: new filter"), first=today,
                         unit="days", every=every, times=times),
            ),
        ),
        WatchPlan(
            "Quarantine of new fish",
            (
                "Keep new fish in a tank of their own, with air, a cover and a filter, and a net "
                "that touches no other water. A sick fish belongs to a vet. Common practice, no "
                "source.",
            ),
            (
                Reminder(id="look",
                         text=t("Quarantine: look at the fish, test ammonia and nitrite"),
                         first=today, unit="days", times=days),
                Reminder(id="end", text=t("Quarantine ends, if all fish are well"),
                         first=today + timedelta(days=days)),
            ),
        ),
    )  # fmt: skip
