"""The screen of fish, drawn: what it says while nobody has entered any."""

import asyncio

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.ui.fish.fish import FishPage


def test_no_fish_entered_is_not_told_as_none(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update={"fish": ()})))
    screen.open(FishPage, pond_id=EXAMPLE)
    assert "No fish are entered yet." in screen.text()
    assert "No fish:" not in screen.text()
