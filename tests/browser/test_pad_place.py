"""Where the stopwatch is: the same place always, with nothing of the app under it."""

from base64 import b64encode
from itertools import pairwise
from typing import Any

import pytest
from phones import Phone, counted, open_app, press, thumb_place, wait_true
from playwright.sync_api import FloatRect, Page, expect
from timed import PAUSE, RUNNING, SHORT, SHOWN, held_where, python_there, settled, stopwatch_at

from pondapp.answers.sharing.example import EXAMPLE

AT_POND = f"#/measure/{EXAMPLE}/bog"
SIZES = [(390, 844), (320, 568), (844, 390), (768, 1024), (1280, 800)]
DRAWN = 40  # of 255, by which letters differ at least from what they stand on
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
    page.add_init_script(held_where("sessionStorage.held"))
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
