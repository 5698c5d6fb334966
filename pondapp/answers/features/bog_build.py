"""How a bog filter is built: its layers, its pipes, its overflow, and the head over it."""

from dataclasses import dataclass

from pondapp.answers.features.at_pond import flows_of
from pondapp.answers.features.bog import slotted_pipes_for
from pondapp.answers.features.bog_layers import BogLayers, bog_layers
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount, Message
from pondapp.core.filters.bed_loss import BedLoss, bed_loss
from pondapp.core.filters.slots import SlottedPipes
from pondapp.core.hydraulics.water import density, dynamic_viscosity
from pondapp.core.materials.plants import PlantCount, plants_for_area
from pondapp.core.spillway.sheet import head_over_lip
from pondapp.core.spillway.weirs import WeirFlow
from pondapp.models.circuit import BogFilter

HAIR = 1e-3  # m of head, that nobody sees
LEAST_APART = 0.02  # m; a pipe that is sawn closer than that breaks


@dataclass(frozen=True, slots=True)
class BogBuild:
    """A bog filter as it is built.

    Attributes:
        flow: What the plan gives it, or its good flow [m3/s].
        layers: What lies in it, from the floor up.
        pipes: Its pipes with slots.
        loss: Head over the clean bed.
        overflow: Water over its overflow; None where that is no more than a film.
        plants: How many fit on it.
        weight: Of stones and water [kg].
        cautions: What to mind.
    """

    flow: float
    layers: BogLayers
    pipes: SlottedPipes
    loss: BedLoss
    overflow: WeirFlow | None
    plants: PlantCount
    weight: float
    cautions: tuple[Message, ...]

    @property
    def head(self) -> Message:
        """The head over the clean bed, no closer than anybody sees."""
        if self.loss.head < HAIR:
            return Message("Less than {least}", {"least": Amount(HAIR, "small")})
        return Message("{head}", {"head": Amount(float(f"{self.loss.head:.2g}"), "small")})


def bog_build(worked: WorkedPond, bog: BogFilter) -> BogBuild:
    """How a bog of a pond is built, at the flow of the plan.

    Raises:
        PondError: The pond or its rules cannot be, or the numbers are beyond any bog.
    """
    rules, f = worked.rules, worked.rules.filters
    flow = flows_of(worked)[bog.id]
    layers = bog_layers(bog, rules)
    pipes = slotted_pipes_for(bog, flow, rules)
    kelvin = worked.pond.water_temperature_c + ZERO_CELSIUS
    water, sticky = density(kelvin), dynamic_viscosity(kelvin)
    gravel = max(layers.gravel, 0.001)
    loss = bed_loss(flow, layers.area, gravel, f.gravel_grain, f.porosity, water, sticky)
    try:
        overflow = head_over_lip(flow, f.bog_overflow, layers.bed + layers.over)
    except NoSolution:
        overflow = None
    stones = bog.bed_volume_m3 * rules.materials.gravel_bulk_density
    held = layers.area * layers.over + bog.bed_volume_m3 * f.porosity
    plants = plants_for_area(layers.area, rules.materials.plants_per_bog_area)
    weight = stones + held * water
    cautions = []
    if pipes.apart < LEAST_APART:
        cautions.append(
            Message(
                "Slots every {apart} weaken the pipe: lay more pipes, or saw longer slots.",
                {"apart": Amount(pipes.apart, "small")},
            )
        )
    if overflow is not None and overflow.head >= layers.edge:
        cautions.append(
            Message(
                "Water stands {head} over the overflow, and the edge is {edge} higher: make the "
                "overflow wider or the edge higher.",
                {"head": Amount(overflow.head, "small"), "edge": Amount(layers.edge, "small")},
            )
        )
    return BogBuild(flow, layers, pipes, loss, overflow, plants, weight, tuple(cautions))
