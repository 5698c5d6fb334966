"""A page that saves without a pause, and a browser that is killed while it does."""

import json
import random
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from phones import BOOT, Host, Phone
from playwright.sync_api import Page

from pondapp.web import bundle, places, site

# The app's own session and storage, saving as fast as they can and telling of each save.
SAVER = b'''"""Save without a pause."""

import asyncio
import itertools
import json
from datetime import UTC, datetime, timedelta

import flet_js

from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.store import backup
from pondapp.store.browser.browser_store import BrowserStore
from pondapp.store.merging import following
from pondapp.state.session import Session


def pond(place: str, number: int) -> Pond:
    return Pond(id=place, name=str(number), water=TypedVolume(volume_m3=1))


def clock(number: int) -> datetime:
    """A clock that somebody keeps setting back and forth."""
    return datetime.now(UTC) - timedelta(days=number * 37 % 400)


async def save_for_ever() -> None:
    session = Session(BrowserStore())
    await session.load()
    await session.logs.read("p")
    found = {
        "draft": session.drafts["d"].texts["n"] if "d" in session.drafts else "-1",
        "pond": session.ponds["p"].name if "p" in session.ponds else "-1",
        "readings": sorted(int(one.note) for one in session.logs.readings.values()),
        "restored": [session.ponds[k].name for k in ("a", "b", "c") if k in session.ponds],
        "troubles": [str(error) for error in session.device.load_errors],
    }
    print("FOUND " + json.dumps(found))
    begin = 1 + max(int(found["draft"]), int(found["pond"]), *found["readings"], -1)
    for number in itertools.count(begin):
        await session.drafts.save(Draft(id="d", texts={"n": str(number), "long": "x" * 3000}))
        print(f"SAVED draft {number}")
        await session.ponds.save(pond("p", number))
        print(f"SAVED pond {number}")
        await session.logs.save_reading(
            Reading(
                id=f"r{number}", pond_id="p", place_id="lip", place_name="Lip", note=str(number),
                taken_at=clock(number), band=None,
                method=MeterReading(flow_m3_s=1e-3, tolerance=0.05),
            )
        )
        print(f"SAVED reading {number}")
        if number % 4 == 0:
            known = session.ponds
            three = tuple(
                following(pond(place, number), known[place]) if place in known
                else pond(place, number)
                for place in "abc"
            )
            head = {"format": "pondapp-backup", "format_version": 2, "holds": "pond"}
            lines = [{**head, "saved_at": datetime.now(UTC).isoformat()}]
            lines += [{"key": f"pond/{one.id}", "document": one.model_dump()} for one in three]
            file = "\\n".join(json.dumps(line) for line in lines).encode()
            look = await backup.preview(session.store, file)
            await backup.restore(session.store, look, "merge", datetime.now(UTC))
            for one in three:
                session.apply_remote_change("pond", one.id, one)
            print(f"SAVED restored {number}")


async def start_connection(_send: object) -> None:
    """No screen is connected: this is about the storage."""


flet_js.start_connection = start_connection
saving = asyncio.ensure_future(save_for_ever())
'''

# A page without a screen: Python and the storage start in a third of the time.
SAVER_PAGE = {
    "saver.html": b"<!DOCTYPE html><title>Saver</title><script src='saver.js'></script>",
    "saver.js": b"new Worker('worker.js', { type: 'module' })"
    b".postMessage({ documentUrl: document.URL, tab: 'saver' });",
}

SHORTEST, LONGEST = 30, 900  # ms between the start of saving and the kill
KINDS = ("draft", "pond", "restored")


def host_of_saver(folder: Path) -> Host:
    """Serves the page that saves, with the app's own worker, session and storage."""
    files = {**bundle.app_files(places.PACKAGE), "main.py": SAVER}
    site.write(site.site_files(files), folder, compress=False)
    host = Host(folder)
    host.deploy(SAVER_PAGE)
    return host


class Told:
    """What one run of the page has told so far."""

    def __init__(self, page: Page) -> None:
        self.found: dict[str, Any] | None = None
        self.saves = 0
        self.saved = dict.fromkeys(KINDS, -1)
        self.readings: set[int] = set()
        page.on("console", lambda message: self.hear(message.text))

    def hear(self, text: str) -> None:
        if text.startswith("FOUND "):
            self.found = json.loads(text[6:])
        elif text.startswith("SAVED "):
            self.saves += 1
            _, kind, number = text.split()
            if kind == "reading":
                self.readings.add(int(number))
            else:
                self.saved[kind] = int(number)


@dataclass
class Tally:
    """What was acknowledged before all kills so far, and what was missing after one of them."""

    kills: int = 0
    saves: int = 0
    saved: dict[str, int] = field(default_factory=lambda: dict.fromkeys(KINDS, -1))
    readings: set[int] = field(default_factory=set)
    lost: list[str] = field(default_factory=list)

    def compare(self, found: dict[str, Any]) -> None:
        """Note what a start found less of than was acknowledged."""
        after = f"after kill {self.kills}"
        self.lost += [f"{one} could not be read {after}" for one in found["troubles"]]
        for kind in ("draft", "pond"):
            if int(found[kind]) < self.saved[kind]:
                self.lost.append(f"{kind} {self.saved[kind]} is {found[kind]} {after}")
        if missing := self.readings - set(found["readings"]):
            self.lost.append(f"readings {sorted(missing)} are missing {after}")
        restored = [int(number) for number in found["restored"]]
        whole = not restored or (len(restored) == 3 and len(set(restored)) == 1)
        if not whole or min(restored, default=-1) < self.saved["restored"]:
            self.lost.append(f"restore {self.saved['restored']} is {restored} {after}")

    def add(self, told: Told) -> None:
        """Count what was acknowledged until a kill."""
        self.kills += 1
        self.saves += told.saves
        self.readings |= told.readings
        for kind, number in told.saved.items():
            self.saved[kind] = max(self.saved[kind], number)

    def __str__(self) -> str:
        return (
            f"{self.kills} kills while saving, {self.saves} saves acknowledged, "
            f"{len(self.lost)} lost"
        )


def kill_often(
    phone: Phone, host: Host, kills: int, seed: int, tell: Callable[[Tally], Any] = lambda _: None
) -> Tally:
    """Kill the browser at random moments while it saves; look after each at what is there."""
    chance, tally = random.Random(seed), Tally()
    while True:
        page = phone.start()
        told = Told(page)
        page.goto(f"{host.address}saver.html")
        deadline = time.monotonic() + BOOT / 1000
        while told.found is None:
            assert time.monotonic() < deadline, "the page that saves did not start"
            page.wait_for_timeout(20)
        tally.compare(told.found)
        if tally.kills >= kills:
            phone.kill()
            return tally
        page.wait_for_timeout(chance.uniform(SHORTEST, LONGEST))
        phone.kill()
        tally.add(told)
        tell(tally)
