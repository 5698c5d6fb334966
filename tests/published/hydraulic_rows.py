"""The rows of the two topics of hydraulics, by the names that the table's columns have.

The column of the status is called source_status in the table, and Row calls it status. A reader
that trips over this must not end in a skip, so these topics name each column themselves.
"""

import csv

import pytest
from rows import TABLE, Check, Row


def table_rows(topic: str) -> list[Row]:
    """All rows of a topic, in file order; an error if there are none."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        found = [
            Row(
                id=int(line["id"]),
                topic=line["topic"],
                quantity=line["quantity"],
                inputs=line["inputs"],
                expected=line["expected"],
                unit=line["unit"],
                rel_tol=line["rel_tol"],
                source=line["source"],
                status=line["source_status"],
            )
            for line in csv.DictReader(file)
            if line["topic"] == topic
        ]
    if not found:
        raise LookupError(f"no row of the topic {topic}")
    return found


def checked(topic: str, checks: dict[int, Check]) -> list[object]:
    """The rows to test, each with its quantity, status and source in the test's name."""
    return [
        pytest.param(
            row, checks[row.id], id=f"{row.id} {row.quantity} [{row.status}: {row.source[:60]}]"
        )
        for row in table_rows(topic)
        if row.id in checks
    ]


def assert_accounted_for(
    topic: str, checks: dict[int, Check], not_applicable: dict[int, str]
) -> None:
    """Every row of the topic is either checked or excused, never both."""
    ids = {row.id for row in table_rows(topic)}
    assert set(checks) | set(not_applicable) == ids
    assert not set(checks) & set(not_applicable)
