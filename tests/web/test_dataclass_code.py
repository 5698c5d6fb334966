"""Dataclasses take their compiled code where it is theirs, and write their own where it is not."""

import dataclasses
import importlib.util
import marshal
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from pondapp.web import bundle, compiled, dataclass_code, places

HEAD = b"sixteen bytes..."


def translate(sources: Mapping[str, bytes]) -> dict[str, bytes]:
    return {
        path: HEAD + marshal.dumps(compile(text, path, "exec")) for path, text in sources.items()
    }


def early() -> ModuleType:
    """The program as a start runs it, where there is nothing to take."""
    spec = importlib.util.spec_from_file_location("early", places.TEMPLATES / "early.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def pump() -> Any:
    return dataclasses.make_dataclass("Pump", [("name", str), ("watts", float, 35.0)], frozen=True)


def have_run(patch: pytest.MonkeyPatch, run: Callable[..., None]) -> None:
    patch.setattr(dataclasses, "exec", run, raising=False)


@pytest.fixture
def written(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    texts: list[str] = []

    def noted(text: str, *names: Any) -> None:
        texts.append(text)
        exec(text, *names)

    with monkeypatch.context() as patch:
        have_run(patch, noted)
        pump()
    return texts


def test_what_was_compiled_is_run_and_what_was_not_is_compiled(
    written: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    codes = marshal.loads(zlib.decompress(dataclass_code.packed(written, translate)))
    assert len(codes) == len(set(written)) > 0
    have_run(monkeypatch, exec)  # put back afterwards, whatever takes its place
    early().take(codes)
    one = pump()("Small pump")
    assert codes == {}
    assert repr(one) == "Pump(name='Small pump', watts=35.0)"
    assert repr(pump()("Large pump", 90.0)) == "Pump(name='Large pump', watts=90.0)"  # anew
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.watts = 1.0


def test_the_same_texts_give_the_same_bytes_in_any_order(written: list[str]) -> None:
    assert dataclass_code.packed(written, translate) == dataclass_code.packed(
        [*reversed(written), *written], translate
    )


def test_a_browser_runs_only_where_a_module_has_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    asked: list[dict[str, bytes]] = []

    def by_browser(files: dict[str, bytes]) -> bytes:
        asked.append(bundle.unpack(files["pack.bin"]))
        return b'["a", "b"]'

    monkeypatch.setattr(compiled, "answer", by_browser)
    site = {"start.bin": b"", "worker.js": b""}
    modules = {"ahead.pyc": b"reads", "app/__init__.pyc": b"1", "early.pyc": b"2"}
    for changed, runs in (
        ({}, 1), ({"other.pyc": b""}, 1), ({"app/__init__.pyc": b"3"}, 2), ({"ahead.pyc": b""}, 3),
    ):  # fmt: skip
        assert dataclass_code.texts(site, {**modules, **changed}) == ["a", "b"]
        assert len(asked) == runs, changed
    assert asked[0]["read_ahead.pyc"] == b"reads"
    assert b"read_ahead" in asked[0]["ahead.py"]
    assert "ahead.pyc" not in asked[0]


def test_without_a_browser_it_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    monkeypatch.setattr(compiled, "BROWSERS", ())
    with pytest.raises(compiled.NotCompiled, match="no Chromium"):
        dataclass_code.texts({"start.bin": b""}, {"ahead.pyc": b""})
