"""The browser's Python compiles the same source to the same bytes, whatever else it compiles."""

from pathlib import Path

import pytest

from pondapp.web import bundle, compiled, library, places, site

WHOLE = (places.client() / "pyodide/python_stdlib.zip").read_bytes()


def some(*starts: str) -> dict[str, bytes]:
    return {
        library.INSIDE + path: data
        for path, data in library.sources(WHOLE).items()
        if path.startswith(starts) and path.endswith(".py")
    }


@pytest.mark.usefixtures("program")
def test_same_sources_give_the_same_bytes_in_any_company(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path / "one")
    many = compiled.compiled(some("asyncio/", "typing", "json/", "re/"))
    monkeypatch.setattr(places, "CACHE", tmp_path / "two")
    few = compiled.compiled(dict(reversed(some("json/", "typing").items())))
    assert few == {path: many[path] for path in few}
    assert len(few) > 3


@pytest.mark.usefixtures("program")
def test_source_that_is_no_python_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    with pytest.raises(compiled.NotCompiled, match="SyntaxError"):
        compiled.compiled({"/app/a.py": b"x = = 1\n"})


def test_app_of_the_tests_is_compiled(site_of_app: Path) -> None:
    pack = bundle.unpack((site_of_app / "pack.bin").read_bytes())
    assert "pondapp/ui/shell/app.pyc" in pack
    assert not [name for name in pack if name.endswith(".py")]
    assert "early.bin" in pack  # the code of dataclasses
    again = site.best_files(bundle.app_files(places.PACKAGE), print)["pack.bin"]
    assert again == (site_of_app / "pack.bin").read_bytes()


TYPED = b"""from dataclasses import dataclass
def tell(flow: float, *rest: str, **more: bytes) -> "str": return f"{flow}"
@dataclass
class Pump: flow: float
"""


@pytest.mark.usefixtures("program")
def test_functions_of_the_app_ship_without_their_types_and_all_else_with_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(places, "CACHE", tmp_path)
    plain = TYPED.replace(b": float, *", b", *").replace(b": str", b"").replace(b": bytes", b"")
    plain = plain.replace(b' -> "str"', b"")
    files = {"/app/pondapp/typed.py": TYPED, "/app/pint/typed.py": TYPED}
    made = compiled.compiled(files)
    head = 16  # a version, a flag and a hash of the source
    for path, data in made.items():
        untyped = compiled.compiled({path: plain})[path]
        assert (data[head:] == untyped[head:]) == path.startswith("/app/pondapp/"), path
