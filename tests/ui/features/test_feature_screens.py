"""The screen of a feature: what is typed is about the feature that its address names."""

import flet as ft
import pytest
from drawn import Screen, words_of

from pondapp.answers.sharing.example import example_pond
from pondapp.ui.features.features import FeaturePage


def fields(screen: Screen) -> list[ft.TextField]:
    found: list[ft.TextField] = []

    def below(control: object) -> None:
        if isinstance(control, ft.TextField):
            found.append(control)
        for name in ("controls", "content"):
            part = getattr(control, name, None)
            for one in part if isinstance(part, list) else [part]:
                if isinstance(one, ft.BaseControl):
                    below(one)

    below(screen.look())
    return found


def test_an_address_that_leads_from_one_feature_to_the_next_takes_no_text_along(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen, pond = Screen(monkeypatch), example_pond()
    first, second = pond.fed[:2]
    screen.open(FeaturePage, pond_id=pond.id, thing_id=first.id)
    fields(screen)[0].data("Typed of the first")
    assert fields(screen)[0].value == "Typed of the first"
    screen.params["thing_id"] = second.id  # the framework keeps what the screen holds
    assert fields(screen)[0].value == second.name
    screen.params["thing_id"] = first.id
    assert fields(screen)[0].value == "Typed of the first"


def test_a_feature_that_is_gone_is_not_offered_as_a_new_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen, pond = Screen(monkeypatch), example_pond()
    screen.open(FeaturePage, pond_id=pond.id, thing_id="skimmer")  # as a kind is called
    assert not any(one.id == "skimmer" for one in pond.fed)
    assert "not among the pond's things any more" in words_of(screen.look())
