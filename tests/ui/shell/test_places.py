"""The four places: which screen is in which, about which pond, and where a touch on one leads."""

import asyncio
from datetime import UTC, datetime
from typing import Any

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.state.ids import NO_POND
from pondapp.ui.log.log import LogPage
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.measuring.places import PlacesPage
from pondapp.ui.parts import layout
from pondapp.ui.planning.build import BuildPage, NoPlanPage
from pondapp.ui.pond.home import HomePage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.shell import arrival, places, theme
from pondapp.ui.shell.nowhere import NowherePage
from pondapp.ui.shell.routes import SCREENS, _addresses, above

OTHER = example_pond().model_copy(update={"id": "other", "name": "Other"})
HERE = {
    "/": "pond", "/new": "pond", "/pond/a": "pond", "/pond/a/at/lip": "pond",
    "/pond/a/health": "pond", "/measure": "measure", "/measure/none/outlet": "measure",
    "/pond/a/measure/lip": "measure", "/pond/a/tune/b/measure/lip": "measure",
    "/containers": "measure", "/log": "log", "/log/x": "log", "/pond/a/log": "log",
    "/pond/a/log/due": "log", "/build": "plan", "/size": "plan", "/waterfall": "plan",
    "/pond/a/build": "plan", "/pond/a/plan": "plan", "/pond/a/things/lip": "plan",
    "/pond/a/tune/b": "plan", "/settings": None, "/help/log": None, "/backup": None,
    "/about/licences/flet": None, "/shared/abc": None,
}  # fmt: skip


@pytest.fixture(autouse=True)
def nothing_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "_last_pond", [])


def labels(view: ft.View) -> list[str]:
    """What is read of each place."""
    return [
        str(part.semantics_label or part.value)
        for button in parts_of(view)
        if isinstance(button, ft.TextButton) and button.height == places.height()
        for part in parts_of(button)
        if isinstance(part, ft.Text)
    ]


@pytest.mark.parametrize(("route", "place"), HERE.items())
def test_every_screen_is_in_its_place(route: str, place: str | None) -> None:
    assert places.place_of(route) == place


def test_every_screen_about_a_pond_is_in_one_of_the_four() -> None:
    for address in _addresses(SCREENS):
        if address.startswith("/pond/"):
            assert places.place_of(address) is not None, address


def test_the_place_where_one_is_says_so_by_word_and_mark(screen: Screen) -> None:
    screen.open(BuildPage, pond_id=EXAMPLE)
    view = screen.look()
    assert labels(view) == ["Pond", "Measure", "Log", "Plan, you are here"]
    assert view.bottom_appbar is not None
    marks = [part.icon for part in parts_of(view.bottom_appbar) if isinstance(part, ft.Icon)]
    assert marks[-1] == places.PLACES[-1].mark_here
    assert marks[:-1] == [place.mark for place in places.PLACES[:-1]]


def test_each_place_is_large_enough_for_a_thumb_on_the_narrowest_phone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert (320 - 8) / len(places.PLACES) >= theme.TOUCH
    assert places.height() >= theme.TOUCH
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)
    assert places.height() >= theme.TOUCH


def test_a_wide_screen_and_a_phone_on_its_side_have_a_rail(screen: Screen) -> None:
    for width, height, at_foot in ((390, 844, True), (320, 640, True), (844, 390, False),
                                   (820, 1180, False)):  # fmt: skip
        ft.context.page.width, ft.context.page.height = width, height
        screen.open(PondPage, pond_id=EXAMPLE)
        view = screen.look()
        assert (view.bottom_appbar is not None) == at_foot, (width, height)
        assert len(labels(view)) == 4


def test_large_text_has_a_rail_only_where_there_is_room_for_it(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)
    ft.context.page.width, ft.context.page.height = 820, 1180
    screen.open(PondPage, pond_id=EXAMPLE)
    assert screen.look().bottom_appbar is not None


def test_a_stopwatch_has_no_bar_below_it(screen: Screen) -> None:
    screen.open(MeasurePage, pond_id=EXAMPLE, place_id="bog")
    assert labels(screen.look()) == []


def test_the_only_pond_is_the_one_in_hand(screen: Screen) -> None:
    screen.open(HomePage)
    assert places.pond_in_hand() == EXAMPLE
    for place, route in (("pond", ""), ("log", "/log"), ("plan", "/build")):
        assert places.route_to(place, "/") == f"/pond/{EXAMPLE}{route}"  # type: ignore[arg-type]
    assert places.route_to("measure", "/") == "/measure"


def test_of_several_ponds_it_is_the_one_that_was_opened_last(screen: Screen) -> None:
    asyncio.run(screen.session.ponds.save(OTHER))
    assert places.pond_in_hand() == ""
    assert [places.route_to(place.name, "/settings") for place in places.PLACES] == [
        "/", "/measure", "/log", "/build",
    ]  # fmt: skip
    layout.screen("/pond/other/water", "", [])
    assert places.route_to("log", "/") == "/pond/other/log"
    layout.screen(f"/measure/{EXAMPLE}/lip", "", [])
    assert places.route_to("plan", "/") == f"/pond/{EXAMPLE}/build"
    layout.screen("/settings", "", [])
    assert places.pond_in_hand() == EXAMPLE


def test_a_pond_that_is_gone_is_in_hand_no_longer(screen: Screen) -> None:
    asyncio.run(screen.session.ponds.save(OTHER))
    layout.screen("/pond/gone", "", [])
    assert places.pond_in_hand() == ""
    layout.screen("/pond/other", "", [])
    screen.session.deletion.mark_deleted("other")
    assert places.pond_in_hand() == EXAMPLE


def test_without_any_pond_each_place_has_something_to_do(screen: Screen) -> None:
    screen.session.deletion.mark_deleted(EXAMPLE)
    assert [places.route_to(place.name, "/settings") for place in places.PLACES] == [
        "/", "/measure/none/outlet", "/log", "/build",
    ]  # fmt: skip
    screen.open(NoPlanPage)
    assert {"Choose a pump", "Check a waterfall", "Add a pond"} <= set(screen.buttons())
    screen.open(LogPage)
    assert "Measure a flow" in screen.buttons()


def test_a_second_touch_on_pond_leads_to_all_of_them(screen: Screen) -> None:
    screen.open(PondPage, pond_id=EXAMPLE)
    assert places.route_to("pond", f"/pond/{EXAMPLE}") == "/"
    screen.press("Log")
    assert screen.went == [f"/pond/{EXAMPLE}/log"]


def test_a_touch_on_where_one_is_does_nothing(screen: Screen) -> None:
    ft.context.page.route = f"/pond/{EXAMPLE}/build"
    screen.open(BuildPage, pond_id=EXAMPLE)
    screen.press("Plan")
    assert screen.went == []


def test_of_two_touches_at_once_the_last_counts_also_where_its_screen_is_gone(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "_gone", {})
    ft.context.page.route = f"/pond/{EXAMPLE}"
    screen.open(PondPage, pond_id=EXAMPLE)
    touched = [one for one in parts_of(screen.look()) if isinstance(one, places._Button)]
    _, measure, log, plan = touched

    async def asked(*_: Any, **__: Any) -> str:
        await asyncio.sleep(0)
        return "done"

    monkeypatch.setattr(places.browser, "ask", asked)

    async def both(first: Any, second: Any) -> None:
        await asyncio.gather(first.on_click(None), second.on_click(None))

    asyncio.run(both(plan, log))
    assert screen.went == [f"/pond/{EXAMPLE}/log"]
    assert places.late_touch(measure._i) is None, "its screen is there"
    measure.will_unmount()
    late = places.late_touch(measure._i)
    assert late is not None
    asyncio.run(late(None))
    assert screen.went[1:] == ["/measure"]
    for _ in range(places.MOST_GONE):
        places._button(places.PLACES[0], "/", expand=True).will_unmount()
    assert places.late_touch(measure._i) is None, "of a screen long gone"


def test_the_page_hears_of_each_new_screen_and_of_what_is_the_same_on_it(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[tuple[float, float]] = []

    async def asked(_: str, foot: float, side: float, **__: Any) -> None:
        told.append((foot, side))

    monkeypatch.setattr(arrival, "ask", asked)
    page, bar = ft.context.page, places.height()

    def come(route: str, *, has_places: bool = True, below: str = "/") -> tuple[float, float]:
        page.route = route
        arrival.note(below, has_places=True)
        arrival.note(route, has_places=has_places)
        asyncio.run(screen.settle())
        return told[-1]

    monkeypatch.setattr(arrival, "_route", [])
    assert come("/first") == (0, 0), "nothing was there before"
    assert come("/second") == (bar, 0)
    assert come("/stopwatch", has_places=False) == (0, 0)
    assert come("/third") == (0, 0), "the stopwatch had no places"
    page.width, page.height = 844, 390
    assert come("/fourth") == (0, theme.RAIL)
    count = len(told)
    arrival.note("/fourth", has_places=True)  # drawn anew
    asyncio.run(screen.settle())
    assert len(told) == count


def test_every_screen_has_a_way_back_and_steps_lead_back_to_the_plan() -> None:
    assert above("/pond/a/water") == above("/pond/a/pumps") == "/pond/a/build"
    assert above("/pond/a/pumps/new") == "/pond/a/pumps"
    assert above("/pond/a/plumbing/line/main") == "/pond/a/plumbing"
    assert above("/pond/a/build") == above("/pond/a/log") == above("/pond/a/health") == "/pond/a"
    assert above("/pond/a/measure/lip/more") == "/pond/a/measure/lip"
    assert above("/pond/a/measure/lip") == "/pond/a"
    assert above("/pond/a/tune/b/measure/lip") == "/pond/a/tune/b"
    assert above("/measure/none/outlet") == "/measure"
    assert above("/pond/a") == above("/measure") == above("/settings") == above("/new") == "/"
    assert above("/no/such/screen") == "/"


def test_the_places_of_the_pond_in_hand_stand_first(screen: Screen) -> None:
    asyncio.run(screen.session.ponds.save(OTHER.model_copy(update={"name": "A first by name"})))
    layout.screen(f"/pond/{EXAMPLE}", "", [])
    screen.open(PlacesPage)
    text = screen.text()
    assert text.index(example_pond().name) < text.index("A first by name")
    assert text.index("A first by name") < text.index("Just measure, no pond")
    layout.screen("/pond/other", "", [])
    assert screen.text().index("A first by name") < screen.text().index(example_pond().name)


def test_logs_lead_to_each_other(screen: Screen) -> None:
    screen.open(LogPage)
    screen.press("Log of Alder Corner")
    assert screen.went == [f"/pond/{EXAMPLE}/log"]
    screen.open(LogPage, pond_id=EXAMPLE)
    assert "Measured without a pond" not in screen.text()
    loose = example_readings(datetime.now(UTC))[0].model_copy(update={"pond_id": NO_POND})
    asyncio.run(screen.session.logs.save_reading(loose))
    screen.open(LogPage, pond_id=EXAMPLE)
    screen.press("Measured without a pond")
    assert screen.went[-1] == "/log"


def test_an_address_that_leads_nowhere_has_the_four_places_and_a_way_back(screen: Screen) -> None:
    screen.open(NowherePage)
    view = screen.look()
    assert view.appbar is not None
    assert labels(view) == ["Pond", "Measure", "Log", "Plan"]
    screen.press("To the first screen")
    assert screen.went == ["/"]
