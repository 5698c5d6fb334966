"""A thumb that times fills, and a browser that is killed at any moment of it."""

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

from phones import Phone, Thumb, counted, wait_true
from timed import HELD, OUTLET, PAUSE, SHORT, fills, in_app, stopwatch_at, wait_kept

MOST = 60  # fills at one place, until it begins anew
CLOSE = 0.0015  # seconds
SHOWS = "document.getElementById('pad-do').textContent"


@dataclass
class Tally:
    """What was timed before all kills so far, and what was missing or doubled after one."""

    kills: int = 0
    presses: int = 0
    timed: int = 0
    wrong: list[str] = field(default_factory=list)

    def __str__(self) -> str:
        return (
            f"{self.kills} kills while fills were timed, {self.presses} presses kept, "
            f"{self.timed} fills, {len(self.wrong)} lost or doubled"
        )


def same(found: list[float], true: list[float]) -> bool:
    """Whether these are the same times in the same order."""
    return len(found) == len(true) and all(
        abs(one - other) < CLOSE for one, other in zip(found, true, strict=True)
    )


def _times(presses: list[dict[str, Any]]) -> list[float]:
    """The fills that this page saw begin and end."""
    pairs = pairwise(presses)
    return [
        (b["t"] - a["t"]) / 1000 for a, b in pairs if (a["kind"], b["kind"]) == ("start", "stop")
    ]


def _one_round(phone: Phone, address: str, chance: random.Random) -> list[dict[str, Any]]:
    """Press, with Python held back or there, or let in meanwhile; the presses that are kept."""
    page = phone.page
    held = chance.random() < 0.6
    if held:
        page.add_init_script(HELD)
    thumb: Thumb = stopwatch_at(page, address + OUTLET)
    if not held and chance.random() < 0.7:
        page.wait_for_selector("html[data-app=started]", state="attached")
    page.wait_for_timeout(chance.uniform(0, 300))
    if page.evaluate(SHOWS) == "Stop":  # what ran when the last one was killed: no fill
        thumb.press()
        page.wait_for_timeout(PAUSE)
    presses = chance.randint(1, 4)
    let_in = chance.randrange(presses) if held and chance.random() < 0.7 else -1
    for number in range(presses):
        if number == let_in:
            page.evaluate("letPythonIn()")
        before = len(counted(page))
        thumb.press()
        last = wait_kept(page, before + 1)
        if number < presses - 1:
            page.wait_for_timeout(SHORT if last[-1]["kind"] == "start" else PAUSE)
    wait_true(page, "pondappPad.presses.every((one) => one.kept)")
    return counted(page)


def kill_often(
    phone: Phone, address: str, kills: int, seed: int, tell: Callable[[Tally], Any] = lambda _: None
) -> Tally:
    """Kill the browser at random moments after a press that is kept; look at what is there."""
    chance, tally = random.Random(seed), Tally()
    true: list[float] = []
    page = in_app(phone, address)
    phone.kill()
    while tally.kills < kills:
        phone.start()
        presses = _one_round(phone, address, chance)
        # At once, while Python takes it, or while it tells so.
        phone.page.wait_for_timeout(chance.choice((0, 0, chance.uniform(0, 400))))
        phone.kill()
        tally.kills += 1
        tally.presses += len(presses)
        new = _times(presses)
        tally.timed += len(new)
        true += new
        page = in_app(phone, address)
        found = fills(page)
        if not same(found, true):
            tally.wrong.append(f"after kill {tally.kills} (seed {seed}): {found}, timed {true}")
            true = found
        if len(true) > MOST:
            phone.forget(address)
            true = []
        phone.kill()
        tell(tally)
    return tally
