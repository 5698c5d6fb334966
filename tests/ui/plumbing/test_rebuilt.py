"""A hose that was changed leaves open what was measured before; one corrected on paper does not."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen
from ponds import LPH

from pondapp.answers.plumbing.pump_history import rebuilds
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.plumbing.run_form import RunFormPage, read_run, run_draft, texts_of
from pondapp.ui.pond.pond import PondPage

LINE = example_pond().lines[0]
FALL = next(one for one in LINE.branches if one.id == "to-fall")
ASKED = "Only this entry: it was like this all along"
DOUBT = "Measured before the hose was changed: "


def read(screen: Screen) -> None:
    for place, lph in (("box", 5500), ("bog", 1500)):
        one = Reading(
            id=place, pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
            taken_at=datetime.now(UTC) - timedelta(hours=3),
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
