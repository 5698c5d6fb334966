"""What cannot be, and what was read before a cleaning, is right on no screen."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.entry import Cleaning, Entry
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.health import HealthPage
from pondapp.ui.tuning.tune import TunePage


def read(screen: Screen, place: str, flow: float, hours: float = 24.0) -> None:
    """A flow in L/h."""
    reading = Reading(
        id=f"{place}-{hours:.0f}",
        pond_id=EXAMPLE,
        place_id=place,
        place_name=place,
        taken_at=datetime.now(UTC) - timedelta(hours=hours),
        method=MeterReading(flow_m3_s=flow / 3.6e6, tolerance=0.03),
        band=None,
    )
    asyncio.run(screen.session.logs.save_reading(reading))


def texts(screen: Screen) -> dict[str, str]:
    found = {}
    for page in (PondPage, TunePage, HealthPage):
        screen.open(page, pond_id=EXAMPLE)
        found[page.__name__] = screen.text()
    return found


def test_a_flow_beyond_the_pump(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    read(screen, "box", 25_000)
    read(screen, "bog", 1500)
    found = texts(screen)
    assert "More than the pump can give" in found["PondPage"]
    assert "check the container, the time, and which pump runs" in found["TunePage"]
    assert "Every branch is right" not in found["TunePage"]
    assert "check the container, the time, and which pump runs" in found["HealthPage"]
    assert "Save as the clean pump" not in found["HealthPage"]


def test_flows_before_a_cleaning(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    read(screen, "box", 5500)
    read(screen, "bog", 1500)
    assert "Every branch is right" in texts(screen)["TunePage"]
    when = datetime.now(UTC) - timedelta(hours=3)
    entry = Entry(id="cleaned", pond_id=EXAMPLE, when=when, what=Cleaning(part="pump"))
    asyncio.run(screen.session.logs.save_entry(entry))
    found = texts(screen)
    assert "Measured before the cleaning" in found["PondPage"]
    assert "Time it again: measured before the cleaning" in found["TunePage"]
    assert "Every branch is right" not in found["TunePage"]
    assert "Measured before the cleaning: time it again." in found["HealthPage"]
