"""What was worked out of a pond, for as long as that pond stands: screens that show it share it."""

from pondapp.answers.pond import WorkedPond
from pondapp.models.pond import Pond
from pondapp.words import current_language

MOST_KEPT = 4
"""The pond of the screen, and what its form would make of it; the rest is quickly made again."""

# Ponds are frozen, so what was worked out of one holds for every equal one. Names that nobody
# entered are in the language that was in use. Newest first.
_kept: list[tuple[str, WorkedPond]] = []


def worked_now(pond: Pond) -> WorkedPond:
    """The pond with what was worked out of it so far."""
    language = current_language().code

    def is_it(one: tuple[str, WorkedPond]) -> bool:
        return one[0] == language and (one[1].pond is pond or one[1].pond == pond)

    found = next(filter(is_it, _kept), None) or (language, WorkedPond(pond))
    _kept[:] = [found, *(one for one in _kept if one is not found)][:MOST_KEPT]
    return found[1]
