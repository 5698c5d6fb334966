"""Ponds that an earlier version of the app saved."""

import json

import pytest

from pondapp.core.assumptions import Assumptions
from pondapp.models.migrate import RENAMED_RULES, migrated
from pondapp.models.pond import Pond

NOW = Pond.model_fields["schema_version"].default
HOSE = {"series": "hose, mm", "size": "25 mm", "length_m": 4.0, "fittings": {}}


def old_pond(lift: float | None, feeds: list[str], pipe: object) -> Pond:
    branch = {"id": "b", "name": "Branch", "pipe": pipe, "valve": "none", "feeds": feeds}
    if lift is not None:
        branch["lift_m"] = lift
    saved = {
        "schema_version": 1, "id": "p", "name": "Old",
        "water": {"kind": "typed", "volume_m3": 5.0},
        "fed": [
            {"id": "bog", "name": "Bog", "kind": "bog", "bed_volume_m3": 0.5},
            {"id": "lip", "name": "Lip", "kind": "lip", "width_m": 0.3, "fall_m": 0.6},
            {"id": "flat", "name": "Flat", "kind": "lip", "width_m": 0.3, "fall_m": None},
        ],
        "lines": [{"id": "l", "name": "Pump", "branches": [branch]}],
    }  # fmt: skip
    return Pond.model_validate_json(json.dumps(migrated("pond", saved, NOW)))


@pytest.mark.parametrize(
    ("lift", "feeds", "pipe", "now"),
    [
        (0.9, ["lip"], None, 0.9),  # what was entered stays
        (0.0, ["bog"], HOSE, 0.0),  # lift and hose were asked on one form
        (0.0, ["flat"], HOSE, 0.0),
        (0.0, ["bog"], None, None),  # nobody was asked
        (0.0, ["lip"], HOSE, None),  # a fall of 0.6 m does not begin at the water line
        (None, ["bog"], None, None),
        (None, ["bog"], HOSE, 0.0),
    ],
)
def test_a_silent_lift_of_nothing_becomes_not_entered(
    lift: float | None, feeds: list[str], pipe: object, now: float | None
) -> None:
    assert old_pond(lift, feeds, pipe).lines[0].branches[0].lift_m == now


def test_an_old_pond_without_lines_opens() -> None:
    saved = {
        "schema_version": 1,
        "id": "p",
        "name": "Old",
        "water": {"kind": "typed", "volume_m3": 5},
    }
    assert Pond.model_validate(migrated("pond", saved, NOW)).lines == ()


@pytest.mark.parametrize(("old", "new"), RENAMED_RULES.items())
def test_a_changed_rule_counts_under_its_new_name(old: str, new: str) -> None:
    about = {rule.key: rule for rule in Assumptions().known()}
    assert old not in about
    saved = {
        "schema_version": 2,
        "id": "p",
        "name": "Old",
        "water": {"kind": "typed", "volume_m3": 5},
        "assumptions": {old: about[new].high, "filters.bog_share": 0.2},
    }
    pond = Pond.model_validate(migrated("pond", saved, NOW))
    assert pond.assumptions == {new: about[new].high, "filters.bog_share": 0.2}
    assert Assumptions().with_overrides(pond.assumptions).value(new) == about[new].high
