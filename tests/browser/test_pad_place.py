"""Where the stopwatch is: the same place always, with nothing of the app under it."""

import json
from base64 import b64decode, b64encode
from itertools import pairwise
from typing import Any

import pytest
from phones import Phone, Thumb, counted, open_app, press, thumb_place, wait_true
from playwright.sync_api import FloatRect, Page, expect
from timed import HELD, OUTLET, PAUSE, SHORT, SHOWN, python_there, settled, stopwatch_at

from pondapp.answers.sharing.example import EXAMPLE

AT_POND = f"#/measure/{EXAMPLE}/bog"
SIZES = [(390, 844), (320, 568), (844, 390), (768, 1024), (1280, 800)]
DRAWN = 40  # of 255, by which letters differ at least from what they stand on
RUNNING = "document.documentElement.dataset.pad === 'running'"
BOXES = """() => ["pad-gauge", "pad-button"].map((id) => {
  const { x, y, width, height } = document.getElementById(id).getBoundingClientRect();
  return { x, y, width, height };
})"""
# What does not fit into its box, by name.
CLIPPED = """() => {
  const found = [];
  for (const id of ["pad-gauge", "pad-button"]) {
    const box = document.getElementById(id).getBoundingClientRect();
    for (const one of document.querySelectorAll(`#${id} :is(p, #pad-do, #pad-when, #pad-count)`)) {
      const { left, top, right, bottom, width } = one.getBoundingClientRect();
      if (width && (left < box.left - 1 || right > box.right + 1 || top < box.top - 1 ||
        bottom > box.bottom + 1)) found.push(`${one.id}: ${one.textContent}`);
    }
  }
  return found;
}"""
# By how much the colours of a picture, or of its upper part, differ: of 255.
SPREAD = """async ([picture, share]) => {
  const bytes = Uint8Array.from(atob(picture), (one) => one.charCodeAt(0));
  const drawn = await createImageBitmap(new Blob([bytes]));
  const canvas = new OffscreenCanvas(drawn.width, drawn.height);
  const pen = canvas.getContext("2d");
  pen.drawImage(drawn, 0, 0);
  const { data } = pen.getImageData(0, 0, drawn.width, Math.ceil(share * drawn.height));
  const low = [255, 255, 255], high = [0, 0, 0];
  for (let at = 0; at < data.length; at += 1) {
    const part = at % 4;
    if (part === 3) continue;
    if (data[at] < low[part]) low[part] = data[at];
    if (data[at] > high[part]) high[part] = data[at];
  }
  return Math.max(...high.map((value, part) => value - low[part]));
}"""


def boxes(page: Page) -> list[FloatRect]:
    found: list[FloatRect] = page.evaluate(BOXES)
    return found


def spread(page: Page, picture: bytes, share: float = 1.0) -> int:
    return int(page.evaluate(SPREAD, [b64encode(picture).decode(), share]))


def under(page: Page, place: list[FloatRect]) -> list[int]:
    """By how much the colours of what lies under the stopwatch differ: nothing is of one colour."""
    page.evaluate("document.getElementById('pad').style.visibility = 'hidden'")
    page.wait_for_timeout(100)
    found = [spread(page, page.screenshot(clip=box)) for box in place]
    page.evaluate("document.getElementById('pad').style.visibility = ''")
    return found


def one_place_all_the_way(page: Page, address: str, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.evaluate("sessionStorage.held = 'yes'")
    thumb = stopwatch_at(page, address)
    seen: list[tuple[str, Any]] = [("before Python", boxes(page))]

    def look(when: str) -> None:
        assert page.evaluate(CLIPPED) == [], (when, size)
        seen.append((when, boxes(page)))

    thumb.press()
    wait_true(page, RUNNING)
    look("running before Python")
    page.wait_for_timeout(SHORT)
    thumb.press()
    look("between fills before Python")
    page.evaluate("letPythonIn()")
    settled(page)
    look("Python took over")
    assert max(under(page, boxes(page))) <= 4, (size, "something lies under the stopwatch")
    page.wait_for_timeout(PAUSE)
    for fill in (2, 3):
        thumb.press()
        wait_true(page, RUNNING)
        page.wait_for_timeout(SHORT)
        look(f"fill {fill} runs")
        if fill == 2:
            settled(page)
            page.wait_for_timeout(300)
            assert max(under(page, boxes(page))) <= 4, (size, "under it while a fill runs")
        thumb.press()
        look(f"fill {fill} was just timed")
        page.wait_for_timeout(PAUSE)
    settled(page)
    page.wait_for_timeout(500)
    look("after the third fill")
    for (before, one), (after, other) in pairwise(seen):
        assert one == other, (size, before, after)
    gauge, button = boxes(page)
    x, y = thumb_place(*size)
    assert button["x"] < x < button["x"] + button["width"]
    assert button["y"] < y < button["y"] + button["height"]
    assert button["height"] >= 0.4 * size[1]
    assert gauge["y"] >= 56  # below the title
    assert gauge["x"] >= 0
    assert max(box["x"] + box["width"] for box in (gauge, button)) <= size[0]
    assert len(counted(page)) == 6


@pytest.fixture
def at_pond(phone: Phone, site_address: str) -> Page:
    """A phone that measured at the example pond before."""
    page = phone.start()
    return with_example(page, site_address)


def with_example(page: Page, address: str) -> Page:
    open_app(page, address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    page.add_init_script("if (sessionStorage.held) {" + HELD + "}")
    stopwatch_there(page, address)
    return page


def stopwatch_there(page: Page, address: str) -> None:
    page.goto("about:blank")
    page.goto(address + AT_POND)
    python_there(page)
    wait_true(page, SHOWN)
    wait_true(page, "document.getElementById('pad-bar').className === ''")  # its times are known


def forget_fills(page: Page) -> None:
    page.evaluate(
        """() => Promise.all([["data", "texts"], ["pad", "presses"]].map(([what, name]) =>
          new Promise((done) => {
            indexedDB.open(pondappName(what)).onsuccess = ({ target }) => {
              const step = target.result.transaction(name, "readwrite");
              const all = step.objectStore(name);
              all.openCursor().onsuccess = (event) => {
                const at = event.target.result;
                if (!at) return;
                if (what === "pad" || String(at.key).startsWith("draft/fills")) at.delete();
                at.continue();
              };
              step.oncomplete = () => { target.result.close(); done(); };
            };
          })))"""
    )


def test_the_button_is_at_one_place_in_every_window(at_pond: Page, site_address: str) -> None:
    for size in SIZES:
        one_place_all_the_way(at_pond, site_address + AT_POND, size)
        forget_fills(at_pond)
        at_pond.evaluate("sessionStorage.removeItem('held')")
        stopwatch_there(at_pond, site_address)


@pytest.mark.parametrize("size", [(390, 844), (320, 568), (844, 390)])
def test_the_button_is_at_one_place_with_large_text(
    phone: Phone, site_address: str, size: tuple[int, int]
) -> None:
    settings = phone.profile / "Default" / "Preferences"
    settings.parent.mkdir()
    settings.write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}', encoding="utf-8")
    page = with_example(phone.start(), site_address)
    assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
    one_place_all_the_way(page, site_address + AT_POND, size)


def told(page: Page, **changes: Any) -> None:
    """Have the stopwatch show a state, as the app tells it."""
    state = {
        "route": OUTLET[1:], "pond": "none", "place": "outlet", "method": "bucket",
        "title": "Measure", "wanted": "", "words": {}, "decimal": ".", "fills": [], "asked": 3,
        "since": None, "at": 0, "band": None, "result": None, "outlook": [], "anew": False,
        "branch": "", "aids": {}, "taken": None, **changes,
    }  # fmt: skip
    page.evaluate(f"pondappPad.python.show({json.dumps(state)})")


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
def test_the_ends_of_the_right_times_are_seen_with_and_without_motion(
    used_phone: Phone, site_address: str, motion: Any
) -> None:
    page = used_phone.page.context.new_page()
    page.add_init_script(HELD)
    page.emulate_media(reduced_motion=motion)
    thumb = stopwatch_at(page, site_address + OUTLET)
    told(
        page,
        band={"fastest": 0.6, "aim": 0.9, "slowest": 1.2},
        outlook=[
            {"upTo": 0.6, "word": "Too much", "severity": "wrong"},
            {"upTo": 1.2, "word": "Right", "severity": "right"},
            {"upTo": None, "word": "Too little", "severity": "wrong"},
        ],
    )
    page.evaluate(
        "window.levels = []; new MutationObserver(() => levels.push("
        "document.getElementById('pad-button').dataset.level)).observe("
        "document.getElementById('pad-button'), { attributeFilter: ['data-level'] })"
    )
    thumb.press()
    wait_true(page, RUNNING)
    moving = page.evaluate("document.getElementById('pad-water').getAnimations().length")
    assert moving == (0 if motion == "reduce" else 1)
    heights = []
    for level in ("early", "right", "late"):
        wait_true(page, f"document.getElementById('pad-button').dataset.level === '{level}'")
        heights.append(
            page.evaluate("document.getElementById('pad-water').getBoundingClientRect().height")
        )
    assert heights == sorted(heights)
    assert heights[0] < heights[2]
    assert [one for one in page.evaluate("levels") if one] == ["early", "right", "late"]
    thumb.press()
    expect(page.locator("#pad-word")).to_have_text("Too little")
    expect(page.locator("#pad-word")).to_have_class("wrong")
    expect(page.locator("#pad-needle")).to_be_visible()
    assert page.evaluate("document.getElementById('pad-water').getAnimations().length") == 0
    page.close()


def frames_of_a_start(page: Page, address: str) -> list[bytes]:
    """Pictures of the window from navigation until a while after the first screen."""
    pictures: list[str] = []
    page.goto("about:blank")
    session = page.context.new_cdp_session(page)

    def seen(frame: dict[str, Any]) -> None:
        pictures.append(frame["data"])
        session.send("Page.screencastFrameAck", {"sessionId": frame["sessionId"]})

    session.on("Page.screencastFrame", seen)
    session.send("Page.startScreencast", {"format": "png", "everyNthFrame": 1})
    page.goto(address, wait_until="commit")
    python_there(page)
    page.wait_for_timeout(1000)
    session.send("Page.stopScreencast")
    session.detach()
    return [b64decode(frame) for frame in pictures]


@pytest.mark.parametrize(("where", "share"), [("", 1.0), (OUTLET, 0.4)])
def test_no_picture_of_a_start_is_empty(
    used_phone: Phone, site_address: str, where: str, share: float
) -> None:
    """Nor is the upper part, where no stopwatch lies over what is drawn."""
    page = used_phone.page
    for _ in range(2):
        pictures = frames_of_a_start(page, site_address + where)
        looks = [spread(page, one, share) for one in pictures]
        first = next(number for number, look in enumerate(looks) if look > DRAWN)
        assert len(looks) - first >= 3, looks
        assert [look for look in looks[first:] if look <= DRAWN] == [], looks
        assert page.locator("#start").is_hidden()


def test_a_window_that_is_turned_takes_the_button_along(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    settled(page)
    thumb.press()
    wait_true(page, RUNNING)
    page.set_viewport_size({"width": 844, "height": 390})
    wait_true(page, "document.documentElement.dataset.wide === 'true'")
    page.wait_for_timeout(1000)
    assert max(under(page, boxes(page))) <= 4
    Thumb(page).press()
    wait_true(page, "!(" + RUNNING + ")")
    assert [one["kind"] for one in counted(page)] == ["start", "stop"]
    page.set_viewport_size({"width": 390, "height": 844})
    settled(page)
