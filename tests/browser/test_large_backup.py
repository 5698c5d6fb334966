"""A device with all the photos it may hold and a large damaged text, saved and brought back.

`python tests/bench/largest_backup.py` does the same with 100,000 readings, and times it.
"""

import json
from pathlib import Path

import pytest
from largest import give_path, kept_on, put, texts, word_shown
from phones import Phone, go, gone, open_app, press, shows
from playwright.sync_api import Page, expect

from pondapp.models.limits import MOST_PHOTOS
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

READINGS = 1500
PATIENCE = 120.0  # s


def look_at(page: Page, file: Path) -> None:
    """Pick a file on the backup screen."""
    give_path(page, "Restore from a file", file)
    word_shown(page, "Saved ", PATIENCE)


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_a_large_backup_comes_back_whole(phone: Phone, site_address: str, tmp_path: Path) -> None:
    page = phone.start()
    open_app(page, site_address)
    put(page, texts(READINGS))
    page.goto("about:blank")
    open_app(page, f"{site_address}#/backup")
    with page.expect_download() as download:
        press(page, "Save a backup file")
    file = tmp_path / "b.jsonl"
    download.value.save_as(file)
    original = kept_on(page)
    assert original.documents == READINGS + MOST_PHOTOS + 3  # the damaged one twice

    # The same file once more: there is nothing to take in.
    look_at(page, file)
    shows(page, f"the same: {READINGS}")
    assert page.get_by_text("new:").count() == 0
    press(page, "Restore", exact=True)
    shows(page, "Nothing of the file is new here")
    assert kept_on(page) == original

    # On another device, in the place of what is there; the browser is killed in the middle.
    phone.forget(site_address)
    own = Pond(id="own", name="Here before", water=TypedVolume(volume_m3=1))
    open_app(page, f"{site_address}#/backup")
    put(page, {"pond/own": own.model_dump_json()})
    before = kept_on(page)
    look_at(page, file)
    press(page, "Replace what is here", "radio")
    press(page, "Restore", exact=True)
    # A busy machine may have taken it in before anybody looks.
    word_shown(page, "The file is being taken in", PATIENCE, "Take back the restore")
    phone.kill()
    page = phone.start()
    open_app(page, f"{site_address}#/backup")
    after = kept_on(page)
    assert after in (before, original)  # all or nothing
    if after == before:
        gone(page, "Take back the restore")
        look_at(page, file)
        press(page, "Replace what is here", "radio")
        press(page, "Restore", exact=True)
    shows(page, "Take back the restore")
    assert kept_on(page) == original
    press(page, "Take back the restore")
    shows(page, "Everything is as it was before")
    assert kept_on(page).without("quarantine") == before

    # Cut in the middle of a line: what is left may be added, and nothing is removed.
    data = file.read_bytes()
    cut = data.index(b"reading/p/r7") + 100
    file.write_bytes(data[:cut])
    look_at(page, file)
    shows(page, "The file is damaged or cut off")
    expect(page.get_by_role("radio", name="Replace what is here")).to_have_count(0)
    press(page, "Restore", exact=True)
    shows(page, "Take back the restore")
    left = {json.loads(line)["key"] for line in data[:cut].splitlines()[1:-1]} - {"preferences/app"}
    assert kept_on(page).documents == len({*left, "pond/own"}) > 500
    go(page, "/")
    shows(page, "Here before")

    # Of a newer app: refused, and nothing is changed.
    after = kept_on(page)
    file.write_bytes(data.replace(b'"format_version":2', b'"format_version":3', 1))
    go(page, "/backup")
    give_path(page, "Restore from a file", file)
    shows(page, "the file was saved by a newer version of the app")
    assert kept_on(page) == after
    assert phone.errors == []
