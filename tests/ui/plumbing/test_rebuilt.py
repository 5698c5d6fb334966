"""Hoses or ways that were changed leave open what was measured before; corrected ones do not."""

import asyncio
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen
from ponds import LPH

from pondapp.answers.plumbing.path_edits import (
    add_branch,
    earlier,
    feed_alone,
    feed_from,
    move_branch,
    remove_branch,
    set_bypass,
    set_valve,
)
from pondapp.answers.plumbing.plumbing import put_pipe
from pondapp.answers.plumbing.pump_history import rebuilds
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.what_if.changes import Changes
from pondapp.answers.what_if.changes import texts_of as texts_of_changes
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.features.feature_form import texts_of as feature_texts
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.plumbing.plumbing import PlumbingPage
from pondapp.ui.plumbing.run_form import RunFormPage, read_run, run_draft, texts_of
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.what_if.what_if import WhatIfPage

LINE = example_pond().lines[0]
FALL = next(one for one in LINE.branches if one.id == "to-fall")
ASKED = "Only this entry: it was like this all along"
BACK = "Only the entry changed: it was like this all along"
LEFT_OPEN = "What was measured before the change says nothing of it now."
DOUBT = "Measured before the water path was changed: "


def read(screen: Screen, hours: float = 3.0) -> None:
    for place, lph in (("box", 5500), ("bog", 1500)):
        one = Reading(
            id=place, pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
            taken_at=datetime.now(UTC) - timedelta(hours=hours),
            method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.03),
        )  # fmt: skip
        asyncio.run(screen.session.logs.save_reading(one))


def form(screen: Screen, **changed: str) -> str:
    """The form of the branch to the fall, with something typed."""
    assert FALL.pipe is not None
    texts = {**texts_of(FALL, FALL.pipe, True, "metric"), **changed}
    name = run_draft(EXAMPLE, LINE.id, FALL.id)
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts=texts)))
    screen.open(RunFormPage, pond_id=EXAMPLE, line_id=LINE.id, run_key=FALL.id)
    return screen.text()


def pond(screen: Screen) -> str:
    screen.open(PondPage, pond_id=EXAMPLE)
    return screen.text()


def test_another_hose_asks_for_the_flows_again_and_undo_takes_that_back(screen: Screen) -> None:
    read(screen)
    assert ASKED in form(screen, length="9")
    screen.press("Save this run")
    assert DOUBT in pond(screen)
    assert "Right: 5,500" not in pond(screen)
    asyncio.run(screen.session.ponds.undo(EXAMPLE))
    assert DOUBT not in pond(screen)
    assert "Right: 5,500" in pond(screen)


def test_an_entry_that_is_only_corrected_leaves_what_was_measured(screen: Screen) -> None:
    read(screen)
    form(screen, lift="1.1", new="entry")
    screen.press("Save this run")
    assert DOUBT not in pond(screen)
    assert "Right: 5,500" in pond(screen)


def test_nothing_is_asked_where_nothing_was_measured_or_changed(screen: Screen) -> None:
    assert ASKED not in form(screen, length="9")
    read(screen)
    assert ASKED not in form(screen)
    assert ASKED not in form(screen, valve="gate")


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_form_that_is_saved_as_it_was_changes_no_hose(system: str) -> None:
    assert FALL.pipe is not None
    texts = texts_of(FALL, FALL.pipe, True, system)
    made, _ = read_run(example_pond(), LINE, FALL.id, texts, system)
    assert made is not None
    assert not rebuilds(made.lines[0], LINE)
    assert WorkedPond(made).plan == WorkedPond(example_pond()).plan


def new_id() -> str:
    return "fresh"


@pytest.mark.parametrize(
    "edit",
    [
        lambda pond: add_branch(pond, "line", new_id),
        lambda pond: remove_branch(pond, "to-bog"),
        lambda pond: feed_from(pond, "box", "to-bog", new_id),
        lambda pond: feed_alone(pond, "lip", "line", new_id),
        lambda pond: set_bypass(pond, "bog", way_round=True),
    ],
)
def test_water_that_takes_other_ways_is_asked_for_again(
    screen: Screen, edit: Callable[[Pond], Pond]
) -> None:
    read(screen)
    asyncio.run(screen.session.ponds.save(edit(example_pond())))
    assert DOUBT in pond(screen)
    assert "Right: " not in pond(screen)
    assert "nothing in the log explains it" not in pond(screen)
    asyncio.run(screen.session.ponds.undo(EXAMPLE))
    assert "Right: 5,500" in pond(screen)


@pytest.mark.parametrize(
    "edit",
    [lambda pond: earlier(pond, "lip"), lambda pond: set_valve(pond, "to-bog", "gate")],
)
def test_what_leaves_the_ways_of_the_water_asks_nothing(
    screen: Screen, edit: Callable[[Pond], Pond]
) -> None:
    read(screen)
    asyncio.run(screen.session.ponds.save(edit(example_pond())))
    assert DOUBT not in pond(screen)


def test_a_branch_on_another_pump_is_asked_for_again(screen: Screen) -> None:
    read(screen)
    first = LINE.model_copy(update={"branches": (FALL,)})
    other = Line(id="second", name="Second", pump_id="small", branches=LINE.branches[:1])
    made = example_pond().model_copy(update={"lines": (first, other)})
    asyncio.run(screen.session.ponds.save(made))
    assert "Right: " not in pond(screen)
    asyncio.run(screen.session.ponds.save(move_branch(made, "to-bog", "line", new_id)))
    assert "Right: " not in pond(screen)


def test_ways_that_are_entered_for_the_first_time_are_no_change(screen: Screen) -> None:
    assumed = example_pond().model_copy(update={"lines": ()})
    asyncio.run(screen.session.ponds.save(assumed))
    read(screen)
    asyncio.run(screen.session.ponds.save(example_pond()))
    assert DOUBT not in pond(screen)


def test_where_only_the_entry_was_wrong_one_touch_counts_the_readings_again(
    screen: Screen,
) -> None:
    read(screen)
    screen.open(TunePage, pond_id=EXAMPLE)
    assert BACK not in screen.text()
    asyncio.run(screen.session.ponds.save(set_bypass(example_pond(), "lip", way_round=True)))
    screen.open(TunePage, pond_id=EXAMPLE)
    assert "measured before the water path was changed" in screen.text()
    screen.press(BACK)
    assert BACK not in screen.text()
    assert "Right" in screen.text()
    assert DOUBT not in pond(screen)
    asyncio.run(screen.session.ponds.save(example_pond()))
    read(screen, hours=0.0)
    screen.open(TunePage, pond_id=EXAMPLE)
    assert BACK not in screen.text()


def lift_of_the_fall(screen: Screen, lift: str, **more: str) -> str:
    """The form of the fall, with another lift of its branch typed."""
    lip = next(one for one in example_pond().fed if one.id == "lip")
    texts = {**feature_texts(lip, "metric"), "whose": "rule", "lift": lift, **more}
    name = draft_name("thing", EXAMPLE, lip.id)
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts=texts)))
    screen.open(FeaturePage, pond_id=EXAMPLE, thing_id=lip.id)
    return screen.text()


def test_another_lift_at_the_fall_itself_asks_what_is_new(screen: Screen) -> None:
    assert FALL.lift_m is not None
    assert ASKED not in lift_of_the_fall(screen, "1.1"), "nothing was read"
    read(screen)
    assert ASKED not in lift_of_the_fall(screen, f"{FALL.lift_m}")
    assert ASKED in lift_of_the_fall(screen, "1.1")
    screen.press("Save")
    assert screen.session.ponds[EXAMPLE].lines[0].rebuilt_at is not None
    assert DOUBT in pond(screen)


def test_a_lift_that_was_entered_wrong_leaves_what_was_measured(screen: Screen) -> None:
    read(screen)
    assert ASKED in lift_of_the_fall(screen, "1.1", new="entry")
    screen.press("Save")
    assert screen.session.ponds[EXAMPLE].lines[0].branches != LINE.branches
    assert DOUBT not in pond(screen)
    assert LEFT_OPEN not in screen.notes[-1][0]


def thin(screen: Screen) -> None:
    """A pond whose hose to the fall costs much head."""
    assert FALL.pipe is not None
    pipe = FALL.pipe.model_copy(update={"size": "25 mm", "length_m": 8.0})
    asyncio.run(screen.session.ponds.save(put_pipe(example_pond(), LINE.id, FALL.id, pipe)))


def test_a_wider_hose_in_one_touch_says_what_it_leaves_open_and_how_to_take_that_back(
    screen: Screen,
) -> None:
    thin(screen)
    screen.open(PlumbingPage, pond_id=EXAMPLE)
    take = next(name for name in screen.buttons() if re.match(r"Take .*: To the waterfall", name))
    screen.press(take)
    assert LEFT_OPEN not in screen.notes[-1][0], "nothing was read"
    assert BACK not in screen.text()
    thin(screen)
    read(screen, hours=0.0)
    screen.open(PlumbingPage, pond_id=EXAMPLE)
    assert BACK not in screen.text()
    screen.press(take)
    assert screen.notes[-1][0].endswith(f" now. {LEFT_OPEN}")
    assert LEFT_OPEN in screen.text()
    screen.press(BACK)
    assert LEFT_OPEN not in screen.text()
    assert screen.session.ponds[EXAMPLE].lines[0].rebuilt_at is None
    assert DOUBT not in pond(screen)


def test_what_was_tried_and_applied_says_it_too(screen: Screen) -> None:
    read(screen)
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert BACK not in screen.text()
    lifted = texts_of_changes(Changes({("lift", FALL.id): 0.95}))
    name = draft_name("whatif", EXAMPLE)
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts={**lifted, "begin": "plan"})))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert BACK not in screen.text()
    screen.press("Apply: make it the plan")
    assert screen.notes[-1][0] == f"It is the plan now. {LEFT_OPEN}"
    assert LEFT_OPEN in screen.text()
    screen.press(BACK)
    assert LEFT_OPEN not in screen.text()
    assert DOUBT not in pond(screen)


def test_a_reading_dated_ahead_takes_away_no_way_back(screen: Screen) -> None:
    """It does not count yet, so the hose is still in doubt."""
    read(screen)
    read_ahead = Reading(
        id="ahead", pond_id=EXAMPLE, place_id="box", place_name="box", band=None,
        taken_at=datetime.now(UTC) + timedelta(days=30),
        method=MeterReading(flow_m3_s=5500 * LPH, tolerance=0.03),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(read_ahead))
    lift_of_the_fall(screen, "1.1")
    screen.press("Save")
    assert LEFT_OPEN in screen.notes[-1][0]
    assert DOUBT in pond(screen)
    for page in (TunePage, PlumbingPage, WhatIfPage):
        screen.open(page, pond_id=EXAMPLE)
        assert BACK in screen.text()
    screen.press(BACK)
    assert DOUBT not in pond(screen)


def test_each_pump_has_its_own_way_back(screen: Screen) -> None:
    """The hose of one is new, of the other only the entry was wrong."""
    to_bog = next(one for one in LINE.branches if one.id != FALL.id)
    first = LINE.model_copy(update={"branches": (FALL,)})
    other = Line(id="second", name="Second", pump_id="small", branches=(to_bog,))
    made = example_pond().model_copy(update={"lines": (first, other)})
    asyncio.run(screen.session.ponds.save(made, corrected=True))
    read(screen)
    for line, branch in ((first, FALL), (other, to_bog)):
        assert branch.pipe is not None
        pipe = branch.pipe.model_copy(update={"length_m": 9.5})
        now = screen.session.ponds[EXAMPLE]
        asyncio.run(screen.session.ponds.save(put_pipe(now, line.id, branch.id, pipe)))
    screen.open(PlumbingPage, pond_id=EXAMPLE)
    screen.press(f"Second. {BACK}")
    kept, back = screen.session.ponds[EXAMPLE].lines
    assert kept.rebuilt_at is not None
    assert back.rebuilt_at is None
    assert f"Second. {BACK}" not in screen.text()
    assert BACK in screen.text()
    screen.undo()
    assert f"Second. {BACK}" in screen.text()
