"""Each edit does its work on the client's present files, and fails when the text is gone."""

import json
from collections.abc import Callable

import pytest

from pondapp.web import patch, places

EDITS: dict[str, Callable[[bytes], bytes]] = {
    "main.dart.wasm": lambda data: patch.screen_program("main.dart.wasm", data),
    "main.dart.js": lambda data: patch.screen_program("main.dart.js", data),
    "flutter_bootstrap.js": patch.bootstrap,
    "pyodide/pyodide.mjs": patch.runtime,
    "assets/FontManifest.json": patch.font_manifest,
}


@pytest.mark.parametrize("name", EDITS)
def test_edit_changes_the_file_of_this_client(name: str) -> None:
    before = (places.client() / name).read_bytes()
    after = EDITS[name](before)
    assert after != before
    if name.startswith("main.dart"):
        assert len(after) == len(before), "the compiled client counts bytes"
        assert b"cdn.jsdelivr.net" not in after
    if name == "flutter_bootstrap.js":
        assert b"serviceWorkerSettings: {" not in after


@pytest.mark.parametrize("name", EDITS)
def test_edit_fails_when_its_text_is_missing(name: str) -> None:
    with pytest.raises(places.BuildError):
        EDITS[name](b"[]")


@pytest.mark.parametrize("name", [name for name in EDITS if name != "assets/FontManifest.json"])
def test_edit_is_not_done_twice(name: str) -> None:
    once = EDITS[name]((places.client() / name).read_bytes())
    with pytest.raises(places.BuildError):
        EDITS[name](once)


def test_fonts_are_roboto_and_the_icons() -> None:
    before = (places.client() / "assets/FontManifest.json").read_bytes()
    families = [font["family"] for font in json.loads(patch.font_manifest(before))]
    assert families == ["Roboto", "MaterialIcons"]
