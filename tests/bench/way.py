"""The whole way from the icon to a saved reading: how many touches, and how long.

Run from the project's folder: `.venv/bin/python tests/bench/way.py [visits] [engine ...]`; what has
to be installed is said in engines.py. Each visit has an empty profile in which a visit before has
left the app; there is no server. It opens the first screen, touches what leads to the stopwatch,
times three fills of two seconds each and saves them, each touch at the place where its button is
and as soon as it is there. The tree of roles and names is on, to know where.
"""

import sys
import time
from contextlib import suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from engines import ENGINES, Engine, Refused
from first_press import HEIGHT, LONGEST, Host, asked, built, keep_app, open_again, tell

FILLS = 3
FILL = 2.0  # seconds
BOUNCE = 1.05  # seconds after a stop in which a press would not count
# The middle of the button of a name, of the page or of the screen's tree; nothing over it.
MIDDLE = """(() => {
  document.querySelector("flt-semantics-placeholder")?.click();
  const named = (node) => (node.getAttribute("aria-label") || node.textContent).includes("@NAME@");
  const found = [...document.querySelectorAll("a, button, [role=button]")].filter(named).pop();
  const box = found?.getBoundingClientRect();
  if (!box?.width) return null;
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  return found.contains(document.elementFromPoint(x, y)) ? [x, y] : null;
})()"""
RUNNING = "document.documentElement.dataset.pad === 'running'"
THERE = "Boolean(document.documentElement.dataset.pad)"
SAVED = "!location.hash.endsWith('/none/outlet')"


class Finger:
    """Touches what is there, and counts."""

    def __init__(self, engine: Engine) -> None:
        self.engine, self.touches = engine, 0

    def touch(self, x: float, y: float) -> float:
        """Touch a place; the moment."""
        self.engine.press(x, y)
        self.touches += 1
        return time.monotonic()

    def touch_button(self, name: str) -> None:
        """Touch a button as soon as it is there."""
        found = self.engine.wait(MIDDLE.replace("@NAME@", name), LONGEST)
        if not found:
            raise SystemExit(f"never there: {name}")
        self.touch(*found)

    def fill(self, x: float, y: float) -> None:
        """Time one fill."""
        began = self.touch(x, y)
        self.engine.wait(RUNNING, LONGEST)
        time.sleep(max(0.0, began + FILL - time.monotonic()))
        ended = self.touch(x, y)
        self.engine.wait(f"!({RUNNING})", LONGEST)
        time.sleep(max(0.0, ended + BOUNCE - time.monotonic()))


def way(engine: Engine, address: str) -> tuple[float, int]:
    """Milliseconds and touches from the icon to the saved reading."""
    width, height = engine.tell("[innerWidth, innerHeight]")
    finger = Finger(engine)
    begun = time.monotonic()
    engine.visit(address)
    finger.touch_button("Measure a flow")
    engine.wait(THERE, LONGEST)
    for _ in range(FILLS):
        finger.fill(width / 2, height * HEIGHT)
    finger.touch_button("Save in the log")
    if not engine.wait(SAVED, LONGEST):
        raise SystemExit("never saved")
    return (time.monotonic() - begun) * 1000, finger.touches


def visits_of(name: str, host: Host, folder: Path, visits: int) -> None:
    """Go the way so often, and print."""
    found, touches = [], 0
    for number in range(visits):
        engine = ENGINES[name](folder / f"way-{number}")
        engine.start()
        try:
            keep_app(name, engine, host.address)
            host.stop()
            open_again(engine)
            took, touches = way(engine, host.address)
            found.append(took)
        finally:
            with suppress(Refused):
                engine.end()
            if host.over.is_set():
                host.start()
    tell(name, f"{touches} touches", found)


def main() -> None:
    """Build, and go the way with one engine after the other."""
    visits, engines = asked(3)
    with built() as (folder, host):
        for engine in engines:
            visits_of(engine, host, folder / engine, visits)


if __name__ == "__main__":
    main()
