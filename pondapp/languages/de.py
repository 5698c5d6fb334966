"""German."""

from pondapp.languages.de_answers import ANSWERS
from pondapp.languages.de_core import CORE
from pondapp.languages.de_help import HELP
from pondapp.languages.de_pages import PAGES
from pondapp.languages.de_parts import PARTS
from pondapp.languages.de_rules import RULES
from pondapp.words import Language

GERMAN = Language(
    code="de",
    table={**ANSWERS, **CORE, **HELP, **PAGES, **PARTS, **RULES},
    decimal=",",
    day="%d.%m.%Y",
    keeps_capitals=True,
)
