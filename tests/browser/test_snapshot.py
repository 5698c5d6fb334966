"""Starts from a snapshot of Python's memory: the same app, and never worse than without one."""

from phones import (
    BOOT,
    VOLUME,
    Host,
    Phone,
    choose,
    open_app,
    press,
    type_into,
    wait_offline,
    wait_true,
)
from playwright.sync_api import Page, expect

FILES = """async () => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("snapshots of %2Fsome%2Fwhere%2F");
  const names = [];
  for await (const name of folder.keys()) if (name !== "aside") names.push(name);
  return names;
}"""
SPOIL = """async ([name, how]) => {
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle("snapshots of %2Fsome%2Fwhere%2F");
  const read = async (from) => new Uint8Array(
    await (await (await folder.getFileHandle(from)).getFile()).arrayBuffer());
  const write = async (to, bytes) => {
    const stream = await (await folder.getFileHandle(to, { create: true })).createWritable();
    await stream.write(bytes);
    await stream.close();
  };
  if (how === "keep") return write("aside", await read(name));
  let bytes = await read("aside");
  if (how === "half") bytes = bytes.subarray(0, bytes.length >> 1);
  if (how === "one bit") bytes[bytes.length >> 1] ^= 1;
  if (how === "empty") bytes = bytes.subarray(0, 0);
  if (how === "elsewhere") {
    const head = new TextDecoder().decode(bytes.subarray(0, 65536));
    const changed = head.trimEnd().replace(/"table":\\d+/, '"table":1').padEnd(65536);
    bytes.set(new TextEncoder().encode(changed));
  }
  return write(name, bytes);
}"""


def make_snapshot(phone: Phone, address: str) -> Page:
    """A first visit with a pause in it, long enough for a snapshot."""
    page = phone.start()
    open_app(page, address)
    wait_offline(page)
    page.wait_for_selector("html[data-snapshot]", state="attached", timeout=BOOT)
    assert page.evaluate("document.documentElement.dataset.snapshot") == "made"
    return page


def started_from(page: Page) -> str:
    page.wait_for_selector("html[data-python]", state="attached", timeout=BOOT)
    return str(page.evaluate("document.documentElement.dataset.python"))


def keep_a_pond(page: Page, address: str, name: str) -> None:
    open_app(page, f"{address}#/new")
    type_into(page, "Name of the pond", name)
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    press(page, "Save the pond")
    expect(page.get_by_role("heading", name=name)).to_be_attached(timeout=BOOT)


def test_later_starts_take_up_the_snapshot_and_do_real_work(phone: Phone, site_host: Host) -> None:
    page = make_snapshot(phone, site_host.address)
    assert started_from(page) == "begun"
    ponds = ("Heron Hollow", "Toad Terrace")
    ids = []
    for pond in ponds:
        phone.kill()
        page = phone.start()
        keep_a_pond(page, site_host.address, pond)
        assert started_from(page) == "restored"
        wait_true(page, "localStorage.getItem('pondapp-restoring /some/where/').endsWith(' 0')")
        ids.append(page.url)
    assert len(set(ids)) == 2, "two starts from one memory made the same name for two things"
    open_app(page, site_host.address)
    for pond in ponds:
        page.get_by_text(pond).first.wait_for(state="attached")
    assert phone.errors == []


def test_a_spoiled_snapshot_is_thrown_away_and_a_bad_one_left_alone(
    phone: Phone, site_host: Host
) -> None:
    page = make_snapshot(phone, site_host.address)
    (version,) = page.evaluate(FILES)
    page.evaluate(SPOIL, [version, "keep"])
    for how in ("half", "one bit", "empty", "elsewhere"):
        page.evaluate(SPOIL, [version, how])
        open_app(page, site_host.address)
        assert started_from(page) == "begun", how
        assert page.evaluate(FILES) == [], how

    page.evaluate(SPOIL, [version, "mend"])
    for tries, start in ((1, "restored"), (2, "begun")):  # two that led to no screen
        count = f"{version} {tries}"
        page.evaluate(f"localStorage.setItem('pondapp-restoring /some/where/', '{count}')")
        open_app(page, site_host.address)
        assert started_from(page) == start
    assert phone.errors == []
