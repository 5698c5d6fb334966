"""What the stopwatch of the page makes of presses: each counts once, before Python and after."""

import random
import re
import time
from datetime import UTC, datetime, timedelta

import pytest
from kept import kept
from pad_kills import kill_often
from phones import (
    PATIENCE,
    Host,
    Phone,
    Thumb,
    again_until,
    counted,
    go,
    open_app,
    press,
    save_reading,
    shows,
    thumb_place,
    wait_started,
    wait_true,
)
from playwright.sync_api import Page, expect
from timed import (
    DRAFT,
    EVEN,
    HELD,
    OUTLET,
    PAUSE,
    SHORT,
    draft,
    fills,
    held_where,
    in_app,
    last_shown,
    python_there,
    settled,
    stopwatch_at,
    time_fills,
    wait_kept,
    waiting,
)

BOUNCE = 80  # ms
KILLS = 6
LET_IN = "letPythonIn()"
# A press as soon as the button is there: before it can have been read what was kept.
AT_ONCE = """addEventListener("DOMContentLoaded", () => document.getElementById("pad-button")
  .dispatchEvent(new PointerEvent("pointerdown", { button: 0, bubbles: true })))"""


def readings(page: Page) -> list[str]:
    return [key for key in kept(page) if key.startswith("reading/")]


def exactly(found: list[float], true: list[float]) -> None:
    assert found == pytest.approx(true, abs=0.005), (found, true)


@pytest.mark.parametrize("bounces", [0, 1])
def test_twelve_presses_at_one_place_are_six_fills(
    used_phone: Phone, site_address: str, bounces: int
) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    python_there(page)
    for number in range(12):
        thumb.press()
        for _ in range(bounces):
            page.wait_for_timeout(BOUNCE)
            thumb.press()
        page.wait_for_timeout((PAUSE if number % 2 else SHORT) - bounces * BOUNCE)
    presses = counted(page)
    assert [one["kind"] for one in presses] == ["start", "stop"] * 6
    settled(page)
    times = [(presses[n + 1]["t"] - presses[n]["t"]) / 1000 for n in range(0, 12, 2)]
    exactly(fills(page), times)
    assert page.url.endswith(OUTLET)
    assert readings(page) == []
    assert not any(key.startswith("pond/") for key in kept(page))
    assert used_phone.errors == []


def test_presses_before_python_are_there_after_it(phone: Phone, site_address: str) -> None:
    page = phone.start()
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    true = time_fills(thumb, 2, EVEN)
    wait_kept(page, 4)
    expect(page.locator("#pad-count")).to_have_text("Fill 2 of 3")
    page.evaluate(LET_IN)
    settled(page)
    exactly(fills(page), true)
    true += time_fills(thumb, 1, EVEN)
    settled(page)
    exactly(fills(page), true)
    # By how they agree, which a busy machine decides.
    expect(page.locator("#pad-do")).to_have_text(re.compile("^(Start|Enough fills)$"))
    assert phone.errors == []


def test_python_comes_in_the_middle_of_a_fill(phone: Phone, site_address: str) -> None:
    page = phone.start()
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    thumb.press()
    page.evaluate(LET_IN)
    settled(page)
    expect(page.locator("#pad-do")).to_have_text("Stop")
    assert draft(page)["started_at"] is not None
    thumb.press()
    first, second = wait_kept(page, 2)
    settled(page)
    exactly(fills(page), [(second["t"] - first["t"]) / 1000])
    expect(page.locator("#pad-do")).to_have_text("Start")
    page.wait_for_timeout(PAUSE)
    true = fills(page) + time_fills(thumb, 1)
    settled(page)
    exactly(fills(page), true)


def test_a_browser_that_is_killed_before_python_came_loses_no_press(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    true = time_fills(thumb, 1)
    thumb.press()
    wait_kept(page, 3)
    phone.kill()

    page = phone.start()
    page.add_init_script(HELD)
    stopwatch_at(page, site_address + OUTLET)
    wait_true(page, "document.getElementById('pad-do').textContent === 'Stop'")
    expect(page.locator("#pad-count")).to_have_text("Fill 2 of 3")
    page.evaluate(LET_IN)
    wait_started(page)
    shows(page, "Its time will be by this device's clock")
    exactly(fills(page), true)
    thumb = Thumb(page)
    thumb.press()
    shows(page, re.compile("By the clock it took"))
    settled(page)
    exactly(fills(page), true)
    press(page, "Count it")
    wait_true(page, "document.getElementById('pad-count').textContent === 'Fill 2 of 3'")
    assert len(fills(page)) == 2


def test_a_press_in_the_first_moment_stops_what_ran_when_the_browser_was_killed(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    stopwatch_at(page, site_address + OUTLET).press()
    wait_kept(page, 1)
    phone.kill()

    page = phone.start()
    page.add_init_script(AT_ONCE)
    stopwatch_at(page, site_address + OUTLET)
    assert [one["kind"] for one in wait_kept(page, 1)] == ["stop"]
    settled(page)
    assert draft(page)["started_at"] is None
    assert draft(page)["by_clock"] > 0


def test_python_that_never_comes_does_not_stop_the_stopwatch(
    phone: Phone, site_address: str, site_host: Host
) -> None:
    page = phone.start()
    site_host.failing.add("worker.js")
    try:
        thumb = stopwatch_at(page, site_address + OUTLET)
        true = time_fills(thumb, 1)
        page.wait_for_selector("html[data-halted]", state="attached")
        told = page.locator("#halt")
        expect(told).to_be_visible()
        box, gauge = (page.locator(one).bounding_box() for one in ("#halt", "#pad-gauge"))
        assert box
        assert gauge
        assert box["y"] + box["height"] <= gauge["y"] + 1
        true += time_fills(thumb, 2)
        wait_kept(page, 6)
        expect(page.locator("#pad-do")).to_have_text("Enough fills")
    finally:
        site_host.failing.discard("worker.js")
    page = in_app_again(phone, site_address)
    exactly(fills(page), true)


def in_app_again(phone: Phone, address: str) -> Page:
    phone.kill()
    return in_app(phone, address)


FULL = """
const put = IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function (...args) {
  const asked = put.apply(this, args);
  if (this.transaction.db.name.startsWith("pondapp-pad")) this.transaction.abort();
  return asked;
};"""
THROWS = """
const open = IDBFactory.prototype.open;
IDBFactory.prototype.open = function (name, ...more) {
  if (name.startsWith("pondapp-pad")) throw new DOMException("no", "SecurityError");
  return open.call(this, name, ...more);
};"""

# Nothing more is kept until the snapshot is gone, as a request or as a whole step is refused.
NO_ROOM = """
let full = true;
const { add, put } = IDBObjectStore.prototype;
const { deleteDatabase } = IDBFactory.prototype;
const refused = () => new DOMException("full", "QuotaExceededError");
const error = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, "error").get;
Object.defineProperty(IDBTransaction.prototype, "error", {
  get() { return this.refused ?? error.call(this); },
});
IDBObjectStore.prototype.put = function (...args) {
  if (full && HOW === "request") throw refused();
  return put.apply(this, args);
};
IDBObjectStore.prototype.add = function (...args) {
  const asked = add.apply(this, args);
  if (full) {
    this.transaction.refused = refused();
    this.transaction.abort();
  }
  return asked;
};
IDBFactory.prototype.deleteDatabase = function (name) {
  if (name === pondappName("snapshot")) full = false;
  return deleteDatabase.call(this, name);
};"""
PUT_SNAPSHOT = """new Promise((done) => {
  indexedDB.open(pondappName("snapshot")).onsuccess = ({ target }) => {
    target.result.onversionchange = () => target.result.close();
    done(true);
  };
})"""
DATABASES = "indexedDB.databases().then((all) => all.map((one) => one.name))"


@pytest.mark.parametrize("how", ["request", "step"])
def test_a_press_that_has_no_room_takes_that_of_the_snapshot_before_python_is_there(
    phone: Phone, site_address: str, how: str
) -> None:
    page = phone.start()
    page.add_init_script(f"{{ const HOW = '{how}'; {NO_ROOM} }}")
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    page.evaluate(PUT_SNAPSHOT)
    assert "pondapp-snapshot /some/where/" in page.evaluate(DATABASES)
    true = time_fills(thumb, 1)
    wait_kept(page, 2)
    assert "pondapp-snapshot /some/where/" not in page.evaluate(DATABASES)
    page.evaluate(LET_IN)
    python_there(page)
    exactly(fills(page), true)
    # No other is made, since the room is wanted for what is timed.
    wait_true(page, "(localStorage.getItem(pondappName('making')) ?? '').endsWith(' 2')")


@pytest.mark.parametrize("how", [FULL, THROWS], ids=["full", "throws"])
def test_a_storage_that_refuses_still_lets_a_press_count(
    used_phone: Phone, site_address: str, how: str
) -> None:
    page = used_phone.page.context.new_page()
    page.set_viewport_size({"width": 390, "height": 844})
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(how)
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    true = time_fills(thumb, 1)
    expect(page.locator("#pad-count")).to_have_text("Fill 1 of 3")
    page.evaluate(LET_IN)
    python_there(page)
    true += time_fills(thumb, 1)
    deadline = time.monotonic() + PATIENCE / 1000
    while len(fills(page)) < 2 and time.monotonic() < deadline:
        page.wait_for_timeout(100)
    exactly(fills(page), true)
    assert not any(one["kept"] for one in counted(page))
    assert errors == []
    page.close()


def test_a_press_after_what_was_left_begins_a_new_set(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    old = time_fills(thumb, 2)
    settled(page)
    then = datetime.now(UTC) - timedelta(hours=2)
    stored = kept(page)[DRAFT]
    kept(
        page, {DRAFT: re.sub(r'"changed_at":"[^"]*"', f'"changed_at":"{then.isoformat()}"', stored)}
    )
    page.evaluate(
        """(at) => new Promise((done) => {
          indexedDB.open(pondappName("pad")).onsuccess = ({ target }) => {
            const step = target.result.transaction("places", "readwrite");
            const places = step.objectStore("places");
            places.getAll().onsuccess = (event) => {
              for (const one of event.target.result) places.put({ ...one, at });
            };
            step.oncomplete = () => { target.result.close(); done(); };
          };
        })""",
        1000 * then.timestamp(),
    )
    page.add_init_script(held_where("!sessionStorage.later"))
    thumb = stopwatch_at(page, site_address + OUTLET)
    expect(page.locator("#pad-do")).to_have_text("Start")
    new = time_fills(thumb, 1)
    expect(page.locator("#pad-count")).to_have_text("Fill 1 of 3")
    page.evaluate("sessionStorage.later = 'yes'")
    page.evaluate(LET_IN)
    settled(page)
    found = draft(page)
    exactly(fills(page), new)
    (before,) = found["before_turn"]
    exactly([one["seconds"] for one in before["fills"]], old)
    wait_started(page)
    shows(page, re.compile("Before the turn, not counted|not counted"))


def test_saving_too_soon_after_a_stop_is_a_slip_and_undo_brings_all_back(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address + OUTLET)
    thumb = Thumb(page)
    true = time_fills(thumb, 2)
    save = page.get_by_role("button", name="Save in the log").first
    expect(save).to_be_attached()
    thumb.press()
    page.wait_for_timeout(SHORT)
    thumb.press()
    wait_kept(page, 6)
    for _ in range(5):  # as soon as it is drawn
        if save.count():
            save.evaluate("control => hands.click(control)", timeout=300)
            break
        page.wait_for_timeout(30)
    sooner = time.monotonic()
    page.wait_for_timeout(700)
    presses = counted(page)
    true.append((presses[5]["t"] - presses[4]["t"]) / 1000)
    settled(page)
    assert readings(page) == [], sooner
    exactly(fills(page), true)
    page.wait_for_timeout(PAUSE)
    save_reading(page)
    assert len(readings(page)) == 1
    press(page, "Undo")
    deadline = time.monotonic() + PATIENCE / 1000
    while readings(page) and time.monotonic() < deadline:
        page.wait_for_timeout(100)
    assert readings(page) == []
    exactly(fills(page), true)


def test_two_tabs_at_one_place_lose_and_double_nothing(
    used_phone: Phone, site_address: str
) -> None:
    first = used_phone.page
    thumb = stopwatch_at(first, site_address + OUTLET)
    settled(first)
    second = first.context.new_page()
    second.set_viewport_size({"width": 390, "height": 844})
    other = stopwatch_at(second, site_address + OUTLET)
    settled(second)
    first.bring_to_front()
    true = time_fills(thumb, 1)
    settled(first)
    second.bring_to_front()
    wait_true(second, "document.getElementById('pad-count').textContent === 'Fill 1 of 3'")
    true += time_fills(other, 1)
    settled(second)
    exactly(fills(second), true)
    wait_true(first, "document.getElementById('pad-count').textContent === 'Fill 2 of 3'")
    other.press()  # and the tab is closed in mid-fill
    wait_kept(second, 3)
    settled(second)
    second.close()
    first.bring_to_front()
    wait_true(first, "document.getElementById('pad-do').textContent === 'Stop'")
    thumb.press()
    settled(first)
    exactly(fills(first), true)
    assert draft(first)["by_clock"] is not None


def test_presses_of_a_tab_that_lives_are_its_own(phone: Phone, site_address: str) -> None:
    first = phone.start()
    first.add_init_script(HELD)
    thumb = stopwatch_at(first, site_address + OUTLET)
    mine = time_fills(thumb, 1)
    second = first.context.new_page()
    second.set_viewport_size({"width": 390, "height": 844})
    stopwatch_at(second, site_address + OUTLET)
    python_there(second)
    second.wait_for_timeout(1000)
    assert fills(second) == []  # the first tab lives, and has what it timed in hand
    assert len(waiting(second)) == 2
    first.bring_to_front()
    first.evaluate(LET_IN)
    settled(first)
    exactly(fills(first), mine)

    third = first.context.new_page()
    third.add_init_script(HELD)
    third.set_viewport_size({"width": 390, "height": 844})
    dead = time_fills(stopwatch_at(third, site_address + OUTLET), 1)
    third.close()
    first.bring_to_front()
    first.reload()
    first.evaluate(LET_IN)
    settled(first)
    exactly(sorted(fills(first)), sorted(mine + dead))


@pytest.mark.slow
@pytest.mark.timeout(120 + KILLS * 60)
def test_browser_killed_while_fills_are_timed(phone: Phone, site_address: str) -> None:
    tally = kill_often(phone, site_address, KILLS, random.randrange(10**6))
    assert tally.wrong == [], str(tally)
    assert tally.presses > KILLS


def test_a_press_that_is_held_for_long_is_one_press(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    python_there(page)
    x, y = thumb_place(*page.evaluate("[innerWidth, innerHeight]"))
    at = {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}
    thumb.session.send("Input.dispatchTouchEvent", at)
    page.wait_for_timeout(2600)
    thumb.session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_timeout(600)
    assert [one["kind"] for one in counted(page)] == ["start"]


def test_what_was_wanted_is_not_shown_once_it_has_changed(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    wait_true(page, "location.hash.startsWith('#/pond/')")
    route = "/measure/invented-example/bog"
    go(page, route)
    for _ in again_until("no outlook was told"):
        if last_shown(page, route).get("outlook"):
            break
    assert last_shown(page, route)["band"]
    go(page, "/containers")
    press(page, "Remove Bucket, 9 L mark")
    for _ in again_until("the old band stays"):
        if last_shown(page, route)["band"] is None:
            break
    old = last_shown(page, route)
    assert (old["wanted"], old["result"], old["outlook"]) == ("", None, [])
