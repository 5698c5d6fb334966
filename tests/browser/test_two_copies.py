"""Two copies of the app on one host: each keeps its own files and its own ponds."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from phones import (
    BOOT,
    Host,
    Phone,
    choose,
    open_app,
    press,
    shows,
    type_into,
    wait_offline,
    wait_started,
    wait_true,
)

from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

LOOK = "navigator.serviceWorker.getRegistration().then(one => one.update()).then(() => true)"
CACHES = "caches.keys().then(names => names.sort())"

# As early versions kept it: under one name for the whole host.
KEEP_EARLY = """(text) => new Promise((done, failed) => {
  const asked = indexedDB.open("pondapp", 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore("texts").put(text, "pond/early");
  asked.onsuccess = () => { asked.result.close(); done(true); };
  asked.onerror = () => failed(asked.error);
})"""
EARLY_KEYS = """() => new Promise((done) => {
  indexedDB.open("pondapp").onsuccess = ({ target }) => {
    const asked = target.result.transaction("texts").objectStore("texts").getAllKeys();
    asked.onsuccess = () => { target.result.close(); done(asked.result); };
  };
})"""
# An early cache with the pages of both copies in it.
CACHE_EARLY = """(pages) => caches.open("pondapp-0123456789abcdef").then((cache) =>
  Promise.all(pages.map((page) => cache.put(page, new Response("early"))))).then(() => true)"""
CACHED_EARLY = """() => caches.open("pondapp-0123456789abcdef")
  .then((cache) => cache.keys()).then((all) => all.map((one) => one.url))"""
# What a full device does to a step: it is given up.
NO_ROOM = b"""
{
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    const asked = put.apply(this, args);
    this.transaction.abort();
    return asked;
  };
}
"""
# A database that does not answer: the early one when it is looked for, what is in it, and the copy,
# which is made at last when nobody waits for it any more.
SILENT = {
    "looking": b"""
{
  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (name, ...more) {
    return name === "pondapp" ? {} : open.call(this, name, ...more);
  };
}
""",
    "reading": b"""
{
  const { getAll } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.getAll = () => { // once: Python reads all of it too
    IDBObjectStore.prototype.getAll = getAll;
    return {};
  };
}
""",
    "copying": b"""
{
  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (name, ...more) {
    if (!name.startsWith("pondapp-data ") || !more.length) return open.call(this, name, ...more);
    const silent = {};
    setTimeout(() => {
      const asked = open.call(this, name, ...more);
      asked.onupgradeneeded = () => {
        silent.transaction = asked.transaction;
        silent.onupgradeneeded();
      };
      asked.onerror = () => console.info("undone");
    }, 12000);
    return silent;
  };
}
""",
}


def two(folder: Path, files: dict[str, bytes]) -> Host:
    host = Host(folder)
    for copy in ("one", "two"):
        host.deploy({f"{copy}/{path}": data for path, data in files.items()})
    host.deploy({"plain.html": b"<!DOCTYPE html><title>Nothing</title>"})
    return host


@pytest.fixture
def host_of_two(tmp_path: Path, trial_files: dict[str, bytes]) -> Iterator[Host]:
    made = two(tmp_path / "host", trial_files)
    yield made
    made.stop()


@pytest.fixture
def apps(tmp_path: Path, site_of_app: Path) -> Iterator[Host]:
    files = {
        str(path.relative_to(site_of_app)): path.read_bytes()
        for path in site_of_app.rglob("*")
        if path.is_file()
    }
    made = two(tmp_path / "apps", files)
    yield made
    made.stop()


def test_an_update_of_one_copy_leaves_the_other_as_it_is(
    phone: Phone, host_of_two: Host, trial_files_b: dict[str, bytes]
) -> None:
    host = host_of_two
    pages = [f"{host.address}{copy}/index.html" for copy in ("one", "two")]
    page = phone.start()
    page.goto(f"{host.address}plain.html")
    page.evaluate(CACHE_EARLY, pages)
    open_app(page, f"{host.address}one/")
    wait_offline(page)
    assert page.evaluate(CACHED_EARLY) == [pages[1]]  # the other copy's is not ours to delete
    (of_one,) = [name for name in page.evaluate(CACHES) if "/one/" in name]
    open_app(page, f"{host.address}two/")
    wait_offline(page)
    names = page.evaluate(CACHES)
    assert of_one in names
    assert len(names) == 2, "the early cache goes with its last copy"

    host.deploy({f"two/{path}": data for path, data in trial_files_b.items()})
    page.evaluate(LOOK)
    wait_true(page, "pondappUpdate.ready")
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="New version: restart").click()
    wait_started(page)
    shows(page, "trial B")
    phone.kill()
    host.stop()

    page = phone.start()
    for copy, said in (("one", "trial A"), ("two", "trial B")):
        open_app(page, f"{host.address}{copy}/")
        shows(page, said)
    assert of_one in page.evaluate(CACHES)
    host.start(0)  # so that the fixture has something to stop


def test_each_copy_takes_over_what_early_versions_kept_and_then_keeps_its_own(
    phone: Phone, apps: Host
) -> None:
    early = Pond(id="early", name="Early pond", water=TypedVolume(volume_m3=1))
    page = phone.start()
    page.goto(f"{apps.address}plain.html")
    page.evaluate(KEEP_EARLY, early.model_dump_json())
    open_app(page, f"{apps.address}one/")
    shows(page, "Early pond")
    press(page, "Add a pond")
    type_into(page, "Name of the pond", "Only in one")
    choose(page, "I know the volume")
    type_into(page, "Volume", "1000")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    open_app(page, f"{apps.address}two/")
    shows(page, "Early pond")
    assert page.get_by_text("Only in one").count() == 0
    assert page.evaluate(EARLY_KEYS) == ["pond/early"]  # it stays where it was
    phone.kill()

    page = phone.start()
    open_app(page, f"{apps.address}one/")
    shows(page, "Only in one")
    shows(page, "Early pond")
    names = page.evaluate("indexedDB.databases().then(all => all.map(one => one.name))")
    for copy in ("one", "two"):
        assert f"pondapp-data /some/where/{copy}/" in names


def test_what_cannot_be_copied_for_want_of_room_is_used_where_it_is(
    phone: Phone, apps: Host
) -> None:
    worker = apps.folder / "one" / "worker.js"
    worker.write_bytes(worker.read_bytes() + NO_ROOM)
    early = Pond(id="early", name="Early pond", water=TypedVolume(volume_m3=1))
    page = phone.start()
    page.goto(f"{apps.address}plain.html")
    page.evaluate(KEEP_EARLY, early.model_dump_json())
    open_app(page, f"{apps.address}one/")
    shows(page, "Early pond")


def test_an_early_database_that_does_not_answer_keeps_no_start_waiting(
    phone: Phone, apps: Host
) -> None:
    worker = apps.folder / "one" / "worker.js"
    worker.write_bytes(worker.read_bytes() + SILENT["looking"])
    page = phone.start()
    open_app(page, f"{apps.address}one/")
    shows(page, "Add a pond")
    names = page.evaluate("indexedDB.databases().then(all => all.map(one => one.name))")
    assert "pondapp-data /some/where/one/" in names


@pytest.mark.parametrize("what", ["reading", "copying"])
def test_what_is_not_copied_in_time_is_used_where_it_is_and_copied_the_next_time(
    phone: Phone, apps: Host, what: str
) -> None:
    worker = apps.folder / "one" / "worker.js"
    whole = worker.read_bytes()
    worker.write_bytes(whole + SILENT[what])
    early = Pond(id="early", name="Early pond", water=TypedVolume(volume_m3=1))
    page = phone.start()
    page.goto(f"{apps.address}plain.html")
    page.evaluate(KEEP_EARLY, early.model_dump_json())
    undone: list[str] = []
    page.on("console", lambda line: undone.append(line.text))
    open_app(page, f"{apps.address}one/")
    shows(page, "Early pond")
    if what == "copying":
        wait_true(page, "performance.now() > 16000")
        assert "undone" in undone
    names = page.evaluate("indexedDB.databases().then(all => all.map(one => one.name))")
    assert "pondapp-data /some/where/one/" not in names
    worker.write_bytes(whole)
    phone.kill()

    page = phone.start()
    open_app(page, f"{apps.address}one/")
    shows(page, "Early pond")
    names = page.evaluate("indexedDB.databases().then(all => all.map(one => one.name))")
    assert "pondapp-data /some/where/one/" in names
