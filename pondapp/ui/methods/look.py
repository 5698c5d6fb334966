"""How one way of measuring is shown and entered; each is in the module that bears its name."""

from collections.abc import Sequence
from typing import Any, ClassVar, Generic, TypeVar

import flet as ft

from pondapp import units
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.methods.method import Sides
from pondapp.models.base import Document
from pondapp.models.reading import Fill
from pondapp.ui.parts import sketch
from pondapp.ui.parts.form import QuantityField
from pondapp.words import t

M = TypeVar("M", bound=Document)


class MethodLook(Generic[M]):
    """What readers see of one way of measuring.

    Attributes:
        stored: The class that is stored.
        when: What it is good for.
        steps: What to do, in one or two short steps.
        to_start: When to start the stopwatch, where something is timed.
        to_stop: When to stop it.
        caution: What may go wrong.
        told: The drawing in a sentence, for those who do not see it.
        needed: The amounts that it cannot do without.
        tolerances: How far each may be off, and what else has a usual value.
        corrected: The amounts that can be put right in the log.
        spreads: Stored tolerances that are a share of a stored amount, and so grow with it.
        sides: What basin or box is meant, where its size is given by its sides.
        asks_gravel: Whether there may be gravel in it.
        weighs: Whether each fill is weighed.
        chooses_container: Whether it takes a container whose content is known.
    """

    stored: type[M]
    when: ClassVar[str]
    steps: ClassVar[tuple[str, str]]
    to_start: ClassVar[str] = ""
    to_stop: ClassVar[str] = ""
    caution: ClassVar[str] = ""
    told: ClassVar[str]
    needed: ClassVar[tuple[QuantityField, ...]] = ()
    tolerances: ClassVar[tuple[QuantityField, ...]] = ()
    corrected: ClassVar[tuple[QuantityField, ...]] = ()
    spreads: ClassVar[dict[str, str]] = {}
    sides: ClassVar[str] = ""
    asks_gravel: ClassVar[bool] = False
    weighs: ClassVar[bool] = False
    chooses_container: ClassVar[bool] = False

    def drawn(self) -> list[Any]:
        """The drawing, on a grid of 120 by 96."""
        raise NotImplementedError

    def asked(self, _sides: Sides, _gravel: bool, /) -> Sequence[QuantityField]:
        """What it cannot do without, by how its size is given."""
        return self.needed

    def may_be_off(self, _gravel: bool, /) -> Sequence[QuantityField]:
        """How far each amount may be off."""
        return self.tolerances

    def all_fields(self) -> Sequence[QuantityField]:
        """Every field that it may show."""
        return (*self.needed, *self.tolerances)

    def how(self, method: M, system: str, /) -> str:
        """A line on what was read, for the log."""
        raise NotImplementedError

    @property
    def name(self) -> str:
        """What it is called, in the reader's language."""
        return t(METHODS[str(self.stored.model_fields["kind"].default)].name)

    def drawing(self) -> ft.Control:
        """The drawing, told in a sentence to those who do not see it."""
        return sketch.told(self.drawn(), t(self.told))

    def named_fields(self) -> dict[str, QuantityField]:
        """The fields of what can be put right, by the names that these are stored under."""
        return {one.limits.stored[1]: one for one in self.corrected if one.limits.stored}


def times_text(fills: Sequence[Fill], system: str) -> str:
    """The times that were taken."""
    return ", ".join(_time_text(fill.seconds, fill.excluded, system) for fill in fills)


def _time_text(seconds: float, excluded: bool, system: str) -> str:
    time = units.show(seconds, "duration", system)
    return t("{time} (struck out)", time=time) if excluded else time


AnyLook = MethodLook[Any]
