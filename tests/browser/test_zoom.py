"""The reader may zoom with two fingers, and everything stays where it is drawn."""

import pytest
from phones import Phone, Thumb, counted, go, open_app, wait_true
from playwright.sync_api import Page

WIDTH, HEIGHT = 390, 844
SCALE = (
    "Object.getOwnPropertyDescriptor(VisualViewport.prototype, 'scale').get.call(visualViewport)"
)


class Fingers(Thumb):
    """Two fingers on a phone's glass."""

    def __init__(self, page: Page) -> None:
        super().__init__(page)
        window = {"width": WIDTH, "height": HEIGHT, "deviceScaleFactor": 1, "mobile": True}
        self.session.send("Emulation.setDeviceMetricsOverride", window)
        drawn = "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
        page.evaluate(drawn)

    def pinch(self, x: float, y: float, begin: int, end: int) -> None:
        """Two fingers around a place of the page go from one distance to another."""
        x, y = self._in_sight(x, y)
        for kind, distance in (
            ("touchStart", begin),
            *(("touchMove", begin + (end - begin) * step // 20) for step in range(1, 21)),
        ):
            ends = (x - distance / 2, x + distance / 2)
            self._touch(kind, [{"x": end, "y": y, "id": n} for n, end in enumerate(ends)])
        self._touch("touchEnd", [])

    def _touch(self, kind: str, points: list[dict[str, float]]) -> None:
        self.session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    def tap_zoomed(self, x: float, y: float) -> None:
        """Touch what is drawn at this place of the page, wherever it is in sight by now."""
        self.tap(*self._in_sight(x, y))

    def _in_sight(self, x: float, y: float) -> tuple[float, float]:
        left, top = self.page.evaluate("[visualViewport.offsetLeft, visualViewport.offsetTop]")
        return x - left, y - top  # the browser's own scale is taken into account


@pytest.fixture
def page(phone: Phone, site_address: str) -> Page:
    page = phone.start()
    open_app(page, site_address)
    return page


def test_a_pinch_makes_larger_and_a_finger_hits_what_it_sees(page: Page) -> None:
    fingers = Fingers(page)
    drawn = "JSON.stringify(document.querySelector('flutter-view').getBoundingClientRect())"
    before = page.evaluate(drawn)
    use = page.get_by_role("button", name="Measure a flow").first.bounding_box()
    assert use is not None
    middle = use["x"] + use["width"] / 2, use["y"] + use["height"] / 2
    fingers.pinch(*middle, 30, 200)
    assert page.evaluate(SCALE) > 1.5
    assert page.evaluate(drawn) == before, "it is drawn no other way"
    fingers.tap_zoomed(*middle)
    wait_true(page, "location.hash.includes('measure')")


def test_two_fingers_on_the_stopwatch_are_no_zoom_and_it_counts_when_zoomed(page: Page) -> None:
    go(page, "/measure/none/outlet")
    fingers = Fingers(page)
    wait_true(page, "document.documentElement.dataset.pad !== undefined")
    fingers.pinch(WIDTH / 2, 0.8 * HEIGHT, 30, 200)
    assert page.evaluate(SCALE) == 1
    pressed = len(counted(page))
    fingers.pinch(WIDTH / 2, 0.3 * HEIGHT, 100, 160)
    zoomed = page.evaluate(SCALE)
    assert 1.1 < zoomed < 2.5
    page.wait_for_timeout(700)  # the next press is not taken for one that bounced
    fingers.tap_zoomed(WIDTH / 2, 0.58 * HEIGHT)
    wait_true(page, f"pondappPad.presses.length > {pressed}")
    fingers.pinch(WIDTH / 2, 0.6 * HEIGHT, 160, 60)
    assert page.evaluate(SCALE) < zoomed, "what was made large can be made small there too"
