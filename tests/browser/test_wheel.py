"""The package as its readers get it: a wheel in a bare environment serves the app, made already.

What serves needs the standard library alone, so the environment has nothing but the wheel. To make
the wheel, pip fetches the build backend; nothing else is asked of a network.
"""

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.request import Request, urlopen

import pydantic
import pytest
import release
from phones import Phone, open_app, wait_offline

from pondapp import words
from pondapp.web import places, precache

SOURCES = ("pondapp", "build", "assets", "pyproject.toml", "README.md", "LICENSE", ".gitignore")
DATE = 1_700_000_000
AT = re.compile(r"pondapp is at (\S+)")
STAMP = "from pondapp.web import stamp; stamp.put(stamp.sources())"


def pip(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "pip", "--quiet", "--disable-pip-version-check"]
    return subprocess.run([*command, *map(str, words)], cwd=cwd, capture_output=True, text=True)


def installed(wheel: Path, folder: Path) -> Path:
    """The pondapp command of an environment that has the wheel and nothing else."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", folder], check=True)
    python = folder / "bin" / "python"
    done = pip("--python", python, "install", "--no-deps", "--no-index", wheel)
    assert done.returncode == 0, done.stderr
    return folder / "bin" / "pondapp"


def bare() -> dict[str, str]:
    """The surroundings of a command that finds no other package."""
    return {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}


@pytest.fixture(scope="module")
def clone(site_of_app: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the sources with their site built."""
    folder = tmp_path_factory.mktemp("clone")
    left_out = shutil.ignore_patterns("__pycache__", "cache", "site", "release")
    for name in SOURCES:
        source = places.ROOT / name
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=left_out)
        else:
            shutil.copy(source, folder / name)
    shutil.copytree(site_of_app, folder / "build" / "site")
    subprocess.run([sys.executable, "-c", STAMP], cwd=folder, env=bare(), check=True)
    return folder


@pytest.fixture(scope="module")
def wheel(clone: Path) -> Path:
    release.wheel(clone, clone / "made", DATE)
    return next((clone / "made").glob("*.whl"))


@pytest.fixture(scope="module")
def command(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return installed(wheel, tmp_path_factory.mktemp("bare") / "environment")


@contextmanager
def running(command: Path, *words: str, cwd: Path) -> Iterator[str]:
    """The address at which the command serves until the end of this."""
    with subprocess.Popen(
        [command, *words], cwd=cwd, env=bare(), stdout=subprocess.PIPE, text=True
    ) as process:
        assert process.stdout is not None
        try:
            found = AT.search(process.stdout.readline())
            assert found, "the first line tells the address: nothing is built or fetched before"
            yield found[1]
        finally:
            process.terminate()


def fetched(address: str) -> tuple[bytes, str]:
    with urlopen(Request(address), timeout=30) as answer:
        return answer.read(), answer.headers["Content-Type"]


def test_a_wheel_serves_every_file_of_the_app_from_any_folder(
    command: Path, tmp_path: Path
) -> None:
    with running(command, "open", "--no-browser", "--port", "0", cwd=tmp_path) as address:
        page, kind = fetched(address)
        assert (kind, b"<html" in page) == ("text/html; charset=utf-8", True)
        told = re.search(rb"FILES = (\{.*?\});", fetched(f"{address}sw.js")[0])
        assert told
        for path, digest in json.loads(told[1]).items():
            data, kind = fetched(f"{address}{path}")
            assert hashlib.sha256(data).hexdigest() == digest, path
            assert kind == precache.TYPES.get(path.rpartition(".")[2], "application/octet-stream")
    assert list(tmp_path.iterdir()) == [], "nothing is left in that folder"


def test_the_app_of_a_wheel_opens_and_asks_nobody_else(
    command: Path, tmp_path: Path, phone: Phone
) -> None:
    with running(command, "serve", "--port", "0", cwd=tmp_path) as address:
        page = phone.start()
        open_app(page, address)
        wait_offline(page)
    elsewhere = [url for url in phone.requests if not url.startswith((address, "blob:", "data:"))]
    assert elsewhere == ["about:blank"] * len(elsewhere)


def test_a_wheel_says_what_it_cannot_do_and_what_stands_in_the_way(
    command: Path, tmp_path: Path
) -> None:
    def said(*words: str, path: str = "") -> tuple[int, str]:
        surroundings = {**bare(), "PYTHONPATH": path}
        done = subprocess.run(
            [command, *words], cwd=tmp_path, env=surroundings, capture_output=True, text=True
        )
        return done.returncode, done.stdout + done.stderr

    code, answer = said("build")
    assert code == 1
    assert "the site came with this package" in answer
    assert "site-packages/pondapp/site" in answer, "which is what to copy to a host"
    with running(command, "serve", "--port", "0", cwd=tmp_path) as address:
        port = address.rpartition(":")[2].strip("/")
        code, answer = said("serve", "--port", port)
    assert code == 1
    assert f"port {port} is in use" in answer
    code, answer = said("schema", path=str(Path(pydantic.__file__).parent.parent))
    assert (code, json.loads(answer)["$schema"][:6]) == (0, "https:")


def test_a_wheel_is_the_same_bytes_in_another_folder_at_another_time(
    clone: Path, wheel: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    shutil.copytree(clone, other, ignore=shutil.ignore_patterns("made"))
    for path in other.rglob("*"):
        os.utime(path, (1_234_567_890, 1_234_567_890))
    release.wheel(other, tmp_path / "made", DATE)
    assert (tmp_path / "made" / wheel.name).read_bytes() == wheel.read_bytes()


def test_a_wheel_carries_no_site_of_other_sources(clone: Path, tmp_path: Path) -> None:
    changed = tmp_path / "changed"
    shutil.copytree(clone, changed, ignore=shutil.ignore_patterns("made"))
    with (changed / "pondapp" / "words" / "de.po").open("a") as catalogue:
        catalogue.write("\n# one line more\n")
    done = pip("wheel", "--no-deps", "--wheel-dir", tmp_path, ".", cwd=changed)
    assert done.returncode != 0
    assert "not of these sources: python -m pondapp build" in done.stdout + done.stderr


def test_a_wheel_brings_no_packed_twins_and_every_catalogue(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert not [name for name in names if name.endswith((".br", ".gz"))]
    assert {f"pondapp/words/{one.code}.po" for one in words.LANGUAGES[1:]} <= set(names)
