"""Rules of thumb by key: what is known is found, and what is unknown or absurd is refused."""

import pytest

from pondapp.core.assumptions import RETIRED, Assumptions
from pondapp.core.assumptions.rule import rule
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.working import COMMON_PRACTICE


def test_every_known_rule_is_found_by_its_key() -> None:
    rules = Assumptions()
    found = [(rules.value(item.key), item.default) for item in rules.known()]
    assert len(found) > 100
    assert all(value == default for value, default in found)


@pytest.mark.parametrize("key", ["pumps.colour", "weather.rain", "pumps", ""])
def test_what_is_no_rule_is_refused_by_name(key: str) -> None:
    for ask in (Assumptions().value, lambda key: Assumptions().with_overrides({key: 1.0})):
        with pytest.raises(OutOfRange, match="there is no assumption called"):
            ask(key)


def test_a_default_outside_its_own_range_is_found_at_once() -> None:
    for wrong in (-0.1, 2.1):
        with pytest.raises(ValueError, match=r"Depth: default .* is outside 0.0 to 2.0"):
            rule("Depth", wrong, "m", 0.0, 2.0, COMMON_PRACTICE)
    for right in (0.0, 2.0):
        rule("Depth", right, "m", 0.0, 2.0, COMMON_PRACTICE)


@pytest.mark.parametrize("key", sorted(RETIRED))
def test_a_rule_that_is_gone_changes_nothing_and_refuses_no_pond(key: str) -> None:
    rules = Assumptions()
    assert key not in {item.key for item in rules.known()}
    assert rules.with_overrides({key: 1.0, "filters.bog_share": 0.2}) == rules.with_overrides(
        {"filters.bog_share": 0.2}
    )
