"""What the rules give has a field; each method is named, drawn and guided."""

import pytest
from drawn import METHODS as READ

from pondapp.answers.measuring.methods import Assumptions
from pondapp.answers.methods.kinds import BUCKET, METHODS, NOTHING
from pondapp.answers.methods.method import place_at
from pondapp.models.base import Document
from pondapp.models.reading import METHODS as STORED
from pondapp.ui.measuring.fills import fills_draft_id
from pondapp.ui.measuring.method_fields import FORM
from pondapp.ui.measuring.stopwatch import clock_text
from pondapp.ui.methods.looks import LOOKS

SAMPLES = {method.kind: method for method in READ}


def test_every_stored_method_is_described_and_drawn() -> None:
    assert tuple(METHODS) == tuple(LOOKS) == STORED
    assert set(SAMPLES) == set(STORED)
    assert {BUCKET, NOTHING} <= set(STORED)


@pytest.mark.parametrize("kind", METHODS)
def test_every_method_is_named_drawn_and_guided(kind: str) -> None:
    method, look = METHODS[kind], LOOKS[kind]
    assert method.key == kind
    assert method.stored is look.stored
    assert look.name
    assert look.when
    assert all(look.steps)
    assert look.drawing()
    assert bool(look.to_start) == bool(look.to_stop) == method.timed
    assert look.how(SAMPLES[kind], "metric")


@pytest.mark.parametrize("kind", METHODS)
def test_what_the_rules_give_has_a_field_and_what_is_stored_can_be_put_right(kind: str) -> None:
    method, look = METHODS[kind], LOOKS[kind]
    keys = {one.key for one in look.all_fields()}
    assert keys <= {one.key for one in FORM.fields}
    assert method.usual(Assumptions()).keys() <= keys
    assert method.begins(place_at(None, "outlet"), Assumptions()).keys() <= keys
    stored: type[Document] = method.stored
    assert look.named_fields().keys() <= stored.model_fields.keys()
    spread = {*look.spreads, *look.spreads.values()}
    assert spread <= stored.model_fields.keys()


def test_drafts_of_places_are_told_apart_and_short_enough() -> None:
    long = "0123456789abcdef" * 2
    ids = {fills_draft_id(long, place, kind) for place in (long, "bog") for kind in METHODS}
    assert len(ids) == 2 * len(METHODS)
    assert max(map(len, ids)) <= 64


def test_a_long_time_is_shown_in_minutes() -> None:
    assert clock_text(9.94) == "9.9 s"
    assert clock_text(605.7) == "10:05"
    assert clock_text(-0.2) == "0.0 s"
