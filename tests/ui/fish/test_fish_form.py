"""The fish screen's texts become fish, feed and water, and the other way round."""

import pytest

from pondapp.answers.fish.stock import stock
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import BogFilter
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.ui.fish import fish_form as form
from pondapp.ui.fish.fish_answer import lever_text, span_text

BARE = Pond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=5),
    fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.2),),
)
KOI = FishGroup(id="g0", name="Koi", count=5, length_m=0.2, grown_length_m=0.6)
GOLD = FishGroup(id="abc", name="Goldfish", count=12, length_m=0.12)
TEXTS = {
    "groups": "g0", "g0.name": "Koi", "g0.count": "5", "g0.fish_length": "20",
    "g0.grown_length": "60", "fed": "chart", "temperature": "22", "altitude": "300",
}  # fmt: skip


@pytest.mark.parametrize("system", ["metric", "us", "imperial"])
def test_what_is_saved_comes_back_as_it_was(system: str) -> None:
    pond = BARE.model_copy(
        update={"fish": (KOI, GOLD), "feed_kg_day": 0.045, "water_temperature_c": 21.5,
                "altitude_m": 250.0}
    )  # fmt: skip
    read = form.read_fish(form.fish_texts(pond, system), BARE, system)
    assert read.errors == {}
    assert read.pond is not None
    for before, after in zip(pond.fish, read.pond.fish, strict=True):
        assert (after.id, after.name, after.count) == (before.id, before.name, before.count)
        assert after.length_m == pytest.approx(before.length_m, rel=1e-5)
    assert read.pond.fish[1].grown_length_m is None
    assert read.pond.feed_kg_day == pytest.approx(0.045, rel=1e-5)
    assert read.pond.water_temperature_c == pytest.approx(21.5, rel=1e-4)
    assert read.pond.altitude_m == pytest.approx(250, rel=1e-5)
    Pond.model_validate(read.pond.model_dump())


@pytest.mark.parametrize(
    ("key", "wrong"),
    [
        ("g0.count", "2.5"), ("g0.count", "0"), ("g0.count", "many"), ("g0.fish_length", "900"),
        ("g0.grown_length", "10"), ("temperature", "80"), ("altitude", "9000"),
    ],
)  # fmt: skip
def test_each_field_says_what_is_wrong_with_it(key: str, wrong: str) -> None:
    read = form.read_fish({**TEXTS, key: wrong}, BARE, "metric")
    assert read.pond is None
    assert set(read.errors) == {key}
    assert len(read.errors[key]) > 15


@pytest.mark.parametrize("key", ["g0.count", "g0.fish_length", "temperature"])
def test_an_empty_field_is_waited_for_in_silence(key: str) -> None:
    read = form.read_fish({**TEXTS, key: ""}, BARE, "metric")
    assert read.pond is None
    assert read.errors == {}


def test_the_warmest_week_is_the_reader_s_or_a_rule_s() -> None:
    own = form.read_fish({**TEXTS, "warmest.temperature": "27,5"}, BARE, "metric").pond
    assert own is not None
    assert own.warmest_temperature_c == pytest.approx(27.5)
    assert form.fish_texts(own, "metric")["warmest.temperature"] == "27.5"
    none = form.read_fish(TEXTS, BARE, "metric").pond
    assert none is not None
    assert none.warmest_temperature_c is None
    assert "warmest.temperature" not in form.fish_texts(none, "metric")
    assert form.usual_warmest(BARE, "metric") == "26 °C"
    cold = form.read_fish({**TEXTS, "warmest.temperature": "12"}, BARE, "metric")
    assert set(cold.errors) == {"warmest.temperature"}


def test_feed_counts_only_where_it_is_weighed() -> None:
    weighed = {**TEXTS, "fed": "weighed", "feed": "30"}
    read = form.read_fish(weighed, BARE, "metric").pond
    assert read is not None
    assert read.feed_kg_day == pytest.approx(0.03)
    chart = form.read_fish({**weighed, "fed": "chart"}, BARE, "metric").pond
    assert chart is not None
    assert chart.feed_kg_day is None
    assert form.read_fish({**weighed, "feed": ""}, BARE, "metric").pond is None


def test_levers_are_told_with_their_numbers_and_what_they_solve() -> None:
    crowded = form.read_fish({**TEXTS, "g0.count": "20"}, BARE, "metric").pond
    assert crowded is not None
    found = stock(WorkedPond(crowded), grown=True).usual
    told = [lever_text(lever, "metric") for lever in found.balance.levers]
    assert len(told) >= 3
    assert any("of media" in line and "solves the filter." in line for line in told)
    assert all(any(letter.isdigit() for letter in line) for line in told if "feed," not in line)
    assert "to" in span_text(found.ammonia, "metric")
