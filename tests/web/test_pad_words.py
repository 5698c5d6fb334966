"""The page's stopwatch says before Python is there what Python has it say after."""

import re

from pondapp.web import places
from pondapp.words import set_language, t

# word("stop", "Stop", "Stopp") and say("Measure", "Messen"), over two lines where they are long
SAID = re.compile(r'(?:say|word\("\w+",)\s*\(?"([^"]+)",\s*"([^"]+)"\)')


def test_the_german_of_the_page_is_that_of_the_catalogue() -> None:
    program = (places.TEMPLATES / "pad.js").read_text(encoding="utf-8")
    said = [pair for pair in SAID.findall(program) if pair != (".", ",")]
    assert len(said) >= 9
    try:
        set_language("de")
        for english, german in said:
            own = {"n": "{n}", "m": "{m}"} if "{n}" in english else {}
            assert t(english, **own) == german
    finally:
        set_language("en")
