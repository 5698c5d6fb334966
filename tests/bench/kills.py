"""Kill the browser at random moments while it saves, and count what was acknowledged and is lost.

Run from the project's folder: `.venv/bin/python tests/bench/kills.py [kills] [seed]`. One profile
is kept through all kills, as one phone would; the exit status is 1 if anything is lost.
"""

import random
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from phones import Phone
from playwright.sync_api import sync_playwright
from saver import Tally, host_of_saver, kill_often

from pondapp.web import compiled

EVERY = 20  # kills between two lines


def tell(tally: Tally) -> None:
    """A line now and then."""
    if tally.kills % EVERY == 0:
        print(tally, flush=True)


def main() -> int:
    """Print the figures."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(10**6)
    program = compiled.browser()
    if program is None:
        sys.exit("no browser found: install chromium")
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        host = host_of_saver(Path(name) / "site")
        phone = Phone(playwright, program, Path(name) / "profile")
        phone.profile.mkdir()
        try:
            tally = kill_often(phone, host, kills, seed, tell)
        finally:
            phone.kill()
            host.stop()
    minutes = (time.monotonic() - begun) / 60
    print(
        f"{tally}; {len(tally.readings)} of the saves were readings; {minutes:.0f} min, seed {seed}"
    )
    for one in tally.lost:
        print("LOST:", one)
    return 1 if tally.lost else 0


if __name__ == "__main__":
    sys.exit(main())
