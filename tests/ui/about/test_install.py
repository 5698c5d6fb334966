"""The app offers to be installed where that can be done, once, and never in the way."""

import asyncio
from types import SimpleNamespace
from typing import Any

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.state.device import Installing
from pondapp.store.browser import page as page_of_browser
from pondapp.ui.about import install
from pondapp.ui.about.settings import SettingsPage
from pondapp.ui.pond.home import HomePage
from pondapp.ui.shell import system

OFFERED = "On the home screen it opens like any other app"
MENU = "Touch Share in the browser, then Add to Home Screen."


def _says(screen: Screen, installing: Installing, page: Any) -> str:
    screen.session.device.installing = installing
    screen.open(page)
    return screen.text()


@pytest.mark.parametrize("page", [HomePage, SettingsPage])
def test_it_is_said_how_this_device_does_it(screen: Screen, page: Any) -> None:
    assert OFFERED not in _says(screen, "no", page)
    text = _says(screen, "ask", page)
    assert OFFERED in text
    assert MENU not in text
    assert "Install the app" in screen.buttons()
    text = _says(screen, "menu", page)
    assert text.count(MENU) == 1
    assert "Install the app" not in screen.buttons()


def test_the_hint_waits_for_a_pond_and_comes_last(screen: Screen) -> None:
    text = _says(screen, "ask", HomePage)
    assert text.index("Measure a flow") < text.index(OFFERED)
    screen.session.deletion.mark_deleted(EXAMPLE)
    assert OFFERED not in _says(screen, "ask", HomePage)


def test_a_hint_that_was_put_away_stays_away_but_in_the_settings(screen: Screen) -> None:
    _says(screen, "ask", HomePage)
    screen.press("Not now")
    assert OFFERED not in screen.text()
    asyncio.run(screen.session.reload())
    assert OFFERED not in _says(screen, "ask", HomePage), "it is remembered"
    assert OFFERED in _says(screen, "ask", SettingsPage)


@pytest.mark.parametrize("answer", ["no", "impossible", "menu"])
def test_the_browser_is_asked_once(
    screen: Screen, monkeypatch: pytest.MonkeyPatch, answer: str
) -> None:
    asked: list[str] = []

    async def ask(what: str) -> str:
        asked.append(what)
        return answer

    monkeypatch.setattr(install, "ask", ask)
    _says(screen, "ask", SettingsPage)
    screen.press("Install the app")
    assert asked == ["install"]
    assert "Install the app" not in screen.buttons()
    assert (OFFERED in screen.text()) == (answer == "menu")


def test_what_the_page_tells_reaches_the_screens(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn: list[str] = []
    device = screen.session.device
    device.on_change = lambda: drawn.append(device.installing)
    hearers: dict[str, Any] = {}
    monkeypatch.setattr(page_of_browser, "_hearers", hearers)
    later: list[Any] = []
    page = SimpleNamespace(
        run_task=lambda work, *told: later.append(work(*told)), navigate=screen.went.append
    )
    system.listen(page, screen.session)  # type: ignore[arg-type]
    asyncio.run(later.pop())  # no page answers here
    for told in ("ask", "ask", "anything else", "menu"):
        hearers["installing"](told)
        asyncio.run(later.pop())
    assert drawn == ["ask", "no", "menu"]
    file = SimpleNamespace(name="pondapp.jsonl", size=3)
    hearers["opened"](file)
    asyncio.run(later.pop())
    assert (device.opened, screen.went) == (file, ["/backup"])
