"""The state of a place in the picture: in a word and a severity, against what is wanted now."""

from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.picture.states import NOT_MEASURED, PlaceState, states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.tune import SEVERITY, states
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.reading import Bucket, Container, Fill, NothingComes, Reading
from pondapp.models.water import TypedVolume

POND = Pond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=1.0),
    fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),),
)
FISH = POND.model_copy(update={"fish": (FishGroup(id="f", name="F", count=3, length_m=0.1),)})
NOW = datetime(2026, 5, 1, tzinfo=UTC)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.01, tolerance_m3=0.0001)


def reading(seconds: float, hours_ago: float = 0.0) -> Reading:
    fills = tuple(Fill(seconds=seconds + step) for step in (-0.1, 0.0, 0.1))
    return Reading(
        id=f"r{hours_ago:.0f}", pond_id="p", place_id="bog", place_name="Bog",
        taken_at=NOW - timedelta(hours=hours_ago),
        method=Bucket(container=BUCKET, fills=fills), band=None,
    )  # fmt: skip


def state(*log: Reading, pond: Pond = POND) -> PlaceState:
    return states_of(WorkedPond(pond), log, NOW).get("bog", NOT_MEASURED)


def at(place_id: str, lph: float, hours_ago: float = 0.0) -> Reading:
    one = reading(0.01 * 3.6e6 / lph if lph else 9.0, hours_ago)
    changes: dict[str, object] = {"id": f"{place_id}{hours_ago}", "place_id": place_id}
    if not lph:
        changes["method"] = NothingComes()
    return one.model_copy(update=changes)


def of_path(*branches: Branch) -> Pond:
    """Ten times the water, with a box that asks for 5,000 L/h and more."""
    fed = (
        HighFlowFilter(id="box", name="Box", media_volume_m3=0.03),
        Lip(id="lip", name="Lip", width_m=0.3),
        BogFilter(id="bog", name="Bog", bed_volume_m3=0.3),
    )
    return FISH.model_copy(
        update={
            "fed": tuple(one for one in fed if any(one.id in way.feeds for way in branches)),
            "water": TypedVolume(volume_m3=2.5),
            "lines": (Line(id="line", name="Pump", branches=branches),),
        }
    )


IN_ROW = of_path(Branch(id="row", name="Row", feeds=("box", "lip")), Branch(id="back", name="Back"))
PAST = of_path(Branch(id="row", name="Row", feeds=("bog", "box", "lip"), bypass=("bog",)))


def shown(of: Pond, *log: Reading) -> dict[str, tuple[str, str]]:
    found = states_of(WorkedPond(of), log, NOW)
    return {key: (one.word, one.severity) for key, one in found.items() if not one.summed}


def test_one_water_is_told_alike_wherever_it_passes() -> None:
    for place in ("row", "box", "lip"):
        right = shown(IN_ROW, at(place, 7000))
        assert right == dict.fromkeys(("row", "box", "lip"), ("Right", "right"))
        # Enough for the lip, and too little for the box before it.
        little = shown(IN_ROW, at(place, 3500))
        assert little == dict.fromkeys(("row", "box", "lip"), ("Too little", "wrong"))
    newest = shown(IN_ROW, at("lip", 7000, hours_ago=24 * 25), at("box", 3500))
    assert newest["lip"] == ("Too little", "wrong")
    differs = shown(IN_ROW, at("lip", 7000, hours_ago=5), at("box", 3500))
    assert differs == dict.fromkeys(("row", "box", "lip"), ("Two readings differ", "unknown"))


def test_no_water_at_the_pump_is_a_danger_until_some_comes_again() -> None:
    dry = at("line", 0, hours_ago=3)
    assert shown(IN_ROW, dry) == {"line": ("Dry", "danger")}
    assert shown(IN_ROW, dry, at("box", 7000, hours_ago=5))["line"] == ("Dry", "danger")
    assert "line" not in shown(IN_ROW, dry, at("box", 7000))


def test_where_a_part_of_the_water_passes_only_its_own_readings_count() -> None:
    assert "bog" not in shown(PAST, at("lip", 7000))
    assert shown(PAST, at("bog", 0)) == {"bog": ("Dry", "danger")}


def test_nothing_is_right_or_wrong_at_a_branch_that_rests() -> None:
    plan = WorkedPond(IN_ROW).planned.flows
    assert plan["back"] == 0.0
    assert shown(IN_ROW, at("back", 500)) == {"back": ("Measured", "unknown")}
    assert shown(IN_ROW, at("back", 0)) == {"back": ("Dry", "unknown")}


def test_a_place_without_readings_is_not_known() -> None:
    assert (state().severity, state().word, state().found) == ("unknown", "Not measured yet", None)


@pytest.mark.parametrize(
    ("seconds", "word", "severity"),
    [(45, "Right", "right"), (120, "Too little", "wrong"), (10, "Too much", "wrong")],
)
def test_the_state_goes_by_the_band_of_now(seconds: float, word: str, severity: str) -> None:
    shown = state(reading(seconds))
    assert (shown.word, shown.severity) == (word, severity)
    assert shown.found is not None


def test_the_newest_reading_counts() -> None:
    assert state(reading(45), reading(10, hours_ago=24 * 25)).word == "Right"


@pytest.mark.parametrize(
    ("days", "word"), [(2, "Right"), (400, "Too long ago"), (-1, "Too long ago")]
)
def test_a_reading_of_long_ago_or_dated_ahead_is_not_the_state_of_now(days: int, word: str) -> None:
    shown = state(reading(45, hours_ago=24 * days), reading(45, hours_ago=24 * 500))
    assert shown.word == word
    assert shown.taken_at is not None
    assert shown.severity == ("right" if word == "Right" else "unknown")


@pytest.mark.parametrize(("pond", "severity"), [(POND, "wrong"), (FISH, "danger")])
def test_a_dry_filter_is_a_danger_to_fish(pond: Pond, severity: str) -> None:
    dry = reading(45).model_copy(update={"method": NothingComes()})
    shown = state(dry, pond=pond)
    assert (shown.word, shown.severity) == ("Dry", severity)


def test_where_the_demands_of_a_branch_conflict_no_flow_is_right_or_too_little() -> None:
    # 0.1 m3 of bog stand 1,200 L/h at most, 0.6 m of lip want 4,000 L/h at least.
    row = Branch(id="row", name="Row", feeds=("bog", "lip"))
    lip = Lip(id="lip", name="Lip", width_m=0.6)
    line = Line(id="line", name="Pump", branches=(row,))
    pond = FISH.model_copy(update={"fed": (*POND.fed, lip), "lines": (line,)})
    worked = WorkedPond(pond)
    for lph in (1000, 4200, 9000):  # right for the bog alone, right for the lip alone, for neither
        seen = states_of(worked, [at("bog", lph)], NOW)
        (tuned,) = states(worked, line, [at("bog", lph)], {}, NOW)
        for key in ("bog", "lip", "row"):
            assert (seen[key].severity, seen[key].word) == ("wrong", "This can't all work")
            assert seen[key].why == tuned.place.conflict
        assert (tuned.state, SEVERITY[tuned.state]) == ("conflict", "wrong")
        # What its branches ask of the pump cannot all be: by the branch or by itself.
        for pump in (seen["line"], states_of(worked, [at("line", lph)], NOW)["line"]):
            assert (pump.severity, pump.word) == ("wrong", "This can't all work")
    assert states_of(worked, [at("bog", 0)], NOW)["bog"].severity == "danger"
    assert states_of(worked, [at("line", 0)], NOW)["line"].severity == "danger"
    old = states_of(worked, [at("bog", 1000, hours_ago=5000)], NOW)
    assert old["bog"].word == "Too long ago"
    # A way round the bog for what it cannot take settles it.
    round_it = row.model_copy(update={"bypass": ("bog",)})
    settled = pond.model_copy(
        update={"lines": (line.model_copy(update={"branches": (round_it,)}),)}
    )
    assert states_of(WorkedPond(settled), [at("lip", 4400)], NOW)["lip"].word == "Right"
