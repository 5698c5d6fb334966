"""Units: the app's own definitions, through which all that is typed and shown goes."""

from rows import Check, Row

from pondapp import units
from pondapp.core.base.constants import GRAVITY

TOPIC = "13 units"
LITRE = 1e-3  # m3


def typed(text: str, kind: str, system: str, in_si: float = 1.0) -> Check:
    """What somebody types, in a unit of so many SI units."""
    return lambda _: units.parse(text, kind, system) / in_si


def told(text: str, kind: str, typed_by: str, told_to: str) -> Check:
    """What somebody types in one system, as a reader of another is told it."""
    return lambda _: units.value_in(units.parse(text, kind, typed_by), kind, told_to)


def cubic_inches(_: Row) -> float:
    return units.parse("1 gal", "volume", "us") / units.parse("1 in3", "volume", "us")


FORMULAS: dict[int, Check] = {
    489: told("1 ft3", "volume", "metric", "us"),
    490: told("1000 L/h", "flow", "metric", "us"),
    491: told("1000 L/h", "flow", "metric", "imperial"),
    492: told("1 gpm", "flow", "us", "metric"),
    494: lambda _: 1000.0 * GRAVITY * units.parse("1 ft", "head", "us"),
    496: typed("43560 ft2", "area", "us"),
}

TABLES: dict[int, Check] = {
    **dict.fromkeys((482, 487), typed("1 gal", "volume", "us", LITRE)),
    **dict.fromkeys((483, 488), typed("1 gal", "volume", "imperial", LITRE)),
    484: typed("1 cuft", "volume", "us", LITRE),
    485: typed("1 yd3", "volume", "us", LITRE),
    486: cubic_inches,
}

NOT_APPLICABLE: dict[int, str] = {
    493: "pounds per square inch; head is typed and told in metres or feet of water",
    495: "horsepower; power is typed and told in watts",
}
