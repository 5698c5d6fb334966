"""What somebody sends or what became of a stored text: nothing of it ends the app or what is kept.

A desktop's Python survives thousands of brackets, the browser's does not: so this is tried there.
"""

import base64
import json
import time
import zlib
from pathlib import Path
from typing import Any

import pytest
from kept import kept
from phones import PATIENCE, Phone, give_file, go, load_again, open_app, press, shows
from playwright.sync_api import Page, expect

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.store import link

DEEP = "[" * 9000 + "]" * 9000


def stored(page: Page) -> dict[str, str]:
    return {key: text for key, text in kept(page).items() if not key.startswith("before/")}


def well_packed(text: str) -> str:
    squeeze = zlib.compressobj(9, wbits=-15, zdict=link.WORDS)
    data = squeeze.compress(text.encode()) + squeeze.flush()
    return link.VERSION + base64.urlsafe_b64encode(data).decode().rstrip("=")


def file(*lines: Any) -> bytes:
    head = {"format": "pondapp-backup", "format_version": 2, "holds": "everything"}
    whole = ({**head, "saved_at": "2026-05-06T07:08:00Z"}, *lines)
    return b"".join(
        (line if isinstance(line, str) else json.dumps(line)).encode() + b"\n" for line in whole
    )


def pond(pond_id: str, name: str) -> dict[str, Any]:
    water = {"kind": "typed", "volume_m3": 1}
    return {"schema_version": 1, "id": pond_id, "name": name, "water": water}


def note(note_id: str, when: str, text: str) -> tuple[str, str]:
    entry = {
        "schema_version": 1, "id": note_id, "pond_id": EXAMPLE, "when": when,
        "what": {"kind": "note"}, "note": text,
    }  # fmt: skip
    return f"entry/{EXAMPLE}/{note_id}", json.dumps(entry)


def be_at(page: Page, route: str) -> None:
    """Open a screen, unless it is the one that is open."""
    if not page.url.endswith(f"#{route}"):
        go(page, route)


def look_at(page: Page, data: bytes) -> None:
    be_at(page, "/backup")
    give_file(
        page,
        "Restore from a file",
        {"name": "b.jsonl", "mimeType": "application/json", "buffer": data},
    )


@pytest.mark.slow
def test_brackets_without_end_end_nothing(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    for plan in (DEEP, f'{{"id":"p","schema_version":1,"fed":{DEEP}}}'):
        page.goto("about:blank")
        open_app(page, f"{site_address}#/shared/{well_packed(plan)}")
        shows(page, "The link is cut off or damaged")
    press(page, "To the first screen")
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")

    old = '{"format":"pondapp-backup","format_version":1,"documents":%s}'
    for data in (DEEP.encode(), (old % DEEP).encode()):
        look_at(page, data)
        shows(page, "the file is damaged, or no backup of this app")
        press(page, "Close")
    deep = f'{{"key":"pond/deep","document":{{"id":"deep","name":{DEEP}}}}}'
    look_at(page, file(deep, DEEP, {"key": "pond/whole", "document": pond("whole", "Whole")}))
    shows(page, "new: 1")
    shows(page, "more than 64 brackets inside one another")
    shows(page, "The file is damaged or cut off")
    press(page, "Restore", exact=True)
    shows(page, "Take back the restore")

    kept(page, {"draft/deep": DEEP, f"reading/{EXAMPLE}/deep": f'{{"a":{DEEP}}}'})
    go(page, "/")
    load_again(page)
    shows(page, "draft/deep could not be read and was set aside")
    shows(page, "pond/deep could not be read and was set aside")
    shows(page, f"reading/{EXAMPLE}/deep could not be read and was set aside")
    expect(page.get_by_role("button", name="Whole")).to_be_attached()
    found = stored(page)
    assert found["draft/deep"] == found["quarantine/draft/deep/1"] == DEEP


@pytest.mark.slow
def test_a_date_at_the_end_of_the_calendar_blocks_nothing(
    phone: Phone, site_address: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TZ", "Etc/GMT+12")
    page = phone.start()
    open_app(page, site_address)
    assert page.evaluate("new Date().getTimezoneOffset()") == 720
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")
    far, last, first = (
        note("far", "9999-12-31T23:59:59-12:00", "far"),
        note("last", "2199-12-31T23:59:59Z", "the last day"),
        note("first", "1970-01-01T00:00:00Z", "the first day"),
    )
    kept(page, dict((far, last, first)))
    go(page, "/")
    load_again(page)
    shows(page, "entry/invented-example/far could not be read and was set aside")
    shows(page, "from 1970 to 2199")
    go(page, f"/pond/{EXAMPLE}")
    shows(page, "Log")
    go(page, f"/pond/{EXAMPLE}/log")
    shows(page, "the last day")
    go(page, f"/pond/{EXAMPLE}/log/charts")
    go(page, "/backup")
    with page.expect_download() as table:
        press(page, "Save the log as a table (CSV)")
    table.value.save_as(tmp_path / "log.csv")
    text = (tmp_path / "log.csv").read_text("utf-8-sig")
    assert "the last day" in text
    assert "1969-12-31" in text  # the first day, where clocks are twelve hours behind
    with page.expect_download() as download:
        press(page, "Save a backup file")
    download.value.save_as(tmp_path / "b.jsonl")
    assert "9999-12-31" in (tmp_path / "b.jsonl").read_text()  # kept, as it is
    key, text = note("farther", "9999-12-31T23:59:59-12:00", "from outside")
    look_at(page, file({"key": key, "document": json.loads(text)}))
    shows(page, "from 1970 to 2199")
    assert not [error for error in phone.errors if "Traceback" in error]


@pytest.mark.slow
@pytest.mark.parametrize("way", ["link", "file"])
def test_deleting_a_pond_from_outside_deletes_nothing_else(
    used_phone: Phone, site_address: str, way: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")
    loose = json.loads(note("loose", "2026-05-06T07:08:00Z", "of no pond")[1])
    draft = {"schema_version": 1, "id": "entry-else-new-note", "texts": {"note": "typed"}}
    mine = {
        "entry/none/loose": json.dumps({**loose, "pond_id": "none"}),
        "draft/entry-else-new-note": json.dumps(draft),
    }
    kept(page, mine)
    for word in ("none", "e"):
        page.goto("about:blank")
        if way == "link":
            text = well_packed(json.dumps(pond(word, f"Foreign {word}")))
            open_app(page, f"{site_address}#/shared/{text}")
            press(page, "Keep this pond")
            page.wait_for_url("**/pond/*")
        else:
            open_app(page, site_address)
            look_at(page, file({"key": f"pond/{word}", "document": pond(word, f"Foreign {word}")}))
            press(page, "Restore", exact=True)
            shows(page, "Take back the restore")
        taken = "own-none" if word == "none" else "e"
        be_at(page, f"/pond/{taken}")
        shows(page, f"Foreign {word}")
        before = stored(page)
        assert {f"pond/{taken}", *mine} <= before.keys()
        assert "pond/none" not in before
        press(page, "Delete this pond")
        deadline = time.monotonic() + PATIENCE / 1000
        while f"pond/{taken}" in stored(page):  # until the undo has passed
            assert time.monotonic() < deadline
            page.wait_for_timeout(500)
        assert before.keys() - stored(page).keys() == {f"pond/{taken}"}


@pytest.mark.slow
def test_files_of_the_safe_start_and_of_an_early_version_are_taken_in(
    used_phone: Phone, site_address: str, tmp_path: Path
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")
    mine = {key: text for key, text in stored(page).items() if EXAMPLE in key}
    assert len(mine) == 9  # the pond, seven readings, a cleaning
    page.goto(f"{site_address}?safe")
    page.wait_for_selector("html[data-app=safe]", state="attached")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save a backup").click()
    safe, early = tmp_path / "safe.json", tmp_path / "early.json"
    download.value.save_as(safe)
    documents: dict[str, list[Any]] = {"pond": [], "reading": [], "entry": []}
    for key, text in mine.items():
        documents[key.partition("/")[0]].append(json.loads(text))
    head = {"format": "pondapp-backup", "format_version": 1, "holds": "everything"}
    whole = {**head, "saved_at": "2026-05-06T07:08:00Z", "documents": documents, "as_stored": {}}
    early.write_text(json.dumps(whole))
    for picked in (safe, early):
        used_phone.forget(site_address)
        open_app(page, f"{site_address}#/backup")
        give_file(page, "Restore from a file", picked)
        shows(page, "new: 7")
        press(page, "Restore", exact=True)
        shows(page, "Take back the restore")
        restored = stored(page)
        assert {key: json.loads(restored[key]) for key in mine} == {
            key: json.loads(text) for key, text in mine.items()
        }
        press(page, "Take back the restore")
        shows(page, "Everything is as it was before")
        assert not mine.keys() & stored(page).keys()
    assert used_phone.errors == []
