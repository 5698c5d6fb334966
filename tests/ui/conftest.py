"""A screen drawn without a browser, and the clock of its stopwatch, for the tests that press."""

import pytest
from drawn import Screen

from pondapp.ui.measuring import stopwatch
from pondapp.ui.shell import touch


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    monkeypatch.setattr(stopwatch, "_stopped", [-1e9])
    return Screen(monkeypatch)


@pytest.fixture
def tick(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    now = [1000.0]
    monkeypatch.setattr(touch, "_now", [lambda: now[0]])
    return now
