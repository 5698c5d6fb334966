"""The screens that choose a pump, drawn: which words a reader sees, and what they rest on."""

import pytest
from drawn import Screen, leave

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.preferences import Draft
from pondapp.ui.plumbing.plumbing import PlumbingPage
from pondapp.ui.pumps.health import HealthPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.pumps.size import DRAFT, SizePage


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def size(screen: Screen, **texts: str) -> str:
    leave(screen.session, Draft(id=DRAFT, texts=texts))
    screen.open(SizePage)
    return screen.text()


def test_a_buyer_with_a_minute_reads_both_numbers(screen: Screen) -> None:
    told = size(screen, volume="1000", lip="30", filter="none")
    assert "Look for this on the box" in told
    assert "For a good flow: 4,000 L/h up there" in told
    assert "For the least that will do: 2,000 L/h up there" in told
    assert "Assuming 1 m of lift: choose yours above." in told
    chosen = size(screen, volume="1000", lip="30", filter="none", lift="1")
    assert "8,100 L/h and 3.5 m, or more" in chosen
    assert "6,800 L/h is probably enough." in chosen
    assert "With up to 4 m of 32 mm hose, or wider." in chosen
    assert "Assuming" not in chosen


def test_a_box_in_hand_is_judged_for_both_flows_and_assumes_in_the_open(screen: Screen) -> None:
    texts = {
        "ask": "pump", "volume": "1000", "lip": "30", "filter": "none", "pump_flow": "8100",
        "pump_head": "3.5", "lift": "1",
    }  # fmt: skip
    told = size(screen, **texts)
    assert "Good flow, 4,000 L/h: probably enough" in told  # no hose is typed
    sure = size(screen, **texts, bore="32", hose_length="4", hose="smooth")
    assert "Good flow, 4,000 L/h: enough" in sure


def test_the_example_s_pumps_say_both_ends_of_what_they_give(screen: Screen) -> None:
    screen.open(PumpsPage, pond_id=EXAMPLE)
    told = screen.text()
    assert "Enough" in told
    assert "Too weak" in told
    assert " wanted" in told
    assert "Don't use Mid-size pump" in told


def test_the_plumbing_of_the_example_offers_sizes_with_capped_money(screen: Screen) -> None:
    screen.open(PlumbingPage, pond_id=EXAMPLE)
    assert "A smaller pump would then cost" in screen.text()


def test_the_pump_s_health_leads_to_what_to_do_when_it_stands_still(screen: Screen) -> None:
    screen.open(HealthPage, pond_id=EXAMPLE)
    screen.press("Pump off")
    assert screen.went == [f"/pond/{EXAMPLE}/log/pump-off"]
