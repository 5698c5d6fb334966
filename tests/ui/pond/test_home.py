"""The first screen leads to the three uses by the shortest way, and knows the ponds."""

import asyncio
from datetime import UTC, datetime, timedelta
from typing import Any

import flet as ft
import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_entries, example_pond, example_readings
from pondapp.models.entry import Cleaning, Entry
from pondapp.state.ids import NO_POND
from pondapp.ui.pond import pond_deletion
from pondapp.ui.pond.home import HomePage
from pondapp.ui.shell import notice

USES = ("Measure a flow", "Choose a pump", "Check a waterfall")
NOW = datetime.now(UTC)


def with_log(screen: Screen) -> None:
    for reading in example_readings(NOW):
        asyncio.run(screen.session.logs.save_reading(reading))


def test_with_nothing_to_choose_from_one_measures_at_once(screen: Screen) -> None:
    screen.session.deletion.mark_deleted(EXAMPLE)
    reading = example_readings(NOW)[0].model_copy(update={"pond_id": NO_POND})
    asyncio.run(screen.session.logs.save_reading(reading))
    screen.open(HomePage)
    for use in USES:
        screen.press(use)
    assert screen.went == ["/measure/none/outlet", "/size", "/waterfall"]
    assert "Look round an example pond" in screen.buttons()


def test_a_pond_has_places_to_choose_from(screen: Screen) -> None:
    screen.open(HomePage)
    screen.press("Measure a flow")
    assert screen.went == ["/measure"]


def test_a_pond_says_what_it_needs_its_last_flow_and_what_is_due(screen: Screen) -> None:
    with_log(screen)
    screen.open(HomePage)
    text = screen.text()
    assert text.index("The water was never tested.") < text.index("Last flow: ")
    assert "L/h" in text[text.index("Last flow: ") : text.index("Due: ")]
    assert "Due: a water test, a cleaning" in text
    assert text.index("Due: ") < text.index("Measure a flow"), "ponds stand first"
    screen.press("Last flow: ")
    assert screen.went == [f"/pond/{EXAMPLE}/log"]


def test_a_flow_that_is_dated_ahead_is_not_the_last_one(screen: Screen) -> None:
    ahead = example_readings(NOW)[0].model_copy(update={"taken_at": NOW + timedelta(days=3)})
    asyncio.run(screen.session.logs.save_reading(ahead))
    screen.open(HomePage)
    assert "No flow is measured yet." in screen.text()


def test_what_was_done_is_not_due(screen: Screen) -> None:
    done = Entry(id="c", pond_id=EXAMPLE, when=NOW, what=Cleaning(part="all"))
    asyncio.run(screen.session.logs.save_entry(done))
    screen.open(HomePage)
    assert "cleaning" not in screen.text().partition("Due: ")[2].partition("\n")[0]


def test_nothing_is_said_of_a_log_that_is_not_read(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(screen.session.logs, "is_read", lambda _: False)
    screen.open(HomePage)
    text = screen.text()
    assert example_pond().name in text
    assert "Last flow" not in text
    assert "Due" not in text


def test_the_readers_own_pond_stands_before_the_example(screen: Screen) -> None:
    own = example_pond().model_copy(update={"id": "own", "name": "Willow hollow"})
    asyncio.run(screen.session.ponds.save(own))
    screen.open(HomePage)
    text = screen.text()
    assert text.index("Willow hollow: ") < text.index("Alder Corner (invented example): ")


def test_the_example_is_saved_in_one_step_and_opened_before_anything_is_drawn_again(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen.session.deletion.mark_deleted(EXAMPLE)
    screen.open(HomePage)
    steps: list[int] = []
    apply = screen.session.store.apply

    async def counted(changes: Any, expected: Any) -> None:
        steps.append(len(changes))
        await apply(changes, expected)

    drawn: list[tuple[int, int]] = []
    monkeypatch.setattr(notice, "take_away", lambda: None)
    monkeypatch.setattr(screen.session.store, "apply", counted)
    screen.session.device.on_change = lambda: drawn.append((len(steps), len(screen.went)))
    screen.press("Look round an example pond")
    assert steps == [1 + len(example_readings(NOW)) + len(example_entries(NOW))]
    assert screen.went == [f"/pond/{EXAMPLE}"]
    assert (1, 0) not in drawn
    assert len(screen.session.logs.readings_of(EXAMPLE)) == len(example_readings(NOW))
    assert [one.what.kind for one in screen.session.logs.entries.values()] == ["cleaning"]
    assert not screen.session.deletion.is_pending(example_pond())


def test_back_from_a_deleted_pond_does_not_lead_to_where_it_was(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[str, Any, int]] = []

    async def ask(what: str, **values: Any) -> str:
        asked.append((what, values.get("route"), len(screen.went)))
        return "done"

    monkeypatch.setattr(pond_deletion.browser, "ask", ask)
    monkeypatch.setattr(notice, "UNDO_SECONDS", 0.0)
    screen.open(lambda: ft.Column([pond_deletion.delete_button(example_pond())]))
    screen.press("Delete this pond")
    assert asked[0] == ("instead", "/", 0), "its step in the history is given up first"
    assert screen.went == ["/"]
    assert EXAMPLE not in screen.session.ponds
