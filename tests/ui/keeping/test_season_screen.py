"""What to do now: asks for what it needs, ticks into the log, and guesses no half of the earth."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.models.entry import Entry, WaterTest, WorkDone
from pondapp.models.fish import FishGroup
from pondapp.models.preferences import Draft
from pondapp.models.water import Basin, Drawn, Rectangle
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.keeping.season import SeasonPage
from pondapp.ui.log.entry import EntryPage

ID = "invented-example"
NOW = datetime.now(UTC)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def live(screen: Screen, half: str | None) -> None:
    pond = screen.session.ponds[ID].model_copy(update={"hemisphere": half})
    asyncio.run(screen.session.ponds.save(pond))


def shown(screen: Screen, warmth: str) -> str:
    screen.session.drafts.hold(Draft(id=f"season-{ID}", texts={"warmth": warmth}))
    screen.open(SeasonPage, pond_id=ID)
    return screen.text()


def test_nothing_is_guessed(screen: Screen) -> None:
    assert "half of the earth give the answer" in shown(screen, "5")
    live(screen, "north")
    assert "half of the earth give the answer" in shown(screen, "")
    assert "Not tested lately" in screen.text()
    assert "Correct what is marked" in shown(screen, "55")
    assert "Do not feed" in shown(screen, "5")


def test_the_newest_test_is_taken_with_its_age(screen: Screen) -> None:
    live(screen, "south")
    test = WaterTest(temperature_c=3.0)
    entry = Entry(id="t", pond_id=ID, when=NOW - timedelta(days=3), what=test)
    asyncio.run(screen.session.logs.save_entry(entry))
    screen.open(SeasonPage, pond_id=ID)
    text = screen.text()
    assert "By the water test of 3 days ago" in text
    assert "never break ice with blows" in text
    assert "Keep children away" in text
    assert "Mains and water kill" in text


def test_a_tick_goes_into_the_log_and_can_be_taken_back(screen: Screen) -> None:
    live(screen, "north")
    shown(screen, "5")
    screen.press("Done: Pump raised")
    (entry,) = [
        one
        for one in screen.session.logs.items_of(ID)
        if isinstance(one, Entry) and one.what.kind == "work"
    ]
    assert entry.what == WorkDone(what="Pump raised for the winter", job="pump-up")
    assert "Done: " in screen.text()
    assert not [name for name in screen.buttons() if "Pump raised" in name]
    screen.open(EntryPage, pond_id=ID, item_id=entry.id)
    screen.press("Save in the log")  # corrected by hand it stays the same tick
    assert screen.session.logs.newest(entry).what == entry.what
    screen.open(SeasonPage, pond_id=ID)
    assert not [name for name in screen.buttons() if "Pump raised" in name]


def test_undo_brings_the_tick_back(screen: Screen) -> None:
    live(screen, "north")
    shown(screen, "5")
    screen.press("Done: Pump raised")
    screen.undo()
    assert [name for name in screen.buttons() if "Pump raised" in name]


def test_a_test_that_forbids_feeding_is_not_overruled_by_the_chart(screen: Screen) -> None:
    live(screen, "north")
    assert "Feed once a day" in shown(screen, "18")
    test = WaterTest(temperature_c=18.0, total_ammonia_kg_m3=2e-3, ph=9.0)
    entry = Entry(id="t", pond_id=ID, when=NOW - timedelta(days=1), what=test)
    asyncio.run(screen.session.logs.save_entry(entry))
    text = shown(screen, "18")
    assert "stop feeding, aerate" in text
    assert "Feed once a day" not in text
    assert "Do not feed: below" in shown(screen, "5")


def test_too_many_fish_are_given_less_here_as_on_their_own_screen(screen: Screen) -> None:
    less = "Filter or oxygen may not carry these fish: give less until they do."
    live(screen, "north")
    pond = screen.session.ponds[ID]
    for count, temperature in ((1, 18.0), (900, 18.0), (900, 4.0)):
        fish = (FishGroup(id="koi", name="Koi", count=count, length_m=0.3),)
        update = {"fish": fish, "water_temperature_c": temperature}
        asyncio.run(screen.session.ponds.save(pond.model_copy(update=update)))
        said = shown(screen, f"{temperature:g}")
        assert (less in said) == (count > 1 and temperature > 10.0)  # in the cold none are fed
        screen.open(FishPage, pond_id=ID)
        assert (less in screen.text()) == (less in said)
    nobody = pond.model_copy(update={"fish": ()})
    asyncio.run(screen.session.ponds.save(nobody))
    assert less not in shown(screen, "18")


def test_a_pond_that_cannot_be_worked_out_still_has_its_season(screen: Screen) -> None:
    live(screen, "north")
    pond = screen.session.ponds[ID]
    steep = Basin(id="b", name="Pool", outline=Rectangle(length_m=2, width_m=1), depth_m=1,
                  side_slope=2.0)  # fmt: skip
    wrong = pond.model_copy(update={"water": Drawn(basins=(steep,))})
    asyncio.run(screen.session.ponds.save(wrong))
    assert "Feed once a day" in shown(screen, "18")
    assert "give less until they do" in screen.text()
