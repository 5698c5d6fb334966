"""Random ponds through every answer: what must hold of any pond holds of these."""

import os

import pytest
from invariants import RULES, audit

PONDS = int(os.environ.get("RANDOM_PONDS", "240"))
AT_ONCE = 20


@pytest.mark.parametrize("first", range(0, PONDS, AT_ONCE))
def test_nothing_is_broken_in_any_answer(first: int) -> None:
    broken = [
        f"pond {number}: {one.rule}: {one.what}"
        for number in range(first, min(first + AT_ONCE, PONDS))
        for one in audit(number)
    ]
    assert broken == []


def test_each_invariant_says_what_it_is() -> None:
    assert all(rule.__doc__ for rule in RULES)
