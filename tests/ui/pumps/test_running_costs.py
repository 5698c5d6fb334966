"""The screen of running costs: sums, what lacks, and ways to what would save."""

import asyncio
from typing import Any

from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.lamp import UvLamp
from pondapp.ui.pumps.running_costs import CostsPage


def opened(screen: Screen, **changes: Any) -> str:
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update=changes)))
    screen.open(CostsPage, pond_id=EXAMPLE)
    return screen.text()


def test_the_sum_is_told_with_energy_and_price(screen: Screen) -> None:
    text = opened(screen)
    assert "Mid-size pump\n19 a month, 223 a year\n85 W, 24 h a day, 745 kWh a year" in text
    assert "0.30 per kWh (assumed)" in text
    assert "all pumps" not in text, "there is one"


def test_what_would_save_leads_there(screen: Screen) -> None:
    assert "Saves 32 to 41 a year" in opened(screen)
    screen.press("To the hoses")
    assert screen.went == [f"/pond/{EXAMPLE}/plumbing"]


def test_without_a_pump_it_asks_for_one(screen: Screen) -> None:
    (line,) = example_pond().lines
    text = opened(screen, lines=(line.model_copy(update={"pump_id": None}),))
    assert "Not known yet\nChoose a pump first" in text
    assert "Saves" not in text
    screen.press("To the pumps")
    assert screen.went == [f"/pond/{EXAMPLE}/pumps"]


def test_what_the_lamp_costs_is_never_told_without_its_price(screen: Screen) -> None:
    (line,) = example_pond().lines
    without = (line.model_copy(update={"pump_id": None}),)
    assert "per kWh" not in opened(screen, lines=without)
    text = opened(screen, lines=without, lamp=UvLamp(power_w=55.0))
    assert "12 a month, 145 a year" in text  # 0.055 kW, 8760 h, 0.30 each
    assert "0.30 per kWh (assumed)" in text


def test_of_two_pumps_one_unknown_gives_no_sum(screen: Screen) -> None:
    pond = example_pond()
    (line,) = pond.lines
    apart = [
        line.model_copy(update={"id": f"{one.id}-line", "name": one.name, "branches": (one,)})
        for one in line.branches
    ]
    apart[1] = apart[1].model_copy(update={"pump_id": None})
    text = opened(screen, lines=tuple(apart))
    assert text.index("Not known yet") < text.index("choose a pump first")
    assert "a month" in text, "what is known of the other is told"


def test_of_two_pumps_the_sum_is_told(screen: Screen) -> None:
    pond = example_pond()
    (line,) = pond.lines
    apart = [
        line.model_copy(update={"id": f"{one.id}-line", "name": one.name, "branches": (one,)})
        for one in line.branches
    ]
    text = opened(screen, lines=tuple(apart))
    assert "Electricity of all pumps\n37 a month, 447 a year\n1,490 kWh a year" in text
