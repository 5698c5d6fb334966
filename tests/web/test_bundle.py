"""The pack holds what it says, in the same bytes each time."""

import json
import struct
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import words
from pondapp.web import bundle, places
from pondapp.words import po

FILES = st.dictionaries(st.from_regex(r"[a-z]{1,8}(/[a-z]{1,8}){0,2}", fullmatch=True), st.binary())


def unpack(pack: bytes) -> dict[str, bytes]:
    (length,) = struct.unpack_from("<I", pack)
    at, files = 4 + length, {}
    for name, size in json.loads(pack[4:at]).items():
        files[name] = pack[at : at + size]
        at += size
    assert at == len(pack)
    return files


@settings(max_examples=50)
@given(FILES)
def test_pack_comes_apart_into_what_went_in(files: dict[str, bytes]) -> None:
    assert unpack(bundle.pack(files)) == files


@settings(max_examples=50)
@given(FILES)
def test_order_does_not_matter(files: dict[str, bytes]) -> None:
    backwards = dict(reversed(files.items()))
    assert bundle.pack(backwards) == bundle.pack(files)


def test_modules_lie_apart_from_what_each_start_reads() -> None:
    files = dict.fromkeys(("main.pyc", "ahead.py", "a/b.pyc", "a/words.json", "x/LICENSE"), b"")
    always, modules = bundle.in_two(files)
    assert sorted(always) == ["a/words.json", "main.pyc", "x/LICENSE"]
    assert sorted(modules) == ["a/b.pyc", "ahead.py"]


def test_wheels_leave_tests_behind_but_not_licences(tmp_path: Path) -> None:
    wheel = tmp_path / "thing-1-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        for name in (
            "thing/__init__.py",
            "thing/tests/test_it.py",
            "thing/hints.pyi",
            "thing-1.dist-info/METADATA",
            "thing-1.dist-info/licenses/LICENSE",
        ):
            archive.writestr(name, name)
    assert set(bundle.package_files([wheel])) == {
        "thing/__init__.py",
        "thing-1.dist-info/licenses/LICENSE",
    }


def test_catalogues_ship_as_json_that_a_start_reads(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = bundle.app_files(places.PACKAGE)
    shipped = [path for path in files if path.startswith("pondapp/words/")]
    codes = [language.code for language in words.LANGUAGES if language != words.ENGLISH]
    catalogues = [f"pondapp/words/{code}.json" for code in sorted(("en", *codes))]
    assert sorted(shipped) == ["pondapp/words/__init__.py", *catalogues]
    for path in catalogues:
        (tmp_path / Path(path).name).write_bytes(files[path])
    from_sources = [words._catalogue(code) for code in codes]
    monkeypatch.setattr(words, "FOLDER", tmp_path)
    monkeypatch.setattr(po, "read", None)
    words._catalogue.cache_clear()
    assert [words._catalogue(code) for code in codes] == from_sources
    words._catalogue.cache_clear()


def test_the_app_ships_without_its_builder(tmp_path: Path) -> None:
    for name in ("__init__.py", "__main__.py", "web/site.py", "core/water.py", "core/note.txt"):
        path = tmp_path / "pondapp" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("")
    assert set(bundle.app_files(tmp_path / "pondapp")) == {
        "main.py",
        "ahead.py",
        "early.py",
        "pondapp/__init__.py",
        "pondapp/core/water.py",
        "pondapp/words/en.json",
    }
