"""What there is to know of one way of measuring a flow.

Each is described once, in the module of this folder that bears its name; everything else looks it
up in `kinds.py`. How it is drawn and entered is in the module of that name in `ui/methods`.

Amounts go by short names, as they are typed on a screen: all in SI, each only if it was given.
Where nobody says how far an amount may be off, the rules in force say it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Generic, Literal, TypeVar

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.measuring.aims import guarded
from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.measuring.flow import AnyFlow, Measured
from pondapp.answers.plumbing.path import feature_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.verdict import FillWindow, fill_time_window
from pondapp.models.base import Document
from pondapp.models.circuit import WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.reading import Container, Fill, Method, Steadiness

Sides = Literal["box", "round", "known"]
"""How the size of a basin or space is given: a box, a tub, or its area or volume itself."""
Known = Mapping[str, float]
M = TypeVar("M", bound=Document)


@dataclass(frozen=True, slots=True)
class Entered:
    """Everything that was entered for one measurement, whatever the method."""

    known: Known
    sides: Sides = "box"
    gravel: bool = False
    fills: Sequence[Fill] = ()
    full_kg: Mapping[int, float] | None = None
    """What the scale showed for the full container, by the place of its fill."""
    container: Container | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """Where it is measured: at a feature of a pond, at one of its pumps, or without a pond."""

    pond: Pond | None
    feature: WaterFeature | None

    @property
    def gravel(self) -> bool:
        """Whether it is a bed of gravel."""
        return self.feature is not None and kind_of(self.feature).gravel

    def size(self, name: str) -> Known:
        """One amount of the feature's size, if it has it, by the name that methods give it."""
        sizes = kind_of(self.feature).measures(self.feature) if self.feature else {}
        return {name: sizes[name]} if name in sizes else {}


def place_at(pond: Pond | None, place_id: str) -> Place:
    """The place of that id."""
    return Place(pond, feature_of(pond, place_id) if pond else None)


class MethodKind(Generic[M]):
    """One way of measuring: what it takes, and how it becomes a flow.

    Attributes:
        stored: The class that is stored.
        name: What it is called.
        timed: Whether something is timed.
        runs: How many times are asked for, where something is.
    """

    stored: type[M]
    name: ClassVar[str]
    timed: ClassVar[bool] = False
    runs: ClassVar[int] = 1

    def measured(
        self, method: M, band: FlowBand | None, rules: MeasuringAssumptions,
        steadiness: Steadiness | None, /,
    ) -> Measured | None:  # fmt: skip
        """What a measurement says, or nothing while nothing counts.

        Raises:
            PondError: The numbers cannot be; the message says why.
        """
        raise NotImplementedError

    def flow_by_times(
        self, _method: M, _rules: MeasuringAssumptions, _steadiness: Steadiness | None, /
    ) -> AnyFlow | None:
        """The flow of what was timed, not judged yet, where a time is all that each run adds.

        Raises:
            PondError: The numbers cannot be; the message says why.
        """
        return None

    def made(self, entered: Entered, known: Known, /) -> Method | None:
        """The measurement, or nothing while something that it needs is missing."""
        raise NotImplementedError

    def usual(self, _rules: Assumptions, /) -> Known:
        """What the rules assume where nobody says otherwise, mostly how far off an amount is."""
        return {}

    def begins(self, _place: Place, _rules: Assumptions, /) -> Known:
        """What the pond's drawing and the rules already say, to begin with."""
        return {}

    def sides_at(self, _place: Place, /) -> Sides:
        """How the size is given to begin with."""
        return "box"

    def amount_timed(self, _entered: Entered, /) -> float | None:
        """The water [m3] that passes while the time is taken, where that is known beforehand."""
        return None

    def amount_tolerance(self, rules: MeasuringAssumptions, /) -> float:
        """How far that amount may be off, as a share of it."""
        return rules.container_tolerance

    def even_times(self, _method: M, /) -> list[float]:
        """Times [s] that can be held against each other: for the same amount of water."""
        return []

    def asked(self, found: Measured | None, /) -> int:
        """How many times are asked for by now: one more while what was timed is not enough."""
        if found is None or found.counted < self.runs or found.enough:
            return self.runs
        return found.counted + 1

    @property
    def key(self) -> str:
        """By this it is stored."""
        return str(self.stored.model_fields["kind"].default)

    def entered(self, entered: Entered, rules: Assumptions) -> Method | None:
        """The measurement, or nothing while something that it needs is missing."""
        if self.timed and not entered.fills:
            return None
        return self.made(entered, {**self.usual(rules), **entered.known})

    def window(
        self,
        entered: Entered,
        band: FlowBand,
        rules: Assumptions,
        _steadiness: Steadiness | None = None,
    ) -> FillWindow | None:
        """The time to aim for, where the water that passes in it is known beforehand.

        Raises:
            PondError: The amount or the band cannot be.
        """
        amount = self.amount_timed(entered)
        if not amount:
            return None
        tolerance = self.amount_tolerance(rules.measuring)
        expected = expected_scatter(rules.measuring)
        aim = guarded(band, amount, tolerance, expected, rules.measuring, fills=1)
        return fill_time_window(amount, band.low, aim.flow, band.high)


AnyMethod = MethodKind[Any]
