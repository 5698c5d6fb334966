"""What a chart of a log shows: values over time, the range that is wanted, and cleanings."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from pondapp.answers.features.targets import band_of
from pondapp.answers.log.entries import WATER, values_in
from pondapp.answers.log.log import LogItem, moment
from pondapp.answers.log.trend import flow_of
from pondapp.answers.log.water_tests import read_test
from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.pond import WorkedPond
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

MOST_POINTS = 60
"""As many as can be told apart on a phone."""
TOXIC, FULLNESS = "toxic_ammonia", "oxygen_fullness"
WATER_KEYS = (*WATER, TOXIC, FULLNESS)


@dataclass(frozen=True, slots=True)
class Point:
    """A value at a time, with the range that holds the true one."""

    when: datetime
    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class ChartData:
    """What is drawn; all values in SI.

    Attributes:
        points: Oldest first.
        of: How many there are; where that is more, only some are drawn.
        low: Lower end of what is wanted.
        high: Upper end of what is wanted.
        cleanings: When something was cleaned.
    """

    points: tuple[Point, ...]
    of: int
    low: float | None
    high: float | None
    cleanings: tuple[datetime, ...]


def places_in(newest_first: Iterable[LogItem]) -> dict[str, str]:
    """Places with readings and their names, the one measured last first."""
    found: dict[str, str] = {}
    for item in newest_first:
        if isinstance(item, Reading):
            found.setdefault(item.place_id, item.place_name)
    return found


def values_read(newest_first: Iterable[LogItem]) -> list[str]:
    """Names of the water values that are in the log, in the order of a test."""
    found: set[str] = set()
    for item in newest_first:
        if isinstance(item, Entry) and isinstance(item.what, WaterTest):
            found.update(values_in(item.what))
            if {"ammonia", "ph"} <= found:
                found.add(TOXIC)
            if "oxygen" in found:
                found.add(FULLNESS)
            if len(found) == len(WATER_KEYS):
                break
    return [key for key in WATER_KEYS if key in found]


def thinned(items: Sequence[LogItem], most: int = MOST_POINTS) -> list[LogItem]:
    """At most so many, evenly chosen, the first and the last among them."""
    if len(items) <= most:
        return list(items)
    step = (len(items) - 1) / (most - 1)
    return [items[round(number * step)] for number in range(most)]


def _since(newest_first: Iterable[LogItem], start: datetime | None) -> list[LogItem]:
    """What is not older, oldest first."""
    found: list[LogItem] = []
    for item in newest_first:
        if start is not None and moment(item) < start:
            break
        found.append(item)
    return found[::-1]


def start_of(days: int | None, now: datetime) -> datetime | None:
    """Since when a chart of so many days shows; None is since ever."""
    return None if days is None else now - timedelta(days=days)


def wanted_at(
    worked: WorkedPond, place_id: str, newest_first: Iterable[LogItem]
) -> FlowBand | None:
    """The band that holds at a place now, or the one of its last reading.

    Raises:
        PondError: The pond's shape or a changed rule cannot be.
    """
    target = worked.wanted.place(place_id)
    if target is not None:
        return target.band
    last = next(
        (i for i in newest_first if isinstance(i, Reading) and i.place_id == place_id), None
    )
    return band_of(last.band) if last and last.band else None


def _chart(
    items: list[LogItem],
    wanted: Callable[[LogItem], bool],
    point: Callable[[LogItem], Point | None],
    low: float | None,
    high: float | None,
) -> ChartData:
    mine = [item for item in items if wanted(item)]
    points = [made for item in thinned(mine) if (made := point(item)) is not None]
    cleanings = [
        item.when for item in items if isinstance(item, Entry) and item.what.kind == "cleaning"
    ]
    return ChartData(tuple(points), len(mine), low, high, tuple(cleanings))


def flow_chart(
    worked: WorkedPond, place_id: str, newest_first: Sequence[LogItem], start: datetime | None
) -> ChartData:
    """The flow at a place against its band.

    Raises:
        PondError: The pond's shape or a changed rule cannot be.
    """
    band = wanted_at(worked, place_id, newest_first)
    rules = worked.rules.measuring

    def point(item: LogItem) -> Point | None:
        found = flow_of(item, rules) if isinstance(item, Reading) else None
        if found is None:
            return None
        return Point(moment(item), found.flow.flow, found.flow.low, found.flow.high)

    return _chart(
        _since(newest_first, start),
        lambda item: isinstance(item, Reading) and item.place_id == place_id,
        point,
        band.low if band else None,
        band.high if band else None,
    )


def water_chart(
    pond: Pond, key: str, newest_first: Sequence[LogItem], start: datetime | None
) -> ChartData:
    """One value of the water, or one that is worked out from several.

    Raises:
        PondError: A changed rule cannot be.
    """

    def value(item: LogItem) -> float | None:
        if not isinstance(item, Entry) or not isinstance(item.what, WaterTest):
            return None
        if key == TOXIC:
            return read_test(item.what, pond).toxic
        if key == FULLNESS:
            return read_test(item.what, pond).oxygen_share
        return values_in(item.what).get(key)

    def has_it(item: LogItem) -> bool:
        if not isinstance(item, Entry) or not isinstance(item.what, WaterTest):
            return False
        test = item.what
        if key == TOXIC:
            return test.total_ammonia_kg_m3 is not None and test.ph is not None
        return ("oxygen" if key == FULLNESS else key) in values_in(test)

    def point(item: LogItem) -> Point | None:
        read = value(item)
        return None if read is None else Point(moment(item), read, read, read)

    low, high = water_range(pond, key)
    return _chart(_since(newest_first, start), has_it, point, low, high)


def water_range(pond: Pond, key: str) -> tuple[float | None, float | None]:
    """The range in which a value is well; None where it has no end on that side.

    Raises:
        PondError: A changed rule cannot be.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    water, stock = rules.water, rules.stock
    ranges: dict[str, tuple[float | None, float | None]] = {
        "temperature": (ZERO_CELSIUS, stock.feed_until),
        "ph": (water.ph_low, water.ph_high),
        "nitrite": (None, water.nitrite_most),
        "nitrate": (None, water.nitrate_most),
        "general_hardness": (water.general_hardness_low, water.general_hardness_high),
        "carbonate_hardness": (water.carbonate_hardness_low, None),
        "oxygen": (stock.oxygen_wanted, None),
        "salt_level": (None, stock.salt_caution),
        TOXIC: (None, stock.unionised_limit),
    }
    return ranges.get(key, (None, None))
