"""The screen of a UV lamp: what is asked, what is said, and the reminder of a new lamp."""

from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.log.dates import local
from pondapp.models.preferences import Draft
from pondapp.ui.keeping.uv_lamp import UvLampPage

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


def test_the_lamp_s_end_becomes_a_reminder_once(screen: Screen) -> None:
    assert "Change it by" in shown(screen, power="11", since=str(LIT))
    screen.press("Remind me of it")
    (made,) = screen.session.ponds[ID].reminders
    assert (made.text, made.unit) == ("Change the UV lamp", "once")
    assert made.first == LIT + timedelta(hours=8000)
    assert "It is among your reminders." in screen.text()
    screen.undo()
    assert screen.session.ponds[ID].reminders == ()
