"""What there is to know of one kind of water feature.

Each kind is described once, in the module of this folder that bears its name; everything else looks
it up in `kinds.py`. How a kind is drawn and entered is in the module of that name in `ui/features`.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import ClassVar, Generic, Literal, TypeVar

from pondapp.answers.care.severity import Severity
from pondapp.answers.rules.working import Working, no_steps
from pondapp.answers.shopping.needed import Needed, named
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import Step
from pondapp.core.circuit.model import Kind as PlannerKind
from pondapp.core.filters.bands import FlowBand
from pondapp.core.stock.span import Span
from pondapp.models.base import limits_of
from pondapp.models.circuit import Aim, Feature
from pondapp.models.pond import Pond

F = TypeVar("F", bound=Feature)
Symbol = Literal["bed", "box", "jars", "edge", "spray", "mouth", "run"]
"""What a kind looks like in the picture of a pond."""


@dataclass(frozen=True, slots=True)
class Size:
    """The size that the flows of a feature grow with, and that a resolution may change.

    Attributes:
        field: Its name in the stored class.
        label: What it is called, with a place for the feature's `{name}`.
        unit: Its unit.
        least: Below this [unit] nobody builds one.
        most: The largest [unit] that fits a pond of a volume [m3].
    """

    field: str
    label: str
    unit: str
    least: float
    most: Callable[[Pond, float], float]


@dataclass(frozen=True, slots=True)
class Site:
    """What a kind may ask of the pond that a feature is at.

    Attributes:
        fed: All features of the pond.
        flows: What the plan gives each of them, or its good flow while there is no plan [m3/s], by
            id.
        surface: Open water of the pond [m2]; None where it is not drawn.
        measured: The most that flows through each by its newest reading, where that still stands
            [m3/s], by id.
        volume: Water in the pond [m3]; None where nobody says.
    """

    fed: tuple[Feature, ...]
    flows: Mapping[str, float]
    surface: float | None
    measured: Mapping[str, float] = field(default_factory=dict)
    volume: float | None = None

    def most(self, feature_id: str) -> float:
        """What a feature has to bear [m3/s]: the plan's flow, or the measured one if it is more."""
        return max(self.flows[feature_id], self.measured.get(feature_id, 0.0))


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that follows from a feature at its pond.

    Attributes:
        label: What it is; empty for a sentence that stands alone.
        value: The answer.
        remark: How far to trust it, or what to do.
        severity: How bad it is, where that can be said.
    """

    label: str
    value: Message
    remark: Message | None = None
    severity: Severity | None = None
    working: Working = field(default=no_steps, compare=False, repr=False)

    def steps(self) -> tuple[Step, ...]:
        """How it was found."""
        return self.working()


class FeatureKind(Generic[F]):
    """One kind of water feature: what it is, what it asks for, what it does for the pond.

    Attributes:
        stored: The class that is stored.
        title: What it is called.
        outlet: What its outlet is called, where a flow is measured.
        aim: Which of its flows the plan gives it while nobody chose: filters have the least that
            the rules call sufficient, since fewer watts is what a builder wants; what is looked at
            has its good flow.
        rules: Keys of the rules of thumb that its band follows from.
        planner: How water can be led past it: over the top of a bed, round a box, beside a lip.
        size: The size that its flows grow with.
        symbol: What it looks like in the picture of a pond.
        alive: Whether bacteria live in it: it cleans the water, and needs water round the clock.
            All else may rest with a timer.
        known: Whether what it does for the fish can be reckoned; else it counts for nothing.
        falls: Whether water falls from it and takes up air.
        takes_falls: Whether a waterfall usually starts at it.
        gravel: Whether gravel fills it, so that water has the gaps only.
        cleaned_apart: Whether the log knows its cleaning apart from that of the filters.
    """

    stored: type[F]
    title: ClassVar[str]
    outlet: ClassVar[str]
    aim: ClassVar[Aim]
    rules: ClassVar[tuple[str, ...]] = ()
    planner: ClassVar[PlannerKind] = "other"
    size: ClassVar[Size | None] = None
    symbol: ClassVar[Symbol] = "box"
    alive: ClassVar[bool] = False
    known: ClassVar[bool] = True
    falls: ClassVar[bool] = False
    takes_falls: ClassVar[bool] = False
    gravel: ClassVar[bool] = False
    cleaned_apart: ClassVar[bool] = False

    def band(self, feature: F, volume: float, rules: Assumptions, /) -> FlowBand:
        """The flows [m3/s] that the rules give it in a pond of this volume [m3]."""
        raise NotImplementedError

    def rule(self, feature: F, volume: float, rules: Assumptions, /) -> Message:
        """The rule that its band follows from, in a sentence."""
        raise NotImplementedError

    def steps(self, feature: F, volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        """The working of its band."""
        raise NotImplementedError

    def media_volume(self, feature: F, /) -> float | None:
        """Volume [m3] of what bacteria live on in it; None while it is not entered."""
        raise NotImplementedError

    def media_surface(self, rules: Assumptions, /) -> Span:
        """Area over volume [m2/m3] of what bacteria live on in it."""
        raise NotImplementedError

    def stock_words(
        self, _features: Sequence[F], _volume: float, _rules: Assumptions, /
    ) -> Message | None:
        """What all of this kind are, beside a pond of this volume [m3] with fish in it."""
        return None

    def fall(self, _feature: F, /) -> float | None:
        """How far [m] its water falls; None while it is not entered."""
        return None

    def open_water(self, _feature: F, /) -> float:
        """Water [m2] that lies open in it, beside that of the pond."""
        return 0.0

    def told(self, _feature: F, _site: Site, _rules: Assumptions, /) -> Iterator[Told]:
        """What more follows from it at its pond, beside the flow that it wants."""
        yield from ()

    def to_buy(self, feature: F, _rules: Assumptions, /) -> Iterator[Needed]:
        """What is bought for it: one of it, as long as a kind says nothing else."""
        yield Needed(f"thing.{feature.id}", "filters", named(feature.name), 1.0)

    def measures(self, _feature: F, /) -> Mapping[str, float]:
        """What of its size a way of measuring can begin with, by the names of its amounts."""
        return {}

    @property
    def key(self) -> str:
        """By this it is stored."""
        return str(self.stored.model_fields["kind"].default)

    @property
    def has_top(self) -> bool:
        """Whether what is too much can run over its top."""
        return self.planner == "bed"

    def size_of(self, feature: F) -> float | None:
        """The size that its flows grow with; none where its user set them."""
        return None if self.size is None or feature.band else getattr(feature, self.size.field)

    def resized(self, feature: F, size: float) -> F:
        """The feature with another size.

        Raises:
            OutOfRange: It cannot be that large.
        """
        if self.size is None:
            return feature
        label = phrase(self.size.label, name=feature.name)
        most = limits_of(self.stored, self.size.field).high
        require_within(label, size, 0.0, most, self.size.unit)
        return feature.model_copy(update={self.size.field: size})
