"""A release is the same bytes twice, and its bill of materials names all that ships."""

import json
import os
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest
import release

from pondapp.store import shipped
from pondapp.web import places, wheels

DATE = 1_700_000_000


@pytest.fixture
def small(tmp_path: Path) -> Path:
    site = tmp_path / "site"
    (site / "icons").mkdir(parents=True)
    (site / "index.html").write_text("<p>hello")
    (site / "pack.bin").write_bytes(b"pack" * 1000)
    (site / "pack.bin.br").write_bytes(b"packed")
    (site / "icons" / "icon-32.png").write_bytes(b"png")
    return site


def test_an_archive_is_the_same_bytes_whenever_and_whoever_made_the_files(
    small: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    shutil.copytree(small, other)
    for path in other.rglob("*"):
        os.utime(path, (1_234_567_890, 1_234_567_890))
    (other / "index.html").chmod(0o600)
    release.archive(small, tmp_path / "one.zip", DATE)
    release.archive(other, tmp_path / "two.zip", DATE)
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as made:
        assert made.namelist() == ["icons/icon-32.png", "index.html", "pack.bin", "pack.bin.br"]
        assert made.read("pack.bin") == b"pack" * 1000
        assert {one.date_time[0] for one in made.infolist()} == {2023}
        assert (tmp_path / "one.zip").stat().st_size < 1500


def test_the_bill_of_materials_is_the_same_twice_and_names_all_that_ships() -> None:
    bill = release.bill(DATE)
    assert bill == release.bill(DATE)
    told = json.loads(bill)
    assert (told["bomFormat"], told["specVersion"]) == ("CycloneDX", "1.6")
    own = told["metadata"]["component"]
    assert (own["name"], own["version"], own["type"]) == ("pondapp", shipped.VERSION, "application")
    parts = {one["name"]: one for one in told["components"]}
    for name, (version, digest) in wheels.locked(places.LOCK).items():
        assert parts[name]["version"] == version
        assert parts[name]["purl"] == f"pkg:pypi/{name}@{version}"
        assert parts[name]["hashes"] == [{"alg": "SHA-256", "content": digest}]
    assert {"CPython", "Pyodide", "flet-web"} <= set(parts), "the browser's Python and the screen"
    assert all(one["licenses"] for one in parts.values())
    (needs,) = [one for one in told["dependencies"] if one["ref"] == own["bom-ref"]]
    assert sorted(needs["dependsOn"]) == sorted(one["bom-ref"] for one in parts.values())


def test_checksums_are_those_that_sha256sum_reads(small: Path) -> None:
    (small / release.SUMS).write_text("of last time")
    shutil.rmtree(small / "icons")
    assert release.sums(small).splitlines()[0] == (
        "2c35ceb98d7757a74449079db9858dba4af1e87c41932a675471f3daea01886f  index.html"
    )
    assert "SHA256SUMS" not in release.sums(small)


def test_a_folder_beside_the_files_of_a_release_is_left_alone(
    small: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "release"
    tried = folder / "unpacked"
    tried.mkdir(parents=True)
    (tried / "index.html").write_text("looked at")
    (folder / "of-last-time.whl").write_text("old")
    monkeypatch.setattr(places, "SITE", small)
    monkeypatch.setattr(release, "wheel", lambda _root, to, _date: (to / "it.whl").write_text("it"))
    release.make(folder)
    assert (tried / "index.html").read_text() == "looked at"
    named = f"pondapp-{shipped.VERSION}"
    files = ["SHA256SUMS", "it.whl", f"{named}-site.zip", f"{named}.cdx.json"]
    assert [path.name for path in release.files_of(folder)] == sorted(files)
    sums = (folder / release.SUMS).read_text()
    assert [line.split("  ")[1] for line in sums.splitlines()] == sorted(files[1:])


def test_a_release_is_dated_by_what_is_told_or_by_its_commit(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", str(DATE))
    assert release.when() == DATE
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "0")
    assert release.when() == release.OLDEST
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    monkeypatch.setattr(places, "ROOT", tmp_path)
    assert release.when() == release.OLDEST, "sources that are no repository"


def test_three_places_name_one_version(monkeypatch: pytest.MonkeyPatch) -> None:
    assert release.version() == shipped.VERSION
    monkeypatch.setattr(shipped, "VERSION", "9.9")
    with pytest.raises(places.BuildError, match=r"9\.9"):
        release.version()


def test_what_to_do_next_names_commands_and_files_that_there_are() -> None:
    told = release.NEXT.format(version=release.version())
    assert f"v{shipped.VERSION}" in told
    assert (places.ROOT / ".github" / "workflows" / "pages.yml").exists()
    assert "python -m pondapp check ADDRESS" in told


def test_a_number_that_is_none_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    with pytest.raises(places.BuildError, match="yesterday"):
        release.when()


def test_what_nobody_could_make_again_is_said(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setattr(places, "ROOT", tmp_path)
    assert "no commit" in release.doubts(), "sources that are no repository"
    for words in (
        ("init", "-q"),
        ("-c", "user.name=a", "-c", "user.email=a@b", "commit", "-q", "--allow-empty", "-m", "one"),
    ):
        subprocess.run(["git", *words], cwd=tmp_path, check=True)
    assert release.doubts() == ""
    (tmp_path / "more.txt").write_text("more")
    assert "in no commit" in release.doubts()
    monkeypatch.setenv("PATH", "")
    assert "no commit" in release.doubts(), "no git at all"
    assert release.when() == release.OLDEST
