"""Every group of rules has a title, and every rule is found under one."""

from pondapp.answers.rules.rules import rules_of
from pondapp.answers.sharing.example import example_pond
from pondapp.ui.about.rules import GROUPS, value_text

RULES = rules_of(example_pond())


def test_no_rule_is_left_out() -> None:
    assert {rule.group for rule in RULES} == set(GROUPS)


def test_values_are_told_as_people_say_them() -> None:
    told = {rule.key: value_text(rule, "metric") for rule in RULES}
    assert told["filters.bog_share"] == "10 %"
    assert told["filters.bog_retention_max"] == "15 min"
    assert told["filters.turnover_whole"] == "1 an hour"
    assert told["stock.respiration_likely"] == "200 mg/kg an hour"
    assert told["pumps.tariff"] == "0.30 per kWh"
