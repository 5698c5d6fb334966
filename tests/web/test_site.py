"""The whole site: the same bytes twice, written in one step, and the command around it."""

import json
import time
from pathlib import Path

import pytest

from pondapp import __main__ as command
from pondapp.web import bundle, places, precache, site, stamp


@pytest.fixture(scope="module")
def files() -> dict[str, bytes]:
    return site.site_files({"main.py": b"print()\n"})


def test_same_sources_give_the_same_bytes(files: dict[str, bytes], tmp_path: Path) -> None:
    again = site.site_files({"main.py": b"print()\n"})
    assert again == files
    for name in ("one", "two"):
        site.write({"a/b.js": b"x" * 5000, "c.png": b"y"}, tmp_path / name, compress=True)
    one, two = (
        {
            path.relative_to(tmp_path / name): path.read_bytes()
            for path in (tmp_path / name).rglob("*")
            if path.is_file()
        }
        for name in ("one", "two")
    )
    assert one == two
    assert Path("a/b.js.br") in one


def test_a_new_version_of_a_file_has_a_time_of_its_own(tmp_path: Path) -> None:
    began = time.time() - 2
    site.write({"sw.js": b"version 1"}, tmp_path / "site", compress=False)
    first = (tmp_path / "site" / "sw.js").stat()
    site.write({"sw.js": b"version 2"}, tmp_path / "site", compress=False)
    second = (tmp_path / "site" / "sw.js").stat()
    assert first.st_size == second.st_size, "which is why a host has nothing else to go by"
    assert began < first.st_mtime < second.st_mtime


def test_new_site_leaves_nothing_of_the_old(tmp_path: Path) -> None:
    site.write({"old.js": b"old"}, tmp_path / "site", compress=False)
    site.write({"new.js": b"new"}, tmp_path / "site", compress=False)
    assert [path.name for path in (tmp_path / "site").iterdir()] == ["new.js"]


def test_a_source_that_changes_while_the_site_is_built_makes_it_stale(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("SITE", "CACHE"):
        monkeypatch.setattr(places, name, tmp_path / name)
    now = ["first"]
    monkeypatch.setattr(stamp, "sources", lambda: now[-1])
    monkeypatch.setattr(bundle, "app_files", lambda _: {})
    monkeypatch.setattr(site, "best_files", lambda *_: {"sw.js": b"old"})
    site.build(compress=False)
    assert stamp.is_current()
    monkeypatch.setattr(site, "best_files", lambda *_: now.append("second") or {"sw.js": b"old"})
    site.build(compress=False)
    assert not stamp.is_current()


def test_manifest_has_maskable_icons_and_the_three_uses(files: dict[str, bytes]) -> None:
    manifest = json.loads(files["manifest.webmanifest"])
    assert {"any", "maskable"} == {icon["purpose"] for icon in manifest["icons"]}
    uses = [entry["url"].split("#")[1] for entry in manifest["shortcuts"]]
    assert uses == ["/measure", "/size", "/waterfall"]
    assert not manifest["start_url"].startswith("/"), "any sub-path must do"


def test_manifest_shows_the_app_without_costing_a_visit(files: dict[str, bytes]) -> None:
    manifest = json.loads(files["manifest.webmanifest"])
    shown = manifest["screenshots"]
    assert {one["form_factor"] for one in shown} == {"narrow", "wide"}
    for one in shown:
        picture = files[one["src"]]
        size = "x".join(str(int.from_bytes(picture[at : at + 4])) for at in (16, 20))
        assert (size, picture[1:4]) == (one["sizes"], b"PNG")
        assert not precache.is_kept(one["src"])
        assert precache.LATER.match(one["src"]), "no part of a start"
        assert one["src"].encode() not in files["sw.js"]
    assert all(one["label"] for one in shown)


def test_manifest_takes_what_the_app_writes_into_one_window(files: dict[str, bytes]) -> None:
    manifest = json.loads(files["manifest.webmanifest"])
    assert manifest["launch_handler"]["client_mode"][0] == "focus-existing"
    (handler,) = manifest["file_handlers"]
    assert handler["action"] == "./#/backup"
    assert {ending for ends in handler["accept"].values() for ending in ends} == {".jsonl", ".json"}
    shared = manifest["share_target"]
    assert all(name.startswith("shared") for name in shared["params"].values()), "start.js asks so"
    addresses = [manifest["id"], handler["action"], shared["action"]]
    assert all(address.startswith("./") for address in addresses), "any sub-path must do"


def test_addresses_in_the_page_are_relative(files: dict[str, bytes]) -> None:
    page = files["index.html"].decode()
    assert 'src="/' not in page
    assert 'href="/' not in page


def test_serve_without_a_site_says_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(places, "SITE", tmp_path / "none")
    assert command.main(["serve"]) == 1
    assert "python -m pondapp build" in capsys.readouterr().err


def test_unknown_word_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        command.main(["polish"])
    assert "invalid choice" in capsys.readouterr().err


def test_libraries_are_files_of_their_own_which_a_browser_compiles_while_they_come(
    files: dict[str, bytes],
) -> None:
    inside = [path for path in bundle.unpack(files["pack.bin"]) if path.endswith(".so")]
    assert inside == []
    text = files["worker.js"].decode()
    for name in (path for path in files if path.startswith("libraries/")):
        assert files[name][:4] == b"\0asm"
        assert f'"{name}"' in text


def test_the_app_ships_in_sources_where_no_browser_compiles_it() -> None:
    """Whoever has no Chromium can open it too."""
    assert site.site_files(bundle.app_files(places.PACKAGE))
