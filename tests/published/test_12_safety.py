"""Safety: facts that the screens tell; the core finds none of them."""

import pytest
from rows import Check, assert_all_accounted_for

TOPIC = "12 safety"

CHECKS: dict[int, Check] = {}

NOT_APPLICABLE: dict[int, str] = {
    478: "what a standard asks of a wiring device; told where mains power is met, not computed",
    479: "an accident statistic; the reason for the warning on digging, not a number in use",
    480: "an accident statistic; the reason for the warning on digging, not a number in use",
    481: "a guideline for lifting, in words and from memory; nothing is computed from it",
}


@pytest.mark.published
def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)
