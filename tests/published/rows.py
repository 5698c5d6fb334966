"""The rows of check_values.csv: numbers that somebody else printed or another library computed.

`read` rows were seen in the named document, `computed` rows come from the named library or from
arithmetic on a published formula, `memory` and `common practice` say so. The package `topics`
says for every row either how the app finds the number or why it does not apply.
"""

import csv
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from pondapp.core.base.constants import HOUR, ZERO_CELSIUS

# Units in which the rows are printed, in SI.
FOOT = 0.3048  # m
INCH = FOOT / 12.0
CUBIC_FOOT = FOOT**3
US_GALLON = 231.0 * INCH**3
GRAM = 1e-3  # kg
POUND = 0.45359237  # kg
LITRE_AN_HOUR = 1e-3 / HOUR  # m3/s
MILLIGRAM_A_LITRE = 1e-3  # kg/m3
TABLE = Path(__file__).with_name("check_values.csv")


@dataclass(frozen=True)
class Row:
    id: int
    topic: str
    quantity: str
    inputs: str
    expected: str
    unit: str
    rel_tol: str
    source: str
    status: str

    def given(self) -> dict[str, str]:
        """The inputs by name, as printed: "Q=0.0003 (m3/s, ...)" gives {"Q": "0.0003"}."""
        pairs = (part.partition("=") for part in self.inputs.split(";") if "=" in part)
        return {name.strip(): value.strip().split(" ")[0] for name, _, value in pairs}

    def numbers(self) -> dict[str, float]:
        """Those inputs that are plain numbers."""
        found = {}
        for name, value in self.given().items():
            try:
                found[name] = float(value)
            except ValueError:
                continue
        return found

    def listed(self, name: str) -> list[float]:
        """The numbers of an input that lists several."""
        return [float(part) for part in self.given()[name].replace("|", "/").split("/")]


@cache
def all_rows() -> tuple[Row, ...]:
    """All rows, in file order."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return tuple(
            Row(int(line.pop("id")), status=line.pop("source_status"), **line)
            for line in csv.DictReader(file)
        )


def rows(topic: str) -> list[Row]:
    """The rows of a topic ("1 volume"), in file order."""
    return [row for row in all_rows() if row.topic == topic]


def kelvin(row: Row) -> float:
    """Temperature of a row."""
    return row.numbers()["T_C"] + ZERO_CELSIUS


Found = float | tuple[float, float] | str
Check = Callable[[Row], Found]


def assert_row(row: Row, found: Found) -> None:
    """The app's number, range or words agree with the row's; numbers to the row's own tolerance."""
    name = f"{row.quantity} [{row.unit}]"
    if isinstance(found, str):
        assert row.expected.startswith(found), name
        return
    if isinstance(found, tuple):
        low, _, high = row.expected.partition("-")
        assert found == pytest.approx((float(low), float(high)), rel=1e-12), name
        return
    # Rows with tolerance 0 are exact as printed: allow only the rounding of a float.
    tolerance = max(float(row.rel_tol), 1e-12)
    assert found == pytest.approx(float(row.expected), rel=tolerance), name
