"""Timed flow and its uncertainty: every row of the topic, found by the core or excused."""

from math import sqrt

from iapws import IAPWS95
from rows import US_GALLON, Check, Row

from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.measuring.other_methods import weighed_volume
from pondapp.core.measuring.student_t import t_factor
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.uncertainty import (
    combined,
    mean_and_scatter,
    rectangular,
)
from pondapp.core.measuring.verdict import fill_time_window

TOPIC = "2 timed flow"
RULES = MeasuringAssumptions()
EXPECTED = expected_scatter(RULES)


def flow(row: Row) -> float:
    given = row.numbers()
    found = timed_flow([given["time"]], given["volume"], 0.0, EXPECTED, RULES.coverage)
    return found.flow


def per_minute(row: Row) -> float:
    return flow(row) / US_GALLON * 60.0


def quart_per_minute(row: Row) -> float:
    """The row prints a US quart with six digits, and expects what the exact quart gives."""
    given, quart = row.numbers(), US_GALLON / 4.0
    assert round(quart, 9) == given["volume"]
    found = timed_flow([given["time"]], quart, 0.0, EXPECTED, RULES.coverage)
    return found.flow / US_GALLON * 60.0


def weighed(row: Row) -> float:
    """The row's density is the library's; the core's own has rows of its own."""
    given = row.numbers()
    water = IAPWS95(T=given["T_C"] + 273.15, P=0.101325)
    return weighed_volume(given["mass"], 0.0, 0.0, water.rho).volume * 1000.0


def factor(coverage: float) -> Check:
    return lambda row: t_factor(coverage, int(row.given()["dof"]))


def drum(row: Row) -> float:
    given = row.numbers()
    wanted = given["Q_L_s"] / 1000.0
    return fill_time_window(given["V_L"] / 1000.0, wanted, wanted, None).aim


def percent(row: Row) -> list[float]:
    return row.listed("u_percent")


FORMULAS: dict[int, Check] = {
    27: per_minute,
    28: quart_per_minute,
    29: lambda row: flow(row) * 3.6e6,
    **dict.fromkeys((31, 32, 33, 35, 36, 37), factor(0.9545)),
    **dict.fromkeys((39, 40, 41, 42, 43, 44, 45), factor(0.95)),
    47: lambda row: combined(percent(row)),
    50: lambda row: rectangular(row.numbers()["a"]),
    58: lambda row: mean_and_scatter(row.listed("times"))[1],
    59: lambda row: mean_and_scatter(row.listed("times"))[1] / sqrt(len(row.listed("times"))),
    65: weighed,
    67: drum,
}

TABLES: dict[int, Check] = {
    53: lambda _: RULES.reaction_sd,
}

FREEDOM = (
    "degrees of freedom after Welch and Satterthwaite; the app's interval adds Student's t of the "
    "fills and the rectangle of the container exactly, see tests/core/measuring"
)
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((48, 49, 62, 63), FREEDOM),
    51: "the delay of a single event; it cancels between start and stop and the core never uses it",
    56: "the fill time for a wanted timing: the app does not compute this, it asks for more fills",
    64: "the lift of the air on the scale, a thousandth: the app does not compute this",
    66: "a range in words about small streams, not a number that the core finds",
    68: "a rating in words",
    69: "a range in words",
}
