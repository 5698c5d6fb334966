"""The languages that the app speaks besides that of its code.

Each is a module with a table for every area of the app; it is loaded when the language is chosen
and not before.
"""

from pondapp.words import ENGLISH, Language, set_language

NAMES = (("en", "English"), ("de", "Deutsch"))


def nearest(wanted: str | None) -> str:
    """The language to begin with for a reader whose device is set to this one, as in "de-AT"."""
    short = (wanted or "").replace("_", "-").partition("-")[0].lower()
    return short if short in dict(NAMES) else ENGLISH.code


def use(code: str) -> None:
    """Speak the language of this code from now on; one that is not known is English."""
    set_language(_language(code))


def _language(code: str) -> Language:
    if code == "de":
        from pondapp.languages.de import GERMAN

        return GERMAN
    return ENGLISH
