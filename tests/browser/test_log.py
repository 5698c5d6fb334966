"""A pond's log on the built site: a season in it, a test added, searched, charted, taken back."""

import json
import re
import struct
import sys
import zlib
from pathlib import Path

from phones import (
    Phone,
    choose,
    give_file,
    go,
    gone,
    open_app,
    press,
    save_reading,
    shows,
    type_into,
    type_time,
)
from playwright.sync_api import expect

sys.path.insert(0, str(Path(__file__).parent.parent / "bench"))

import log_seasons

STORED = """async () => {
    const asked = indexedDB.open(pondappName("data"), 1);
    await new Promise((done, failed) => { asked.onsuccess = done; asked.onerror = failed; });
    const all = asked.result.transaction("texts").objectStore("texts").getAll();
    await new Promise((done, failed) => { all.onsuccess = done; all.onerror = failed; });
    asked.result.close();
    return all.result;
}"""


def test_a_season_is_added_to_searched_charted_and_taken_back(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    page.evaluate(log_seasons.PUT, list(log_seasons.texts(1, 200).items()))
    page.goto("about:blank")
    open_app(page, f"{site_address}#/pond/pond0/log")
    shows(page, "Show: Everything")

    press(page, "Add to the log")
    press(page, "Water test")
    type_into(page, "Temperature", "22,5")
    type_into(page, "pH", "8.4")
    type_into(page, "Ammonia", "0.5")
    shows(page, "Toxic ammonia is 0.053")
    press(page, "Save in the log")
    shows(page, "Water test: Temperature 22.5 °C, pH 8.4, Ammonia 0.5 mg/L")
    shows(page, re.compile("Danger"))
    press(page, "Undo")
    gone(page, re.compile("Ammonia 0.5 mg/L, ?$|Temperature 22.5"))

    type_into(page, "Search the log", "heron")
    shows(page, "Heron seen, net put back")
    gone(page, "Waterfall lip: ")
    press(page, "Charts and trends")
    chart = page.get_by_role("img", name=re.compile("Chart: Flow at .* values from .* Wanted: "))
    expect(chart.first).to_be_attached()
    shows(page, "Since the last cleaning")
    assert used_phone.errors == []


def picture(width: int, height: int) -> bytes:
    """A PNG of stripes."""

    def part(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    rows = b"".join(b"\0" + bytes((x * y) % 256 for x in range(width)) for y in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    packed = zlib.compress(rows, 1)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", packed) + part(b"IEND", b"")


def test_a_photo_is_made_small_kept_and_shown(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    page.evaluate(log_seasons.PUT, list(log_seasons.texts(1, 2).items()))
    page.goto("about:blank")
    open_app(page, f"{site_address}#/pond/pond0/log/new-photo")
    file = {"name": "pond.png", "mimeType": "image/png", "buffer": b"no picture"}
    give_file(page, "Take or choose a photo", file)
    shows(page, "This is no picture that your browser can read")
    give_file(page, "Take or choose a photo", {**file, "buffer": picture(2400, 1600)})
    expect(page.get_by_role("img", name="Photo")).to_be_attached()
    press(page, "Save in the log")
    shows(page, "Show: Everything")
    press(page, re.compile("^Photo"))
    expect(page.get_by_role("img", name="Photo")).to_be_attached()
    kept = [json.loads(text) for text in page.evaluate(STORED)]
    (photo,) = [one["what"]["jpeg"] for one in kept if "jpeg" in one.get("what", {})]
    assert 1000 < len(photo) <= 120_000
    assert used_phone.errors == []


def test_a_reading_without_a_pond_is_put_right_moved_and_deleted(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    page.wait_for_url("**/pond/invented-example")
    go(page, "/measure/none/outlet")
    type_time(page, "20")
    save_reading(page)
    shows(page, "Measured without a pond")

    press(page, re.compile("Outlet"))
    press(page, "Correct what was measured")
    type_into(page, "Time of fill 1", "10")
    press(page, "Save", exact=True)
    shows(page, re.compile("corrected"))
    press(page, re.compile("^Outlet: "))
    shows(page, "What it was before")
    shows(page, re.compile("Until .*Bucket, 9 L mark: 20 s"))

    press(page, "Where: Outlet, no pond")
    choose(page, "Alder Corner (invented example)")
    choose(page, re.compile("^Bog filter"))
    press(page, "Save", exact=True)
    gone(page, re.compile("^Outlet: "))
    press(page, "Undo")
    press(page, re.compile("^Outlet: "))
    press(page, "Delete this reading")
    gone(page, re.compile("^Outlet: .*L/\ufeff?h[^.]*$"))
    press(page, "Undo")
    press(page, re.compile("^Outlet: "))
    shows(page, "Delete this reading")
    assert used_phone.errors == []
