"""The screen that tries a change: nothing saved before it is applied, and back with one touch."""

import asyncio
import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import flet as ft
import pytest
from drawn import Screen, parts_of, words_of

from pondapp.answers.picture.picture import picture
from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.answers.what_if.changes import Changes, texts_of
from pondapp.answers.what_if.trial import Trial
from pondapp.core.base.errors import OutOfRange
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, NothingComes, Reading
from pondapp.ui.learning.learned import LearnedPage
from pondapp.ui.parts.kept import _Make
from pondapp.ui.pond.picture import PondPicture
from pondapp.ui.what_if import moves, results, what_if
from pondapp.ui.what_if.what_if import WhatIfPage
from pondapp.words import current_language

NOTHING_YET = "Nothing is changed yet."


def opened(monkeypatch: pytest.MonkeyPatch) -> Screen:
    screen = Screen(monkeypatch)
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    return screen


def saved(screen: Screen) -> Pond:
    """The pond, without its history."""
    return screen.session.ponds[EXAMPLE].model_copy(update={"past": ()})


def choose(screen: Screen, value: str) -> None:
    """Choose an option that is told by its value."""
    group = next(
        one for one in parts_of(screen.look())
        if isinstance(one, ft.RadioGroup)
        and value in [radio.value for radio in parts_of(one) if isinstance(radio, ft.Radio)]
    )  # fmt: skip

    class Event:
        control = ft.RadioGroup(value=value, content=ft.Text(""))

    async def chosen() -> None:
        group.on_change(Event)
        await screen.settle()

    asyncio.run(chosen())


def test_the_ponds_screen_leads_to_it(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    screen.open(lambda: PondPicture(example_pond()))
    screen.press("What if? Try a change")
    assert screen.went == [f"/pond/{EXAMPLE}/what-if"]


def test_a_stronger_pump_shows_both_states_and_saves_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    assert NOTHING_YET in screen.text()
    assert not any("Apply" in name for name in screen.buttons())
    choose(screen, "large")
    text = screen.text()
    assert NOTHING_YET not in text
    assert "To the waterfall: " in text
    assert "+95 W" in text
    assert saved(screen) == example_pond()


def test_what_was_tried_is_there_when_one_comes_back(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    choose(screen, "large")
    before = screen.text()
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert screen.text() == before


def test_applying_saves_it_as_the_plan_and_undo_brings_both_back(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "large")
    before = screen.text()
    screen.press("Apply: make it the plan")
    assert screen.session.ponds[EXAMPLE].lines[0].pump_id == "large"
    assert NOTHING_YET in screen.text()
    screen.undo()
    assert saved(screen) == example_pond()
    assert screen.text() == before


def test_what_a_plan_cannot_hold_is_refused_with_the_reason(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "bog")
    for _ in range(30):
        button = screen.buttons()["More: Valve"]
        if button.disabled:
            break
        screen.press("More: Valve")
    screen.press("Apply: make it the plan")
    text = screen.text()
    assert "nothing is saved. Bog filter can take 3,000 L/h at most and would get" in text
    assert saved(screen) == example_pond()
    screen.press("Less: Valve")
    assert "nothing is saved" not in screen.text()


def test_a_filter_that_would_stand_still_is_a_danger_with_its_reason(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "bog")
    assert "poisons the pond" not in screen.text()
    while not screen.buttons()["Less: Valve"].disabled:
        screen.press("Less: Valve")
    assert "stands still dies within hours, and then poisons the pond" in screen.text()


def test_a_lip_alone_is_saved_and_the_readings_still_stand(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = with_readings(monkeypatch)
    choose(screen, "lip")
    screen.press("More: Width of the lip")
    screen.press("Apply: make it the plan")
    assert saved(screen) != example_pond()
    assert [text for text, _ in screen.notes][-1] == "It is saved."
    assert below(screen.text(), "Bog filter").startswith("Right, as measured")


def test_conditions_alone_cannot_be_applied(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    screen.press("More: Water temperature")
    assert "they pass by themselves" in screen.text()
    assert not any("Apply" in name for name in screen.buttons())
    screen.press("Start over")
    assert NOTHING_YET in screen.text()
    screen.undo()
    assert NOTHING_YET not in screen.text()


def test_a_part_of_the_picture_is_taken_in_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    choose(screen, "bog")
    names = list(screen.buttons())
    assert "More: Valve" in names
    assert "Less: Lift" in names
    screen.press("More: Valve")
    assert "To the bog: " in screen.text()
    choose(screen, "lip")
    assert "Less: Width of the lip" in list(screen.buttons())


def test_toxic_ammonia_says_which_test_it_rests_on(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    assert "Toxic ammonia" not in screen.text()
    test = Entry(
        id="test", pond_id=EXAMPLE, when=datetime.now(UTC) - timedelta(days=3),
        what=WaterTest(ph=8.2, total_ammonia_kg_m3=0.3e-3, temperature_c=18.0),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_entry(test))
    text = screen.text()
    assert "By the newest test, 3 days old" in text
    for _ in range(12):
        screen.press("More: Water temperature")
    warm = screen.text()
    assert warm.count("mg/L") > text.count("mg/L")
    assert warm != text


def with_readings(monkeypatch: pytest.MonkeyPatch) -> Screen:
    screen = opened(monkeypatch)
    for reading in example_readings(datetime.now(UTC)):
        asyncio.run(screen.session.logs.save_reading(reading))
    return screen


def changed(screen: Screen, **changes: object) -> None:
    """The pond with something changed, opened again."""
    pond = screen.session.ponds[EXAMPLE].model_copy(update=changes)
    asyncio.run(screen.session.ponds.save(pond))
    screen.open(WhatIfPage, pond_id=EXAMPLE)


def below(text: str, title: str, lines: int = 4) -> str:
    """What stands below the last line that is just this title."""
    found = text.split("\n")
    at = len(found) - 1 - found[::-1].index(title)
    return "\n".join(found[at + 1 : at + 1 + lines])


def test_unchanged_it_says_of_each_place_what_the_pond_says(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = with_readings(monkeypatch)
    day = r"on [^.]+\. Wanted"
    assert re.match(rf"Right, as measured: 5,490 L/h {day}", below(screen.text(), "Filter box"))
    assert "Could go either way" not in screen.text()
    choose(screen, "large")
    text = below(screen.text(), "Filter box")
    assert re.match(r"Now: right, as measured: 5,490 L/h on [^.]+\. Then: ", text)
    assert "then: right" not in text.lower()


def read(screen: Screen, place: str, litres_an_hour: float, days: float) -> None:
    """A reading so many days ago; of none, no water came."""
    flow = litres_an_hour / 3.6e6
    reading = Reading(
        id=f"{place}-{days}", pond_id=EXAMPLE, place_id=place, place_name=place,
        taken_at=datetime.now(UTC) - timedelta(days=days, hours=1), band=None,
        method=MeterReading(flow_m3_s=flow, tolerance=0.03) if flow else NothingComes(),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(reading))


def test_a_filter_that_was_measured_dry_is_given_no_flow(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    for place, flow, days in (("box", 5500, 3), ("bog", 1500, 3), ("bog", 0, 1)):
        read(screen, place, flow, days)
    bog = below(screen.text(), "Bog filter")
    assert bog.startswith("Dry, as measured on ")
    assert "By all readings (not known closely enough)\nNow\nNot known yet" in bog + "\n"
    for title in ("Oxygen at night", "Filter"):
        assert below(screen.text(), title).startswith("Not known yet. That cannot be told while")
    assert "ikely enough" not in screen.text()
    choose(screen, "large")
    assert below(screen.text(), "Bog filter").startswith("Now: dry, as measured on ")
    assert "Then: not known yet" in below(screen.text(), "Bog filter")
    assert "ikely enough" not in screen.text()


def test_a_fall_that_was_measured_dry_brings_no_oxygen_that_is_enough(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    read(screen, "bog", 1500, 1)
    read(screen, "box", 0, 1)
    assert below(screen.text(), "Slate lip").startswith("Dry, as measured on ")
    assert below(screen.text(), "Oxygen at night").startswith("Not known yet. That cannot be told")
    assert "ikely enough" not in screen.text()


def test_old_readings_give_no_flow_of_now(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    read(screen, "box", 5500, 400)
    read(screen, "bog", 1500, 400)
    for title in ("Bog filter", "Filter box", "Slate lip"):
        said = below(screen.text(), title)
        assert "By all readings (not known closely enough)\nNow\nNot known yet" in said


def test_a_pump_is_given_no_more_than_it_can_give(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    read(screen, "box", 12500, 1)
    assert "17,000 L/h" not in screen.text()
    said = below(screen.text(), "Mid-size pump")
    assert "By all readings (not known closely enough)\nNow\nNot known yet" in said


def test_what_was_measured_and_what_all_readings_give_are_both_told(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    for flow, days in ((9000, 9), (7000, 6), (5000, 3), (3500, 1)):
        read(screen, "box", flow, days)
    assert "as measured" not in below(screen.text(), "Filter box")  # the last two differ
    read(screen, "box", 3500, 0)
    said = below(screen.text(), "Filter box").split("\n")
    assert re.match(r"Too little, as measured: 3,500 L/h on [^.]+\. Wanted 5,150 to", said[0])
    assert re.fullmatch(r"By all readings \([\d,]+ to [\d,]+ L/h\)", said[1])
    assert said[2] == "3,500 L/h, unchanged"
    choose(screen, "large")
    base = below(screen.text(), "Filter box").split("\n")[1]
    number = r"[\d,]+ to [\d,]+ L/h"
    assert re.fullmatch(rf"By all readings \(now {number}, then {number}\)", base)


def test_a_cleaning_can_be_tried_where_the_readings_tell_of_dirt(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = with_readings(monkeypatch)
    choose(screen, "2.0")
    assert "To the waterfall: " in screen.text()
    assert "they pass by themselves" in screen.text()
    choose(screen, "plan")
    values = [one.value for one in parts_of(screen.look()) if isinstance(one, ft.Radio)]
    assert "2.0" not in values


def test_without_a_flow_it_is_not_known_whether_oxygen_and_filter_are_enough(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    assert below(screen.text(), "Oxygen at night").startswith("Likely enough")
    bare = [one.model_copy(update={"max_head_m": None}) for one in example_pond().pumps]
    changed(screen, pumps=tuple(bare))
    for title in ("Oxygen at night", "Filter"):
        assert below(screen.text(), title).startswith("Not known yet. That cannot be told while")
    assert "ikely enough" not in screen.text()


def test_in_water_too_warm_for_the_tables_nothing_is_called_enough(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    for _ in range(22):
        screen.press("More: Water temperature")
    text = screen.text()
    assert "40 °C" in text
    for title in ("Oxygen at night", "Filter"):
        assert below(text, title).startswith("Not known yet")
    assert "Water of 40 °C is above 28 °C" in text
    assert "ikely enough" not in text


def test_toxic_ammonia_is_told_at_the_temperature_of_the_slider(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    test = Entry(
        id="test", pond_id=EXAMPLE, when=datetime.now(UTC) - timedelta(days=3),
        what=WaterTest(ph=8.2, total_ammonia_kg_m3=0.3e-3, temperature_c=12.0),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_entry(test))
    text = screen.text()
    assert "in water of 18 °C. The water of the test itself had 12 °C." in text
    same = below(text, "Toxic ammonia")
    screen.press("More: Water temperature")
    screen.press("Less: Water temperature")
    assert below(screen.text(), "Toxic ammonia") == same
    screen.press("Less: Water temperature")
    assert "in water of 18 °C now and 17 °C then" in screen.text()


def test_a_pump_is_tried_by_its_label_and_comes_to_the_shelf_only_when_it_is_applied(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "by-label")
    assert "Enter the largest flow and the largest head from its label" in screen.text()
    draft = screen.session.drafts.get(f"whatif-{EXAMPLE}")
    assert draft is not None
    texts = {**draft.texts, "line.pump_flow": "16000", "line.pump_head": "5",
             "line.pump_watts": "180"}  # fmt: skip
    screen.session.drafts.hold(draft.model_copy(update={"texts": texts}))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    by_label = screen.text()
    assert "+95 W" in by_label
    assert saved(screen) == example_pond()
    moved = [line for line in by_label.split("\n") if line.startswith("To the waterfall: ")]
    screen.press("Apply: make it the plan")
    pond = screen.session.ponds[EXAMPLE]
    assert len(pond.pumps) == 4
    assert pond.lines[0].pump_id == pond.pumps[-1].id
    screen.undo()
    assert saved(screen) == example_pond()
    choose(screen, "large")
    assert [
        one for one in screen.text().split("\n") if one.startswith("To the waterfall: ")
    ] == moved
    screen.press("Start over")
    assert NOTHING_YET in screen.text()


@pytest.mark.parametrize(
    ("flow", "head", "watts"),
    [("", "", ""), ("9000", "", ""), ("abc", "3", ""), ("0", "3", "50"), ("9000", "3", "abc")],
)
def test_a_label_that_lacks_something_or_is_wrong_cannot_become_the_plan(
    monkeypatch: pytest.MonkeyPatch, flow: str, head: str, watts: str
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "by-label")
    draft = screen.session.drafts.get(f"whatif-{EXAMPLE}")
    assert draft is not None
    texts = {**draft.texts, "line.pump_flow": flow, "line.pump_head": head,
             "line.pump_watts": watts}  # fmt: skip
    screen.session.drafts.hold(draft.model_copy(update={"texts": texts}))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    text = screen.text()
    assert "That changes no flow" not in text
    assert "First complete the label of the other pump" in text
    assert screen.buttons()["Apply: make it the plan"].disabled
    if watts != "abc":
        assert "Not every flow can be told." in text


def test_a_pump_of_the_list_without_its_label_cannot_become_the_plan(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    bare = {"max_flow_m3_s": None, "max_head_m": None, "curve": ()}
    pumps = [one.model_copy(update=bare if one.id == "large" else {})
             for one in example_pond().pumps]  # fmt: skip
    changed(screen, pumps=tuple(pumps))
    before = saved(screen)
    choose(screen, "large")
    assert "Not every flow can be told." in screen.text()
    screen.press("Apply: make it the plan")
    assert "nothing is saved. Enter the largest flow and the largest head" in screen.text()
    assert saved(screen) == before


@pytest.mark.parametrize("system", ["metric", "us", "imperial"])
@pytest.mark.parametrize("kind", ["flow", "head", "small", "grams", "power", "concentration"])
def test_what_differs_reads_differently_and_what_does_not_reads_the_same(
    kind: str, system: str
) -> None:
    size = {"flow": 1e-3, "head": 1.37, "small": 0.012, "grams": 2e-3, "power": 40.0}
    for turn in range(400):
        now = size.get(kind, 1e-2) * (1.0 + turn / 400.0)
        for share in (0.006, 0.02, 0.3, -0.006, -0.02, -0.3):
            before, after, more = results._row(now, now * (1.0 + share), kind, system)
            assert before != after
            assert more.startswith("+" if share > 0.0 else results.MINUS)
        before, after, more = results._row(now, now * 1.004, kind, system)
        assert (before, more) == (after, "")


@pytest.mark.parametrize(
    ("now", "tried", "row"),
    [
        (120.0, 140.0, ("120", "140", "+20")),
        (140.0, 120.0, ("140", "120", f"{results.MINUS}20")),
        (120.6, 121.3, ("121", "121", "")),  # nobody could tell them apart
        (120.0, 120.5, ("120", "120", "")),
        (3.0, 3.1, ("3.00", "3.10", "+0.10")),
        (None, 84.0, ("Not known yet", "84", "")),
        (84.0, None, ("84", "Not known yet", "")),
    ],
)
def test_money_is_compared_as_all_else_is(
    now: float | None, tried: float | None, row: tuple[str, str, str]
) -> None:
    assert results._row(now, tried, "money", "metric") == row


def test_what_a_pump_of_unknown_watts_costs_is_not_known_yet_and_not_left_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    choose(screen, "large")
    text = screen.text()
    assert re.search(r"In a year\nNow\n223\nThen\n473\nDifference\n\+250", text)
    pumps = example_pond().pumps
    unknown = tuple(one.model_copy(update={"power_w": None}) for one in pumps if one.id == "large")
    changed(screen, pumps=(*(one for one in pumps if one.id != "large"), *unknown))
    said = screen.text()
    assert re.search(r"In a year\nNow\n223\nThen\nNot known yet\n", said)


def test_a_longer_hose_brings_less(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    choose(screen, "box")
    screen.press("More: Length of the hose")
    screen.press("More: Length of the hose")
    text = screen.text()
    assert "5 m" in text
    assert "To the waterfall: " in text
    assert "less" in text


def test_without_a_pump_one_can_be_tried_by_its_label(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)
    line = example_pond().lines[0].model_copy(update={"pump_id": None})
    changed(screen, lines=(line,), pumps=())
    choose(screen, "by-label")
    assert "Largest flow on the label" in screen.text()


def test_what_ends_the_reckoning_can_be_taken_back(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = opened(monkeypatch)

    def fails(*_: object) -> None:
        raise OutOfRange("no such circuit")

    screen.press("More: Water temperature")
    monkeypatch.setattr(Trial, "state", fails)
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert "Start over" in list(screen.buttons())


def test_no_tick_stands_on_this_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = with_readings(monkeypatch)
    icons = [one.icon for one in parts_of(screen.look()) if isinstance(one, ft.Icon)]
    assert ft.Icons.CHECK_CIRCLE not in icons
    assert "Right" not in words_of(screen.look()).split("\n")


def test_without_a_pump_nothing_is_compared_and_the_way_to_one_is_there(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = opened(monkeypatch)
    line = example_pond().lines[0].model_copy(update={"pump_id": None})
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update={"lines": (line,)})))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    text = screen.text()
    assert "Now\nNot known yet\nThen\nNot known yet\nDifference" not in text
    assert "Now\nNot known yet\nThen\nNot known yet\n" in text
    assert "Choose a pump first, and this can be worked out" in text
    screen.press("Choose a pump")
    assert screen.went == [f"/pond/{EXAMPLE}/pumps"]


def looks(control: ft.Control) -> str:
    """All that can be seen of a part: words, numbers, marks, where sliders stand, what is off."""
    seen = [words_of(control)]
    for one in parts_of(control):
        for name in ("value", "disabled", "icon", "max", "height", "label", "shapes", "border"):
            seen.append(f"{name}={getattr(one, name, None)!r}")
    return re.sub(r"_i=\d+", "", "\n".join(seen))


def test_the_same_inputs_are_the_same_drawing(monkeypatch: pytest.MonkeyPatch) -> None:
    drawn: dict[tuple[Any, ...], str] = {}
    again = 0

    def noted(shows: tuple[Any, ...], make: Callable[[], ft.Control]) -> ft.Control:
        nonlocal again
        control = make()
        key = (current_language().code, *map(repr, shows))
        again += key in drawn
        assert drawn.setdefault(key, looks(control)) == looks(control), shows
        return control

    screen: Screen = with_readings(monkeypatch)
    for module in (moves, results, what_if):
        monkeypatch.setattr(module, "kept", noted)
    for part in ("line", "bog", "lip"):
        choose(screen, part)
        for name in list(screen.buttons()):
            if name.startswith("More: "):
                screen.press(name)
                screen.press(name.replace("More", "Less"))
                screen.press(name)
    choose(screen, "line")
    choose(screen, "large")
    choose(screen, "plan")
    screen.press("Start over")
    screen.look()
    assert again > 200


def test_another_way_to_draw_the_same_is_no_other_part() -> None:
    assert _Make(lambda: ft.Text("a")) == _Make(lambda: ft.Text("b"))
    assert _Make(lambda: ft.Text("a")) != "a"


def test_what_is_not_moved_keeps_its_word_when_only_the_aim_is_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = with_readings(monkeypatch)
    choose(screen, "lip")
    before = [below(screen.text(), one, 1) for one in ("Bog filter", "Filter box", "Slate lip")]
    for _ in range(3):
        screen.press("More: Width of the lip")
    text = screen.text()
    assert [below(text, one, 1) for one in ("Bog filter", "Filter box", "Slate lip")] == before
    screen.press("Apply: make it the plan")
    text = screen.text()
    assert [below(text, one, 1) for one in ("Bog filter", "Filter box", "Slate lip")] == before


@pytest.mark.parametrize("days", [120, 200, 800, 1500])
def test_wear_that_is_carried_on_from_old_readings_dries_nothing_up(
    monkeypatch: pytest.MonkeyPatch, days: float
) -> None:
    screen = opened(monkeypatch)
    for flow, age in ((7000, 50), (6600, 40), (6100, 30), (5600, 20), (5100, 10), (4600, 0)):
        read(screen, "box", flow, days + age)
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    text = screen.text()
    assert "dry" not in text.lower()
    assert "too weak" not in text
    for title in ("Bog filter", "Filter box", "Mid-size pump"):
        assert below(text, title).startswith("Not known yet")
    screen.open(LearnedPage, pond_id=EXAMPLE)
    told = screen.text()
    assert "One more reading would tell little" not in told
    assert "tells most now" in told
    assert "dry" not in told


def test_what_is_not_known_is_not_drawn_as_shut_and_what_is_shut_is(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    carried: list[dict[str, float]] = []

    def noted(*given: Any) -> Any:
        carried.append(given[-1])
        return picture(*given)

    monkeypatch.setattr(what_if, "picture", noted)
    screen = Screen(monkeypatch)
    line = example_pond().lines[0].model_copy(update={"pump_id": None})
    bare = example_pond().model_copy(update={"lines": (line,)})
    asyncio.run(screen.session.ponds.save(bare))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert "Not known yet" in screen.text()
    assert carried[-1] == {}
    texts = texts_of(Changes({("rest", "to-fall"): 1.0}))
    asyncio.run(screen.session.drafts.save(Draft(id=f"whatif-{EXAMPLE}", texts=texts)))
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert carried[-1] == {"to-fall": 0.0}


def test_what_is_not_known_has_the_room_of_the_difference_that_is_missing() -> None:
    unknown = "Not known yet"
    for row, shares in (
        (("1 L/h", "2 L/h", "+1 L/h"), [4, 4, 4]),
        ((unknown, unknown, ""), [6, 6]),
    ):
        numbers = results._three(row)
        assert isinstance(numbers, ft.ResponsiveRow)
        assert [one.col["pair"] for one in numbers.controls] == shares  # type: ignore[index,call-overload]
