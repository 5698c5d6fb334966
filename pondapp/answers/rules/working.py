"""How a number was found, as the core tells it; for screens that show it."""

from collections.abc import Callable

from pondapp.core.base.working import COMMON_PRACTICE as COMMON_PRACTICE
from pondapp.core.base.working import ENTERED as ENTERED
from pondapp.core.base.working import Source as Source
from pondapp.core.base.working import Step as Step
from pondapp.core.base.working import Term as Term

Working = Callable[[], tuple[Step, ...]]
"""The steps, worked out only when somebody asks."""


def no_steps() -> tuple[Step, ...]:
    """The working of a number that needs none."""
    return ()
