"""Every amount in a draft is known by the last part of its key."""

from pondapp import units
from pondapp.ui.parts import fields
from pondapp.ui.session import DRAFT_KINDS, draft_kind


def test_kinds_are_known_and_found_behind_a_dot() -> None:
    assert set(DRAFT_KINDS.values()) <= set(units.KINDS)
    assert draft_kind("a1b2.length") == "length"
    assert draft_kind("length") == "length"
    assert draft_kind("a1b2.name") is None


def test_nothing_is_an_amount_only_where_it_may_be() -> None:
    assert fields.read_quantity("0", "number", "metric", zero=True) == (0.0, None)
    assert fields.read_quantity("0", "number", "metric")[0] is None
    hours = fields.read_quantity("2.5", "duration", "metric", bare_unit="h")
    assert hours == (9000.0, None)
