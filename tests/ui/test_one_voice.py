"""One voice: the same thing is told by one number, in one unit and one order on every screen."""

import asyncio
import re
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

import pytest
from drawn import Screen, leave

import pondapp.ui
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.sharing.html_report import plan_page
from pondapp.models.circuit import Pump
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.features.feature_form import read_feature
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.parts import layout
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.plumbing.plumbing import PlumbingPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.pump_form import PumpFormPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.shopping.shopping import ShoppingPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.waterfall.waterfall import WaterfallPage
from pondapp.units import SYSTEMS

NOW = datetime(2026, 6, 7, 12, tzinfo=UTC)
ABOUT_A_POND = (PondPage, PlanPage, PumpsPage, PlumbingPage, ShoppingPage, FishPage)


def with_weak_pump() -> Pond:
    """The invented pond with a pump that is too weak for it."""
    weak = Pump(id="weak", name="Weak one", max_flow_m3_s=3 / 3600, max_head_m=2.0, power_w=30)
    pond = example_pond()
    line = pond.lines[0].model_copy(update={"pump_id": "weak"})
    return pond.model_copy(update={"pumps": (weak,), "lines": (line,)})


def test_what_a_weak_pump_should_give_is_one_number_on_every_screen(screen: Screen) -> None:
    pond = with_weak_pump()
    asyncio.run(screen.session.ponds.save(pond))
    needed = "6,330 L/h"
    for page in (PondPage, PumpsPage):
        screen.open(page, pond_id=EXAMPLE)
        assert needed in screen.text()
    screen.open(PlanPage, pond_id=EXAMPLE)
    told = screen.text()
    assert f"needs at least {needed}, and by its label it delivers about 2,010 L/h" in told
    assert "before hoses take their share" in told
    assert told.count("too weak for") == 1  # once for least and good together
    screen.open(PumpFormPage, pond_id=EXAMPLE, pump_id="weak")
    assert f"here; {needed} wanted" in screen.text()
    screen.open(PondPage, pond_id=EXAMPLE)
    fine = "6,150 L/h or more"  # with which every place has its least
    assert fine in screen.text()
    assert fine in plan_page(WorkedPond(pond), (), "metric", NOW)


@pytest.mark.parametrize(
    ("system", "unit", "least"), [("metric", "m", "under 0.01 m"), ("us", "ft", "under 0.03 ft")]
)
def test_what_a_run_takes_is_told_part_by_part_in_the_unit_of_the_whole(
    screen: Screen, system: str, unit: str, least: str
) -> None:
    chosen = Preferences(units=system)  # type: ignore[arg-type]
    asyncio.run(screen.session.settings.save(chosen))
    screen.open(PlumbingPage, pond_id=EXAMPLE)
    told = screen.text().partition("To the waterfall\n")[2]
    parts = re.findall(r"^(.* \D+), [\d.]+ %$", told, re.MULTILINE)
    assert len(parts) == 5
    assert {part.rpartition(" ")[2] for part in parts} == {unit}
    assert least in parts


def test_a_rule_of_one_is_told_as_once(screen: Screen) -> None:
    screen.open(AtPlacePage, pond_id=EXAMPLE, place_id="box")
    assert "once an hour" in screen.text()
    assert not re.search(r"\b1 times", screen.text())


@pytest.mark.parametrize("page", ABOUT_A_POND)
@pytest.mark.parametrize("system", ["us", "imperial"])
def test_who_measures_in_feet_reads_no_metric_unit(
    screen: Screen, page: object, system: str
) -> None:
    chosen = Preferences(units=system)  # type: ignore[arg-type]
    asyncio.run(screen.session.settings.save(chosen))
    screen.open(page, pond_id=EXAMPLE)
    told = screen.text()
    assert not re.search(r"\d (mm|cm|m|L|L/h|m²|m³|kg)\b", told)
    assert not re.search(r"(?<![\d.])[1-9]\d*\.\d\d+ (ft|in)(?![\w/])", told)


AMOUNT = re.compile(
    r"(?<![\d.,])(\d[\d,]*(?:\.\d+)?)"
    r"\s(gal/h|L/h|gal|L|ft|in|m|cm|mm|W)(?![\w/²³])"
)


def twins(told: str) -> list[tuple[str, str, str]]:
    """Amounts of one unit that differ by no more than a rounding."""
    by_unit: dict[str, set[str]] = {}
    for number, unit in AMOUNT.findall(told):
        by_unit.setdefault(unit, set()).add(number)
    found = []
    for unit, numbers in by_unit.items():
        inside = sorted((float(one.replace(",", "")), one) for one in numbers)
        found += [
            (unit, one, other)
            for (low, one), (high, other) in pairwise(inside)
            if low > 0.0 and high - low < 0.003 * high
        ]
    return found


@pytest.mark.parametrize("page", [*ABOUT_A_POND, TunePage])
@pytest.mark.parametrize("system", SYSTEMS)
def test_one_number_is_rounded_in_one_way_on_a_screen(
    screen: Screen, page: object, system: str
) -> None:
    asyncio.run(screen.session.settings.save(Preferences(units=system)))  # type: ignore[arg-type]
    screen.open(page, pond_id=EXAMPLE)
    assert twins(screen.text()) == []


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("flow", ["", "300 L/h", "2000 L/h", "4000 L/h", "6000 L/h", "12000 L/h"])
def test_a_waterfall_is_told_in_numbers_rounded_once(
    screen: Screen, system: str, flow: str
) -> None:
    asyncio.run(screen.session.settings.save(Preferences(units=system)))  # type: ignore[arg-type]
    for which in (f"{EXAMPLE}/lip", "other"):
        texts = {"which": which, "lip": "40 cm", "flow": flow}
        leave(screen.session, Draft(id="waterfall", texts=texts))
        screen.open(WaterfallPage)
        assert twins(screen.text()) == []


@pytest.mark.parametrize("page", ABOUT_A_POND)
def test_thousands_are_grouped_on_every_screen(screen: Screen, page: object) -> None:
    screen.open(page, pond_id=EXAMPLE)
    assert not re.search(r"\b\d{4,} (L|L/h|W|g|a year|a month)\b", screen.text())


def test_a_jet_of_a_few_drops_is_refused_beside_its_field() -> None:
    made, errors = read_feature({"jet": "0.001"}, "jet", "j", "metric")
    assert made is None
    assert errors == {"jet": "Write an amount of at least 10 L/h"}
    made, errors = read_feature({"jet": "150"}, "jet", "j", "metric")
    assert made is not None
    assert not errors


def test_a_pump_without_a_number_cannot_be_added(screen: Screen) -> None:
    draft = f"pump-{EXAMPLE}-new"
    screen.open(PumpFormPage, pond_id=EXAMPLE, pump_id="new")
    told, buttons = screen.text(), screen.buttons()
    assert "Flow and head from the box are enough to begin." in told
    assert buttons["Add this pump"].disabled
    leave(screen.session, Draft(id=draft, pond_id=EXAMPLE, texts={"name": "Blue one"}))
    assert screen.buttons()["Add this pump"].disabled


def test_yes_stands_before_no_and_is_written_once() -> None:
    assert layout.yes_no() == [("yes", "Yes"), ("no", "No")]
    root = Path(pondapp.ui.__file__).parent
    others = {path.name for path in root.rglob("*.py") if '"Yes"' in path.read_text("utf-8")}
    assert others == {"layout.py"}
