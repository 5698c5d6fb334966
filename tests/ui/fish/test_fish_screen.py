"""The screen of fish, drawn: what it says while nobody has entered any."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.fish.species import SPECIES
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.preferences import Draft, Preferences
from pondapp.ui.fish.fish import FishPage
from pondapp.words import set_language


def test_no_fish_entered_is_not_told_as_none(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update={"fish": ()})))
    screen.open(FishPage, pond_id=EXAMPLE)
    assert "No fish are entered yet." in screen.text()
    assert "No fish:" not in screen.text()


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def texts(screen: Screen) -> dict[str, str]:
    (draft,) = [one for one in screen.session.drafts.values() if one.id.startswith("fish")]
    return dict(draft.texts)


def add_texts(screen: Screen, more: dict[str, str]) -> None:
    draft = screen.session.drafts[f"fish-{EXAMPLE}"]
    screen.session.drafts.hold(draft.model_copy(update={"texts": {**draft.texts, **more}}))
    screen.open(FishPage, pond_id=EXAMPLE)


def test_a_kind_is_picked_and_what_was_typed_stays(screen: Screen) -> None:
    begun = {
        "groups": "goldfish",
        "goldfish.name": "My own",
        "goldfish.count": "7x",
        "fed": "chart",
    }
    screen.session.drafts.hold(Draft(id=f"fish-{EXAMPLE}", texts=begun))
    screen.open(FishPage, pond_id=EXAMPLE)
    assert "Koi, 70 cm" not in screen.text()  # folded
    screen.press("Pick a common kind")
    assert "Never release" in screen.text()
    assert sum(name.endswith(" cm") for name in screen.buttons()) == len(SPECIES)
    screen.press("Koi, 70 cm")
    now = texts(screen)
    assert begun.items() <= {**now, "groups": "goldfish"}.items()
    assert now["groups"] == "goldfish g0"
    found = {key: now[f"g0.{key}"] for key in ("name", "species", "grown_length")}
    assert found == {"name": "Koi", "species": "koi", "grown_length": "70"}
    assert "g0.count" not in now
    assert "g0.fish_length" not in now
    assert "Koi, 70 cm" not in screen.text()  # folded again
    assert "This kind wants 10,000 L of water or more" in screen.text()


def test_a_second_touch_on_the_same_kind_makes_no_second_group(screen: Screen) -> None:
    screen.open(FishPage, pond_id=EXAMPLE)
    screen.press("Pick a common kind")
    koi = next(one for name, one in screen.buttons().items() if name.startswith("Koi"))
    for _ in range(2):
        asyncio.run(screen._pressed(koi.on_click))
    assert texts(screen)["groups"] == "goldfish g0"


def test_what_was_picked_is_saved_with_its_kind_and_can_be_another(screen: Screen) -> None:
    screen.open(FishPage, pond_id=EXAMPLE)
    screen.press("Pick a common kind")
    screen.press("Golden orfe, 45 cm")
    add_texts(screen, {"g0.count": "2", "g0.fish_length": "15"})
    assert "keep 5 or more together" in screen.text()
    screen.press("Save")
    saved = screen.session.ponds[EXAMPLE].fish[-1]
    assert (saved.species, saved.count, saved.grown_length_m) == ("orfe", 2, 0.45)
    assert screen.session.ponds[EXAMPLE].fish[0] == example_pond().fish[0]
    screen.open(FishPage, pond_id=EXAMPLE)
    if "They are another kind" not in screen.text():
        screen.press("Golden orfe: care")
    screen.press("They are another kind")
    assert "keep 5 or more" not in screen.text()
    screen.press("Save")
    last = screen.session.ponds[EXAMPLE].fish[-1]
    assert (last.name, last.species, last.grown_length_m) == ("Golden orfe", None, 0.45)


def test_a_kind_of_a_newer_list_stays_stored(screen: Screen) -> None:
    pond = example_pond()
    fish = (pond.fish[0].model_copy(update={"species": "of-a-newer-list"}),)
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"fish": fish})))
    screen.open(FishPage, pond_id=EXAMPLE)
    screen.press("Save")
    assert screen.session.ponds[EXAMPLE].fish == fish


@pytest.mark.parametrize(
    ("language", "fold", "button"),
    [
        ("de", "Häufige Art aussuchen", "Schleie, 40 cm"),
        ("pl", "Wybierz częsty gatunek", "Lin, 40 cm"),
    ],
)
def test_names_are_the_reader_s(screen: Screen, language: str, fold: str, button: str) -> None:
    set_language(language)
    try:
        screen.open(FishPage, pond_id=EXAMPLE)
        screen.press(fold)
        screen.press(button)
        assert texts(screen)["g0.name"] == button.partition(",")[0]
        assert texts(screen)["g0.species"] == "tench"
    finally:
        set_language("en")


def test_lengths_are_the_reader_s_too(screen: Screen) -> None:
    asyncio.run(screen.session.settings.save(Preferences(units="us")))
    screen.open(FishPage, pond_id=EXAMPLE)
    screen.press("Pick a common kind")
    screen.press("Koi, 28 in")
    assert float(texts(screen)["g0.grown_length"]) == pytest.approx(0.7 / 0.0254, abs=0.05)


def test_the_list_of_kinds_comes_before_fish_that_are_typed(screen: Screen) -> None:
    screen.open(FishPage, pond_id=EXAMPLE)
    screen.press("Pick a common kind")
    names = list(screen.buttons())
    assert names.index("Add other fish") > names.index("Goldfish, 25 cm")


@pytest.mark.parametrize(
    ("test", "days", "said"),
    [
        (WaterTest(nitrate_kg_m3=0.01), 1, "Feed once a day"),
        (WaterTest(total_ammonia_kg_m3=2e-3, ph=9.0), 1, "stop feeding, aerate"),
        (WaterTest(total_ammonia_kg_m3=2e-3, ph=9.0), 90, "Feed once a day"),
        (WaterTest(total_ammonia_kg_m3=2e-3, ph=9.0), -1, "Feed once a day"),
        (WaterTest(oxygen_kg_m3=3e-3), 1, "aerate now and do not feed"),
        (WaterTest(nitrite_kg_m3=5e-4), 1, "feed less, change water"),
        (WaterTest(nitrite_kg_m3=5e-4, temperature_c=4.0), 1, "Do not feed: below"),
        (WaterTest(temperature_c=4.0), 1, "Do not feed: below"),
        (WaterTest(temperature_c=-1.0), 1, "Do not feed: below"),
        (WaterTest(temperature_c=44.0), 1, "Do not feed: above"),
    ],
)
def test_feeding_is_told_by_what_the_water_was_tested_for(
    screen: Screen, test: WaterTest, days: float, said: str
) -> None:
    when = datetime.now(UTC) - timedelta(days=days)
    entry = Entry(id="t", pond_id=EXAMPLE, when=when, what=test)
    asyncio.run(screen.session.logs.save_entry(entry))
    screen.open(FishPage, pond_id=EXAMPLE)
    told = screen.text().split("Feeding in the water as it is now")[1].split("Counted")[0]
    assert said in told
    assert ("Feed once a day" in told) == (said == "Feed once a day")
