"""Where the water goes: pumps on the shelf, pipes, branches, and what they feed."""

from typing import Annotated, Literal, get_args

from pydantic import Field

from pondapp.models.base import Document, Id, Moment, Name, PartId
from pondapp.models.limits import MOST_BRANCHES, MOST_EARLIER
from pondapp.models.reading import Band

FlowAmount = Annotated[float, Field(gt=0, le=1)]
Aim = Literal["least", "good"]
"""The least flow that the rules call sufficient, or the flow at which a feature is at its best."""


class Feature(Document):
    """What all features that water passes have in common."""

    id: PartId
    name: Name
    band: Band | None = None
    """The user's own band, in place of the rule's."""
    aim: Aim | None = None
    """Which of its flows the plan gives it; None goes by the pond's choice, or by its kind."""


class BogFilter(Feature):
    """A slow planted gravel bed; its volume is the outside volume of the bed."""

    kind: Literal["bog"] = "bog"
    bed_volume_m3: Annotated[float, Field(gt=0, le=1e4)]


class HighFlowFilter(Feature):
    """A fast filter box of foam and loose media, usually under a waterfall."""

    kind: Literal["high_flow"] = "high_flow"
    media_volume_m3: Annotated[float, Field(gt=0, le=100)] | None = None


class Lip(Feature):
    """A waterfall's edge."""

    kind: Literal["lip"] = "lip"
    width_m: Annotated[float, Field(gt=0, le=50)]
    fall_m: Annotated[float, Field(gt=0, le=4)] | None = None
    """How far its water falls before it meets water again."""


class Jet(Feature):
    """A jet, spitter or fountain: it takes what its maker prints."""

    kind: Literal["jet"] = "jet"
    flow_m3_s: FlowAmount


class Skimmer(Feature):
    """A surface skimmer by the width of its opening."""

    kind: Literal["skimmer"] = "skimmer"
    opening_m: Annotated[float, Field(gt=0, le=5)]


class Stream(Feature):
    """A stream that runs down to the pond, with or without pools on its way."""

    kind: Literal["stream"] = "stream"
    length_m: Annotated[float, Field(gt=0, le=200)]
    width_m: Annotated[float, Field(gt=0, le=20)]
    fall_m: Annotated[float, Field(gt=0, le=20)]
    """From its source down to the pond's water."""
    bed: Literal["liner", "gravel", "cobbles", "boulders"]
    pools: Annotated[int, Field(ge=0, le=50)] | None = None
    pool_length_m: Annotated[float, Field(gt=0, le=50)] | None = None
    pool_width_m: Annotated[float, Field(gt=0, le=50)] | None = None
    pool_depth_m: Annotated[float, Field(ge=0.02, le=3)] | None = None
    """Below the edge of the weir that holds it."""
    weir_width_m: Annotated[float, Field(ge=0.05, le=20)] | None = None
    freeboard_m: Annotated[float, Field(gt=0, le=3)] | None = None
    """How much higher the pond's rim is than its water."""
    inlet_depth_m: Annotated[float, Field(gt=0, le=20)] | None = None
    """Water that stands over the inlet of its pump."""


class OwnFilter(Feature):
    """A filter that its owner wants to try: nothing is known of what it does."""

    kind: Literal["own_filter"] = "own_filter"
    flow_m3_s: FlowAmount


WaterFeature = Annotated[
    BogFilter | HighFlowFilter | Lip | Jet | Skimmer | Stream | OwnFilter,
    Field(discriminator="kind"),
]
FEATURES: tuple[str, ...] = tuple(
    stored.model_fields["kind"].default for stored in get_args(get_args(WaterFeature)[0])
)
"""Every kind of water feature, in the order in which they are offered."""


class Pipe(Document):
    """A run of pipe or hose of one size."""

    series: Name
    size: Name
    length_m: Annotated[float, Field(ge=0, le=1000)]
    fittings: dict[str, Annotated[int, Field(ge=1, le=200)]] = Field(default_factory=dict)


class Branch(Document):
    """From the T-piece (or the pump) to an outlet: pipe, valve, and what it feeds in order."""

    id: PartId
    name: Name
    pipe: Pipe | None = None
    lift_m: Annotated[float, Field(ge=0, le=50)] | None = None
    """Height of the outlet above the pond's water; None while nobody has entered it."""
    valve: Literal["none", "ball", "gate"] = "none"
    feeds: tuple[Id, ...] = ()
    """Ids of the features, in the order in which water meets them; none is a straight return."""
    bypass: tuple[Id, ...] = ()
    """Ids of those with a way round them."""


class PumpBefore(Document):
    """A pump that ran in a line before, and until when."""

    pump_id: Id
    until: Moment


class Line(Document):
    """A pump's place: its main run and its branches."""

    id: PartId
    name: Name
    pump_id: Id | None = None
    pumps_before: tuple[PumpBefore, ...] = Field(default=(), max_length=MOST_EARLIER)
    """Which pumps were in its place before this one, the oldest first."""
    rebuilt_at: Moment | None = None
    """When its hoses, the height of an outlet or the ways of its water were changed last."""
    main: Pipe | None = None
    hours_per_day: Annotated[float, Field(gt=0, le=24)] = 24.0
    branches: tuple[Branch, ...] = Field(min_length=1, max_length=MOST_BRANCHES)


class Pump(Document):
    """A pump by its label, or by points of its printed curve."""

    id: PartId
    name: Name
    max_flow_m3_s: FlowAmount | None = None
    max_head_m: Annotated[float, Field(gt=0, le=100)] | None = None
    power_w: Annotated[float, Field(gt=0, le=20_000)] | None = None
    price: Annotated[float, Field(ge=0, le=1e6)] | None = None
    adjustable: bool = False
    points: tuple[
        tuple[Annotated[float, Field(ge=0, le=1)], Annotated[float, Field(ge=0, le=100)]], ...
    ] = Field(default=(), max_length=30)
    """Flow [m3/s] and head [m] of each point of the printed curve."""
