"""Each screen, drawn in another language: nothing that the app says is left in English."""

import asyncio
import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from importlib import import_module
from typing import Any

import pytest
from drawn import Screen
from samples_of_kinds import SAMPLES

from pondapp import words
from pondapp.answers.sharing.example import (
    EXAMPLE,
    example_entries,
    example_pond,
    example_readings,
)
from pondapp.store import link
from pondapp.ui.shell.routes import SCREENS, Tree

PLAN = link.link(example_pond(), "").partition("#/shared/")[2]
PARAMETERS = {
    "pond_id": EXAMPLE, "place_id": "bog", "part_id": "to-bog", "thing_id": "lip",
    "item_id": f"{EXAMPLE}-0", "line_id": "line", "run_key": "main", "branch_id": "to-bog",
    "pump_id": "middle", "reminder_id": "new", "rule_key": "filters.bog_share",
    "topic": "measure", "name": "flet", "plan": PLAN,
}  # fmt: skip


def screens(tree: Tree) -> Iterator[str]:
    """The component of each route."""
    for entry in tree.values():
        name, below = (entry, {}) if isinstance(entry, str) else entry
        yield name
        yield from screens(below)


ALL = sorted({"pond.home.HomePage", "shell.nowhere.NowherePage", *screens(SCREENS)})


class Noting(dict[str, Any]):
    """The texts of a language, which note what is asked for and not there."""

    def __init__(self, known: Any) -> None:
        super().__init__(known)
        self.missed: set[str] = set()

    def get(self, key: str, default: Any = None) -> Any:
        if key not in self:
            self.missed.add(key)
        return super().get(key, default)


def english(missed: set[str], own: str) -> set[str]:
    """What of it the app says, and nobody typed: its words, not names and amounts by themselves."""
    found = set()
    for text in missed:
        plain = re.sub(r"\{\w*\}", "", text)
        if re.fullmatch(r"\d+ \w+", plain):  # an amount, in the reader's language already
            continue
        if re.search("[a-z]{3}", plain) and not all(
            part in own for part in re.split(", | und ", plain)
        ):
            found.add(text)
    return found


def noting(monkeypatch: pytest.MonkeyPatch) -> Noting:
    words.set_language("de")
    texts = Noting(words._texts)
    monkeypatch.setattr(words, "_texts", texts)
    return texts


def with_log(screen: Screen) -> None:
    now = datetime.now(UTC) - timedelta(days=90)  # so long ago that everything is due
    asyncio.run(screen.session.ponds.save(example_pond()))  # its names in German
    for reading in example_readings(now):
        asyncio.run(screen.session.logs.save_reading(reading))
    for entry in example_entries(now):
        asyncio.run(screen.session.logs.save_entry(entry))


@pytest.mark.parametrize("component", ALL)
def test_no_screen_leaves_a_text_in_english(
    screen: Screen, monkeypatch: pytest.MonkeyPatch, component: str
) -> None:
    texts = noting(monkeypatch)
    with_log(screen)
    texts.missed.clear()
    module, _, name = component.rpartition(".")
    screen.open(getattr(import_module(f"pondapp.ui.{module}"), name), **PARAMETERS)
    asyncio.run(screen.settle())
    screen.look()
    own = example_pond().model_dump_json()
    assert english(texts.missed, own) == set()


@pytest.mark.parametrize("sample", SAMPLES.values(), ids=list(SAMPLES))
def test_no_kind_leaves_a_text_in_english(
    screen: Screen, monkeypatch: pytest.MonkeyPatch, sample: Any
) -> None:
    texts = noting(monkeypatch)
    pond = example_pond()
    line = pond.lines[0]
    # On one branch with a lip that asks for more than most kinds can take: there are ways out too.
    row = line.branches[0].model_copy(update={"feeds": ("one", "lip")})
    rest = line.branches[1].model_copy(update={"feeds": ("box",)})
    line = line.model_copy(update={"branches": (row, rest)})
    pond = pond.model_copy(update={"fed": (sample, *pond.fed[1:]), "lines": (line,)})
    asyncio.run(screen.session.ponds.save(pond))
    texts.missed.clear()
    for component in ("features.at_place.AtPlacePage", "pond.pond.PondPage", "fish.fish.FishPage",
                      "planning.plan.PlanPage", "shopping.shopping.ShoppingPage"):  # fmt: skip
        module, _, name = component.rpartition(".")
        page = getattr(import_module(f"pondapp.ui.{module}"), name)
        screen.open(page, **{**PARAMETERS, "place_id": "one"})
    own = pond.model_dump_json()
    assert english(texts.missed, own) == set()
