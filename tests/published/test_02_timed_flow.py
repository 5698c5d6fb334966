"""Timed flow and its uncertainty: every row of the topic, found by the core or excused."""

from math import inf, sqrt

import pytest
from iapws import IAPWS95
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters

from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.measuring.other_methods import buoyancy_correction, weighed_volume
from pondapp.core.measuring.runs_needed import fill_time_for
from pondapp.core.measuring.student_t import t_factor
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.uncertainty import (
    combined,
    effective_degrees_of_freedom,
    expanded,
    mean_and_scatter,
    rectangular,
)
from pondapp.core.measuring.verdict import fill_time_window

TOPIC = "2 timed flow"
US_GALLON = 3.785411784e-3  # m3
RULES = MeasuringAssumptions()


def listed(row: Row, name: str) -> list[float]:
    return [float(value) for value in row.given()[name].split("|")]


def flow(row: Row) -> float:
    given = row.numbers()
    found = timed_flow([given["time"]], given["volume"], 0.0, RULES.reaction_sd, RULES.coverage)
    return found.flow


def per_minute(row: Row) -> float:
    return flow(row) / US_GALLON * 60.0


def quart_per_minute(row: Row) -> float:
    """The row prints a US quart with six digits, and expects what the exact quart gives."""
    given, quart = row.numbers(), US_GALLON / 4.0
    assert round(quart, 9) == given["volume"]
    found = timed_flow([given["time"]], quart, 0.0, RULES.reaction_sd, RULES.coverage)
    return found.flow / US_GALLON * 60.0


def weighed(row: Row) -> float:
    """The row's density is the library's; the core's own has rows of its own."""
    given = row.numbers()
    water = IAPWS95(T=given["T_C"] + 273.15, P=0.101325)
    return weighed_volume(given["mass"], 0.0, 0.0, water.rho).volume * 1000.0


def factor(coverage: float) -> Check:
    return lambda row: t_factor(coverage, int(row.given()["dof"]))


def bucket(row: Row) -> tuple[list[float], list[float], float]:
    """Standard uncertainties [m3/s], their degrees of freedom, and the flow [m3/s]."""
    given, times = row.numbers(), listed(row, "times")
    volume = given["volume_L"] / 1000.0
    half_width = float(row.given()["volume_halfwidth_L"]) / 1000.0
    mean, scatter = mean_and_scatter(times)
    found = volume / mean
    parts = [found * scatter / sqrt(len(times)) / mean, rectangular(half_width) / mean]
    return parts, [len(times) - 1, inf], found


def bucket_freedom(row: Row) -> float:
    parts, dofs, _ = bucket(row)
    return effective_degrees_of_freedom(parts, dofs)


def bucket_expanded(row: Row) -> float:
    parts, dofs, _ = bucket(row)
    return expanded(parts, dofs, 0.95) * 3.6e6


def drum(row: Row) -> float:
    given = row.numbers()
    wanted = given["Q_L_s"] / 1000.0
    return fill_time_window(given["V_L"] / 1000.0, wanted, wanted, None).aim


def percent(row: Row) -> list[float]:
    return listed(row, "u_percent")


CHECKS: dict[int, Check] = {
    27: per_minute,
    28: quart_per_minute,
    29: lambda row: flow(row) * 3.6e6,
    **dict.fromkeys((31, 32, 33, 35, 36, 37), factor(0.9545)),
    **dict.fromkeys((39, 40, 41, 42, 43, 44, 45), factor(0.95)),
    47: lambda row: combined(percent(row)),
    # 18.999, printed as 19; truncated to 18 before a factor is looked up, as row 49 has it.
    48: lambda row: effective_degrees_of_freedom(percent(row), listed(row, "dof")),
    49: lambda row: expanded(percent(row), listed(row, "dof"), 0.95),
    50: lambda row: rectangular(row.numbers()["a"]),
    53: lambda _: RULES.reaction_sd,
    56: lambda row: fill_time_for(
        row.numbers()["target"], row.numbers()["u_t"], int(row.given()["n"])
    ),
    58: lambda row: mean_and_scatter(listed(row, "times"))[1],
    59: lambda row: mean_and_scatter(listed(row, "times"))[1] / sqrt(len(listed(row, "times"))),
    62: bucket_freedom,
    63: bucket_expanded,
    64: lambda row: buoyancy_correction(
        row.numbers()["rho_air"], row.numbers()["rho_water"], row.numbers()["rho_weights"]
    ),
    65: weighed,
    67: drum,
}

NOT_APPLICABLE: dict[int, str] = {
    51: "the delay of a single event; it cancels between start and stop and the core never uses it",
    66: "a range in words about small streams, not a number that the core finds",
    68: "a rating in words",
    69: "a range in words",
}


@pytest.mark.published
@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.published
def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)
