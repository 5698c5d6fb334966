"""The rules behind a band, as they are in force."""

import pytest
from ponds import BARE as POND

from pondapp import units
from pondapp.answers.features.kinds import KINDS, PUMP
from pondapp.answers.features.rules_behind import rules_behind
from pondapp.core.base.errors import PondError


@pytest.mark.parametrize("kind", [*KINDS, PUMP])
def test_each_kind_tells_its_rules_in_the_readers_units(kind: str) -> None:
    for rule in rules_behind(POND, kind):
        assert rule.label
        told = units.tell(rule.value, "us")
        assert told == "once an hour" or any(letter.isdigit() for letter in told)
        assert rule.source.text
        assert not rule.changed


def test_a_changed_rule_says_so() -> None:
    slower = POND.model_copy(update={"assumptions": {"filters.bog_retention_min": 600.0}})
    shortest = rules_behind(slower, "bog")[0]
    assert shortest.changed
    assert units.tell(shortest.value, "metric") == "10 min"


def test_a_rule_beyond_reason_is_refused() -> None:
    wrong = POND.model_copy(update={"assumptions": {"filters.bog_retention_min": -1.0}})
    with pytest.raises(PondError):
        rules_behind(wrong, "bog")
