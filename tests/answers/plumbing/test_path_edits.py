"""Changes of the water path lose nothing and never leave a pump without a branch."""

from collections.abc import Callable
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import THREE_FEATURES as POND

from pondapp.answers.plumbing import path_edits as edits
from pondapp.answers.plumbing.path import branch_of, left_dry, line_name, lines_of
from pondapp.models.circuit import Jet, Lip
from pondapp.models.pond import Pond


def ids() -> Callable[[], str]:
    numbers = count(1)
    return lambda: f"new{next(numbers)}"


def shape(pond: Pond) -> list[list[tuple[str, ...]]]:
    return [[branch.feeds for branch in line.branches] for line in lines_of(pond)]


def test_a_t_piece_is_a_straight_return_until_it_feeds_something() -> None:
    more = edits.add_branch(POND, "pump", ids())
    assert shape(more) == [[("bog",), ("box", "lip"), ()]]
    fed = edits.feed_from(more, "lip", "new1", ids())
    assert shape(fed) == [[("bog",), ("box",), ("lip",)]]
    assert left_dry(fed) == ()


def test_removing_a_branch_leaves_its_things_dry_but_there() -> None:
    less = edits.remove_branch(POND, "to-box")
    assert shape(less) == [[("bog",)]]
    assert [feature.id for feature in left_dry(less)] == ["box", "lip"]
    assert branch_of(less, "box") is None
    assert edits.remove_branch(less, "to-bog") == less


def test_a_second_pump_takes_a_branch_and_gives_it_back() -> None:
    two = edits.add_line(POND, ids())
    assert [line_name(two, line) for line in two.lines] == ["Pump", "Second pump"]
    moved = edits.move_branch(two, "to-box", two.lines[1].id, ids())
    assert shape(moved) == [[("bog",)], [("box", "lip")]]
    assert shape(edits.remove_line(moved, two.lines[1].id)) == [[("bog",), ("box", "lip")]]
    assert edits.remove_line(POND, "pump") == POND


def test_a_pump_that_gives_its_last_branch_away_stirs_the_pond() -> None:
    two = edits.add_line(POND, ids())
    for branch in ("to-bog", "to-box"):
        two = edits.move_branch(two, branch, two.lines[1].id, lambda: "bare")
    assert shape(two) == [[()], [("bog",), ("box", "lip")]]


def test_order_bypass_valve_hours() -> None:
    first = edits.earlier(POND, "lip")
    assert shape(first) == [[("bog",), ("lip", "box")]]
    assert edits.earlier(first, "lip") == first
    way = edits.set_bypass(POND, "box", True)
    assert way.lines[0].branches[1].bypass == ("box",)
    assert edits.set_bypass(way, "box", False).lines[0].branches[1].bypass == ()
    assert edits.set_valve(POND, "to-bog", "ball").lines[0].branches[0].valve == "ball"
    assert edits.with_line(POND, "pump", hours_per_day=8.0).lines[0].hours_per_day == 8.0


def test_a_new_feature_gets_a_branch_where_lines_are_drawn() -> None:
    jet = Jet(id="jet", name="Jet", flow_m3_s=1e-4)
    assert edits.put_feature(POND, jet, ids()).lines == ()
    drawn = edits.add_branch(POND, "pump", ids())
    grown = edits.put_feature(drawn, jet, ids())
    assert branch_of(grown, "jet") is not None
    assert left_dry(grown) == ()
    gone = edits.remove_feature(grown, "jet", ids())
    assert shape(gone) == shape(drawn)
    assert [feature.id for feature in gone.fed] == ["bog", "box", "lip"]


def test_a_changed_thing_stays_where_it_is() -> None:
    wider = Lip(id="lip", name="Wide lip", width_m=0.6)
    assert edits.put_feature(POND, wider, ids()).fed[2] == wider


STEPS = ("branch", "cut", "line", "unline", "alone", "up", "round", "gone", "hang")


@settings(max_examples=60)
@given(st.lists(st.tuples(st.sampled_from(STEPS), st.integers(0, 50)), max_size=14))
def test_whatever_is_done_the_pond_can_be_saved(steps: list[tuple[str, int]]) -> None:
    new, pond = ids(), POND
    for step, pick in steps:
        lines = lines_of(pond)
        line = lines[pick % len(lines)]
        branch = line.branches[pick % len(line.branches)]
        feature = pond.fed[pick % len(pond.fed)] if pond.fed else None
        if step == "branch":
            pond = edits.add_branch(pond, line.id, new)
        elif step == "cut":
            pond = edits.remove_branch(pond, branch.id)
        elif step == "line":
            pond = edits.add_line(pond, new)
        elif step == "unline":
            pond = edits.remove_line(pond, line.id)
        elif step == "hang":
            pond = edits.move_branch(pond, branch.id, lines[-1].id, new)
        elif feature is None:
            continue
        elif step == "alone":
            pond = edits.feed_alone(pond, feature.id, line.id, new)
        elif step == "up":
            pond = edits.earlier(pond, feature.id)
        elif step == "round":
            pond = edits.set_bypass(pond, feature.id, pick % 2 == 0)
        else:
            pond = edits.remove_feature(pond, feature.id, new)
    assert Pond.model_validate(pond.model_dump()) == pond
    fed = [item for line in lines_of(pond) for branch in line.branches for item in branch.feeds]
    assert len(fed) == len(set(fed))
    assert {*fed, *(feature.id for feature in left_dry(pond))} == {
        feature.id for feature in pond.fed
    }


@pytest.mark.parametrize("full", ["branches", "lines"])
def test_what_is_full_stays_as_it_is(full: str) -> None:
    pond = POND
    for _ in range(15):
        pond = (
            edits.add_branch(pond, "pump", ids()) if full == "branches"
            else edits.add_line(pond, ids())
        )  # fmt: skip
    assert len(pond.lines[0].branches) <= edits.MOST_BRANCHES
    assert len(pond.lines) <= edits.MOST_LINES
    assert edits.feed_alone(pond, "bog", "pump", ids()).fed == pond.fed


def test_a_feature_that_hangs_there_already_stays() -> None:
    assert edits.feed_from(POND, "lip", "to-box", ids()) == POND


def test_a_full_pump_takes_no_branch_from_another_and_a_feature_no_branch_on_it() -> None:
    new = ids()
    pond = edits.add_line(POND, new)
    second = pond.lines[1].id
    for _ in range(edits.MOST_BRANCHES - 1):
        pond = edits.add_branch(pond, second, new)
    assert len(pond.lines[1].branches) == 12
    assert edits.move_branch(pond, "to-bog", second, new) == pond
    assert edits.feed_alone(pond, "lip", second, new) == pond
