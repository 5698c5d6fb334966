"""How long a pond bears a pump that stands still, and what is said of what is not known."""

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.keeping.pump_off import PumpOff, pump_off
from pondapp.answers.pond import WorkedPond
from pondapp.core.stock.oxygen import saturation_at_altitude
from pondapp.core.stock.still_water import time_to_oxygen
from pondapp.models.circuit import BogFilter
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

KOI = FishGroup(id="k", name="Koi", count=10, length_m=0.45)
POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0), fish=(KOI,),
            fed=(BogFilter(id="bog", name="Bog", bed_volume_m3=0.5),))  # fmt: skip


def told(pond: Pond = POND, *, celsius: float = 24.0, oxygen: float | None = None,
         area: float | None = 6.0) -> PumpOff:  # fmt: skip
    return pump_off(WorkedPond(pond), temperature=celsius + 273.15, oxygen=oxygen, area=area)


def test_many_fish_in_warm_water_are_in_danger_within_the_night() -> None:
    found = told()
    assert found.severity == "danger"
    soonest, likely = (found.verdict.values[one][0] for one in ("soonest", "likely"))
    assert (soonest, likely) == found.danger[:2]
    assert soonest < likely  # the sooner stands first: what is likely may come too late
    assert found.worry[0] <= found.worry[1] <= found.worry[2]
    assert all(worry <= danger for worry, danger in zip(found.worry, found.danger, strict=True))
    assert found.filter_suffers == 4 * 3600.0
    assert "Oxygen is not measured" in str(found.remarks[0])


def test_cold_water_and_few_fish_last_longer_and_measured_oxygen_is_taken() -> None:
    assert told(celsius=8.0).danger[1] > told().danger[1]
    assert told(oxygen=3e-3).danger == (0.0, 0.0, 0.0)
    assert "in danger now" in str(told(oxygen=3e-3).verdict)
    assert not told(oxygen=7e-3).remarks


def test_nothing_is_ever_called_right_and_what_is_missing_is_said() -> None:
    none = POND.model_copy(update={"fish": (), "fed": ()})
    found = told(none, celsius=10.0, area=None)
    words = " ".join(str(one) for one in found.remarks)
    assert "No fish are entered" in words
    assert "open water is not known" in words
    assert found.filter_suffers is None
    assert found.severity != "right"
    lasting = told(none, celsius=6.0, area=8.0, oxygen=11e-3)
    assert lasting.severity == "unknown"
    assert "not known without the fish" in str(lasting.verdict)
    small = FishGroup(id="s", name="Minnow", count=3, length_m=0.05)
    few = POND.model_copy(update={"fish": (small,)})
    kept = told(few, celsius=6.0, area=8.0, oxygen=11e-3)
    assert "that is not sure: bring in air" in str(kept.verdict)
    assert lasting.danger[2] == inf


def falls_to(limit: float, volume: float, exchange: float, full: float, start: float,
             use: float) -> float:  # fmt: skip
    """Time [s] until the oxygen is there, by small steps in time (Heun), not by the formula."""
    step, time, oxygen = 20.0, 0.0, start

    def change(now: float) -> float:
        return (exchange * (full - now) - use) / volume

    while oxygen > limit:
        slope = change(oxygen)
        if slope >= 0.0 or time > 60 * 86400.0:
            return inf
        oxygen += step * (slope + change(oxygen + step * slope)) / 2.0
        time += step
    return time


@settings(max_examples=60, deadline=None)
@given(
    volume=st.floats(0.5, 30.0), area=st.floats(0.5, 40.0), speed=st.floats(0.0, 1.0),
    start=st.floats(5.0, 11.0), grams=st.floats(0.5, 60.0),
)  # fmt: skip
def test_the_formula_says_what_small_steps_in_time_say(
    volume: float, area: float, speed: float, start: float, grams: float
) -> None:
    exchange, use = speed / 86400.0 * area, grams / 3.6e6
    water = (volume, exchange, 9e-3, start * 1e-3)
    found = time_to_oxygen(*water, 4e-3, use)
    stepped = falls_to(4e-3, *water, use)
    slow = exchange and abs(9e-3 - use / exchange - 4e-3) < 1e-4  # hardly falls: steps drift
    if not slow and found < 30 * 86400.0:
        assert stepped == pytest.approx(found, rel=0.01, abs=60.0)
    elif found == inf and not slow:
        assert stepped == inf


def test_the_whole_answer_by_hand_and_small_steps() -> None:
    """All from rule to time once more, from the printed defaults alone."""
    mass = 10 * 17.0 * 0.45**3  # kg
    warmth = 2.0 ** ((24.0 - 20.0) / 10.0)
    fish = mass * 200e-6 / 3600.0 * warmth  # kg/s
    mud = 1.5e-3 / 86400.0 * warmth * 6.0
    full = saturation_at_altitude(297.15, 0.0).concentration
    assert full == pytest.approx(8.4e-3, abs=0.1e-3)  # fresh water of 24 °C at sea level
    exchange = 0.4 / 86400.0 * 6.0
    by_steps = falls_to(4e-3, 5.0, exchange, full, 0.85 * full, fish + mud)
    found = told().danger[1]
    assert found <= by_steps + 20.0
    assert by_steps - found <= (60.0 if by_steps < 3600.0 else 360.0 if by_steps < 36e3 else 3600.0)
    worry = falls_to(6e-3, 5.0, exchange, full, 0.85 * full, fish + mud)
    assert told().worry[1] <= worry + 20.0


def test_an_area_that_does_not_fit_the_water_is_said() -> None:
    assert "does not fit" in str(told(area=5000.0).remarks[0])
    assert not [one for one in told(area=6.0).remarks if "does not fit" in str(one)]
