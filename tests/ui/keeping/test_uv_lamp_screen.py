"""The screen of a UV lamp: what is asked, what is said, and the lamp that is kept."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.log.dates import local
from pondapp.models.lamp import UvLamp
from pondapp.models.preferences import Draft
from pondapp.ui.care.care import CarePage
from pondapp.ui.keeping.season import SeasonPage
from pondapp.ui.keeping.uv_lamp import UvLampPage
from pondapp.ui.log.log import LogPage
from pondapp.ui.pumps.running_costs import CostsPage
from pondapp.words import as_day

ID = "invented-example"
LIT = local(datetime.now(UTC)).date() - timedelta(days=30)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def shown(screen: Screen, **texts: str) -> str:
    screen.session.drafts.hold(Draft(id=f"uv-{ID}", texts=texts))
    screen.open(UvLampPage, pond_id=ID)
    return screen.text()


def test_cautions_stand_first_and_what_is_missing_is_asked(screen: Screen) -> None:
    screen.open(UvLampPage, pond_id=ID)
    text = screen.text()
    assert "burns eyes and skin" in text
    assert "Mains and water kill" in text
    assert "The power of the lamp gives the answer." in text
    assert "As planned, of all branches together" in text


def test_each_figure_says_more(screen: Screen) -> None:
    assert "give the dose" in shown(screen, power="11")
    text = shown(screen, power="11", path="25", flow="2000", most="1500")
    assert "too fast" in text
    assert "mJ/cm²" in text
    assert "Correct what is marked" in shown(screen, power="11", since="2300-01-01")
    assert "Correct what is marked" in shown(screen, power="0")


def test_a_lamp_is_kept_with_the_pond_renewed_and_forgotten(screen: Screen) -> None:
    typed = {"power": "11", "path": "25", "life": "9000", "since": str(LIT)}
    assert "Change it by" in shown(screen, **typed)
    screen.press("Keep this lamp with the pond")
    lamp = screen.session.ponds[ID].lamp
    assert lamp is not None
    assert (lamp.power_w, lamp.path_m, lamp.lit_since) == (11.0, pytest.approx(0.025), LIT)
    assert lamp.life_s == pytest.approx(9000 * 3600)
    assert lamp.flow_m3_s is None, "it goes with the plan"
    screen.open(UvLampPage, pond_id=ID)  # nothing is typed any more, and all of it is there
    assert not [one for one in screen.session.drafts.values() if one.id.startswith("uv")]
    assert as_day(LIT + timedelta(hours=9000)) in screen.text()
    screen.press("It has a new lamp since today")
    today = local(datetime.now(UTC)).date()
    renewed = screen.session.ponds[ID].lamp
    assert renewed == lamp.model_copy(update={"lit_since": today})
    assert "It has a new lamp since today" not in screen.text()
    screen.undo()
    assert screen.session.ponds[ID].lamp == lamp
    screen.open(UvLampPage, pond_id=ID)
    screen.press("There is no UV lamp any more")
    assert screen.session.ponds[ID].lamp is None


def test_what_is_wrong_keeps_no_lamp(screen: Screen) -> None:
    for wrong in ({"since": "2300-01-01"}, {"power": "0"}, {"life": "1"}, {"power": ""}):
        shown(screen, **{"power": "11", **wrong})
        assert screen.buttons()["Keep this lamp with the pond"].disabled


def test_a_lamp_of_more_light_than_power_is_refused_at_its_field(screen: Screen) -> None:
    text = shown(screen, power="11", uvc="110", path="25", flow="2000")
    assert "No lamp gives more light than it takes power" in text
    assert "mJ/cm²" not in text
    assert screen.buttons()["Keep this lamp with the pond"].disabled
    assert "mJ/cm²" in shown(screen, power="11", uvc="3.5", path="25", flow="2000")


def test_what_is_typed_is_of_the_new_lamp(screen: Screen) -> None:
    old = UvLamp(power_w=55.0, lit_since=LIT)
    pond = screen.session.ponds[ID].model_copy(update={"lamp": old})
    asyncio.run(screen.session.ponds.save(pond))
    shown(screen, power="36", since=str(LIT))
    screen.press("It has a new lamp since today")
    today = local(datetime.now(UTC)).date()
    assert screen.session.ponds[ID].lamp == UvLamp(power_w=36.0, lit_since=today)
    shown(screen, power="none", since=str(LIT))  # what cannot be read stays as it is typed
    asyncio.run(screen.session.ponds.save(pond))
    screen.press("It has a new lamp since today")
    assert screen.session.ponds[ID].lamp == UvLamp(power_w=55.0, lit_since=today)
    assert screen.session.drafts[f"uv-{ID}"].texts["power"] == "none"


def test_a_lamp_that_is_past_its_day_is_said_to_be(screen: Screen) -> None:
    assert "Change it by" in shown(screen, power="11", since=str(LIT))
    text = shown(screen, power="11", since=str(LIT - timedelta(days=400)))
    assert "to be changed since" in text
    assert "Change it by" not in text


def test_a_lamp_that_is_due_is_told_wherever_work_is_told(screen: Screen) -> None:
    old = UvLamp(power_w=11.0, lit_since=LIT - timedelta(days=400))
    pond = screen.session.ponds[ID].model_copy(update={"lamp": old, "hemisphere": "north"})
    asyncio.run(screen.session.ponds.save(pond))
    due = f"UV lamp: to be changed since {as_day(old.lit_since + timedelta(hours=8000))}."  # type: ignore[operator]
    for page in (LogPage, CarePage):
        screen.open(page, pond_id=ID)
        assert due in screen.text()
    screen.session.drafts.hold(Draft(id=f"season-{ID}", texts={"warmth": "15"}))
    screen.open(SeasonPage, pond_id=ID)
    assert due in screen.text()
    assert "if there is one" not in screen.text()
    screen.open(CostsPage, pond_id=ID)
    assert "11 W, 24 h a day" in screen.text()
    assert "Electricity of all of it" in screen.text()
