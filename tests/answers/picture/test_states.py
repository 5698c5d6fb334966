"""The state of a place in the picture: in a word and a severity, against what is wanted now."""

from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.picture.states import NOT_MEASURED, PlaceState, states_of
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import BogFilter
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
    assert state(reading(45), reading(10, hours_ago=5)).word == "Right"


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
