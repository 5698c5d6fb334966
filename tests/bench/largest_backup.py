"""Make and restore the largest backup in a browser, as a user does; print seconds and memory.

Run from the project's folder: `.venv/bin/python tests/bench/largest_backup.py [readings] [site]`
(100,000 without it; a site that is built already saves building one). What `backup.py` fills a
device with is put into the storage of a browser profile, saved on the backup screen, and taken in
on other profiles: added and in the place of what is there. Every stored text is compared, and at
the end the browser is killed at several moments of a restore.
"""

import json
import os
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from largest import METER, Kept, give_path, kept_on, put, texts, word_shown
from phones import Host, Phone, go, open_app, press
from playwright.sync_api import Page, Playwright, sync_playwright

from pondapp.models.limits import MOST_PHOTOS
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.web import bundle, compiled, places, site

LONGEST = 900.0  # s that a step may take
MOMENTS = ("taken in: 2", "taken in: 5", "taken in: 9", "here now is being read")
"""Words at which the browser is killed: a share of what is written, or that all of it is."""


class Renderers:
    """The memory of a browser's pages, with their workers and all that Python holds there."""

    def __init__(self, phone: Phone) -> None:
        self.phone = phone

    def _each(self) -> Iterator[Path]:
        for folder in Path("/proc").iterdir():
            try:
                if not folder.name.isdigit() or self.phone.process is None:
                    continue
                if os.getpgid(int(folder.name)) != self.phone.process.pid:
                    continue
                if b"--type=renderer" in (folder / "cmdline").read_bytes():
                    yield folder
            except (OSError, ProcessLookupError):
                continue

    def busy(self) -> float:
        """Seconds for which the processor was at work on the whole browser so far."""
        ticks = 0
        for folder in Path("/proc").iterdir():
            if not folder.name.isdigit() or self.phone.process is None:
                continue
            with suppress(OSError):
                if os.getpgid(int(folder.name)) == self.phone.process.pid:
                    words = (folder / "stat").read_text().rpartition(")")[2].split()
                    ticks += int(words[11]) + int(words[12])
        return ticks / os.sysconf("SC_CLK_TCK")

    def forget(self) -> None:
        """Begin to count anew what is the most."""
        for folder in self._each():
            (folder / "clear_refs").write_text("5")

    def most(self) -> int:
        """The most that one of them held since then [MB]."""
        found = [0]
        for folder in self._each():
            for line in (folder / "status").read_text().splitlines():
                if line.startswith("VmHWM:"):
                    found.append(round(int(line.split()[1]) / 1000))
        return max(found)


class Steps:
    """Times what is done on a phone, and prints a line for each step."""

    def __init__(self, phone: Phone) -> None:
        self.phone = phone
        self.memory = Renderers(phone)
        self.seconds: dict[str, float] = {}

    @contextmanager
    def step(self, name: str) -> Iterator[None]:
        """One step; how long the screen and Python gave no sign of life in it is told too."""
        self.memory.forget()
        self.phone.page.evaluate("meter.forget()")
        begun, busy = time.monotonic(), self.memory.busy()
        yield
        self.seconds[name] = time.monotonic() - begun
        busy = self.memory.busy() - busy
        meter = self.phone.page.evaluate("meter.read()")
        print(
            f"{name:40}{self.seconds[name]:8.1f}{busy:8.1f}{self.memory.most():8d}"
            f"{meter['python'] / 1000:10.1f}{meter['screen'] / 1000:8.1f}  {meter['words']}",
            flush=True,
        )


def start(phone: Phone) -> Page:
    """A browser of this phone's profile."""
    page = phone.start()
    page.add_init_script(METER)
    page.context.set_default_timeout(LONGEST * 1000)
    return page


def restore(steps: Steps, page: Page, file: Path, how: str) -> None:
    """From the backup screen, as far as the words that it is done."""
    with steps.step(f"looking at it, to {how}"):
        give_path(page, "Restore from a file", file)
        word_shown(page, "Saved ", LONGEST)
    if how == "replace":
        press(page, "Replace what is here", "radio")
    with steps.step(f"restoring it: {how}"):
        press(page, "Restore", exact=True)
        word_shown(page, "Take back the restore", LONGEST)


def compare(what: str, kept: Kept, wanted: Kept) -> None:
    """Say whether every text is there, letter by letter."""
    same = "equal" if kept == wanted else f"NOT EQUAL: {wanted.against(kept)}"
    print(
        f"    {what}: {kept.documents} documents, {kept.letters / 1e6:.0f} MB, {same}", flush=True
    )


def main() -> None:
    """Do it and print."""
    words = sys.argv[1:]
    readings = next((int(word) for word in words if word.isdecimal()), 100_000)
    built = next((Path(word) for word in words if not word.isdecimal()), None)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name:
        if built is None:
            built = Path(name) / "site"
            site.write(site.site_files(bundle.app_files(places.PACKAGE)), built, compress=False)
        host = Host(built)
        try:
            with sync_playwright() as playwright:
                report(playwright, host.address, Path(name), readings)
        finally:
            host.stop()


def report(playwright: Playwright, address: str, folder: Path, readings: int) -> None:
    """The steps on three profiles."""
    program = compiled.browser() or playwright.chromium.executable_path
    pairs = texts(readings)
    file = folder / "backup.jsonl"
    phones = [Phone(playwright, program, folder / which) for which in ("first", "other", "third")]
    for phone in phones:
        phone.profile.mkdir()
    first, other, third = phones
    print(f"{'':40}{'s':>8}{'at work':>8}{'MB':>8}{'Python s':>10}{'page s':>8}  said", flush=True)
    try:
        original = save(Steps(first), address, pairs, readings, file)
        first.kill()
        take_in(Steps(other), address, file, original)
        other.kill()
        killed(Steps(third), address, file, original)
    finally:
        for phone in phones:
            phone.kill()


def save(steps: Steps, address: str, pairs: dict[str, str], readings: int, file: Path) -> Kept:
    """Fill a device and save its backup; all that it holds."""
    page = start(steps.phone)
    open_app(page, address)
    put(page, pairs)
    page.goto("about:blank")
    with steps.step("starting the app, to the first screen"):
        open_app(page, address)
    with steps.step("until all logs are read"):
        word_shown(page, f"{readings + MOST_PHOTOS} entries of your logs", LONGEST)
    go(page, "/backup")
    with steps.step("saving the backup file"):
        with page.expect_download() as download:
            press(page, "Save a backup file")
        download.value.save_as(file)
    print(f"    the file: {file.stat().st_size / 1e6:.0f} MB", flush=True)
    original = kept_on(page)
    compare("what was put there", original.without("quarantine"), Kept.of(pairs))
    with steps.step("looking at it where all is there"):
        give_path(page, "Restore from a file", file)
        word_shown(page, "Saved ", LONGEST)
    page.goto(f"{address}?safe")
    page.wait_for_selector("html[data-app=safe]", state="attached")
    with steps.step("saving it from the safe start"):
        with page.expect_download() as download:
            page.get_by_role("button", name="Save a backup").click()
        download.value.save_as(file.with_suffix(".safe"))
    lines = map(json.loads, file.with_suffix(".safe").open(encoding="utf-8"))
    compare("in its file", Kept.of({one["key"]: one["text"] for one in lines if "key" in one}),
            original)  # fmt: skip
    return original


def take_in(steps: Steps, address: str, file: Path, original: Kept) -> None:
    """A new device: replace, take back, add, and replace once more where all is another."""
    page = start(steps.phone)
    open_app(page, address)
    go(page, "/backup")
    empty = kept_on(page)
    restore(steps, page, file, "replace")
    compare("replaced", kept_on(page), original)
    with steps.step("taking it back"):
        press(page, "Take back the restore")
        word_shown(page, "Everything is as it was before", LONGEST)
    compare("taken back", kept_on(page).without("quarantine"), empty)
    page.wait_for_timeout(5000)  # the words pass
    restore(steps, page, file, "merge")
    compare("added", kept_on(page), original)


def killed(steps: Steps, address: str, file: Path, original: Kept) -> None:
    """The browser is killed in the middle of replacing: all is old, or all is new."""
    for number, moment in enumerate(MOMENTS):
        page = start(steps.phone)
        open_app(page, address)
        own = Pond(id=f"own{number}", name="Here", water=TypedVolume(volume_m3=1))
        put(page, {f"pond/{own.id}": own.model_dump_json()})
        page.goto("about:blank")
        open_app(page, f"{address}#/backup")
        before = kept_on(page)
        give_path(page, "Restore from a file", file)
        word_shown(page, "Saved ", LONGEST)
        press(page, "Replace what is here", "radio")
        press(page, "Restore", exact=True)
        word_shown(page, moment, LONGEST)
        steps.phone.kill()
        page = start(steps.phone)
        open_app(page, f"{address}#/backup")
        after = kept_on(page)
        states = {before: "all is old", original: "all is new"}
        offered = page.get_by_role("button", name="Take back").count()
        print(
            f'    killed at "{moment}": {states.get(after, "NEITHER OLD NOR NEW")}, '
            f"{after.documents} documents, taking back is {'' if offered else 'not '}offered",
            flush=True,
        )
        steps.phone.kill()


if __name__ == "__main__":
    main()
