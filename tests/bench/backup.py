"""Make, look at and restore the largest backup that a device can hold; print seconds and memory.

Run from the project's folder: `.venv/bin/python tests/bench/backup.py [readings] [--no-browser]`
(100,000 without it). Beside so many readings the device holds as many photos as it may, and a
damaged text of 20 MB. It is done in this Python and in the browser's, with the browser's storage.
"""

import asyncio
import base64
import sys
import time
from collections.abc import AsyncIterator
from datetime import UTC, datetime, timedelta
from typing import Any

from pondapp.models.entry import Entry, Photo
from pondapp.models.limits import MOST_PHOTOS
from pondapp.models.reading import MeterReading, Reading
from pondapp.store import backup, backup_file
from pondapp.store.browser import files as browser_files

NOW = datetime(2026, 5, 6, tzinfo=UTC)
PHOTO = base64.b64encode(b"\xff\xd8\xff" + bytes(range(256)) * 351).decode()  # 90 kB
DAMAGED = '{"schema_version": 1, "id": "large", "na' + "x" * 20_000_000
BROWSER = sys.platform == "emscripten"


class Memory:
    """A device of this Python."""

    def __init__(self) -> None:
        self.texts: dict[str, str] = {}

    async def keys(self, prefix: str = "") -> list[str]:
        return sorted(key for key in self.texts if key.startswith(prefix))

    async def get(self, key: str) -> str | None:
        return self.texts.get(key)

    async def get_many(self, keys: list[str]) -> dict[str, str]:
        return {key: self.texts[key] for key in keys if key in self.texts}

    async def apply(self, changes: dict[str, str | None], expected: Any = None, *_: Any) -> None:
        assert all(self.texts.get(key) == text for key, text in (expected or {}).items())
        for key, text in changes.items():
            if text is None:
                self.texts.pop(key, None)
            else:
                self.texts[key] = text


def memory() -> int:
    """What this Python holds, or has held at most, in MB."""
    if BROWSER:
        import pyodide_js

        return round(pyodide_js._module.HEAP8.length / 1e6)
    import resource

    return round(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3)


async def fill(store: Any, readings: int) -> None:
    """Write the log of a lifetime."""
    begun: dict[str, str | None] = {"pond/large": DAMAGED}
    for number in range(MOST_PHOTOS):
        photo = Entry(
            id=f"photo{number}", pond_id="p", when=NOW - timedelta(hours=number),
            what=Photo(jpeg=PHOTO),
        )  # fmt: skip
        begun[f"entry/{photo.storage_key()}"] = photo.model_dump_json()
    await store.apply(begun)
    first = Reading(
        id="r", pond_id="p", place_id="lip", place_name="Slate lip at the south side", band=None,
        taken_at=NOW, method=MeterReading(flow_m3_s=1e-3, tolerance=0.05), note="windy, " * 40,
    )  # fmt: skip
    for start in range(0, readings, 5000):
        some: dict[str, str | None] = {}
        for number in range(start, min(start + 5000, readings)):
            at = NOW - timedelta(hours=number)
            one = first.model_copy(update={"id": f"r{number}", "taken_at": at})
            some[f"reading/{one.storage_key()}"] = one.model_dump_json()
        await store.apply(some)


async def report(store: Any, readings: int) -> dict[str, float]:
    """Seconds of each step and memory after it, by name."""
    found: dict[str, float] = {"memory before [MB]": memory()}
    begun = time.perf_counter()

    def note(step: str) -> None:
        nonlocal begun
        found[f"{step} [s]"] = round(time.perf_counter() - begun, 1)
        found[f"memory after: {step} [MB]"] = memory()
        begun = time.perf_counter()

    await fill(store, readings)
    note("filling the device")
    parts, size = [], 0
    async for piece in backup.everything(store, NOW):
        size += len(piece)
        parts.append(browser_files.blob([piece]) if BROWSER else piece)
    file = browser_files.blob(parts) if BROWSER else b"".join(parts)
    found["file [MB]"] = round(size / 1e6, 1)
    note("writing it")

    def pieces() -> AsyncIterator[bytes]:
        return browser_files.pieces(file) if BROWSER else backup_file.pieces_of(file)

    look = await backup.preview(store, pieces())
    note("looking at it where all is there")
    assert look.complete
    assert look.count("same", "reading") == readings
    await store.apply(dict.fromkeys(await store.keys()))
    note("clearing the device")
    look = await backup.preview(store, pieces())
    note("looking at it on an empty device")
    assert look.count("new") == readings + MOST_PHOTOS
    await backup.restore(store, look, "replace", NOW)
    note("restoring it")
    assert len(await store.keys("reading/")) == readings
    assert await store.get("pond/large") == DAMAGED
    assert await backup.can_undo_restore(store) == NOW
    await backup.undo_restore(store, NOW)
    note("taking it back")
    assert not [key for key in await store.keys() if not key.startswith("before/")]
    return found


PROGRAM = '''"""Hand the figures to the page."""

import asyncio
import json

import js

import large_backup
from pondapp.store.browser.browser_store import BrowserStore


async def run():
    try:
        found = await large_backup.report(BrowserStore(), {readings})
    except BaseException as error:
        js.postMessage("error: " + repr(error))
        raise
    js.postMessage(json.dumps(found))


running = asyncio.ensure_future(run())
'''


def main() -> None:
    """Print both columns."""
    import in_browser

    numbers = [int(word) for word in sys.argv[1:] if word.isdecimal()]
    readings = numbers[0] if numbers else 100_000
    here = asyncio.run(report(Memory(), readings))
    there: dict[str, float] = {}
    if "--no-browser" not in sys.argv:
        there = in_browser.figures(
            PROGRAM.format(readings=readings), {"large_backup.py": in_browser.source(__file__)}, 900
        )
    print(f"{'':48}{'CPython':>10}{'browser':>10}")
    for name, value in here.items():
        print(f"{name:48}{value:10g}{there.get(name, float('nan')):10g}")


if __name__ == "__main__":
    main()
