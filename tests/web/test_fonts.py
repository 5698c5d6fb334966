"""The fonts of the site have every character that the app says, in every language."""

import io
import unicodedata

import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from pondapp.web import places
from pondapp.words import ENGLISH, FOLDER, LANGUAGES, po

ROBOTO = "assets/fonts/roboto.woff2"
OTHERS = [language.code for language in LANGUAGES if language != ENGLISH]
NATIVE = {"de": "äöüÄÖÜß„“", "pl": "ąćęłńóśźżĄĆĘŁŃÓŚŹŻ„”"}


@pytest.fixture(scope="module")
def drawn() -> set[str]:
    font = TTFont(io.BytesIO((places.client() / ROBOTO).read_bytes()))
    return {chr(code) for code in font.getBestCmap()}


@pytest.mark.parametrize("code", OTHERS)
def test_the_font_has_every_character_of_a_catalogue(code: str, drawn: set[str]) -> None:
    said = set(NATIVE[code])
    for english, forms in po.read(FOLDER / f"{code}.po").items():
        said.update(english, *forms)
    lacking = {one for one in said - drawn if not unicodedata.category(one).startswith("C")}
    assert lacking == set()
