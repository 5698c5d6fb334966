"""The words that a reader sees, in the reader's language, and how that language writes numbers.

Texts are written in English where they are used; `t` looks them up in the table of the language in
use. A text with numbers in it is a template: its named places are filled after the look-up, so
that another language may order them as it needs.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from pondapp.core.base.messages import Phrase


@dataclass(frozen=True, slots=True)
class Language:
    """How a language says and writes things.

    Attributes:
        code: Its two letters in ISO 639.
        table: Its texts, by the English ones.
        decimal: The mark between whole numbers and tenths.
        day: How a date is written, for strftime.
        keeps_capitals: Whether a heading keeps its capital inside a sentence.
    """

    code: str = "en"
    table: Mapping[str, str] = field(default_factory=dict)
    decimal: str = "."
    day: str = "%Y-%m-%d"
    keeps_capitals: bool = False


ENGLISH = Language()
_now: Language = ENGLISH


def set_language(language: Language) -> None:
    """Speak this language from now on."""
    global _now
    _now = language


def current_language() -> Language:
    """The language in use."""
    return _now


def t(template: str, /, **values: object) -> str:
    """A text in the reader's language, its named places filled with `values`.

    A text that the table lacks is shown in English rather than not at all.
    """
    if isinstance(template, Phrase):
        return t(template.template, **{key: t(value) for key, value in template.values.items()})
    found = _now.table.get(template, template)
    return found.format_map(values) if values else found


def within(heading: str) -> str:
    """A heading in the reader's language, as it stands inside a sentence."""
    return heading if _now.keeps_capitals else heading[:1].lower() + heading[1:]


def number(text: str) -> str:
    """A number that Python wrote, as the reader would write it."""
    return text.replace(".", _now.decimal)


def as_day(when: date) -> str:
    """A date as the reader would write it; of a moment, the day that its own clock shows."""
    return when.strftime(_now.day)


def sentence(text: str) -> str:
    """A remark as a sentence of its own."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")
