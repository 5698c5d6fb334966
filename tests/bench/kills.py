"""Kill the browser at random moments, and count what was acknowledged and is lost.

Run from the project's folder: `.venv/bin/python tests/bench/kills.py [kills] [seed]`. It is killed
while it saves; with `--switch` while it switches the units of forms that are half typed, and then
half of the times only its worker; with `--pad` while fills are timed, before Python is there and
after it. One profile is kept through all kills, as one phone would; the exit status is 1 if
anything is lost.
"""

import random
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))
sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

import pad_kills
from phones import Host, Phone
from playwright.sync_api import sync_playwright
from saver import Tally, host_of_saver, kill_often
from switches import switch_often
from there import There, host_of_deeds

from pondapp.web import bundle, compiled, places, site

EVERY = 20  # kills between two lines


def tell(tally: Tally | pad_kills.Tally) -> None:
    """A line now and then."""
    if tally.kills % EVERY == 0:
        print(tally, flush=True)


def host_of_app(folder: Path) -> Host:
    """Serves the app."""
    host = Host(folder)
    host.deploy(site.best_files(bundle.app_files(places.PACKAGE), print))
    return host


def main() -> int:
    """Print the figures."""
    numbers = [int(word) for word in sys.argv[1:] if not word.startswith("--")]
    switch, pad = "--switch" in sys.argv, "--pad" in sys.argv
    kills = numbers[0] if numbers else 20 if switch else 100 if pad else 200
    seed = numbers[1] if len(numbers) > 1 else random.randrange(10**6)
    program = compiled.browser()
    if program is None:
        sys.exit("no browser found: install chromium")
    begun = time.monotonic()
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        made = host_of_deeds if switch else host_of_app if pad else host_of_saver
        host = made(Path(name) / "site")
        phone = Phone(playwright, program, Path(name) / "profile")
        phone.profile.mkdir()
        try:
            if switch:
                switched = switch_often(There(phone, host), kills, seed)
                told, lost = str(switched), switched.wrong
            elif pad:
                timed = pad_kills.kill_often(phone, host.address, kills, seed, tell)
                told, lost = str(timed), timed.wrong
            else:
                tally = kill_often(phone, host, kills, seed, tell)
                told = f"{tally}; {len(tally.readings)} of the saves were readings"
                lost = tally.lost
        finally:
            phone.kill()
            host.stop()
    print(f"{told}; {(time.monotonic() - begun) / 60:.0f} min, seed {seed}")
    for one in lost:
        print("LOST:", one)
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
