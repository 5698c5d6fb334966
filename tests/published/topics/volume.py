"""Volume: every row of the topic, found by the core or excused."""

from rows import CUBIC_FOOT, US_GALLON, Check, Row

from pondapp.core.volume.basin import basin
from pondapp.core.volume.fill_methods import volume_by_salt, volume_by_timed_filling
from pondapp.core.volume.layers import (
    Layer,
    ellipse_layer,
    rectangle_layer,
)
from pondapp.core.volume.outline import area_by_simpson

TOPIC = "1 volume"


def tank(row: Row) -> float:
    given = row.numbers()
    return basin([rectangle_layer(given["length"], given["width"], given["depth"], 0.0)]).volume


def round_tank(row: Row) -> float:
    given = row.numbers()
    return basin([ellipse_layer(given["diameter"], given["diameter"], given["depth"], 0.0)]).volume


def sloping(row: Row) -> float:
    given = row.numbers()
    return basin(
        [
            rectangle_layer(
                given["length_top"], given["width_top"], given["depth"], given["side_slope_h_per_v"]
            )
        ]
    ).volume


def ellipse(row: Row) -> float:
    given = row.numbers()
    return basin([ellipse_layer(2 * given["a"], 2 * given["b"], given["depth"], 0.0)]).volume


def ellipse_frustum(row: Row) -> float:
    given = row.numbers()
    return basin(
        [
            ellipse_layer(
                2 * given["a_top"], 2 * given["b_top"], given["depth"], given["side_slope_h_per_v"]
            )
        ]
    ).volume


def stepped(row: Row) -> float:
    given = row.numbers()
    return basin(
        [Layer(*3 * (given[f"A_{n}"],), given[f"d_{n}"]) for n in ("upper", "mid", "deep")]
    ).volume


def salt(row: Row) -> float:
    given = row.numbers()
    return volume_by_salt(
        given["salt_mass"], 0.0, given["c_before"], given["c_after"], 0.0, 1.0
    ).volume


def filling(row: Row) -> float:
    given = row.numbers()
    return volume_by_timed_filling(given["Q"], 0.0, given["Q"], 0.0, given["time"], 0.0).volume


FORMULAS: dict[int, Check] = {
    4: lambda row: tank(row) / CUBIC_FOOT,
    5: lambda row: round_tank(row) / CUBIC_FOOT,
    6: lambda row: sloping(row) / CUBIC_FOOT,
    7: lambda row: sloping(row) / CUBIC_FOOT / 27.0,
    8: sloping,
    10: sloping,
    13: ellipse,
    14: ellipse_frustum,
    18: stepped,
    21: lambda row: area_by_simpson(row.listed("offsets"), row.numbers()["spacing"]),
    23: salt,
    25: lambda row: salt(row) / US_GALLON,
    26: filling,
}

NOT_APPLICABLE: dict[int, str] = {
    11: "the mean of two end areas; the app takes the prismoidal rule",
    15: "a bowl: the app does not compute one, its basins have straight or sloping sides",
    17: "a lying barrel: the app does not compute one",
    20: "the trapezoidal rule; the app takes Simpson's",
    22: "depths taken with a stick: the app does not compute a volume from them",
    24: "carries the rounded constant 120 of a hobby page; row 25 is the same test unrounded",
}
