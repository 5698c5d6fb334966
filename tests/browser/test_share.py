"""What the share sheet of the system is handed, and what happens where there is none."""

import base64
import json
from pathlib import Path
from typing import Any

import pytest
from memory_store import MemoryStore
from phones import Phone, finished, go, open_app, press, shows, wait_true
from playwright.sync_api import Page

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.store import backup, link

# Stands in for the sheet: it keeps what it is handed and ends as the test wants.
SHEET = """
window.handed = [];
window.ending = null;
navigator.canShare = (shared) => window.files || !shared.files;
navigator.share = async (shared) => {
  const files = await Promise.all((shared.files || []).map(async (file) => ({
    name: file.name, type: file.type,
    text: btoa(String.fromCharCode(...new Uint8Array(await file.arrayBuffer()))),
  })));
  window.handed.push({ ...shared, files });
  if (window.ending) throw new DOMException("as the test wants", window.ending);
};
window.copied = [];
navigator.clipboard.writeText = async (text) => { window.copied.push(text); };
"""
NO_SHEET = SHEET + "navigator.share = undefined; navigator.canShare = undefined;"


def at_share(phone: Phone, address: str, script: str) -> Page:
    page = phone.start()
    page.add_init_script(script)
    open_app(page, address)
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")
    go(page, f"/pond/{EXAMPLE}/share")
    return page


def preview_of(plan: bytes) -> list[str]:
    return list(finished(backup.preview(MemoryStore(), plan)).incoming)


def handed(page: Page, count: int) -> dict[str, Any]:
    wait_true(page, f"handed.length === {count}")
    found: dict[str, Any] = page.evaluate("handed.at(-1)")
    return found


@pytest.mark.slow
def test_the_sheet_is_handed_the_link_and_the_file(phone: Phone, site_address: str) -> None:
    page = at_share(phone, site_address, SHEET)
    press(page, "Share the link")
    shared = handed(page, 1)
    address, _, packed = shared["url"].partition("#")
    assert address == site_address
    assert link.unpacked(packed.rpartition("/")[2]).id == EXAMPLE
    assert shared["title"]
    assert shared["files"] == []

    page.evaluate("files = true")
    press(page, "Share the plan as a file")
    (file,) = handed(page, 2)["files"]
    assert (file["name"].endswith("-plan.json"), file["type"]) == (True, "application/json")
    plan = base64.b64decode(file["text"])
    assert json.loads(plan)["holds"] == "pond"
    assert preview_of(plan) == [f"pond/{EXAMPLE}"]

    page.evaluate("ending = 'AbortError'")  # the user thought better of it
    press(page, "Share the link")
    handed(page, 3)
    page.wait_for_timeout(1000)
    assert page.evaluate("copied") == []

    page.evaluate("ending = 'NotAllowedError'")
    press(page, "Share the link")
    shows(page, "The link is copied")
    assert page.evaluate("copied") == [shared["url"]]


@pytest.mark.slow
def test_without_a_sheet_the_link_is_copied_and_the_file_saved(
    phone: Phone, site_address: str, tmp_path: Path
) -> None:
    page = at_share(phone, site_address, NO_SHEET)
    press(page, "Share the link")
    shows(page, "The link is copied")
    assert page.evaluate("copied.length") == 1
    with page.expect_download() as download:
        press(page, "Share the plan as a file")
    download.value.save_as(tmp_path / "plan.json")
    assert preview_of((tmp_path / "plan.json").read_bytes()) == [f"pond/{EXAMPLE}"]
    shows(page, "cannot pass a file on")
