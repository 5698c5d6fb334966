"""The screens that measure, tune and log, drawn and pressed: nothing is stored by mistake."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest
from drawn import METHODS, PAIL, TUB, Screen, leave, parts_of

from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    FreeNote,
    WaterTest,
)
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Fill, FillSet, MeterReading, Method, NothingComes, Reading
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.log.entry import EntryPage
from pondapp.ui.log.entry_form import texts_of
from pondapp.ui.log.log import LogPage
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.measuring.more import MorePage
from pondapp.ui.measuring.places import PlacesPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.tuning.tune_branch import TuneBranchPage

OLD = datetime.now(UTC) - timedelta(days=3)


def readings(screen: Screen) -> list[Reading]:
    return list(screen.session.logs.readings.values())


def draft(screen: Screen) -> Draft:
    return screen.session.drafts["fills-none-outlet-bucket"]


def measure(screen: Screen) -> None:
    screen.open(MeasurePage, pond_id=NO_POND, place_id=OUTLET)


def more(screen: Screen) -> None:
    screen.open(MorePage, pond_id=NO_POND, place_id=OUTLET)


def test_presses_within_a_second_of_stop_do_nothing(screen: Screen, tick: list[float]) -> None:
    measure(screen)
    screen.press("Start")
    tick[0] += 9.5
    screen.press("Stop")
    assert [fill.seconds for fill in draft(screen).fills] == [9.5]
    for wait in (0.0, 0.5, 0.49):
        tick[0] += wait
        screen.press("Save in the log")
        screen.press("Start")
        screen.press("Valve turned")
        assert readings(screen) == []
        assert (len(draft(screen).fills), draft(screen).started_at) == (1, None)
    tick[0] += 0.1
    screen.press("Save in the log")
    assert len(readings(screen)) == 1


def test_that_nothing_comes_is_offered_once(screen: Screen) -> None:
    more(screen)
    assert screen.text().count("Nothing comes out") == 1  # not as a button and in the list
    leave(screen.session, Draft(id="fills-none-outlet-bucket", fills=(Fill(seconds=9.5),)))
    more(screen)
    assert screen.text().count("Nothing comes out") == 1  # in the list alone
    assert "Nothing comes out here" not in screen.text()


@pytest.mark.parametrize("answer", ["Yes, no water: save it", "No, some water comes"])
def test_no_water_is_asked_about_before_it_is_stored(screen: Screen, answer: str) -> None:
    more(screen)
    screen.press("Nothing comes out here")
    assert readings(screen) == []
    assert screen.went[-1] == "/here"
    measure(screen)
    assert "Is there no water at all?" in screen.text()
    assert not any("Save in the log" in name for name in screen.buttons())
    names = list(screen.buttons())
    assert names.index("Yes, no water: save it") + 1 == names.index("No, some water comes")
    screen.press(answer)
    assert [one.method for one in readings(screen)] == (
        [NothingComes()] if answer.startswith("Yes") else []
    )
    measure(screen)
    assert any(name.startswith("Start") for name in screen.buttons())


def test_a_meter_that_shows_nothing_is_asked_about(screen: Screen) -> None:
    screen.session.drafts.hold(Draft(id="fills-none-outlet-bucket", texts={"method": "meter"}))
    screen.session.drafts.hold(Draft(id="fills-none-outlet-meter", texts={"meter_flow": "0"}))
    measure(screen)
    assert "Is there no water at all?" in screen.text()
    screen.press("No, some water comes")
    assert screen.session.drafts["fills-none-outlet-meter"].texts["meter_flow"] == ""
    assert readings(screen) == []


def test_what_was_timed_days_ago_is_neither_counted_nor_added_to(screen: Screen) -> None:
    fills = (Fill(seconds=9.5), Fill(seconds=9.7), Fill(seconds=9.6))
    leave(screen.session, Draft(id="fills-none-outlet-bucket", fills=fills, changed_at=OLD))
    measure(screen)
    assert "3 fills from" in screen.text()
    assert not any(name.startswith("Save") for name in screen.buttons())
    screen.press("Start over")
    assert draft(screen).fills == ()
    screen.undo()
    assert draft(screen).fills == fills
    assert any(name.startswith("Save in the log") for name in screen.buttons())  # is to go on
    leave(screen.session, draft(screen).model_copy(update={"changed_at": OLD}))
    measure(screen)
    screen.press("Go on")
    assert any(name.startswith("Save in the log") for name in screen.buttons())


def test_a_start_after_hours_begins_a_new_set(screen: Screen, tick: list[float]) -> None:
    fills = (Fill(seconds=9.5), Fill(seconds=9.7))
    leave(screen.session, Draft(id="fills-none-outlet-bucket", fills=fills, changed_at=OLD))
    measure(screen)
    screen.press("Start Tap")
    assert "2 fills from" not in screen.text()
    tick[0] += 12.0
    screen.press("Stop")
    (before,) = draft(screen).before_turn
    assert (before.fills, before.until, before.left) == (fills, OLD, True)
    assert [fill.seconds for fill in draft(screen).fills] == [12.0]
    assert "Timed before, not counted: 9.5 s, 9.7 s" in screen.text()
    screen.press("Nothing was turned: count those too")
    assert len(draft(screen).fills) == 3


@pytest.mark.parametrize(
    ("key", "text"), [("container", "tub"), ("note", "x"), ("seconds", "1"), ("method", "meter")]
)
def test_no_other_word_counts_what_was_left(screen: Screen, key: str, text: str) -> None:
    old = (Fill(seconds=9.5), Fill(seconds=9.7))
    leave(screen.session, Draft(id="fills-none-outlet-bucket", fills=old, changed_at=OLD))
    more(screen)
    entry = fills.use_fills("fills-none-outlet-bucket")
    entry.note(key)(text)
    entry.note(key)(f"{text}2")
    (before,) = draft(screen).before_turn
    assert (before.fills, draft(screen).fills) == (old, ())
    assert draft(screen).texts[key] == f"{text}2"


def test_what_was_left_in_a_field_is_shown_and_not_saved_unasked(screen: Screen) -> None:
    leave(screen.session, Draft(id="fills-none-outlet-bucket", texts={"method": "meter"},
                                changed_at=OLD))  # fmt: skip
    old = Draft(id="fills-none-outlet-meter", texts={"meter_flow": "900"}, changed_at=OLD)
    leave(screen.session, old)
    measure(screen)
    before = fields_at(screen)
    assert before
    assert "What is typed here is from" in screen.text()
    assert not any(name.startswith("Save") for name in screen.buttons())
    leave(screen.session, old.model_copy(update={"changed_at": datetime.now(UTC)}))
    measure(screen)
    assert any(name.startswith("Save") for name in screen.buttons())
    assert fields_at(screen) == before


def fields_of(method: str, *fills: float, running: bool = False) -> Draft:
    began = {"started_at": 1.8e9, "started_tick": 1.0} if running else {}
    return Draft(
        id=f"fills-none-outlet-{method}", changed_at=datetime.now(UTC),
        fills=tuple(Fill(seconds=one) for one in fills), **began,
    )  # fmt: skip


@pytest.mark.parametrize("method", ["weighed", "filling", "level_drop"])
def test_a_fill_that_comes_or_runs_moves_no_field(screen: Screen, method: str) -> None:
    screen.session.drafts.hold(Draft(id="fills-none-outlet-bucket", texts={"method": method}))
    seen = []
    for times, running in (((), False), ((), True), ((54.0,), False), ((54.0, 55.0), True)):
        leave(screen.session, fields_of(method, *times, running=running))
        measure(screen)
        seen.append(fields_at(screen))
    assert seen[0]
    for now in seen[1:]:
        assert now[: len(seen[0])] == seen[0]


def test_three_fills_are_enough_and_the_stopwatch_says_so(screen: Screen) -> None:
    screen.session.drafts.hold(fields_of("bucket", 9.5, 9.6))
    measure(screen)
    assert any(name.startswith("Start Tap when") for name in screen.buttons())
    screen.session.drafts.hold(fields_of("bucket", 9.5, 9.6, 9.55))
    measure(screen)
    assert any(name.startswith("Start 3 fills: enough") for name in screen.buttons())
    screen.session.drafts.hold(fields_of("bucket", 5.5, 9.6, 19.55))
    measure(screen)
    assert any(name.startswith("Start Tap when") for name in screen.buttons())
    assert "One fill shows 3.6 times the flow of another" in screen.text()
    assert "%" not in screen.text().partition("strike out")[0].rpartition("One fill")[2]


@pytest.mark.parametrize(("width", "height", "above"), [
    (390, 844, False), (320, 568, True), (375, 667, True), (844, 390, False), (768, 1024, False),
])  # fmt: skip
def test_save_is_in_sight_on_every_screen(
    screen: Screen, width: int, height: int, above: bool
) -> None:
    ft.context.page.width, ft.context.page.height = width, height
    screen.session.drafts.hold(fields_of("bucket", 9.5, 9.6, 9.55))
    measure(screen)
    view = screen.look()
    bar: Any = view.appbar
    saves = [one for one in bar.actions if isinstance(one, ft.FilledButton)]
    assert bool(saves) is above
    (save,) = [one for name, one in screen.buttons().items() if name.startswith("Save")]
    asyncio.run(screen._pressed(save.on_click))
    assert len(readings(screen)) == 1


def test_another_container_is_one_touch_away_and_the_choice_closes(screen: Screen) -> None:
    asyncio.run(screen.session.settings.save(Preferences(containers=(TUB, PAIL))))
    measure(screen)
    screen.press("Tub")
    assert "Pail" in screen.text()
    assert "Add or remove containers" in screen.text()


def test_fills_that_come_to_count_for_another_container_are_said_to(screen: Screen) -> None:
    asyncio.run(screen.session.settings.save(Preferences(containers=(TUB, PAIL))))
    measure(screen)
    screen.press("Tub")

    def choose(container_id: str) -> None:
        (group,) = [one for one in parts_of(screen.look()) if isinstance(one, ft.RadioGroup)]
        handler: Any = group.on_change
        handler(SimpleNamespace(control=SimpleNamespace(value=container_id)))
        asyncio.run(screen.settle())

    choose("pail")
    assert screen.notes == []  # nothing is timed yet
    asyncio.run(screen.session.drafts.save(fields_of("bucket", 9.5, 9.6)))
    screen.press("Tub")
    choose("pail")
    assert screen.notes[-1][0] == "2 fills count as fills of Pail now."
    assert draft(screen).texts["container"] == "pail"
    screen.undo()
    assert draft(screen).texts["container"] == ""
    assert len(draft(screen).fills) == 2


def branch_of_bog() -> str:
    pond = example_pond()
    return next(
        place.branch.id
        for line in lines_of(pond)
        for place in branch_places(WorkedPond(pond), line)
        if place.place_id == "bog"
    )


def test_a_start_after_the_advice_to_turn_begins_a_new_set(
    screen: Screen, tick: list[float]
) -> None:
    name = f"fills-{EXAMPLE}-bog-bucket"
    quick = tuple(Fill(seconds=seconds) for seconds in (4.0, 4.05, 3.95, 4.02, 3.98))
    screen.session.drafts.hold(Draft(id=name, pond_id=EXAMPLE, fills=quick))
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=branch_of_bog())
    assert "First fill after the turn of the valve" in screen.text()
    screen.press("Start")
    held = screen.session.drafts[name]
    assert (held.fills, [one.fills for one in held.before_turn]) == ((), [quick])
    assert f"turned.{branch_of_bog()}" in screen.session.drafts[f"tune-{EXAMPLE}"].texts
    tick[0] += 60.0
    screen.press("Stop")
    held = screen.session.drafts[name]
    assert [fill.seconds for fill in held.fills] == [60.0]
    assert "Timed before, not counted: 4 s" in screen.text()
    screen.press("Nothing was turned")
    assert len(screen.session.drafts[name].fills) == 6


def test_a_turn_with_nothing_timed_before_it_is_saved_with_the_next_reading(
    screen: Screen, tick: list[float]
) -> None:
    asyncio.run(screen.session.settings.save(Preferences(containers=(TUB,))))
    before = Reading(
        id="before", pond_id=EXAMPLE, place_id="bog", place_name="Bog filter", band=None,
        taken_at=datetime.now(UTC) - timedelta(hours=1),
        method=MeterReading(flow_m3_s=9000 / 3.6e6, tolerance=0.03),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(before))
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=branch_of_bog())
    screen.press("Valve turned")
    tick[0] += 2.0
    screen.press("Start")
    tick[0] += 24.0
    screen.press("Stop")
    tick[0] += 2.0
    screen.press("Save this setting")
    (reading,) = [one for one in readings(screen) if one.id != before.id]
    (one,) = reading.before_turn
    assert one.fills == ()
    assert one.until is not None
    assert before.taken_at < one.until <= reading.taken_at
    screen.open(PondPage, pond_id=EXAMPLE)
    assert "Two readings differ" not in screen.text()


def test_what_was_timed_before_a_turn_is_saved_with_the_reading_and_undo_brings_it_back(
    screen: Screen, tick: list[float]
) -> None:
    asyncio.run(screen.session.settings.save(Preferences(containers=(TUB,))))
    name = f"fills-{EXAMPLE}-bog-bucket"
    quick = tuple(Fill(seconds=seconds) for seconds in (4.0, 4.05, 3.95))
    screen.session.drafts.hold(Draft(id=name, pond_id=EXAMPLE, fills=quick))
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=branch_of_bog())
    screen.press("Start")
    tick[0] += 60.0
    screen.press("Stop")
    tick[0] += 2.0
    before = screen.session.drafts[name].model_copy(update={"opened": 0.3})
    screen.session.drafts.hold(before)
    screen.press("Keep it as it is")
    (reading,) = readings(screen)
    (one,) = reading.before_turn
    assert (one.fills, one.container) == (quick, TUB)
    assert screen.session.drafts[name].before_turn == ()
    screen.open(EntryPage, pond_id=EXAMPLE, item_id=reading.id)
    assert "Timed before that, not counted: 9,000 L/h." in screen.text()
    assert "The valve was 30 % open." in screen.text()
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=branch_of_bog())
    screen.undo()
    assert readings(screen) == []
    held = screen.session.drafts[name]
    assert (held.fills, held.before_turn) == (before.fills, before.before_turn)


def tune_bog(screen: Screen, draft: Draft) -> None:
    """The branch of the bog, 400 L/h and more wanted, with a tub of 10 L in hand."""
    asyncio.run(screen.session.settings.save(Preferences(containers=(TUB,))))
    screen.session.drafts.hold(draft)
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=branch_of_bog())


def bog_draft(*sets: FillSet, **more: Any) -> Draft:
    return Draft(id=f"fills-{EXAMPLE}-bog-bucket", pond_id=EXAMPLE, before_turn=sets, **more)


def timed(seconds: float) -> tuple[Fill, ...]:
    return tuple(Fill(seconds=seconds + d) for d in (0.0, 0.2, -0.2))


def turned_from(seconds: float, opened: float | None = None) -> FillSet:
    return FillSet(fills=timed(seconds), container=TUB, opened=opened, until=datetime.now(UTC))


def strip_of(screen: Screen) -> str:
    """What the strip says to those who do not see it."""
    (label,) = (
        str(one.label)
        for one in parts_of(screen.look())
        if isinstance(one, ft.Semantics) and one.image
    )
    return label.replace("\u00a0", " ").replace("\ufeff", "")


def test_valve_turned_is_one_button_whatever_was_timed(screen: Screen, tick: list[float]) -> None:
    tune_bog(screen, bog_draft())
    assert screen.buttons()["Valve turned"].disabled  # nothing is timed that it could end
    assert "Nothing is timed yet. Aim:" in strip_of(screen)
    screen.press("Start")
    assert screen.buttons()["Valve turned"].disabled
    tick[0] += 4.0
    screen.press("Stop")
    screen.press("Valve turned")  # the same press, bounced
    assert len(screen.session.drafts[bog_draft().id].fills) == 1
    tick[0] += 2.0
    assert strip_of(screen).startswith("Now: 9000 L/h.")
    screen.press("Valve turned")
    held = screen.session.drafts[bog_draft().id]
    assert (held.fills, len(held.before_turn)) == ((), 1)
    assert screen.buttons()["Valve turned"].disabled
    assert strip_of(screen).startswith("Before the last turn: 9000 L/h.")
    screen.press("Nothing was turned")
    assert len(screen.session.drafts[bog_draft().id].fills) == 1
    names = [name for name in screen.buttons() if "turned" in name.lower()]
    assert names == ["Valve turned"]


def test_the_advice_learns_from_the_turns_and_drops_the_table(screen: Screen) -> None:
    tune_bog(screen, bog_draft(fills=timed(4.0)))
    said = screen.text()
    assert "Close" in said
    assert "of that turn" not in said
    tune_bog(screen, bog_draft(turned_from(4.0), fills=timed(80.0)))
    said = screen.text()
    assert "Not right. Open it again, by about a tenth of that turn." in said
    assert "The last turn took 8,550 L/h away" in said
    assert "by a table of valves" not in said
    assert "9000 L/h; now 450 L/h. Aim:" in strip_of(screen)
    tune_bog(screen, bog_draft(turned_from(4.0), fills=timed(4.01)))
    assert "less than these fills can tell" in screen.text()


def test_another_valve_turned_since_is_not_learned_from(screen: Screen) -> None:
    stamps = {f"turned.{branch}": datetime.now(UTC).isoformat() for branch in ("another",)}
    first = turned_from(4.0).model_copy(update={"until": datetime.now(UTC) - timedelta(minutes=5)})
    tune_bog(screen, bog_draft(first, fills=timed(80.0)))
    assert "The last turn" in screen.text()
    screen.session.drafts.hold(Draft(id=f"tune-{EXAMPLE}", pond_id=EXAMPLE, texts=stamps))
    tune_bog(screen, bog_draft(first, fills=timed(80.0)))
    assert "The last turn" not in screen.text()
    assert "9000 L/h; now 450 L/h." in strip_of(screen)  # it was measured all the same


def test_where_the_handle_stands_may_be_noted_and_costs_nothing(screen: Screen) -> None:
    tune_bog(screen, bog_draft(turned_from(4.0, 1.0), fills=timed(80.0)))
    assert "Handle now: not noted" in screen.text()
    assert "By where the handle stood" not in screen.text()
    screen.session.drafts.hold(
        screen.session.drafts[bog_draft().id].model_copy(update={"opened": 0.3})
    )
    screen.look()
    said = screen.text()
    assert "Handle now: 30 %" in said
    assert "By where the handle stood, that is about" in said
    screen.press("Valve turned")
    assert screen.session.drafts[bog_draft().id].before_turn[-1].opened == 0.3
    assert "Handle now: not noted" in screen.text()


def test_saving_waits_while_a_fill_runs(screen: Screen, tick: list[float]) -> None:
    tune_bog(screen, bog_draft(fills=timed(60.0)))
    assert "Keep it as it is" in screen.buttons() or "Save this setting" in screen.buttons()
    screen.press("Start")
    tick[0] += 5.0
    assert not {"Keep it as it is", "Save this setting"} & set(screen.buttons())
    assert "Cancel this fill" in screen.buttons()


def stored(screen: Screen, item: Any) -> None:
    logs = screen.session.logs
    asyncio.run((logs.save_reading if isinstance(item, Reading) else logs.save_entry)(item))


def loose(note: str = "") -> Reading:
    return Reading(
        id="r", pond_id=NO_POND, place_id=OUTLET, place_name="Outlet", taken_at=OLD, note=note,
        method=MeterReading(flow_m3_s=600 / 3.6e6, tolerance=0.05), band=None,
    )  # fmt: skip


def test_a_reading_without_a_pond_is_reached_opened_put_right_and_deleted(screen: Screen) -> None:
    stored(screen, loose())
    screen.open(PlacesPage)
    screen.press("Outlet")
    assert screen.went[-1] == "/log/r"
    screen.press("All of them (1)")
    assert screen.went[-1] == "/log"
    screen.open(LogPage)
    screen.press("600 L/h")
    assert screen.went[-1] == "/log/r"

    screen.open(EntryPage, item_id="r")
    assert screen.buttons()["Save"].disabled
    begin = screen.session.drafts
    screen.session.drafts.hold(
        Draft(id="entry-none-r", texts={"meter_flow": "800", "pond": EXAMPLE, "place": "bog"})
    )
    assert begin
    screen.open(EntryPage, item_id="r")
    screen.press("Save")
    (now,) = readings(screen)
    assert (now.pond_id, now.place_id) == (EXAMPLE, "bog")
    assert now.band is not None
    screen.open(EntryPage, pond_id=EXAMPLE, item_id="r")
    text = screen.text()
    assert "What it was before" in text
    assert "no pond, Outlet, 600 L/h" in text
    screen.press("Delete this reading")
    assert readings(screen) == []
    screen.undo()
    assert readings(screen) == [now]


def test_test_values_of_another_day_are_saved_as_of_that_day(screen: Screen) -> None:
    name = f"entry-{EXAMPLE}-water_test"
    leave(screen.session, Draft(id=name, texts={"ph": "8.1"}, changed_at=OLD))
    screen.open(EntryPage, pond_id=EXAMPLE, item_id="new-water_test")
    assert "not saved." in screen.text()
    assert screen.buttons()["Save in the log"].disabled
    screen.press("Go on")
    screen.open(EntryPage, pond_id=EXAMPLE, item_id="new-water_test")
    screen.press("Save in the log")
    (entry,) = screen.session.logs.entries.values()
    assert isinstance(entry, Entry)
    assert isinstance(entry.what, WaterTest)
    assert abs(entry.when - OLD) < timedelta(minutes=1)


def fields_at(screen: Screen) -> list[list[Any]]:
    """How the framework finds the fields of a screen again: by key, or else by place."""

    def within(control: Any, way: list[Any]) -> Iterator[list[Any]]:
        if isinstance(control, ft.TextField):
            yield way
        held = getattr(control, "controls", None) or [getattr(control, "content", None)]
        for number, one in enumerate(held):
            if isinstance(one, ft.Control):
                yield from within(one, [*way, one.key or number])

    return list(within(screen.look(), []))


@pytest.mark.parametrize("item", ["new-water_test", "new-note", "r"])
def test_the_first_key_into_what_was_left_moves_no_field(screen: Screen, item: str) -> None:
    stored(screen, loose())
    pond = {} if item == "r" else {"pond_id": EXAMPLE}
    name = "entry-none-r" if item == "r" else f"entry-{EXAMPLE}-{item[4:]}"
    left = Draft(id=name, texts={"note": "half"}, changed_at=OLD)
    leave(screen.session, left)
    screen.open(EntryPage, **pond, item_id=item)
    assert "not saved." in screen.text()
    before = fields_at(screen)
    assert before
    leave(screen.session, left.model_copy(update={"changed_at": datetime.now(UTC)}))
    screen.open(EntryPage, **pond, item_id=item)
    assert "not saved." not in screen.text()
    assert fields_at(screen) == before


def test_a_correction_that_was_left_wrong_is_open(screen: Screen) -> None:
    stored(screen, loose().model_copy(update={"method": METHODS[0]}))
    leave(screen.session, Draft(id="entry-none-r", texts={"0.seconds": "x"}, changed_at=OLD))
    screen.open(EntryPage, item_id="r")
    assert "x is not an amount" in screen.text()


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("method", METHODS, ids=lambda method: str(method.kind))
def test_every_reading_can_be_opened_to_its_fields(
    screen: Screen, method: Method, system: str
) -> None:
    chosen = screen.session.preferences.model_copy(update={"units": system})
    asyncio.run(screen.session.settings.save(chosen))
    stored(screen, loose().model_copy(update={"method": method}))
    screen.open(EntryPage, item_id="r")
    screen.press("Correct what was measured")
    screen.press("Where: Outlet, no pond")
    text = screen.text()
    for said in ("Which pond", "Alder Corner (invented example)", "Which place", "Note"):
        assert said in text
    for number in range(len(getattr(method, "fills", ()))):
        assert f"Time of fill {number + 1} (s)" in text


@pytest.mark.parametrize("kind", ["water_test", "dose", "feed", "fish", "cleaning", "note"])
def test_every_kind_of_entry_is_drawn_and_moved(screen: Screen, kind: str) -> None:
    other = example_pond().model_copy(update={"id": "other", "name": "Other"})
    asyncio.run(screen.session.ponds.save(other))
    what = {
        "water_test": WaterTest(ph=7.4),
        "dose": Dose(what="Salt"),
        "feed": Feed(amount_kg=0.1),
        "fish": FishChange(change="added", what="Carp", count=2),
        "cleaning": Cleaning(part="pump"),
        "note": FreeNote(),
    }[kind]
    item = Entry(id="e", pond_id=EXAMPLE, when=OLD, what=what, note="heron")
    stored(screen, item)
    screen.session.drafts.hold(
        Draft(id=f"entry-{EXAMPLE}-e", texts={**texts_of(item, "metric"), "pond": "other"})
    )
    screen.open(EntryPage, pond_id=EXAMPLE, item_id="e")
    screen.press("Save in the log")
    assert [one.pond_id for one in screen.session.logs.entries.values()] == ["other"]
    screen.open(EntryPage, pond_id="other", item_id="e")
    assert "Until " in screen.text()
    screen.undo()
    assert list(screen.session.logs.entries.values()) == [item]
