"""The command that opens the app installs enough to build it, and no more than that."""

import subprocess
import sys
import tomllib
from importlib import metadata
from pathlib import Path

import dev
import pytest

from pondapp.web import places, wheels

PROJECT = tomllib.loads((places.ROOT / "pyproject.toml").read_text())["project"]
NOT_OURS = ("..", "__pycache__")  # commands, and what several packages share
BUILDING = """
from pondapp import __main__ as command
from pondapp.web import site, stamp
print(len(site.site_files({"main.py": b"print()"})))
"""


def names() -> list[str]:
    return [one.replace(">", "=").partition("=")[0] for one in dev.requirements()]


def files_of(package: str) -> set[str]:
    """What an installed package has at the top of the folder of packages."""
    return {
        path.parts[0] for path in metadata.files(package) or () if path.parts[0] not in NOT_OURS
    }


def test_what_opens_the_app_is_of_the_versions_that_are_tested() -> None:
    locked = wheels.locked(places.LOCK)
    exact = dict(one.split("==") for one in dev.requirements() if "==" in one)
    assert exact.pop("flet-web") == locked["flet"][0], "the client and its Python side are one"
    assert exact == {name: locked[name][0] for name in dev.FOR_BUILDING}


def test_what_opens_the_app_is_complete(tmp_path: Path) -> None:
    wheels.fetch(places.LOCK, places.CACHE / "wheels")
    here = Path(metadata.distribution("pydantic").locate_file(""))
    for name in names():
        for entry in files_of(name):
            (tmp_path / entry).symlink_to(here / entry)
    done = subprocess.run(
        [sys.executable, "-S", "-c", BUILDING],
        cwd=places.ROOT, env={"PYTHONPATH": str(tmp_path)}, capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 30


def test_nothing_of_the_tests_is_installed_to_open_the_app() -> None:
    testing = {
        one.replace(">", "=").partition("=")[0] for one in PROJECT["optional-dependencies"]["test"]
    }
    assert not testing & set(names())
    assert len(names()) <= 10


def test_opening_twice_installs_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(dev, "VENV", tmp_path)
    asked: list[tuple[str, ...]] = []
    monkeypatch.setattr(dev, "make_venv", lambda: asked.append(("venv",)))
    monkeypatch.setattr(dev, "run", lambda *words: not asked.append(words))
    monkeypatch.setattr(dev, "FETCH", "")
    monkeypatch.setattr(dev, "PYTHON", sys.executable)
    dev.install_for_opening()
    assert len(asked) == 2
    dev.install_for_opening()
    assert len(asked) == 2
    dev.install_for_tests()
    assert len(asked) == 4, "more is needed to test"
    assert ".[build,release,test]" in asked[-1]
    monkeypatch.setattr(dev, "wanted", lambda: "another state of the project")
    dev.install_for_opening()
    assert len(asked) == 6


def test_an_older_python_is_told_so_before_it_misses_anything() -> None:
    older = "import runpy, sys; sys.version_info = (3, 9, 2); sys.modules['tomllib'] = None; "
    done = subprocess.run(
        [sys.executable, "-c", f"{older} runpy.run_path({dev.__file__!r}, run_name='__main__')"],
        capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 1
    assert done.stderr.startswith("pondapp needs Python 3.11 or newer")
    assert len(done.stderr.splitlines()) == 1
