"""A bog filter: a slow bed of gravel with plants in it."""

from collections.abc import Iterator, Mapping, Sequence

from pondapp.answers.features.bog_layers import bog_layers
from pondapp.answers.features.kind import FeatureKind, Size
from pondapp.answers.shopping.needed import Needed, planted
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message, Range, counted
from pondapp.core.base.working import Step
from pondapp.core.filters.bands import FlowBand
from pondapp.core.filters.bed import specific_surface
from pondapp.core.filters.bog import BogFlow, bog_flow
from pondapp.core.filters.slots import SlottedPipes, slotted_pipes
from pondapp.core.materials.gravel import gravel_order
from pondapp.core.materials.plants import plants_for_area
from pondapp.core.stock.span import Span
from pondapp.models.circuit import BogFilter

COARSE = (0.04, 0.08)  # m; coarse stones as they are sold, common practice
LEAST_BED = 0.01  # m3; a smaller one nobody builds


def gravel_surface(rules: Assumptions) -> Span:
    """Area over volume of the gravel of the rules [m2/m3]."""
    likely = specific_surface(rules.filters.gravel_grain, rules.filters.porosity)
    give = rules.filters.gravel_surface_tolerance
    return Span(likely * (1 - give), likely, likely * (1 + give))


def slotted_pipes_for(bog: BogFilter, flow: float, rules: Assumptions) -> SlottedPipes:
    """The pipes under a bog for a flow [m3/s]."""
    f = rules.filters
    area = bog_layers(bog, rules).area
    return slotted_pipes(flow, area, f.bog_pipe_spacing, f.slot_speed, f.slot_width, f.slot_length)


class _Bog(FeatureKind[BogFilter]):
    stored = BogFilter
    title = "Bog filter"
    outlet = "outlet of the bog filter"
    aim = "least"
    symbol = "bed"
    rules = (
        "filters.bog_retention_min",
        "filters.bog_retention_target",
        "filters.bog_retention_max",
    )
    planner = "bed"
    size = Size(
        field="bed_volume_m3",
        label="volume of {name}",
        unit="m3",
        least=LEAST_BED,
        most=lambda _pond, volume: volume,
    )
    alive = True
    gravel = True

    def _flow(self, bog: BogFilter, rules: Assumptions) -> BogFlow:
        f = rules.filters
        times = f.bog_retention_min, f.bog_retention_target, f.bog_retention_max
        return bog_flow(bog.bed_volume_m3, *times)

    def band(self, bog: BogFilter, _volume: float, rules: Assumptions, /) -> FlowBand:
        return self._flow(bog, rules).band

    def rule(self, _bog: BogFilter, _volume: float, rules: Assumptions, /) -> Message:
        f = rules.filters
        return Message(
            "Water takes {range} through the bed; slower is better.",
            {"range": Range(f.bog_retention_min, f.bog_retention_max, "s")},
        )

    def steps(self, bog: BogFilter, _volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        return self._flow(bog, rules).steps()

    def media_volume(self, bog: BogFilter, /) -> float:
        return bog.bed_volume_m3

    def media_surface(self, rules: Assumptions, /) -> Span:
        return gravel_surface(rules)

    def stock_words(
        self, bogs: Sequence[BogFilter], volume: float, rules: Assumptions, /
    ) -> Message:
        share = sum(bog.bed_volume_m3 for bog in bogs) / volume
        return Message(
            "The bog is {share} of the pond's volume; {least} or more is usual, {heavy} for many "
            "fish",
            {
                "share": Amount(share, "share"),
                "least": Amount(rules.filters.bog_share, "share"),
                "heavy": Amount(rules.filters.bog_share_heavy, "share"),
            },
        )

    def to_buy(self, bog: BogFilter, rules: Assumptions, /) -> Iterator[Needed]:
        materials, layers = rules.materials, bog_layers(bog, rules)
        order, stones = (
            gravel_order(
                layers.area * depth,
                materials.gravel_bulk_density,
                materials.bag_mass,
                materials.gravel_spare,
            )
            for depth in (layers.gravel, layers.coarse)
        )
        yield Needed(
            f"gravel.{bog.id}",
            "filters",
            Message("Bags of gravel for {filter}", {"filter": bog.name}),
            float(order.bags),
            remark=Message(
                "{mass} in bags of {bag}, or {volume} loose. Washed, of one size.",
                {
                    "mass": Amount(order.mass, "kg"),
                    "bag": Amount(order.bag_mass, "kg"),
                    "volume": Amount(order.volume, "m3"),
                },
            ),
            working=order.steps,
            counted=counted(
                "{count} bag of gravel for {filter}",
                "{count} bags of gravel for {filter}",
                order.bags,
                {"filter": bog.name},
            ),
        )
        yield Needed(
            f"stones.{bog.id}",
            "filters",
            Message("Bags of coarse stones for {filter}", {"filter": bog.name}),
            float(stones.bags),
            remark=Message(
                "A layer of {layer} round its pipes, of stones of {range}. Leave it out "
                "for a bed of gravel alone, which then takes as much more gravel.",
                {
                    "layer": Amount(layers.coarse, "width"),
                    "range": Range(*COARSE, "width"),
                },
            ),
            working=stones.steps,
            counted=counted(
                "{count} bag of coarse stones for {filter}",
                "{count} bags of coarse stones for {filter}",
                stones.bags,
                {"filter": bog.name},
            ),
        )
        pipes = slotted_pipes_for(bog, self._flow(bog, rules).band.target, rules)
        yield Needed(
            f"slotted.{bog.id}",
            "filters",
            Message("Pipe to saw slots into, for {filter}", {"filter": bog.name}),
            pipes.length,
            "m",
            remark=Message(
                "Side by side on the floor. Leave it out if your bed has another way to spread the "
                "water."
            ),
        )
        area = layers.area
        name = Message("Plants for {filter}", {"filter": bog.name})
        plants = plants_for_area(area, materials.plants_per_bog_area)
        several = counted(
            "{count} plant for {filter}",
            "{count} plants for {filter}",
            plants.count,
            {"filter": bog.name},
        )
        yield planted(f"plants.{bog.id}", name, several, plants)

    def measures(self, bog: BogFilter, /) -> Mapping[str, float]:
        return {"space": bog.bed_volume_m3}


KIND = _Bog()
