"""The lock is exact, and says the same as what the tests run with."""

import importlib.metadata
import tomllib
from pathlib import Path

import pytest

from pondapp.web import places, wheels


def test_locked_versions_are_those_installed_here() -> None:
    for name, (version, _) in wheels.locked(places.LOCK).items():
        assert importlib.metadata.version(name) == version, name


def test_every_shipped_dependency_is_locked() -> None:
    project = tomllib.loads((places.ROOT / "pyproject.toml").read_text())["project"]
    shipped = project["dependencies"]
    locked = wheels.locked(places.LOCK)
    assert shipped == [f"{name}=={locked[name][0]}" for name in (s.split("==")[0] for s in shipped)]


@pytest.mark.parametrize("line", ["flet", "flet==1.0.5", "flet>=1 --hash=sha256:" + "0" * 64])
def test_inexact_line_is_refused(tmp_path: Path, line: str) -> None:
    lock = tmp_path / "lock.txt"
    lock.write_text(f"# comment\n\n{line}\n")
    with pytest.raises(places.BuildError, match="not a name, version and hash"):
        wheels.locked(lock)


def test_wheel_of_other_bytes_is_not_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lock = tmp_path / "lock.txt"
    lock.write_text(f"thing==1 --hash=sha256:{'0' * 64}\n")
    (tmp_path / "thing-1-py3-none-any.whl").write_bytes(b"other bytes")
    monkeypatch.setattr(wheels.sys, "executable", "/bin/false")
    with pytest.raises(places.BuildError, match="could not be fetched"):
        wheels.fetch(lock, tmp_path)
