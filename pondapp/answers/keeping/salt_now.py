"""The salt in a pond's water now: as tested, or why it has to be measured before more goes in."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.answers.keeping.water_now import WaterNow
from pondapp.answers.log.dates import day_text
from pondapp.answers.log.log import LogItem
from pondapp.core.base.messages import Amount, Message
from pondapp.models.entry import Dose, Entry, WaterTest

SALT_WORDS = ("salt", "salz", "sól")
"""What salt is called in a dose of the log, in whichever language it was entered."""


@dataclass(frozen=True, slots=True)
class SaltNow:
    """What the log says of the salt in the water.

    Attributes:
        tested: As tested lately, with none put in since [kg/m3]; None where that is not known.
        unsure: Why none must be assumed where nobody says how much there is; None where the log
            knows of no salt.
    """

    tested: float | None
    unsure: Message | None


def salt_now(water: WaterNow, log: Sequence[LogItem]) -> SaltNow:
    """The salt of now, from all tests and doses, however old: it does not leave by itself.

    What is dated later than now counts as well: its date may be mistyped, the salt is there.
    """
    entries = [item for item in log if isinstance(item, Entry)]
    doses = [
        one.when
        for one in entries
        if isinstance(one.what, Dose) and any(word in one.what.what.lower() for word in SALT_WORDS)
    ]
    tests = [
        (one.when, one.what.salt_kg_m3)
        for one in entries
        if isinstance(one.what, WaterTest) and one.what.salt_kg_m3 is not None
    ]
    when, read = max(tests, default=(None, 0.0))
    dosed = max(doses, default=None)
    if dosed is not None and (when is None or dosed > when):
        return SaltNow(None, Message(
            "Salt was put in on {day} and not measured since. It does not leave by itself, so "
            "measure it first.",
            {"day": day_text(dosed)},
        ))  # fmt: skip
    tested = water.values.get("salt_level")
    if when is None or not read:
        return SaltNow(tested, None)
    return SaltNow(tested, Message(
        "On {day} the water held {salt} of salt. It does not leave by itself, so measure it first.",
        {"day": day_text(when), "salt": Amount(read, "salt")},
    ))  # fmt: skip
