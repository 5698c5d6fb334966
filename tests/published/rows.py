"""The rows of check_values.csv: numbers that somebody else printed or another library computed.

`read` rows were seen in the named document, `computed` rows come from the named library or from
arithmetic on a published formula, `memory` and `common practice` say so. A topic's test module
says for every row of its topic either how the core finds the number or why it does not apply.
"""

import csv
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

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


def rows(topic: str) -> list[Row]:
    """All rows of a topic ("1 volume"), in file order."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [
            Row(int(line.pop("id")), status=line.pop("source_status"), **line)
            for line in csv.DictReader(file)
            if line["topic"] == topic
        ]


Check = Callable[[Row], float]


def parameters(topic: str, checks: dict[int, Check]) -> list[object]:
    """The rows to test, each with its id, quantity, status and source in the test's name."""
    return [
        pytest.param(
            row, checks[row.id], id=f"{row.id} {row.quantity} [{row.status}: {row.source[:60]}]"
        )
        for row in rows(topic)
        if row.id in checks
    ]


def assert_row(row: Row, found: float) -> None:
    """The core's number agrees with the row's to the row's own tolerance."""
    expected = float(row.expected)
    # Rows with tolerance 0 are exact as printed: allow only the rounding of a float.
    tolerance = max(float(row.rel_tol), 1e-12)
    assert found == pytest.approx(expected, rel=tolerance), f"{row.quantity} [{row.unit}]"


def assert_all_accounted_for(
    topic: str, checks: dict[int, Check], not_applicable: dict[int, str]
) -> None:
    """Every row of the topic is either checked or excused with a reason, never both."""
    ids = {row.id for row in rows(topic)}
    assert set(checks) | set(not_applicable) == ids
    assert not set(checks) & set(not_applicable)
