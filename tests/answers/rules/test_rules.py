"""The rules of a pond: all there, each editable within its range, none that breaks the rest."""

import ast
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import pondapp
from pondapp import units
from pondapp.answers.features.targets import targets
from pondapp.answers.rules.rules import (
    NO_ANSWER_YET,
    Rule,
    rule_of,
    rules_of,
    with_rule,
    without_rule,
    without_rules,
)
from pondapp.answers.sharing.example import example_pond
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError

POND = example_pond()
RULES = rules_of(POND)


BY_DEFAULT = {"volume_mismatch", "water_temperature"}
"""The app works with these, but never with what a pond's owner changed."""


def worked_with() -> set[str]:
    """Every attribute that the app reads anywhere, and the last part of every key it names."""
    found: set[str] = set()
    for path in Path(pondapp.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                node.func.attr = ""  # a function of the same name is no rule
            if isinstance(node, ast.Attribute):
                found.add(node.attr)
            if path.name == "rules.py" or not isinstance(node, ast.Constant):
                continue
            if isinstance(node.value, str):
                found.add(node.value.rpartition(".")[2])
    return found


def test_a_rule_is_offered_exactly_where_the_app_works_with_it() -> None:
    used = worked_with()
    for about in Assumptions().known():
        name = about.key.rpartition(".")[2]
        if name not in BY_DEFAULT:
            assert (name in used) == (about.key not in NO_ANSWER_YET), about.key


def test_every_rule_offered_has_a_unit_of_its_own_kind() -> None:
    known = {about.key: about for about in Assumptions().known()}
    assert {rule.key for rule in RULES} == set(known) - NO_ANSWER_YET
    for rule in RULES:
        assert units.KINDS[rule.kind].si == known[rule.key].unit
        assert not rule.changed


@pytest.mark.parametrize("system", units.SYSTEMS)
def test_a_default_survives_being_shown_and_typed(system: str) -> None:
    for rule in RULES:
        text = units.edit_text(rule.default, rule.kind, system)
        read = units.parse(text, rule.kind, system)
        assert read == pytest.approx(rule.default, rel=5.1e-3)
        kept = units.as_stored(read, repr(rule.default), rule.kind, system)
        assert kept == pytest.approx(rule.default, rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(RULES), st.floats(0, 1))
def test_a_change_is_kept_and_taken_back_or_refused_and_harmless(rule: Rule, part: float) -> None:
    value = rule.low + part * (rule.high - rule.low)
    try:
        changed = with_rule(POND, rule.key, value)
    except PondError:
        return  # at odds with another rule
    found = rule_of(changed, rule.key)
    assert found is not None
    assert found.value == value
    targets(changed)
    assert without_rule(changed, rule.key) == POND
    assert without_rules(changed) == POND


def test_a_rule_counts() -> None:
    before = targets(POND).places[0].band.low
    slower = with_rule(POND, "filters.bog_retention_max", 1800.0)
    assert targets(slower).places[0].band.low == pytest.approx(before / 2)


def test_rules_that_contradict_each_other_are_refused() -> None:
    with pytest.raises(PondError):
        with_rule(POND, "filters.bog_retention_min", 1200.0)  # above the longest time
    with pytest.raises(PondError):
        with_rule(POND, "filters.bog_share", 3.0)


def test_the_default_is_no_change() -> None:
    changed = with_rule(POND, "filters.bog_share", 0.2)
    assert with_rule(changed, "filters.bog_share", 0.1) == POND
