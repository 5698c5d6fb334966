"""Every row of check_values.csv: found by the app, or excused with a reason."""

import pytest
from rows import Check, Row, all_rows, assert_row
from topics import KINDS, topics

TOPICS = topics()


def checks(kind: str) -> list[object]:
    """The rows of a kind, each with its id, quantity, status and source in the test's name."""
    found: list[object] = []
    for row in all_rows():
        module = TOPICS.get(row.topic)
        if module is not None and row.id in getattr(module, kind):
            name = f"{row.id} {row.quantity} [{row.status}: {row.source[:60]}]"
            found.append(pytest.param(row, getattr(module, kind)[row.id], id=name))
    return found


@pytest.mark.parametrize(("row", "check"), checks("FORMULAS"))
def test_formula(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.parametrize(("row", "check"), checks("TABLES"))
def test_table(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.parametrize("topic", dict.fromkeys(row.topic for row in all_rows()))
def test_every_row_of_a_topic_is_accounted_for_once(topic: str) -> None:
    assert topic in TOPICS, f"no module of tests/published/topics maps {topic}"
    named = [number for kind in KINDS for number in getattr(TOPICS[topic], kind)]
    assert sorted(named) == sorted(row.id for row in all_rows() if row.topic == topic)


def test_no_id_stands_twice_and_every_excuse_is_a_reason() -> None:
    ids = [row.id for row in all_rows()]
    assert len(ids) == len(set(ids))
    for module in TOPICS.values():
        assert all(len(reason.split()) > 3 for reason in module.NOT_APPLICABLE.values())
