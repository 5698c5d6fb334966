"""Live histories by chance, and print what was acknowledged and is lost.

Run from the project's folder: `.venv/bin/python tests/bench/histories.py [histories] [first seed]`.
They are lived on this computer: the app's own session, units, links and documents, two tabs over
one storage in memory, with faults put in. With `--chromium` they are lived in Chromium, with its
storage and the app's own Python, and are shorter. The deeds of a seed are always the same; the exit
status is 1 if anything is lost.
"""

import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))
sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

from histories import FAULTS, Here, Model, live
from phones import Phone
from playwright.sync_api import sync_playwright
from there import There, host_of_deeds

from pondapp.state import tabs
from pondapp.web import compiled

STEPS, STEPS_THERE = 60, 14
EVERY, EVERY_THERE = 100, 10  # histories between two lines


def here(tell: Callable[[int, Model], None], seeds: range) -> None:
    """Live them without a browser."""
    tabs.PAUSE = 0.001
    for seed in seeds:
        device = Here()
        tell(seed, live(device, random.Random(seed), STEPS))
        device.close()


def there(tell: Callable[[int, Model], None], seeds: range) -> None:
    """Live them in Chromium."""
    program = compiled.browser()
    if program is None:
        sys.exit("no browser found: install chromium")
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        host = host_of_deeds(Path(name) / "site")
        phone = Phone(playwright, program, Path(name) / "profile")
        phone.profile.mkdir()
        try:
            device = There(phone, host)
            for seed in seeds:
                device.anew()
                tell(seed, live(device, random.Random(seed), STEPS_THERE))
        finally:
            phone.kill()
            host.stop()


def main() -> int:
    """Print the figures."""
    numbers = [int(word) for word in sys.argv[1:] if not word.startswith("--")]
    in_browser = "--chromium" in sys.argv
    histories = numbers[0] if numbers else 30 if in_browser else 500
    first = numbers[1] if len(numbers) > 1 else 0
    begun, acknowledged, lost = time.monotonic(), 0, 0
    tried: Counter[tuple[str, str]] = Counter()

    def tell(seed: int, model: Model) -> None:
        nonlocal acknowledged, lost
        tried.update(model.tried)
        acknowledged += model.acknowledged
        lost += bool(model.lost)
        for one in model.lost:
            print(f"LOST in history {seed}, {one}", flush=True)
        if (seed + 1 - first) % (EVERY_THERE if in_browser else EVERY) == 0:
            print(f"{seed + 1 - first} histories, {acknowledged} deeds acknowledged", flush=True)

    (there if in_browser else here)(tell, range(first, first + histories))
    print("tried: | deed |", " | ".join(FAULTS), "|")
    for deed in sorted({deed for deed, _ in tried}):
        print(f"| {deed} |", " | ".join(str(tried[deed, fault]) for fault in FAULTS), "|")
    print(
        f"{histories} histories of {STEPS_THERE if in_browser else STEPS} steps from seed {first}, "
        f"{acknowledged} deeds acknowledged, {lost} with a loss; "
        f"{(time.monotonic() - begun) / 60:.1f} min"
    )
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
