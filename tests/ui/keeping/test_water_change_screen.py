"""The screen of a water change: each number from the other, the log with one touch."""

import asyncio
from datetime import UTC, datetime
from typing import Any

import pytest
from drawn import Screen, parts_of

from pondapp.answers.keeping.dose import dose_for
from pondapp.answers.pond import WorkedPond
from pondapp.models.entry import Entry, WaterChange, WaterTest
from pondapp.models.preferences import Draft
from pondapp.ui.keeping.dose import dose_text
from pondapp.ui.keeping.water_change import WaterChangePage
from pondapp.ui.log.entry import EntryPage
from pondapp.ui.log.log import LogPage
from pondapp.ui.parts import fold

ID = "invented-example"


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    made = Screen(monkeypatch)
    unfolded: Any = lambda _, controls, *__, **___: fold.ft.Column(list(controls()))  # noqa: E731
    monkeypatch.setattr(fold, "Fold", unfolded)
    return made


def type_into(screen: Screen, label: str, text: str) -> None:
    fields = [
        one for one in parts_of(screen.look())
        if getattr(one, "key", None) and str(one.key).startswith(label)
        and any(hasattr(part, "data") and callable(part.data) for part in parts_of(one))
    ]  # fmt: skip
    for part in parts_of(fields[0]):
        if callable(getattr(part, "data", None)):
            part.data(text)
            return
    raise AssertionError(label)


def value_of(screen: Screen, label: str) -> str:
    for one in parts_of(screen.look()):
        if getattr(one, "key", None) and str(one.key).startswith(label):
            for part in parts_of(one):
                if callable(getattr(part, "data", None)):
                    return str(part.value)
    raise AssertionError(label)


def test_share_and_litres_say_the_same(screen: Screen) -> None:
    screen.open(WaterChangePage, pond_id=ID)
    volume = screen.session.ponds[ID].water
    assert volume is not None
    type_into(screen, "Water to change", "100")
    share = value_of(screen, "Share of the pond")
    type_into(screen, "Share of the pond", share)
    assert float(value_of(screen, "Water to change")) == pytest.approx(100.0, rel=0.01)
    type_into(screen, "Share of the pond", "150")
    assert "Correct what is marked" in screen.text()
    type_into(screen, "Share of the pond", "")
    assert "How much water is to be changed?" in screen.text()


def test_one_touch_enters_it_in_the_log_and_another_takes_it_back(screen: Screen) -> None:
    screen.open(WaterChangePage, pond_id=ID)
    type_into(screen, "Water to change", "100")
    screen.press("Enter this change in the log")
    (entry,) = screen.session.logs.entries.values()
    assert isinstance(entry.what, WaterChange)
    assert entry.what.volume_m3 == pytest.approx(0.1)
    assert "thiosulfate" in entry.note
    assert screen.went[-1] == f"/pond/{ID}/log"
    assert not [one for one in screen.session.drafts.values() if one.id.startswith("change")]
    screen.undo()
    assert not screen.session.logs.entries


def test_a_bad_test_leads_to_the_change_and_brings_its_numbers(screen: Screen) -> None:
    bad = WaterTest(nitrate_kg_m3=0.08, ph=7.5)
    entry = Entry(id="bad", pond_id=ID, when=datetime.now(UTC), what=bad)
    asyncio.run(screen.session.logs.save_entry(entry))
    screen.open(EntryPage, pond_id=ID, item_id="bad")
    screen.press("Work out a water change")
    assert screen.went[-1] == f"/pond/{ID}/log/change"
    screen.open(WaterChangePage, pond_id=ID)
    text = screen.text()
    assert "80 mg/L, then 64 mg/L" in text
    assert "If the tap water holds 0 mg/L" in text
    assert "Changes until Nitrate is at most 50 mg/L" in text


def test_good_tests_lead_nowhere_and_the_log_leads_here(screen: Screen) -> None:
    entry = Entry(id="good", pond_id=ID, when=datetime.now(UTC), what=WaterTest(ph=7.5))
    asyncio.run(screen.session.logs.save_entry(entry))
    screen.open(EntryPage, pond_id=ID, item_id="good")
    assert not [name for name in screen.buttons() if "Work out" in name]
    screen.open(LogPage, pond_id=ID)
    screen.press("How much, what against chlorine, how often")
    assert screen.went[-1] == f"/pond/{ID}/log/change"
    screen.open(EntryPage, pond_id=ID, item_id="new-water_change")
    screen.press("Work out a water change")
    assert screen.went[-1] == f"/pond/{ID}/log/change"


def test_danger_by_ammonia_is_told_what_a_change_does_and_what_is_assumed(screen: Screen) -> None:
    bad = WaterTest(temperature_c=26.0, total_ammonia_kg_m3=1e-3, ph=8.6)
    entry = Entry(id="bad", pond_id=ID, when=datetime.now(UTC), what=bad)
    asyncio.run(screen.session.logs.save_entry(entry))
    screen.open(WaterChangePage, pond_id=ID)
    text = screen.text()
    assert "1 mg/L, then 0.958 mg/L" in text
    assert "If the tap water holds chloramine, changes bring ammonia down towards 0.79 mg/L" in text
    assert "They help all the same: this one makes 0.958 mg/L of 1 mg/L" in text
    assert "Not right" not in text


def test_a_label_for_the_whole_pond_gives_what_the_calculator_of_doses_gives(
    screen: Screen,
) -> None:
    texts = {"binder": "label", "treated": "chlorine", "label_dose": "5", "label_water": "40",
             "dosed": "pond"}  # fmt: skip
    screen.session.drafts.hold(Draft(id=f"change-{ID}", texts=texts))
    screen.open(WaterChangePage, pond_id=ID)
    found = dose_for(WorkedPond(screen.session.ponds[ID]), 5.0, 40.0, "L")
    assert f"{dose_text(found.amount.low, 'ml')} by the label" in screen.text()


def test_a_slip_of_a_label_gives_no_amount_and_none_in_the_log(screen: Screen) -> None:
    texts = {"binder": "label", "treated": "chlorine", "label_dose": "50", "label_water": "0.1"}
    screen.session.drafts.hold(Draft(id=f"change-{ID}", texts=texts))
    screen.open(WaterChangePage, pond_id=ID)
    assert "one of them is mistyped" in screen.text()
    assert "by the label" not in screen.text()
    screen.press("Enter this change in the log")
    (entry,) = screen.session.logs.entries.values()
    assert entry.note == ""


def test_a_label_in_gallons_says_what_it_is_in_the_other_ones(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts = {"binder": "label", "treated": "chlorine", "label_dose": "5", "label_water": "10"}
    for system, water, said in (
        ("us", "10", "imperial gallons, it is"),
        ("us", "40 L", ""),
        ("imperial", "10", "US gallons, it is"),
        ("metric", "40", ""),
    ):
        monkeypatch.setattr(type(screen.session), "system", system)
        typed = {**texts, "label_water": water}
        screen.session.drafts.hold(Draft(id=f"change-{ID}", texts=typed, units=system))
        screen.open(WaterChangePage, pond_id=ID)
        assert said in screen.text()
        assert bool(said) == ("gallon" in screen.text())


def test_tap_water_without_chlorine_gets_no_dose_of_nothing(screen: Screen) -> None:
    for binder in ("crystals", "label"):
        typed = {"chlorine": "0", "binder": binder, "label_dose": "10", "label_water": "40"}
        screen.session.drafts.hold(Draft(id=f"change-{ID}", texts=typed))
        screen.open(WaterChangePage, pond_id=ID)
        text = screen.text()
        assert "nothing is needed against it" in text
        assert "does not show chloramine" in text
        assert "0 g" not in text
        assert "by the label" not in text
        assert "counted as chloramine" not in text
        assert "Enter what the label says" not in text
