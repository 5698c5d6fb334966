"""What is empty and needed is named above the button, and each name leads to its field."""

from typing import Any

import flet as ft
import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.preferences import Draft
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.measuring.containers import ContainersPage
from pondapp.ui.parts.missing import place_of

POND = {"pond_id": EXAMPLE}
LIP = {**POND, "thing_id": "new-lip"}
FISH = {"groups": "g0", "g0.name": "Koi", "g0.count": "3", "fed": "weighed"}
FORMS: tuple[tuple[Any, dict[str, str], str, dict[str, str], tuple[str, ...]], ...] = (
    (FeaturePage, LIP, f"thing-{EXAMPLE}-new-lip", {"whose": "own"}, ("Width of the lip", "Least")),
    (FishPage, POND, f"fish-{EXAMPLE}", FISH, ("Length", "Water is", "Feed in a day")),
    (ContainersPage, {}, "container", {}, ("Name", "It holds", "Give or take")),
)


@pytest.mark.parametrize(("page", "address", "draft_id", "texts", "empty"), FORMS)
def test_each_empty_field_is_named_and_found(
    screen: Screen, page: Any, address: dict[str, str], draft_id: str, texts: dict[str, str],
    empty: tuple[str, ...],
) -> None:  # fmt: skip
    screen.session.drafts.hold(Draft(id=draft_id, texts=texts))
    screen.open(page, **address)
    assert "Still missing:" in screen.text()
    view, ways = screen.look(), screen.buttons()
    for label in empty:
        assert label in ways
        assert isinstance(place_of(view, label), ft.TextField)


def test_what_is_wrong_is_corrected_before_anything_else_is_asked_for(screen: Screen) -> None:
    draft = Draft(id=f"thing-{EXAMPLE}-new-lip", texts={"whose": "own", "lip": "wide"})
    screen.session.drafts.hold(draft)
    screen.open(FeaturePage, **LIP)
    assert "Correct what is marked above, then save." in screen.text()
    assert "Still missing:" not in screen.text()


def test_nothing_is_missing_of_what_can_be_saved(screen: Screen) -> None:
    screen.session.drafts.hold(Draft(id=f"thing-{EXAMPLE}-new-lip", texts={"lip": "30"}))
    screen.open(FeaturePage, **LIP)
    assert "Still missing:" not in screen.text()
    assert not screen.buttons()["Save"].disabled
