"""What is left out of the library is asked for by nothing that ships."""

import io
import re
import zipfile

import pytest

from pondapp.web import bundle, library, places, wheels

IMPORT = re.compile(
    rb"^(?P<indent> *)(?:from (?P<parent>[\w.]+) import|import (?P<modules>[\w., ]+))", re.M
)

# Kept files that ask at once for what is left out; nothing that ships imports them.
NEVER_IMPORTED = {"email/mime/base.py", "json/tool.py"}


def module(path: str) -> str:
    return path.removesuffix(".py").replace("/", ".").removesuffix(".__init__")


@pytest.fixture(scope="module")
def whole() -> bytes:
    return (places.client() / "pyodide/python_stdlib.zip").read_bytes()


@pytest.fixture(scope="module")
def left_out(whole: bytes) -> set[str]:
    with zipfile.ZipFile(io.BytesIO(whole)) as archive:
        everything = {module(name) for name in archive.namelist()}
    return everything - {module(name) for name in library.sources(whole)}


def asked(source: bytes, at_once: bool) -> set[str]:
    """Modules that a source imports, or those alone that it imports without a condition.

    By pattern: the browser's Python is newer than the one that runs this.
    """
    found = set()
    for match in IMPORT.finditer(source):
        if not (at_once and match["indent"]):
            names = (match["parent"] or match["modules"]).decode().split(",")
            found.update(name.split()[0] for name in names if name.strip())
    return found


def test_nothing_that_ships_asks_for_what_is_left_out(whole: bytes, left_out: set[str]) -> None:
    packages = bundle.package_files(wheels.fetch(places.LOCK, places.CACHE / "wheels"))
    for path, source in {**library.sources(whole), **packages}.items():
        if path.endswith(".py") and path not in NEVER_IMPORTED:
            assert not asked(source, at_once=True) & left_out, path


def test_the_app_asks_for_it_nowhere(left_out: set[str]) -> None:
    for path, source in bundle.app_files(places.PACKAGE).items():
        assert not asked(source, at_once=False) & left_out, path


def test_something_is_left_out_and_the_rest_is_there(left_out: set[str]) -> None:
    assert {"unittest.mock", "tarfile", "encodings.cp860"} <= left_out
    assert not left_out & {"asyncio", "json", "csv", "encodings.utf_8", "encodings.idna", "codeop"}


def test_zip_is_stored_and_the_same_in_any_order() -> None:
    files = {"b.py": b"b" * 999, "a/c.py": b"c"}
    made = library.stored(files)
    assert made == library.stored(dict(reversed(files.items())))
    with zipfile.ZipFile(io.BytesIO(made)) as archive:
        assert {one.filename: archive.read(one) for one in archive.infolist()} == files
        assert all(one.compress_type == zipfile.ZIP_STORED for one in archive.infolist())
