"""German."""

from pondapp.languages.de_core import CORE
from pondapp.languages.de_screens import SCREENS
from pondapp.words import Language

GERMAN = Language(
    code="de",
    table={**CORE, **SCREENS},
    decimal=",",
    day="%d.%m.%Y",
    keeps_capitals=True,
)
