"""The screen of doses: salt and labels, the trap of the gallons, the log with one touch."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.models.entry import Dose, Entry, WaterTest
from pondapp.models.preferences import Draft
from pondapp.models.water import MeasuredVolume
from pondapp.ui.keeping.dose import DosePage, dose_text

ID = "invented-example"
NOW = datetime.now(UTC)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def shown(screen: Screen, **texts: str) -> str:
    screen.session.drafts.hold(Draft(id=f"dose-{ID}", texts=texts))
    screen.open(DosePage, pond_id=ID)
    return screen.text()


def log(screen: Screen, days: int, what: WaterTest | Dose) -> None:
    when = NOW - timedelta(days=days, minutes=1)
    entry = Entry(id=f"e{days}", pond_id=ID, when=when, what=what)
    asyncio.run(screen.session.logs.save_entry(entry))


def no_weight(screen: Screen, text: str) -> bool:
    button = screen.buttons()["Enter this dose in the log"]
    return "Weigh out" not in text and bool(button.disabled)


def test_nothing_is_said_before_it_is_asked(screen: Screen) -> None:
    screen.open(DosePage, pond_id=ID)
    assert "How much salt is the water to hold?" in screen.text()
    assert screen.buttons()["Enter this dose in the log"].disabled


def test_salt_is_entered_with_one_touch(screen: Screen) -> None:
    text = shown(screen, salt_now="0.5", salt_wanted="1")
    assert "Weigh out" in text
    assert "so far off is assumed" in text
    assert "Sturgeon" in text
    screen.press("Enter this dose in the log")
    (entry,) = screen.session.logs.entries.values()
    assert isinstance(entry.what, Dose)
    assert entry.what.what == "Salt"
    assert entry.what.amount.endswith("kg")
    screen.undo()
    assert not screen.session.logs.entries


def test_too_much_salt_in_the_water_says_how_it_goes(screen: Screen) -> None:
    text = shown(screen, salt_now="2", salt_wanted="1")
    assert "change 50 % of the water" in text
    assert screen.buttons()["Enter this dose in the log"].disabled


def test_salt_that_no_pond_bears_has_no_weight_and_no_way_into_the_log(screen: Screen) -> None:
    text = shown(screen, salt_now="0.5", salt_wanted="20")
    assert "a bath of hours" in text
    assert "Danger" in text
    assert "Weigh out" not in text
    assert screen.buttons()["Enter this dose in the log"].disabled


def test_against_chlorine_the_way_to_a_water_change_is_there(screen: Screen) -> None:
    text = shown(screen, what="label", name="Conditioner", dose="5", per="40")
    assert "Against chlorine this may be too little" in text
    screen.press("Work out a water change")
    assert screen.went[-1] == f"/pond/{ID}/log/change"


def test_a_label_in_gallons_names_the_other_gallon_and_needs_a_name(screen: Screen) -> None:
    text = shown(screen, what="label", dose="2", per="100", in_water="usgal", in_dose="tsp")
    assert "if the label means imperial gallons" in text
    assert "Not right" not in text  # a hint, and nothing wrong
    assert text.count("teaspoons (") == 3  # the least, the likely, and by the other gallon
    assert "mL)" in text
    assert screen.buttons()["Enter this dose in the log"].disabled
    assert "vet" in text
    shown(screen, what="label", dose="2", per="100", in_water="usgal", name="Drops of something")
    assert not screen.buttons()["Enter this dose in the log"].disabled
    assert "Write at most 80" in shown(screen, what="label", name="x" * 81)


def test_salt_beyond_the_limit_has_no_amount_and_no_entry(screen: Screen) -> None:
    text = shown(screen, salt_wanted="20")
    assert "Danger" in text
    assert "20 g/L of salt is more than 5 g/L" in text
    assert "Weigh out" not in text
    assert screen.buttons()["Enter this dose in the log"].disabled


def test_tablets_are_rounded_down_to_halves_and_a_slip_is_remarked_on(screen: Screen) -> None:
    assert dose_text(28.9, "tablet") == "28.5 tablets"
    assert dose_text(0.579, "tablet") == "0.5 tablets"
    assert dose_text(3.0, "tablet") == "3 tablets"
    text = shown(screen, what="label", dose="5", per="1", in_dose="g")
    assert "That is more than pond products ask for" in text


def test_a_volume_that_is_hardly_known_is_measured_first(screen: Screen) -> None:
    doubtful = MeasuredVolume(volume_m3=2.5, how="salt", standard_uncertainty_m3=1.24)
    pond = screen.session.ponds[ID].model_copy(update={"measured_volume": doubtful})
    asyncio.run(screen.session.ponds.save(pond))
    text = shown(screen, salt_wanted="1")
    assert "too doubtful for a dose" in text
    assert "Weigh out" not in text
    assert "Measure the volume" in screen.buttons()


@pytest.mark.parametrize("days", [400, -5])
def test_salt_of_an_old_test_is_not_taken_for_none(screen: Screen, days: int) -> None:
    log(screen, days, WaterTest(salt_kg_m3=2.0))
    text = shown(screen, salt_wanted="3")
    assert "the water held 2 g/L of salt. It does not leave by itself" in text
    assert "none is assumed" not in text
    assert no_weight(screen, text)
    assert "Weigh out" in shown(screen, salt_now="1", salt_wanted="3")


def test_salt_that_was_put_in_and_never_measured_is_not_taken_for_none(screen: Screen) -> None:
    log(screen, 30, Dose(what="Teichsalz"))
    assert no_weight(screen, shown(screen, salt_wanted="3"))
    assert "Salt was put in on" in screen.text()
    log(screen, 20, WaterTest(salt_kg_m3=1.0))
    assert "As tested last" in shown(screen, salt_wanted="3")
    assert "Weigh out" in screen.text()
    assert no_weight(screen, shown(screen, salt_now="", salt_wanted="3"))
    log(screen, 3, Dose(what="Salt"))
    text = shown(screen, salt_wanted="3")
    assert "not measured since" in text
    assert "As tested last" not in text
    assert no_weight(screen, text)


def test_no_salt_known_of_is_none_as_the_field_says(screen: Screen) -> None:
    log(screen, 400, WaterTest(salt_kg_m3=0.0))
    log(screen, 30, Dose(what="Conditioner"))
    text = shown(screen, salt_wanted="1")
    assert "none is assumed" in text
    assert "Weigh out" in text


def test_a_slip_and_a_trace_have_no_amount_and_no_way_into_the_log(screen: Screen) -> None:
    slip = shown(screen, what="label", name="Stuff", dose="10000", per="0.001")
    assert "more than a hundredth of the water" in slip
    assert "Put in" not in slip
    assert screen.buttons()["Enter this dose in the log"].disabled
    trace = shown(screen, what="label", name="Stuff", dose="1", per="1000000", in_dose="tablet")
    assert "too little to be measured out" in trace
    assert "Put in" not in trace
    assert screen.buttons()["Enter this dose in the log"].disabled
    assert dose_text(21.9, "drop") == "21 drops (1.05 mL)"
    assert dose_text(128.7, "tablet") == "128.5 tablets"
    assert dose_text(0.2, "tablet") == "less than can be measured out"
