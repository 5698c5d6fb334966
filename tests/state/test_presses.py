"""A press of the stopwatch counts once, by one clock, whatever came between."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.models.limits import MOST_FILLS
from pondapp.models.preferences import Draft
from pondapp.models.press import Press
from pondapp.models.reading import Fill
from pondapp.state.presses import take

WALL = 1.8e9


def press(number: int, kind: Any, **more: Any) -> Press:
    said = {
        "id": f"page-{number}", "run": "page", "route": "", "pond": "none", "place": "outlet",
        "method": "", "wall": WALL + number, "tick": 10.0 + number, "kind": kind,
    }  # fmt: skip
    return Press(**{**said, **more})


def after(draft: Draft, *presses: Press) -> Draft:
    for one in presses:
        draft = take(draft, one).draft
    return draft


def test_start_and_stop_make_a_fill_by_the_pages_clock() -> None:
    found = after(Draft(id="d"), press(1, "start"), press(2, "stop", seconds=4.2647))
    assert found.fills == (Fill(seconds=4.265),)
    assert (found.started_at, found.started_on, found.started_tick) == (None, None, None)


def test_a_press_that_is_handed_over_twice_counts_once() -> None:
    start, stop = press(1, "start"), press(2, "stop", seconds=4.0)
    once = after(Draft(id="d"), start, stop)
    assert after(once, stop) == once
    assert after(Draft(id="d"), start, start, stop, stop) == once


def test_a_start_of_another_page_leaves_only_the_devices_clock() -> None:
    ran = after(Draft(id="d"), press(1, "start", run="earlier"))
    found = after(ran, press(9, "stop", seconds=None))
    assert (found.fills, found.by_clock) == ((), 8.0)


def test_a_device_that_slept_leaves_the_choice() -> None:
    ran = after(Draft(id="d"), press(1, "start"))
    slept = after(ran, press(31, "stop", seconds=4.0, away=True))
    assert (slept.fills, slept.by_clock) == ((), 30.0)
    awake = after(ran, press(5, "stop", seconds=4.1, away=True))
    assert awake.fills == (Fill(seconds=4.1),)


def test_a_stop_of_what_another_tab_ended_is_still_the_fill_that_this_page_saw() -> None:
    ended = after(Draft(id="d"), press(2, "stop", seconds=4.0))
    assert ended.fills == (Fill(seconds=4.0),)
    nothing = take(Draft(id="d"), press(2, "stop", seconds=None))
    assert (nothing.draft.fills, nothing.counted) == ((), True)


@pytest.mark.parametrize("wall", [-1e12, -1.0, 0.0, 1e15, 1e300])
def test_a_clock_that_is_set_to_anything_loses_no_press(wall: float) -> None:
    ran = after(Draft(id="d"), press(1, "start", wall=wall))
    assert Draft.model_validate_json(ran.model_dump_json()) == ran
    assert after(ran, press(2, "stop", seconds=3.0)).fills == (Fill(seconds=3.0),)


def test_what_ran_for_days_is_no_fill_and_is_said() -> None:
    ran = after(Draft(id="d"), press(1, "start", run="earlier"))
    told = take(ran, press(200_000, "stop", seconds=None))
    assert not told.counted
    assert (told.draft.fills, told.draft.started_at) == ((), None)


@given(times=st.lists(st.floats(0.001, 80_000), min_size=1, max_size=130))
def test_every_fill_is_there_up_to_the_most(times: list[float]) -> None:
    found = Draft(id="d")
    for number, seconds in enumerate(times):
        start = press(2 * number, "start", wall=WALL)
        stop = press(2 * number + 1, "stop", seconds=seconds, wall=WALL + seconds)
        found = after(found, start, stop)
    assert [one.seconds for one in found.fills] == [round(t, 3) for t in times][-MOST_FILLS:]
