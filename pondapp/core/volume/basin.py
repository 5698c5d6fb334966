"""A basin is layers stacked from the water down; a pond is one basin or several."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.core.base.errors import NotEnoughReadings, require_above
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, ENTERED, Step, Term
from pondapp.core.volume.layers import PRISMOIDAL, Layer, prismoidal_volume

# A lower layer may stick out by the rounding of somebody's tape and no more.
SAME_AREA = 1.001


@dataclass(frozen=True, slots=True)
class BasinVolume:
    """A body of water with shelves or without.

    Attributes:
        volume: Water in it [m3].
        area: Area of the water's surface [m2].
        depth: Depth at the deepest place [m].
        layers: The layers from the top down.
        warnings: What looks like a slip; mostly empty.
    """

    volume: float
    area: float
    depth: float
    layers: tuple[Layer, ...]
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        parts = []
        for number, layer in enumerate(self.layers, start=1):
            volume = prismoidal_volume(
                layer.area_top, layer.area_middle, layer.area_bottom, layer.thickness
            )
            inputs = (
                Term("A1", "area at its top", layer.area_top, "m2"),
                Term("A2", "area half way down", layer.area_middle, "m2"),
                Term("A3", "area at its bottom", layer.area_bottom, "m2"),
                Term("d", "its depth", layer.thickness, "m"),
            )
            result = Term(
                f"V{number}", phrase("water in layer {number}", number=str(number)), volume, "m3"
            )
            parts.append(Step(result, "V = (A1 + 4 A2 + A3) d / 6", inputs, PRISMOIDAL))
        whole = Step(
            Term("V", "water in the basin", self.volume, "m3"),
            "V = sum of the layers",
            tuple(step.result for step in parts),
            ARITHMETIC,
        )
        return (*parts, whole)


def basin(layers: Sequence[Layer]) -> BasinVolume:
    """Stack layers into a basin; a shelf is the step from one layer to a smaller one below.

    Args:
        layers: One or more layers [m2], [m], from the water's surface down.

    Returns:
        Volume [m3], surface [m2] and depth [m], with a warning where a layer is larger than
        the one above it.

    Raises:
        NotEnoughReadings: There is no layer.
        OutOfRange: An area or a depth of a layer is outside its range.

    Source:
        V = Σ (A_top + 4 A_mid + A_bottom) d / 6, the prismoidal rule for each layer
        (prismoidal_volume).

    Example:
        A shelf all round, then the deep part:

        >>> from pondapp.core.volume.layers import Layer
        >>> upper, deep = Layer(12.0, 12.0, 12.0, 0.3), Layer(5.0, 5.0, 5.0, 0.7)
        >>> found = basin([upper, deep])
        >>> round(found.volume, 2), round(found.depth, 2)
        (7.1, 1.0)
    """
    if not layers:
        raise NotEnoughReadings("a basin needs at least one layer of water")
    volume = sum(
        prismoidal_volume(part.area_top, part.area_middle, part.area_bottom, part.thickness)
        for part in layers
    )
    warnings = tuple(
        Message(
            "layer {number} is wider at its top, {below}, than the floor above it, {above}: "
            "is the bank really undercut?",
            {
                "number": str(index + 2),
                "below": Amount(layers[index + 1].area_top, "m2"),
                "above": Amount(layers[index].area_bottom, "m2"),
            },
        )
        for index in range(len(layers) - 1)
        if layers[index + 1].area_top > SAME_AREA * layers[index].area_bottom
    )
    area = layers[0].area_top
    depth = sum(part.thickness for part in layers)
    return BasinVolume(volume, area, depth, tuple(layers), warnings)


@dataclass(frozen=True, slots=True)
class PondVolume:
    """The water of a whole pond.

    Attributes:
        volume: The volume to work with [m3]: the measured one where there is one.
        computed: Sum of the basins [m3], None without a basin.
        measured: What was measured [m3], or None.
        area: Area of all surfaces [m2], None without a basin.
        basins: The basins it is made of.
        warnings: Where measured and computed do not agree; and the basins' own.
    """

    volume: float
    computed: float | None
    measured: float | None
    area: float | None
    basins: tuple[BasinVolume, ...]
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        found = [step for part in self.basins for step in part.steps()]
        if self.computed is not None:
            parts = tuple(
                Term(
                    f"V{number}",
                    phrase("water in basin {number}", number=str(number)),
                    part.volume,
                    "m3",
                )
                for number, part in enumerate(self.basins, start=1)
            )
            whole = Term("V", "water in the pond, computed", self.computed, "m3")
            found.append(Step(whole, "V = sum of the basins", parts, ARITHMETIC))
        if self.measured is not None:
            used = Term("V", "water in the pond, measured", self.measured, "m3")
            found.append(Step(used, "the measured volume counts", (), ENTERED))
        return tuple(found)


def pond_volume(
    basins: Sequence[BasinVolume], measured: float | None, mismatch: float
) -> PondVolume:
    """Water of a pond of several basins; a measured volume overrides the computed one.

    Args:
        basins: The basins [m3]; none where the volume was measured.
        measured: Measured volume [m3], above 0 to 1e5, or None.
        mismatch: Difference worth a word, as a share of the measured volume [-], above 0 to 10.

    Returns:
        The volume to work with [m3], with a warning where the two disagree.

    Raises:
        NotEnoughReadings: There is neither a basin nor a measured volume.
        OutOfRange: A number is outside its range.

    Source:
        Sum of the basins; the threshold is common practice.

    Example:
        What was measured goes before what was computed:

        >>> from pondapp.core.volume.layers import rectangle_layer
        >>> drawn = basin([rectangle_layer(3.0, 2.0, 0.8, 0.3)])
        >>> pond = pond_volume([drawn], 3.7, 0.15)
        >>> pond.volume, round(pond.computed, 3)
        (3.7, 3.901)
    """
    require_above("difference worth mentioning", mismatch, 0.0, 10.0, "-")
    parts = tuple(basins)
    computed = sum(part.volume for part in parts) if parts else None
    area = sum(part.area for part in parts) if parts else None
    if computed is not None:
        require_above("computed volume", computed, 0.0, 1e5, "m3")
    warnings = [message for part in parts for message in part.warnings]
    if measured is None:
        if computed is None:
            raise NotEnoughReadings("give a basin or a measured volume")
        return PondVolume(computed, computed, None, area, parts, tuple(warnings))
    require_above("measured volume", measured, 0.0, 1e5, "m3")
    if computed is not None and abs(computed - measured) > mismatch * measured:
        warnings.append(
            Message(
                "the pond was measured as {measured} but its dimensions give {computed}: check "
                "the depth and the slope of the sides; the measured volume is used",
                {"measured": Amount(measured, "m3"), "computed": Amount(computed, "m3")},
            )
        )
    return PondVolume(measured, computed, measured, area, parts, tuple(warnings))
