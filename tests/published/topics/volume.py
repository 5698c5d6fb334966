"""Volume: every row of the topic, found by the core or excused."""

from rows import Check, Row

from pondapp.core.volume.basin import basin
from pondapp.core.volume.fill_methods import volume_by_salt, volume_by_timed_filling
from pondapp.core.volume.layers import (
    bowl_layer,
    contour_volume,
    ellipse_layer,
    lying_barrel_volume,
    rectangle_layer,
    straight_layer,
)
from pondapp.core.volume.outline import area_by_simpson, area_by_trapezoids
from pondapp.core.volume.plan_shapes import circle_area, rectangle_area
from pondapp.core.volume.soundings import volume_by_soundings

TOPIC = "1 volume"
CUBIC_FOOT = 0.3048**3  # m3
US_GALLON = 3.785411784e-3  # m3


def tank(row: Row) -> float:
    given = row.numbers()
    return basin(
        [straight_layer(rectangle_area(given["length"], given["width"]), given["depth"])]
    ).volume


def round_tank(row: Row) -> float:
    given = row.numbers()
    return basin([straight_layer(circle_area(given["diameter"]), given["depth"])]).volume


def sloping(row: Row) -> float:
    given = row.numbers()
    return basin(
        [
            rectangle_layer(
                given["length_top"], given["width_top"], given["depth"], given["side_slope_h_per_v"]
            )
        ]
    ).volume


def end_areas(row: Row) -> float:
    given = row.numbers()
    layer = rectangle_layer(
        given["length_top"], given["width_top"], given["depth"], given["side_slope_h_per_v"]
    )
    return contour_volume([layer.area_top, layer.area_bottom], [0.0, layer.thickness])


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


def bowl(row: Row) -> float:
    given = row.numbers()
    return basin([bowl_layer(2 * given["a"], 2 * given["b"], given["depth"])]).volume


def barrel(row: Row) -> float:
    given = row.numbers()
    return lying_barrel_volume(given["D"], given["L"], given["h"])


def stepped(row: Row) -> float:
    given = row.numbers()
    return basin(
        [straight_layer(given[f"A_{n}"], given[f"d_{n}"]) for n in ("upper", "mid", "deep")]
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
    11: end_areas,
    13: ellipse,
    14: ellipse_frustum,
    15: bowl,
    17: barrel,
    18: stepped,
    20: lambda row: area_by_trapezoids(row.listed("offsets"), row.numbers()["spacing"]),
    21: lambda row: area_by_simpson(row.listed("offsets"), row.numbers()["spacing"]),
    22: lambda row: volume_by_soundings(row.numbers()["area"], row.listed("depths")).volume,
    23: salt,
    25: lambda row: salt(row) / US_GALLON,
    26: filling,
}

TABLES: dict[int, Check] = {}

NOT_APPLICABLE: dict[int, str] = {
    24: "carries the rounded constant 120 of a hobby page; row 25 is the same test unrounded",
}
