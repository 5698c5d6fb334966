"""The screen of how a bog is built."""

from collections.abc import Iterator

import pytest
from drawn import Screen

from pondapp import words
from pondapp.answers.sharing.example import example_pond
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.features.build_bog import TITLES, BuildBogPage

POND = example_pond()


@pytest.fixture(params=["en", "de", "pl"])
def screen(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> Iterator[Screen]:
    words.set_language(request.param)
    yield Screen(monkeypatch)
    words.set_language("en")


def test_each_part_is_told_by_its_number(screen: Screen) -> None:
    screen.open(BuildBogPage, pond_id=POND.id, place_id="bog")
    told = screen.text()
    for number, title in enumerate(TITLES.values(), start=1):
        assert f"{number}. {words.t(title)}" in told
    assert words.t("Head over the bed") in told


def test_it_is_reached_from_the_bog_and_from_nothing_else(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    screen.open(AtPlacePage, pond_id=POND.id, place_id="bog")
    screen.press("How to build it")
    assert screen.went[-1].endswith("/at/bog/build")
    screen.open(AtPlacePage, pond_id=POND.id, place_id="box")
    assert "How to build it" not in screen.text()
    screen.open(BuildBogPage, pond_id=POND.id, place_id="box")
    assert "no bog filter" in screen.text()
    screen.open(BuildBogPage, pond_id="gone", place_id="bog")
    assert "No such pond" in screen.text() or "not on this device" in screen.text()


def test_it_speaks_the_readers_units(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    monkeypatch.setattr(type(screen.session), "system", "us")
    screen.open(BuildBogPage, pond_id=POND.id, place_id="bog")
    assert "gal" in screen.text()
    assert " mm" not in screen.text()
