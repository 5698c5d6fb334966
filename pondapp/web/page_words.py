"""The words of the page itself: what its programs say before Python runs, or without it.

They stand in the catalogues like all others. Each program gets those that it says, and no more.
"""

import re

from pondapp import words
from pondapp.words import ENGLISH, LANGUAGES, po

# say("…") and word("key", "…"); a long text goes on over several lines.
SAID = re.compile(r'\b(?:say\(|word\("\w+",)\s*"([^"]+)"')
JOINED = re.compile(r'"\s*\+\s*"')

DECIMALS = {language.code: language.decimal for language in LANGUAGES if language != ENGLISH}


def said(program: str) -> list[str]:
    """What a program says, in English."""
    return sorted(set(SAID.findall(JOINED.sub("", program))))


def table(program: str) -> dict[str, dict[str, str]]:
    """What a program says, in each other language that says it otherwise, by its English."""
    known = {code: po.read(words.FOLDER / f"{code}.po") for code in DECIMALS}
    return {
        english: {
            code: text
            for code, texts in known.items()
            if isinstance(text := texts.get(english), str) and text != english
        }
        for english in said(program)
    }
