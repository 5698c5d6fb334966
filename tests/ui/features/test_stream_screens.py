"""A stream is entered, its answer read, and all that is shown of a pond shows it too."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from drawn import Screen
from samples_of_kinds import SAMPLES

from pondapp import words
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.planning.verdict import verdict_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.sharing.example import example_pond
from pondapp.answers.sharing.html_report import plan_page
from pondapp.models.circuit import Stream
from pondapp.models.preferences import Draft
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.shopping.shopping import ShoppingPage

POND = example_pond()
SIZES = {
    "whose": "rule", "name": "Brook", "stream_length": "6", "stream_width": "50",
    "stream_fall": "40",
}  # fmt: skip
OF_POOLS = {"pools": "2", "pool_length": "0.8", "pool_width": "1", "pool_depth": "25", "weir": "30"}


@pytest.fixture(params=["en", "de", "pl"])
def screen(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> Iterator[Screen]:
    words.set_language(request.param)
    yield Screen(monkeypatch)
    words.set_language("en")


@pytest.fixture
def english(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def typed(screen: Screen, texts: dict[str, str]) -> Screen:
    name = draft_name("thing", POND.id, "new-stream")
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts=texts)))
    screen.open(FeaturePage, pond_id=POND.id, thing_id="new-stream")
    return screen


def with_stream(screen: Screen, stream: Stream) -> Screen:
    pond = POND.model_copy(update={"fed": (*POND.fed, stream), "lines": ()})
    asyncio.run(screen.session.ponds.save(pond))
    return screen


def test_what_is_missing_is_named_from_the_top_down(english: Screen) -> None:
    text = typed(english, {"whose": "rule"}).text()
    missing = text[text.index("Still missing:") :]
    order = ["What its water runs over", "Length of the stream", "Width of its water"]
    assert [missing.index(label) for label in order] == sorted(map(missing.index, order))
    assert "Length of a pool" not in text


def test_pools_are_asked_only_where_there_are_some(english: Screen) -> None:
    for none in ("", "0", " "):
        assert "Width of a weir" not in typed(english, {**SIZES, "pools": none}).text()
    some = typed(english, {**SIZES, "pools": "2", "stream_bed": "gravel"}).text()
    assert "Width of a weir" in some[some.index("Still missing:") :]
    odd = typed(english, {**SIZES, **OF_POOLS, "pools": "1.5", "stream_bed": "gravel"}).text()
    assert "Write a whole number" in odd


def test_it_is_saved_as_typed(english: Screen) -> None:
    typed(english, {**SIZES, **OF_POOLS, "stream_bed": "cobbles", "freeboard": "8"}).press("Save")
    stream = english.session.ponds[POND.id].fed[-1]
    assert isinstance(stream, Stream)
    assert (stream.bed, stream.pools, stream.freeboard_m) == ("cobbles", 2, 0.08)
    assert stream.weir_width_m == 0.3
    assert stream.inlet_depth_m is None


def test_its_answer_in_every_language(screen: Screen) -> None:
    told = typed(screen, {**SIZES, **OF_POOLS, "stream_bed": "cobbles", "freeboard": "8"}).text()
    for english in (
        "How deep its water is", "How fast it runs", "Time on its way", "The first start takes",
    ):  # fmt: skip
        assert words.t(english) in told


def test_a_slope_that_is_a_fall_is_told_beside_the_form(english: Screen) -> None:
    steep = {**SIZES, "stream_fall": "700", "stream_bed": "gravel"}
    assert "enter it as a lip" in typed(english, steep).text()


def test_its_place_print_list_and_what_is_open(english: Screen) -> None:
    sample = SAMPLES["stream"]
    assert isinstance(sample, Stream)
    flat = sample.model_copy(update={"freeboard_m": 0.001})
    with_stream(english, flat)
    english.open(AtPlacePage, pond_id=POND.id, place_id="one")
    assert "overflows its rim" in english.text()
    english.open(ShoppingPage, pond_id=POND.id)
    assert "bags of stones for Brook" in english.text()
    worked = WorkedPond(english.session.ponds[POND.id])
    page = plan_page(worked, [], "us", datetime(2026, 7, 1, tzinfo=UTC))
    assert "Runs back when the pump stops: " in page
    assert "overflows its rim" in page


def lifted(screen: Screen, lift: float) -> None:
    """A pond whose one branch brings water to a stream that begins 3 m up."""
    stream = Stream(id="st", name="Brook", length_m=20, width_m=0.5, fall_m=3.0, bed="cobbles")
    line = POND.lines[0]
    to_it = line.branches[0].model_copy(update={"feeds": ("st",), "lift_m": lift})
    lines = (line.model_copy(update={"branches": (to_it,)}),)
    pond = POND.model_copy(update={"fed": (stream,), "lines": lines})
    asyncio.run(screen.session.ponds.save(pond))


def test_a_lift_below_its_source_is_asked_about_and_nothing_is_right_till_then(
    english: Screen,
) -> None:
    asked = "0.5 m of lift, but its water falls 3 m: one of the two is wrong"
    for lift, there in ((0.5, True), (3.0, False)):
        lifted(english, lift)
        for page in (FeaturePage, AtPlacePage, PlanPage, PumpsPage):
            english.open(page, pond_id=POND.id, thing_id="st", place_id="st")
            assert (asked in english.text()) == there, page
        worked = WorkedPond(english.session.ponds[POND.id])
        assert isinstance(worked.plan, PondPlan)
        state = verdict_of(worked, worked.plan)[0]
        assert (state == "unknown") or not there
        network = worked.network(worked.lines[0], worked.plan.branches)
        states = [one.state for one in answers_for(network, POND.pumps)]
        assert "enough" not in states or not there


def test_a_lift_as_typed_is_held_against_the_fall(english: Screen) -> None:
    typed(english, {**SIZES, "stream_bed": "gravel", "lift": "0.2"})
    assert "0.2 m of lift, but its water falls 0.4 m" in english.text()
    typed(english, {**SIZES, "stream_bed": "gravel", "lift": "0.4"})
    assert "one of the two is wrong" not in english.text()
