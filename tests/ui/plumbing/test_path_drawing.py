"""The state of a place on the water path: by mark and word, against what is wanted now."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace

import pytest

from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import BogFilter
from pondapp.models.pond import Pond
from pondapp.models.reading import Bucket, Container, Fill, NothingComes, Reading
from pondapp.models.water import TypedVolume
from pondapp.ui.parts import answers
from pondapp.ui.plumbing.path_drawing import UNMEASURED, Scene, last_readings

POND = Pond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=1.0),
    fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),),
)
NOW = datetime(2026, 5, 1, tzinfo=UTC)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.01, tolerance_m3=0.0001)


@pytest.fixture(autouse=True)
def no_session(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(answers, "session_now", lambda: SimpleNamespace(ponds={}))


def reading(seconds: float, hours_ago: float = 0.0) -> Reading:
    fills = tuple(Fill(seconds=seconds + step) for step in (-0.1, 0.0, 0.1))
    return Reading(
        id=f"r{hours_ago:.0f}", pond_id="p", place_id="bog", place_name="Bog",
        taken_at=NOW - timedelta(hours=hours_ago),
        method=Bucket(container=BUCKET, fills=fills), band=None,
    )  # fmt: skip


def scene(*log: Reading) -> Scene:
    plan = WorkedPond(POND).plan
    return Scene(POND, WorkedPond(POND).wanted, plan, last_readings(log, NOW), "metric", NOW)


def test_a_place_without_readings_says_so() -> None:
    state = scene().state("bog")
    assert (state.mark, state.word, state.flow) == (UNMEASURED, "Not measured yet", None)


@pytest.mark.parametrize(
    ("seconds", "word", "off"),
    [(45, "Right", False), (120, "Too little", True), (10, "Too much", True)],
)
def test_the_state_goes_by_the_band_of_now(seconds: float, word: str, off: bool) -> None:
    shown = scene(reading(seconds))
    state = shown.state("bog")
    assert (state.word, state.off) == (word, off)
    assert state.flow is not None


def test_the_newest_reading_counts() -> None:
    assert scene(reading(45), reading(10, hours_ago=5)).state("bog").word == "Right"
    assert len({mark.mark for mark in (scene().state("bog"), scene(reading(45)).state("bog"))}) == 2


@pytest.mark.parametrize(
    ("days", "word"), [(2, "Right"), (400, "Too long ago"), (-1, "Too long ago")]
)
def test_a_reading_of_long_ago_or_dated_ahead_is_not_the_state_of_now(days: int, word: str) -> None:
    shown = scene(reading(45, hours_ago=24 * days), reading(45, hours_ago=24 * 500)).state("bog")
    assert shown.word == word
    assert shown.day is not None
    assert not shown.off


def test_a_dry_place_has_a_mark_and_a_word_of_its_own() -> None:
    dry = reading(45).model_copy(update={"method": NothingComes()})
    shown = scene(dry)
    state = shown.state("bog")
    assert (state.word, state.flow, state.off) == ("Dry", "no water", True)
    assert state.mark not in {scene().state("bog").mark, scene(reading(120)).state("bog").mark}
