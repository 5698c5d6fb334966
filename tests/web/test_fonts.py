"""The fonts of the site have every character that the app says, in every language.

For a character that they lack, some engines ask the host for another font, which is not there, and
some draw a box. Those that nobody sees, such as the mark where no line ends, are asked for too.
"""

import ast
import io
from collections.abc import Iterator
from itertools import product

import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from pondapp import units, words
from pondapp.ui.parts import letters, written
from pondapp.web import places
from pondapp.words import ENGLISH, FOLDER, LANGUAGES, po

ROBOTO = "assets/fonts/roboto.woff2"
OTHERS = [language.code for language in LANGUAGES if language != ENGLISH]
NATIVE = {"de": "äöüÄÖÜß„“", "pl": "ąćęłńóśźżĄĆĘŁŃÓŚŹŻ„”"}
VALUES = (-0.25, 0.0, 1e-6, 0.5, 12345.678, 1e9)
BREAK = "\n"  # the end of a line is no character of a font

# Characters of the sources that no screen draws, and what they are for.
NOT_DRAWN = {
    "answers/log/log_table.py": "what a table that leaves the app must not hold",
    "answers/sharing/calendar_file.py": "a tab of the reader's, which the file says as a space",
    "answers/sharing/html_report.py": "a page of its own, in the fonts of the device",
    "store/browser/browser_store.py": "the end of a range of keys",
}


@pytest.fixture(scope="module")
def drawn() -> set[str]:
    font = TTFont(io.BytesIO((places.client() / ROBOTO).read_bytes()))
    return {chr(code) for code in font.getBestCmap()} | {BREAK}


def shown(tree: ast.AST) -> Iterator[str]:
    """The texts of a module, without those that explain it."""
    explained = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and id(node) not in explained:
            yield str(node.value)


@pytest.mark.parametrize("code", OTHERS)
def test_the_font_has_every_character_of_a_catalogue(code: str, drawn: set[str]) -> None:
    said = set(NATIVE[code])
    for english, forms in po.read(FOLDER / f"{code}.po").items():
        for text in (english, *forms):
            said.update(written.whole(text))
    assert said - drawn == set()


def test_the_font_has_every_character_of_the_sources(drawn: set[str]) -> None:
    lacking = {}
    for path in places.PACKAGE.rglob("*.py"):
        name = path.relative_to(places.PACKAGE).as_posix()
        if name.startswith(("web/", "__main__")) or name in NOT_DRAWN:
            continue
        said = {one for text in shown(ast.parse(path.read_bytes())) for one in text}
        if said - drawn:
            lacking[name] = said - drawn
    assert lacking == {}
    assert all((places.PACKAGE / name).exists() for name in NOT_DRAWN)


def test_the_font_has_every_character_of_a_number(drawn: set[str]) -> None:
    said = {one for mark in LANGUAGES for one in mark.decimal + mark.group}
    for language in LANGUAGES:
        words.set_language(language.code)
        for kind, system, value in product(units.KINDS, units.SYSTEMS, VALUES):
            said.update(written.whole(units.show(value, kind, system)))
            said.update(written.whole(units.show_range(value, 2 * value, kind, system)))
    assert said - drawn == set()


def test_the_app_knows_which_characters_the_font_has(drawn: set[str]) -> None:
    assert {one for one in drawn if one >= " "} == letters.DRAWN
