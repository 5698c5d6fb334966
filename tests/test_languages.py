"""Every text has its German, with the same places; and no screen holds a text past the table."""

import ast
import string
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))
import texts

from pondapp.languages.de import GERMAN

# Texts of screens that are written as they are, in any language.
AS_THEY_ARE = {
    "pondapp": "the name of the app",
    "only here": "a state of a document in a backup, compared and never shown",
}


def places(template: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(template) if name is not None}


@pytest.fixture(scope="module")
def found() -> dict[str, str]:
    return texts.texts()


def test_every_text_has_its_german(found: dict[str, str]) -> None:
    missing = {text: where for text, where in found.items() if text not in GERMAN.table}
    assert not missing


def test_the_table_holds_nothing_that_no_text_uses(found: dict[str, str]) -> None:
    assert set(GERMAN.table) <= set(found)


@pytest.mark.parametrize("area", ["answers", "core", "help", "pages", "parts", "rules"])
def test_translations_keep_the_named_places(area: str) -> None:
    module = __import__(f"pondapp.languages.de_{area}", fromlist=["x"])
    table: dict[str, str] = getattr(module, area.upper())
    wrong = {text: german for text, german in table.items() if places(text) != places(german)}
    assert not wrong
    assert all(german.strip() for german in table.values())


def test_no_text_stands_in_two_tables() -> None:
    tables = [
        getattr(__import__(f"pondapp.languages.de_{area}", fromlist=["x"]), area.upper())
        for area in ("answers", "core", "help", "pages", "parts", "rules")
    ]
    assert sum(map(len, tables)) == len(GERMAN.table)


def test_the_search_finds_texts_wherever_they_stand() -> None:
    tree = ast.parse(
        'TITLES = {"bog": "Bog filter"}\n'
        "def page(x: bool) -> str:\n"
        '    "A docstring of words."\n'
        '    raise PondError("{text} is wrong", text="so far")\n'
        '    return t("first" if x else "second", name=y)\n'
    )
    said = texts.said(tree, {"PondError"})
    assert {"{text} is wrong", "first", "second"} <= said
    assert set(texts.worded(tree).values()) >= {"Bog filter"}
    assert not any("docstring" in text for text in texts.worded(tree).values())


def test_no_screen_holds_a_text_past_the_table() -> None:
    bare = {}
    for path, tree in texts.modules("ui"):
        for node, text in texts.bare(tree).items():
            if text not in AS_THEY_ARE:
                bare[f"{path.name}:{node.lineno}"] = text
    assert not bare
