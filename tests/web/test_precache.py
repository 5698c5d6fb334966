"""The version follows every byte, and no place of a template stays empty."""

import pytest

from pondapp.web import places, precache

TEMPLATE = (places.TEMPLATES / "sw.js").read_text(encoding="utf-8")
FILES = {path: path.encode() for paths in precache.ONLY.values() for path in paths}


def version(files: dict[str, bytes]) -> str:
    text = precache.service_worker(TEMPLATE, files).decode()
    return text.split('const VERSION = "')[1].split('"')[0]


@pytest.mark.parametrize("path", FILES)
def test_any_changed_file_makes_a_new_version(path: str) -> None:
    assert version({**FILES, path: b"other"}) != version(FILES)


def test_order_does_not_make_a_new_version() -> None:
    assert version(dict(reversed(FILES.items()))) == version(FILES)


def test_licence_texts_are_not_kept_on_the_device() -> None:
    text = precache.service_worker(TEMPLATE, {**FILES, "assets/NOTICES": b"x"}).decode()
    assert "assets/NOTICES" not in text


def test_missing_file_of_a_renderer_is_refused() -> None:
    with pytest.raises(places.BuildError, match=r"main\.dart\.js"):
        precache.service_worker(TEMPLATE, {k: v for k, v in FILES.items() if k != "main.dart.js"})


@pytest.mark.parametrize(("template", "places_"), [("", {"A": "x"}), ("@A@ @B@", {"A": "x"})])
def test_fill_refuses_a_missing_or_an_empty_place(template: str, places_: dict[str, str]) -> None:
    with pytest.raises(places.BuildError):
        precache.fill("it", template, places_)


def test_progress_counts_one_renderer_only() -> None:
    sizes = precache.start_bytes({**FILES, "pack.bin": b"12345", "icons/x.png": b"1" * 99})
    for renderer, paths in precache.ONLY.items():
        assert sizes["modules"] == 5
        assert sizes[renderer] == 5 + sum(len(FILES[path]) for path in paths)


def test_a_snapshot_goes_with_all_that_python_is_made_of_and_nothing_else() -> None:
    files = {
        "start.bin": b"",
        "pack.bin": b"a",
        "pyodide/x.zip": b"b",
        "libraries/y.wasm": b"c",
        "boot.js": b"d",
    }
    version = precache.python_version(files, "worker")
    assert version == precache.python_version({**files, "boot.js": b"other"}, "worker")
    for path in ("start.bin", "pack.bin", "pyodide/x.zip", "libraries/y.wasm"):
        assert version != precache.python_version({**files, path: b"other"}, "worker")
    assert version != precache.python_version(files, "another worker")
