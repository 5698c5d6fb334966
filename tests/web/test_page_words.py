"""What the page says without Python is in the catalogues, and what Python has it say after."""

import re

import pytest

from pondapp.web import page_words, places
from pondapp.words import ENGLISH, LANGUAGES, set_language, t

PROGRAMS = {path.name: path.read_text(encoding="utf-8") for path in places.TEMPLATES.glob("*.js")}
OTHERS = [language.code for language in LANGUAGES if language != ENGLISH]
CALL = re.compile(r"\b(?:say|word)\(")
LOOKED_UP_BY_ANOTHER = {"pad.js": 1}  # word(...) asks say(...) for its own


def test_every_text_that_a_program_says_is_found() -> None:
    for name, program in PROGRAMS.items():
        joined = page_words.JOINED.sub("", program)
        calls = len(CALL.findall(joined)) - LOOKED_UP_BY_ANOTHER.get(name, 0)
        assert len(page_words.SAID.findall(joined)) == calls, name
    assert len(page_words.said(PROGRAMS["pad.js"])) >= 10


@pytest.mark.parametrize("code", OTHERS)
def test_a_program_gets_what_it_says_from_the_catalogue(code: str) -> None:
    set_language(code)
    for program in PROGRAMS.values():
        told = page_words.table(program)
        for english in page_words.said(program):
            assert told[english].get(code, english) == t(english)


def test_a_program_gets_nothing_else() -> None:
    assert page_words.table('show(say("Stop"), say("nobody has said this"));') == {
        "Stop": {"de": "Stopp"},
        "nobody has said this": {},
    }


def test_the_first_program_knows_every_language_and_its_decimal_mark() -> None:
    assert page_words.DECIMALS == {"de": ",", "pl": ","}
    assert "/*@DECIMALS@*/" in (places.TEMPLATES / "start.js").read_text(encoding="utf-8")
