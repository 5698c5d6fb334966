"""Without a browser the site is built from sources, and what was compiled once is kept."""

import re
from pathlib import Path

import pytest

from pondapp.web import bundle, compiled, library, places, site

SOURCES = {"/app/a.py": b"x = 1\n", "/app/b.py": b"y = 2\n"}


@pytest.fixture
def no_browser(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    wheels = places.CACHE / "wheels"
    wheels.mkdir(parents=True, exist_ok=True)
    (tmp_path / "wheels").symlink_to(wheels)
    monkeypatch.setattr(places, "CACHE", tmp_path)
    monkeypatch.setattr(compiled, "BROWSERS", ())


@pytest.mark.usefixtures("no_browser")
def test_site_without_a_browser_is_of_sources_and_says_so() -> None:
    told: list[str] = []
    files = site.best_files({"main.py": b"print()\n"}, told.append)
    assert bundle.unpack(files["start.bin"])["main.py"] == b"print()\n"
    assert b"asyncio/__init__.py" in files["pyodide/python_stdlib.zip"]
    assert len(told) == 1
    assert "no Chromium" in told[0]


def test_only_what_is_new_is_compiled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    asked: list[set[str]] = []

    def by_browser(sources: dict[str, bytes]) -> dict[str, bytes]:
        asked.append(set(sources))
        return {path: b"made of " + data for path, data in sources.items()}

    monkeypatch.setattr(compiled, "_by_browser", by_browser)
    compiled.compiled(SOURCES)
    changed = {**SOURCES, "/app/b.py": b"y = 3\n"}
    made = compiled.compiled(changed)
    assert asked == [{"/app/a.py", "/app/b.py"}, {"/app/b.py"}]
    assert made == {path: b"made of " + data for path, data in changed.items()}
    assert compiled.compiled(changed) == made
    assert len(asked) == 2


def test_half_an_answer_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    monkeypatch.setattr(compiled, "_by_browser", lambda _: {"/app/a.py": b""})
    with pytest.raises(compiled.NotCompiled, match="not whole"):
        compiled.compiled(SOURCES)


def test_program_that_ends_without_an_answer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    monkeypatch.setattr(compiled, "BROWSERS", ("false",))
    with pytest.raises(compiled.NotCompiled, match="did not answer"):
        compiled.compiled(SOURCES)


def test_compiled_files_stand_in_place_of_their_sources() -> None:
    seen: list[str] = []

    def ahead(sources: dict[str, bytes]) -> dict[str, bytes]:
        seen.extend(sources)
        return dict.fromkeys(sources, b"code")

    files = site.site_files({"main.py": b"print()\n"}, ahead)
    pack = bundle.unpack(files["start.bin"]) | bundle.unpack(files["pack.bin"])
    assert pack["main.pyc"] == b"code"
    assert not [name for name in pack if name.endswith(".py")]
    assert any(name.endswith("/LICENSE") for name in pack)
    assert {path for path in seen if path.endswith("asyncio/__init__.py")} == {
        f"{library.INSIDE}asyncio/__init__.py"
    }


def test_nothing_in_the_app_asks_for_the_types_of_functions() -> None:
    """What ships has none."""
    asks = re.compile(rb"get_type_hints|__annotat|singledispatch|validate_call")
    for path, source in bundle.app_files(places.PACKAGE).items():
        assert not asks.search(source), path
