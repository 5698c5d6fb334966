"""What a pond keeper asks all year: how many touches and seconds lie between icon and answer.

Run from the project's folder: `.venv/bin/python tests/bench/year.py`; it needs Chromium. The phone
has the app and the example pond. For each question it opens the first screen, touches what leads
to the answer at the place where it is drawn, wipes where that is out of sight, and types what is
asked for.
The tree of roles and names is on, to know where.
"""

import re
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Literal

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from phones import ARRIVED, BOOT, Host, Name, Phone, Thumb, open_app, press, told, wait_true
from playwright.sync_api import Locator, sync_playwright
from playwright.sync_api import TimeoutError as Late

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.web import bundle, compiled, places, site

LONGEST = 60.0  # seconds until something is there
SOON = 4.0  # seconds until a touch that did nothing is made once more, or one wipes on
WIPES = 12
Role = Literal["button", "radio", "checkbox", "textbox"]


@dataclass(frozen=True)
class Step:
    """A touch, and what is typed after it."""

    name: Name
    role: Role = "button"
    text: str = ""


LOG, PLAN = Step(re.compile("^Log$")), Step(re.compile("^Plan$"))


def log(title: str) -> tuple[Step, ...]:
    return (LOG, Step("Care and calculators"), Step(re.compile(f"^{title}")))


def plan(title: str) -> tuple[Step, ...]:
    return (PLAN, Step(re.compile(title)))


def typed(name: str, text: str) -> Step:
    return Step(re.compile(f"^{name}"), "textbox", text)


ASKED: tuple[tuple[str, Sequence[Step], Name], ...] = (
    ("water change", log("Water change"), "Against chlorine"),
    ("  entered in the log", (*log("Water change"), Step("Enter this change in the log")),
     "Saved in the log"),
    ("salt", (*log("Salt and doses"), typed("Salt wanted", "1")), "Weigh out"),
    ("a label's dose", (*log("Salt and doses"), Step("A product, by its label", "radio"),
                        typed("The label's dose", "5"), typed("For so much water", "40")),
     "Put in"),
    ("what a hot week takes", log("Evaporation and leaks"), "In a week"),
    ("is it a leak?", (*log("Evaporation and leaks"), Step("Is it a leak?", "radio"),
                       typed("The pond fell by", "30"), typed("The bucket fell by", "3"),
                       typed("In so many hours", "10")), re.compile("It leaks")),
    ("pump off", log("Pump off"), re.compile("in danger after|may be in danger")),
    ("what to do now", (*log("What to do now"), typed("Water", "9"),
                        Step("North of the equator", "radio")), re.compile("Do not feed")),
    ("UV lamp", (*log("UV lamp"), typed("Power of the lamp", "11")),
     re.compile("rule of thumb")),
    ("calendar file", (LOG, Step("Reminders and calendar"),
                       Step("Save for the calendar")), re.compile("in your downloads")),
    ("a stream", (*plan("Filters, lips, jets"), Step(re.compile("^Stream")),
                  Step("Cobbles", "radio"), typed("Length of the stream", "5"),
                  typed("Width of its water", "40"), typed("How far it falls", "60")),
     "How deep its water is"),
    ("a filter of one's own", (*plan("Filters, lips, jets"), Step(re.compile("^Own filter")),
                               typed("Flow that you want", "500")), re.compile("Own filter needs")),
    ("a skimmer", (*plan("Filters, lips, jets"), Step(re.compile("^Skimmer")),
                   typed("Width of its opening", "20")), re.compile("Skimmer needs")),
    ("building the bog", (Step(re.compile("^Alder Corner")), Step(re.compile("^Bog filter")),
                          Step("How to build it")), "Head over the bed"),
    ("what to buy", plan("Shopping list"), re.compile("So far|In all|No prices")),
    ("what it costs", (Step(re.compile("^Alder Corner")), Step(re.compile("^Electricity"))),
     "What would save"),
    ("stock of fish", plan("Fish, feed and oxygen"), re.compile("All fish")),
    ("  one more kind", (*plan("Fish, feed and oxygen"), Step("Pick a common kind"),
                         Step("Tench, 40 cm")), re.compile("Still missing")),
    ("plan for new fish", (LOG, Step("Reminders and calendar"),
                           Step("New fish, or a new filter")), "Quarantine of new fish"),
)  # fmt: skip


class Hand:
    """Touches what is there, and counts."""

    def __init__(self, phone: Phone) -> None:
        self.page, self.thumb = phone.page, Thumb(phone.page)
        self.touches = self.wipes = self.letters = 0

    def found(self, step: Step) -> Locator:
        found: Locator = self.page.get_by_role(step.role, name=step.name).last
        return found

    def touch(self, step: Step) -> None:
        """Touch it in the middle as soon as it is there, and wipe for what is out of sight."""
        deadline, wiped = time.monotonic() + LONGEST, 0
        while time.monotonic() < deadline:
            found = self.found(step)
            if not found.count():
                self.page.wait_for_timeout(30)
                continue
            middle = found.evaluate("control => hands.middle(control)")
            if middle is not None:
                self.thumb.tap(*middle)
                self.touches += 1
                return
            if wiped < WIPES:
                half = self.page.evaluate("innerHeight") / 2
                top = found.evaluate("control => control.getBoundingClientRect().top")
                self.wipe(down=top > half)
                wiped += 1
        raise SystemExit(f"never there: {step.name}")

    def look_for(self, answer: Locator) -> None:
        """Wipe on until it is there."""
        for _ in range(WIPES):
            try:
                return answer.wait_for(state="attached", timeout=1000 * SOON)
            except Late:
                self.wipe(down=True)
        raise SystemExit(f"never there: {answer}")

    def wipe(self, *, down: bool) -> None:
        """Nearly half a screen."""
        height = self.page.evaluate("innerHeight")
        way = 0.4 * height * (1 if down else -1)
        start = height / 2 + way / 2
        send = self.thumb.session.send
        for part in range(9):
            y = start - way * part / 8
            kind = "touchMove" if part else "touchStart"
            send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": 195, "y": y}]})
            self.page.wait_for_timeout(16)
        send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        self.page.wait_for_timeout(300)
        self.wipes += 1

    def do(self, step: Step) -> None:
        self.touch(step)
        if step.text:
            self.page.wait_for_function("document.activeElement?.tagName === 'INPUT'")
            self.page.keyboard.press("ControlOrMeta+a")
            self.page.keyboard.type(step.text)
            self.letters += len(step.text)


def ask(phone: Phone, address: str, steps: Sequence[Step], answer: Name) -> tuple[float, Hand]:
    """Seconds from the icon to the answer, and what it took."""
    begun = time.monotonic()
    phone.page.goto("about:blank")
    open_app(phone.page, address)
    hand = Hand(phone)
    for step, after in zip(steps, [*steps[1:], None], strict=True):
        wait_true(phone.page, ARRIVED)
        hand.do(step)
        end = told(phone.page, answer) if after is None else hand.found(after)
        try:  # a touch that came while the screen still moved is made once more
            end.wait_for(state="attached", timeout=1000 * SOON)
        except Late:
            if step.role != "textbox" and hand.found(step).count():
                hand.do(step)
            if after is None:
                hand.look_for(end)
    return time.monotonic() - begun, hand


def main() -> None:
    """Ask one question after the other, and print."""
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        built = Path(folder) / "site"
        site.write(site.best_files(bundle.app_files(places.PACKAGE), print), built, compress=False)
        host, program = Host(built), compiled.browser()
        phone = Phone(playwright, program or "", Path(folder) / "profile")
        phone.profile.mkdir()
        try:
            open_app(phone.start(), host.address)
            press(phone.page, "Look round an example pond")
            phone.page.wait_for_url(f"**/pond/{EXAMPLE}", timeout=BOOT)
            for title, steps, answer in ASKED[int(sys.argv[1]) if sys.argv[1:] else 0 :]:
                took, hand = ask(phone, host.address, steps, answer)
                counts = f"{hand.touches} | {hand.wipes} | {hand.letters}"
                print(f"| {title} | {counts} | {took:.1f} |", flush=True)
        finally:
            phone.kill()
            host.stop()


if __name__ == "__main__":
    main()
