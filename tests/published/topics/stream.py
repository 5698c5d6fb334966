"""Streams: every row of the topic, found by the core."""

from rows import Check, Row

from pondapp.core.spillway.channel import BEDS, manning_speed, normal_depth, speed_over_stones

TOPIC = "14 stream"
WIDE = 100.0  # m; of a channel whose other side does not tell


def by_radius(row: Row) -> float:
    """The speed of a channel of a hydraulic radius: R = b y / (b + 2 y), so y = R b / (b - 2 R)."""
    given = row.numbers()
    radius = given["Rh"]
    depth = radius * WIDE / (WIDE - 2.0 * radius)
    return manning_speed(depth, WIDE, given["S"], given["n"])


def rectangle(row: Row) -> float:
    """The flow of a channel of a depth."""
    given = row.numbers()
    speed = manning_speed(given["y"], given["b"], given["S"], given["n"])
    return speed * given["b"] * given["y"] if row.unit == "m3/s" else speed


def depth(row: Row) -> float:
    given = row.numbers()
    return normal_depth(given["Q"], given["b"], given["S"], given["n"])


def shallow(row: Row) -> float:
    """Of a wide stream, whose depth is its hydraulic radius."""
    given = row.numbers()
    return speed_over_stones(given["Rh"], given["S"], given["D84"])


FORMULAS: dict[int, Check] = {
    **dict.fromkeys((497, 498, 499), by_radius),
    **dict.fromkeys((503, 504), depth),
    **dict.fromkeys(range(1401, 1407), rectangle),
    **dict.fromkeys((1407, 1408), shallow),
}

TABLES: dict[int, Check] = {
    500: lambda _: BEDS["cobbles"].roughness.low,
    501: lambda _: BEDS["cobbles"].roughness.likely,
    502: lambda _: BEDS["cobbles"].roughness.high,
    1409: lambda _: BEDS["gravel"].roughness.likely,
    1410: lambda _: BEDS["boulders"].roughness.likely,
    1411: lambda _: BEDS["liner"].roughness.likely,
}

NOT_APPLICABLE: dict[int, str] = {}
