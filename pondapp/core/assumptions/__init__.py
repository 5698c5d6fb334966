"""Every rule of thumb, tolerance and tariff, in one typed place.

A formula never holds such a number itself. A pond keeps only what its owner changed, by key
("filters.bog_share"); everything else is the default here, with its source and status.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace

from pondapp.core.assumptions.care import CareAssumptions
from pondapp.core.assumptions.filters import FilterAssumptions
from pondapp.core.assumptions.materials import MaterialAssumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.assumptions.plumbing import PlumbingAssumptions
from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.assumptions.rule import Assumption
from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.assumptions.water import WaterAssumptions
from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.base.errors import OutOfRange, require_within

# Rules of earlier versions that changed no answer: ponds that hold one are read as before.
RETIRED = frozenset(
    {
        "filters.bed_loss_caution",
        "materials.crushed_stone_bulk_density",
        "materials.sandy_gravel_bulk_density",
        "plumbing.suction_velocity_max",
        "stock.bisulfite_ratio",
    }
)


@dataclass(frozen=True, slots=True)
class Assumptions:
    """All assumptions, by subject."""

    filters: FilterAssumptions = field(default_factory=FilterAssumptions)
    waterfalls: WaterfallAssumptions = field(default_factory=WaterfallAssumptions)
    stock: StockAssumptions = field(default_factory=StockAssumptions)
    measuring: MeasuringAssumptions = field(default_factory=MeasuringAssumptions)
    plumbing: PlumbingAssumptions = field(default_factory=PlumbingAssumptions)
    pumps: PumpAssumptions = field(default_factory=PumpAssumptions)
    materials: MaterialAssumptions = field(default_factory=MaterialAssumptions)
    water: WaterAssumptions = field(default_factory=WaterAssumptions)
    care: CareAssumptions = field(default_factory=CareAssumptions)

    def known(self) -> Iterator[Assumption]:
        """What is known about each assumption, group by group."""
        for group in fields(self):
            for item in fields(getattr(self, group.name)):
                about = item.metadata
                yield Assumption(
                    key=f"{group.name}.{item.name}",
                    label=about["label"],
                    default=about["default"],
                    unit=about["unit"],
                    low=about["low"],
                    high=about["high"],
                    source=about["source"],
                )

    def value(self, key: str) -> float:
        """The value in force of one assumption, in its SI unit.

        Raises:
            OutOfRange: There is no assumption of that key.
        """
        group, _, name = key.partition(".")
        part = getattr(self, group, None)
        if part is None or name not in {item.name for item in fields(part)}:
            raise OutOfRange("there is no assumption called {key}", key=key)
        value: float = getattr(part, name)
        return value

    def with_overrides(self, overrides: Mapping[str, float]) -> "Assumptions":
        """The same assumptions with some values replaced, each checked against its range.

        Raises:
            OutOfRange: A key is unknown or a value is outside its range.
        """
        known = {item.key: item for item in self.known()} if overrides else {}
        result = self
        for key, value in overrides.items():
            if key in RETIRED:
                continue
            if key not in known:
                raise OutOfRange("there is no assumption called {key}", key=key)
            about = known[key]
            require_within(about.label, value, about.low, about.high, about.unit)
            group, _, name = key.partition(".")
            result = replace(result, **{group: replace(getattr(result, group), **{name: value})})
        return result
