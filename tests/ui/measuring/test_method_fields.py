"""What the rules give has a field; each method is named, drawn and guided."""

from typing import get_args

from pondapp.answers.measuring.method_entry import TIMED, MethodKind, known_here, usual_amounts
from pondapp.answers.measuring.methods import NAMES
from pondapp.ui.measuring.fills import fills_draft_id
from pondapp.ui.measuring.method_drawing import DRAWN, SAID
from pondapp.ui.measuring.method_fields import (
    FORM,
    Assumptions,
)
from pondapp.ui.measuring.method_words import GUIDES
from pondapp.ui.measuring.stopwatch import clock_text

KINDS = get_args(MethodKind)


def test_every_method_is_named_drawn_and_guided() -> None:
    for table in (NAMES, DRAWN, SAID, GUIDES):
        assert set(table) == set(KINDS)
    for kind in TIMED:
        assert GUIDES[kind].to_start
        assert GUIDES[kind].to_stop


def test_what_the_rules_give_has_a_field() -> None:
    keys = {one.key for one in FORM.fields}
    for kind in KINDS:
        assert usual_amounts(kind, Assumptions()).keys() <= keys
        assert known_here(None, "outlet", kind, Assumptions()).keys() <= keys


def test_drafts_of_places_are_told_apart_and_short_enough() -> None:
    long = "0123456789abcdef" * 2
    ids = {fills_draft_id(long, place, kind) for place in (long, "bog") for kind in KINDS}
    assert len(ids) == 2 * len(KINDS)
    assert max(map(len, ids)) <= 64


def test_a_long_time_is_shown_in_minutes() -> None:
    assert clock_text(9.94) == "9.9 s"
    assert clock_text(605.7) == "10:05"
    assert clock_text(-0.2) == "0.0 s"
