"""Packs of the app and its packages: the same bytes from the same sources."""

import json
import re
import struct
import zipfile
from collections.abc import Iterable, Mapping
from pathlib import Path

from pondapp.web import places
from pondapp.words import po

ENTRY = b'''"""Start the app."""

import early
from pondapp.ui.shell.app import start

start()
'''
AHEAD = '''"""Read all."""

import early
from pondapp.ui.shell.preload import read_all

read_all({names})
'''

# The framework reads a control's code when it is first named.
CONTROL = re.compile(r"\bft\.(\w+)")

BUILDING = ("web/", "words/po.py", "__main__.py")

INSIDE = "/app/"  # where worker.js puts the pack

# Files of the packages that a running app never opens. Licences always ship.
LICENCE = re.compile(r"\.dist-info/.*(licen[cs]e|copying|notice|authors)", re.IGNORECASE)
UNUSED = re.compile(
    r"\.dist-info/|\.data/|\.pyi$|/py\.typed$|/__pycache__/|/tests?/|/testsuite/"
    r"|^flet/testing/|^pydantic/(v1|experimental|deprecated)/|^pydantic/(mypy|color)\.py$"
    r"|^pint/(_typing_tests|(default|constants)_en\.txt$)"
    r"|^(flet/(pytest_plugin|utils/griffe_deprecations|messaging/flet_(socket|dart_bridge)_server)"
    r"|msgpack/fallback|platformdirs/(windows|macos|_?android|ios|testing|__main__)"
    r"|pint/(testing|matplotlib|pint_convert)|annotated_types/test_cases|segno/(cli|__main__))\.py$"
)


def package_files(wheels: Iterable[Path]) -> dict[str, bytes]:
    """What the wheels unpack to, without what no running app opens."""
    files = {}
    for wheel in wheels:
        with zipfile.ZipFile(wheel) as archive:
            for name in archive.namelist():
                if name.endswith("/") or (UNUSED.search(name) and not LICENCE.search(name)):
                    continue
                files[name] = archive.read(name)
    return files


def app_files(package: Path) -> dict[str, bytes]:
    """The app's own sources and catalogues, without what only builds the site."""
    files = {"main.py": ENTRY, "early.py": (places.TEMPLATES / "early.py").read_bytes()}
    for path in package.rglob("*.py"):
        inside = path.relative_to(package).as_posix()
        if not inside.startswith(BUILDING):
            files[f"{package.name}/{inside}"] = path.read_bytes()
    of_framework = {name for text in files.values() for name in CONTROL.findall(text.decode())}
    files["ahead.py"] = AHEAD.format(names=sorted(of_framework)).encode()
    for name, texts in po.compiled((package / "words").glob("*.po")).items():
        files[f"{package.name}/words/{name}"] = texts
    for path in (package / "licences").glob("*.txt"):
        files[f"{package.name}/licences/{path.name}"] = path.read_bytes()
    return files


def in_two(files: Mapping[str, bytes]) -> tuple[dict[str, bytes], dict[str, bytes]]:
    """What each start reads, and the modules, whose files a start from a snapshot does without."""
    modules = {
        path: data
        for path, data in files.items()
        if path.endswith((".py", ".pyc")) and not path.startswith("main.py")
    }
    return {path: data for path, data in files.items() if path not in modules}, modules


def pack(files: Mapping[str, bytes]) -> bytes:
    """Length of the index, the index ({path: length}, sorted), then all files in its order."""
    names = sorted(files)
    index = json.dumps({name: len(files[name]) for name in names}, separators=(",", ":")).encode()
    return b"".join((struct.pack("<I", len(index)), index, *(files[name] for name in names)))


def unpack(packed: bytes) -> dict[str, bytes]:
    """The files of a pack."""
    (length,) = struct.unpack_from("<I", packed)
    at, files = 4 + length, {}
    for name, size in json.loads(packed[4:at]).items():
        files[name] = packed[at : at + size]
        at += size
    return files
