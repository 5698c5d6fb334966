"""The screens that plan a pond, drawn and pressed: what is assumed, what good costs, ways out."""

import asyncio
from datetime import UTC, datetime, timedelta

import flet.canvas as cv
import pytest
from drawn import Screen, parts_of
from samples_of_kinds import SAMPLES

from pondapp import units
from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.features.kinds import KINDS
from pondapp.answers.planning.plan import PondConflict
from pondapp.answers.plumbing.path import branch_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.circuit import BogFilter, Branch, Jet, Line, Lip
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.features.features import FeaturePage, FeaturesPage
from pondapp.ui.features.looks import LOOKS
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.planning.plan import PlanPage, shared_changes
from pondapp.ui.plumbing.path import PathPage, PathPartPage
from pondapp.ui.plumbing.run_form import RunFormPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tune_branch import TuneBranchPage

ROW = Pond(
    id="p",
    name="Row",
    water=TypedVolume(volume_m3=1.0),
    fed=(
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),
        Lip(id="lip", name="Lip", width_m=0.3, fall_m=0.6),
    ),
    lines=(
        Line(id="l", name="Pump", branches=(Branch(id="b", name="Row", feeds=("bog", "lip")),)),
    ),
)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    made = Screen(monkeypatch)
    asyncio.run(made.session.ponds.save(ROW))
    return made


def type_draft(screen: Screen, name: str, texts: dict[str, str]) -> None:
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts=texts)))


def test_least_and_good_stand_side_by_side_with_what_good_costs(screen: Screen) -> None:
    screen.open(PlanPage, pond_id=EXAMPLE)
    told = screen.text()
    assert "6,330 L/h is enough for everything" in told
    for part in ("Least everywhere", "Good everywhere", "6,150 L/h", "a year more than least"):
        assert part in told
    assert told.count("The chosen pump is too weak for it.") == 1
    assert "good 5,330 L/h" in told


# Two rows, in each of which the lip asks for more than the other part can take.
ROWS = ROW.model_copy(
    update={
        "id": "rows",
        "fed": (
            *ROW.fed,
            Jet(id="jet", name="Jet", flow_m3_s=1e-4),
            Lip(id="wide", name="Wide lip", width_m=0.5),
        ),
        "lines": (
            Line(
                id="l",
                name="Pump",
                branches=(
                    Branch(id="b", name="Row", feeds=("bog", "lip")),
                    Branch(id="c", name="Side", feeds=("jet", "wide")),
                ),
            ),
        ),
    }
)


def test_what_all_ways_out_share_is_told_once(screen: Screen) -> None:
    asyncio.run(screen.session.ponds.save(ROWS))
    plan = worked_now(ROWS).plan
    assert isinstance(plan, PondConflict)
    assert len(plan.resolutions) > 1
    screen.open(PlanPage, pond_id="rows")
    told = screen.text()
    lines = [line for line in told.splitlines() if "Jet" in line and "round" in line]
    assert len(lines) == 1, lines
    assert told.count("With each of the ways below") == 1
    # Neither least nor good works: that stands on top, and is not said of each of the two again.
    assert told.count("This can't all work") == 1
    assert "Least everywhere" not in told
    # What is taken is all of it, and named by what is the way's own.
    screen.press("Use this")
    assert "Jet" not in screen.notes[-1][0]
    assert "Side" not in screen.text() or "This can't all work" not in screen.text()


def test_shared_changes_leave_each_way_something_of_its_own() -> None:
    assert shared_changes([["a", "x"], ["b", "x"]]) == ["x"]
    assert shared_changes([["x"], ["x", "b"]]) == []
    assert shared_changes([["a", "x"]]) == []
    assert shared_changes([]) == []


def test_a_branch_is_told_its_own_conflict_where_it_is_tuned(screen: Screen) -> None:
    asyncio.run(screen.session.ponds.save(ROWS))
    screen.open(TuneBranchPage, pond_id="rows", branch_id="c")
    told = screen.text()
    assert "On the branch Side" in told
    assert "On the branch Row" not in told
    drawn = [one for one in parts_of(screen.look()) if isinstance(one, cv.Canvas)]
    assert not drawn, "an aim is drawn where there is none"
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id="to-bog")
    assert [one for one in parts_of(screen.look()) if isinstance(one, cv.Canvas)]


def test_a_conflict_is_settled_by_a_touch_and_taken_back(screen: Screen) -> None:
    screen.open(PlanPage, pond_id="p")
    assert "This can't all work" in screen.text()
    assert (
        "Lip needs 4,000 L/h for its good flow and Bog can take at most 1,200 L/h" in screen.text()
    )
    screen.press("Use this")
    assert "is enough for everything" in screen.text()
    assert screen.session.ponds["p"] != ROW
    screen.undo()
    assert screen.session.ponds["p"].model_copy(update={"past": ()}) == ROW
    assert "This can't all work" in screen.text()


def test_what_is_assumed_leads_to_its_field(screen: Screen) -> None:
    screen.open(PlanPage, pond_id="p")
    screen.press("Row: assuming 0.6 m of lift and 3 m of hose; tap to enter")
    assert screen.went == ["/pond/p/plumbing/l/b"]
    screen.open(RunFormPage, pond_id="p", line_id="l", run_key="b")
    assert "Lift empty: assuming 0.6 m. Length empty: assuming 3 m of hose." in screen.text()


def test_the_water_path_says_lift_and_hose_of_each_branch(screen: Screen) -> None:
    screen.open(PathPage, pond_id="p")
    assert "Lift 0.6 m, assumed; 3 m of hose, assumed" in screen.text()
    screen.open(PathPartPage, pond_id="p", part_id="b")
    assert "Lift 0.6 m, assumed; 3 m of hose, assumed" in screen.text()
    screen.open(PathPage, pond_id=EXAMPLE)
    assert "Lift 0.9 m; 4 m of 40 mm hose" in screen.text()


@pytest.mark.parametrize("kind", LOOKS)
def test_each_new_feature_asks_lift_and_hose(screen: Screen, kind: str) -> None:
    sizes = LOOKS[kind].texts_of(SAMPLES[kind], "metric")
    type_draft(screen, draft_name("thing", "p", f"new-{kind}"), {"whose": "rule", **sizes})
    screen.open(FeaturePage, pond_id="p", thing_id=f"new-{kind}")
    told = screen.text()
    assert "Lift and hose" in told
    assert f"Lift empty: assuming {KINDS[kind].fall(SAMPLES[kind]) or 1:g} m." in told
    assert "the plan gives its" in told


def test_a_feature_is_saved_with_its_lift_and_its_aim(screen: Screen) -> None:
    texts = {"whose": "rule", "lip": "20", "lift": "0.4", "aim": "least", "name": "Second"}
    type_draft(screen, draft_name("thing", "p", "new-lip"), texts)
    screen.open(FeaturePage, pond_id="p", thing_id="new-lip")
    screen.press("Save")
    pond = screen.session.ponds["p"]
    made = pond.fed[-1]
    assert (made.name, made.aim) == ("Second", "least")
    branch = branch_of(pond, made.id)
    assert branch is not None
    assert branch.lift_m == 0.4
    assert branch_of(pond, "lip") == ROW.lines[0].branches[0]  # the others stay as they were


def test_least_good_and_most_stand_by_name(screen: Screen) -> None:
    screen.open(FeaturesPage, pond_id="p")
    assert "Least 2,000 L/h, good 4,000 L/h, most 8,000 L/h." in screen.text()
    screen.open(AtPlacePage, pond_id="p", place_id="lip")
    assert "Good at 4,000 L/h; the plan gives its good flow or more." in screen.text()
    assert "It can't all work: see the plan." in screen.text()


DOUBTED = "Mid-size pump: what was measured does not go with what is entered of it. Check its label"


def measured_at(screen: Screen, place: str, lph: float) -> None:
    reading = Reading(
        id=place, pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
        taken_at=datetime.now(UTC) - timedelta(hours=1),
        method=MeterReading(flow_m3_s=lph / 3.6e6, tolerance=0.03),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(reading))


@pytest.mark.parametrize(
    "flows",
    [
        {"box": 9000.0, "bog": 6000.0},  # more than 12,000 L/h and what a label may be off
        {"box": 12000.0},  # all of that, up there and through its hose
    ],
)
def test_a_label_that_readings_contradict_carries_no_tick(
    screen: Screen, flows: dict[str, float]
) -> None:
    sure = "6,330 L/h is enough for everything"
    unsure = "6,330 L/h is enough for everything, if Mid-size pump can give it"
    screen.open(PlanPage, pond_id=EXAMPLE)
    assert unsure not in screen.text()
    assert sure in screen.text()
    for place, lph in flows.items():
        measured_at(screen, place, lph)
    screen.open(PlanPage, pond_id=EXAMPLE)
    assert unsure in screen.text()
    assert DOUBTED in screen.text()
    screen.open(PumpsPage, pond_id=EXAMPLE)
    assert DOUBTED in screen.text()
    assert "1. Mid-size pump\nNot known yet\n" in screen.text()
    assert "Enough, and the cheapest" not in screen.text()
    worked, log = WorkedPond(screen.session.ponds[EXAMPLE]), screen.session.logs.items_of(EXAMPLE)
    found = {units.tell(one.sentence, "metric"): one.severity
             for one in open_matters(worked, log, datetime.now(UTC)).matters}  # fmt: skip
    assert found[unsure] == "unknown"
    assert any(DOUBTED in one for one in found)
    assert "Mid-size pump is enough." not in found


def test_a_conflict_by_a_label_that_readings_contradict_doubts_it_too(screen: Screen) -> None:
    """It says what the pump delivers by its label, and advises a stronger one."""
    pond = screen.session.ponds[EXAMPLE]
    line = pond.lines[0]
    weak = tuple(
        one.model_copy(update={"max_flow_m3_s": 3000 / 3.6e6}) if one.id == line.pump_id else one
        for one in pond.pumps
    )
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"pumps": weak})))
    screen.open(PlanPage, pond_id=EXAMPLE)
    assert "by its label it delivers" in screen.text()
    assert DOUBTED not in screen.text()
    measured_at(screen, "box", 5500.0)
    for page in (PlanPage, PumpsPage):
        screen.open(page, pond_id=EXAMPLE)
        assert DOUBTED in screen.text()


def test_a_part_that_was_measured_as_entered_leaves_the_label_alone(screen: Screen) -> None:
    measured_at(screen, "box", 5500.0)
    for page in (PlanPage, PumpsPage):
        screen.open(page, pond_id=EXAMPLE)
        assert DOUBTED not in screen.text()
    assert "1. Mid-size pump\nEnough\n" in screen.text()
