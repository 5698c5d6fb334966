"""A share of the fuzz cases in the browser's own Python, where a mistake can end the whole app."""

import base64
import json
import time
from pathlib import Path
from typing import Any

import pytest
import test_fuzz
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from phones import BOOT, Host, Phone
from saver import SAVER_PAGE

from pondapp.web import bundle, places, site

CASES = 60
PROGRAM = b'''"""Take in what is in the pack, and use it."""

import asyncio
import base64
import json
import traceback
from pathlib import Path

import flet_js
import js

from memory_store import MemoryStore
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.store import backup, link
from used import NOW, use

HERE = Path(__file__).parent
BEGUN = json.loads((HERE / "begun.json").read_text())


async def take_in(file):
    store = MemoryStore()
    store.texts.update(BEGUN)
    try:
        look = await backup.preview(store, file)
    except PondError as error:
        assert str(error)
        assert store.texts == BEGUN
        return "refused"
    changed_something = await backup.restore(store, look, "merge", NOW)
    new = {key: text for key, text in store.texts.items() if BEGUN.get(key) != text}
    await use(other_with({key: text for key, text in new.items() if not key.startswith("before/")}))
    if changed_something:
        await backup.undo_restore(store, NOW)
    assert {key: store.texts[key] for key in BEGUN} == BEGUN
    return "taken in"


def other_with(texts):
    store = MemoryStore()
    store.texts.update(texts)
    return store


async def open_link(text):
    try:
        pond = link.unpacked(text)
    except PondError as error:
        assert str(error)
        return "refused"
    await use(other_with({f"pond/{pond.id}": pond.model_dump_json()}))
    return "taken in"


async def run():
    answer = await js.fetch(js.URL.new("cases.json", flet_js.documentUrl).href)
    for number, (kind, data) in enumerate(json.loads(await answer.text())):
        print(f"CASE {number}")
        try:
            found = await (take_in(base64.b64decode(data)) if kind == "file" else open_link(data))
        except BaseException:
            print("WRONG " + traceback.format_exc())
            raise
        print(f"ENDED {found}")
    print("DONE")


async def start_connection(_send):
    """No screen is connected."""


flet_js.start_connection = start_connection
running = asyncio.ensure_future(run())
'''


def cases() -> list[tuple[str, str]]:
    """The same each time: documents at the ends of what is allowed, and brackets without end."""
    found: list[tuple[str, str]] = []
    head = test_fuzz.GOOD[: test_fuzz.GOOD.index(b"\n") + 1]

    def add(file: bytes) -> None:
        found.append(("file", base64.b64encode(file).decode()))

    @settings(
        max_examples=CASES, database=None, phases=[Phase.generate], derandomize=True,
        suppress_health_check=list(HealthCheck), deadline=None,
    )  # fmt: skip
    @given(st.lists(test_fuzz.extremes(), min_size=1, max_size=3))
    def collect(lines: list[Any]) -> None:
        add(head + b"".join(json.dumps(line).encode() + b"\n" for line in lines))
        for line in lines:
            if line["key"].startswith("pond/"):
                found.append(("link", test_fuzz.well_packed(json.dumps(line["document"]))))

    collect()
    add(test_fuzz.GOOD)
    add(test_fuzz.GOOD_OLD)
    for part in ("[", '{"a":', '"[', "[]", "[[1],", '"', "\\"):
        brackets = part * 20_000
        add(brackets.encode())
        add(head + f'{{"key":"pond/deep","document":{{"a":{brackets}}}}}\n'.encode())
        add(test_fuzz.GOOD_OLD.replace(b'"windy"', brackets.encode()))
        found.append(("link", test_fuzz.well_packed(brackets)))
    return found


@pytest.mark.slow
def test_a_share_of_the_fuzz_cases_in_the_browser(phone: Phone, tmp_path: Path) -> None:
    beside = Path(test_fuzz.__file__).parent
    tried = cases()
    files = {
        **bundle.app_files(places.PACKAGE),
        "main.py": PROGRAM,
        "begun.json": json.dumps(test_fuzz.TEXTS).encode(),
        **{name: (beside / name).read_bytes() for name in ("memory_store.py", "used.py")},
    }
    site.write(site.best_files(files, print), tmp_path / "site", compress=False)
    host = Host(tmp_path / "site")
    host.deploy({**SAVER_PAGE, "cases.json": json.dumps(tried).encode()})
    told: list[str] = []
    page = phone.start()
    page.on("console", lambda message: told.append(message.text))
    page.goto(f"{host.address}saver.html")
    deadline = time.monotonic() + BOOT / 1000
    ended = 0
    while "DONE" not in told:
        page.wait_for_timeout(200)
        assert not any(line.startswith("WRONG") for line in told), (tried[ended], told[-3:])
        now = sum(line.startswith("ENDED") for line in told)
        if now > ended:
            ended, deadline = now, time.monotonic() + BOOT / 1000
        assert time.monotonic() < deadline, ("Python died, or does not end", tried[ended])
    host.stop()
    answers = [line for line in told if line.startswith("ENDED")]
    assert len(answers) == len(tried)
    assert answers.count("ENDED taken in") > 20
    assert answers.count("ENDED refused") > 20
