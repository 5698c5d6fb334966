"""The words that a reader sees, in the reader's language, and how that language writes numbers.

Texts are written in English where they are used; `t` and `tn` look them up in the catalogue of the
language in use. A text with numbers in it is a template: its named places are filled after the
look-up, so that another language may order them as it needs.

Catalogues are gettext's .po files. The site has each of them as a list of its texts in JSON, beside
the list of the English ones: of what the standard library reads, that is the smallest and, but for
marshal, which only one version of Python reads, the fastest. The catalogue of a language is read
when the language is chosen and not before.
"""

import json
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path

from pondapp.core.base.messages import Phrase

Catalogue = Mapping[str, str | Sequence[str]]


@dataclass(frozen=True, slots=True)
class Language:
    """How a language says and writes things.

    Attributes:
        code: Its two letters in ISO 639, and the name of its catalogue.
        name: What its speakers call it.
        decimal: The mark between whole numbers and tenths.
        group: The mark between thousands.
        grouped_from: How many digits before the decimal mark a number has at least to be grouped.
        day: How a date is written, for strftime.
        keeps_capitals: Whether a heading keeps its capital inside a sentence.
        plural_form: Which form of a text goes with a count, as in the head of its catalogue.
        native: Whether a native speaker has read its catalogue.
    """

    code: str
    name: str
    decimal: str = "."
    group: str = ","
    grouped_from: int = 4
    day: str = "%Y-%m-%d"
    keeps_capitals: bool = False
    plural_form: Callable[[int], int] = lambda count: int(count != 1)
    native: bool = True


def _polish_form(count: int) -> int:
    """One; two to four, but not twelve to fourteen; all others."""
    few = 2 <= count % 10 <= 4 and not 12 <= count % 100 <= 14
    return 0 if count == 1 else 1 if few else 2


ENGLISH = Language("en", "English")
# Marks, digits and forms as in Unicode's CLDR: "decimal", "group" and "minimumGroupingDigits" of
# common/main/<code>.xml, and common/supplemental/plurals.xml.
LANGUAGES = (
    ENGLISH,
    Language("de", "Deutsch", ",", ".", day="%d.%m.%Y", keeps_capitals=True),
    Language(
        "pl", "Polski", ",", "\u00a0", grouped_from=5, day="%d.%m.%Y", plural_form=_polish_form,
        native=False,
    ),
)  # fmt: skip

FOLDER = Path(__file__).parent

_language = ENGLISH
_texts: Catalogue = {}
_currency = ""


@cache
def _catalogue(code: str) -> Catalogue:
    """Texts and counted texts of a language, by the English ones."""
    if code == ENGLISH.code:
        return {}
    compiled = FOLDER / f"{code}.json"
    if compiled.exists():
        english = json.loads((FOLDER / f"{ENGLISH.code}.json").read_bytes())
        translated = zip(english, json.loads(compiled.read_bytes()), strict=True)
        return {text: found for text, found in translated if found is not None}
    from pondapp.words import po  # no part of the site

    return po.read(compiled.with_suffix(".po"))


def nearest_language(wanted: str | None) -> str:
    """The language to begin with for a reader whose device is set to this one, as in "de-AT"."""
    short = (wanted or "").replace("_", "-").partition("-")[0].lower()
    return short if short in {known.code for known in LANGUAGES} else ENGLISH.code


def set_language(code: str) -> None:
    """Use the language of this code from now on; one that is not known is English."""
    global _language, _texts
    _language = next((known for known in LANGUAGES if known.code == code), ENGLISH)
    _texts = _catalogue(_language.code)


def current_language() -> Language:
    """The language in use."""
    return _language


def set_currency(name: str) -> None:
    """Name sums of money by this from now on, as "€" or "EUR"; by nothing if it is empty."""
    global _currency
    _currency = name.strip()


def current_currency() -> str:
    """What sums of money are named by; empty while nothing is chosen."""
    return _currency


def sums(*numbers: str) -> str:
    """One sum of money or a range of two, with the currency where the language puts it."""
    before = _language.decimal == "." and _currency in ("$", "£")
    named = [f"{_currency}{one}" if before else one for one in numbers]
    text = named[0] if len(named) == 1 else t("{least} to {most}", least=named[0], most=named[1])
    return text if before else f"{text} {_currency}".strip()


def t(template: str, /, **values: object) -> str:
    """A text in the reader's language, its named places filled with `values`.

    A text that the catalogue lacks is shown in English rather than not at all.
    """
    if isinstance(template, Phrase):
        return t(template.template, **{key: t(value) for key, value in template.values.items()})
    found = _texts.get(template, template)
    text = found if isinstance(found, str) else found[0]
    return text.format_map(values) if values else text


def tn(one: str, many: str, count: int, /, **values: object) -> str:
    """A text that depends on a count, which also fills its place {count}.

    `one` and `many` are the English for 1 and for every other count.
    """
    found = _texts.get(one)
    if found is None or isinstance(found, str):
        text = (one, many)[ENGLISH.plural_form(count)]
    else:
        text = found[_language.plural_form(count)]
    return text.format_map({**values, "count": grouped(str(count))})


def within(heading: str) -> str:
    """A heading in the reader's language, as it stands inside a sentence."""
    return heading if _language.keeps_capitals else heading[:1].lower() + heading[1:]


def number(text: str) -> str:
    """A number that Python wrote, as the reader would write it."""
    return text.replace(".", _language.decimal)


def grouped(text: str) -> str:
    """A number as the reader writes it, with a mark between its thousands: to read, not to edit."""
    whole, mark, rest = text.partition(_language.decimal)
    digits = whole.removeprefix("-")
    if not digits.isdecimal() or len(digits) < _language.grouped_from:
        return text
    return f"{int(whole):,}".replace(",", _language.group) + mark + rest


def ungrouped(text: str) -> str:
    """A text without the marks between the thousands of its numbers."""
    return re.sub(rf"(?<=\d){re.escape(_language.group)}(?=\d{{3}}(?!\d))", "", text)


def as_day(when: date) -> str:
    """A date as the reader would write it; of a moment, the day that its own clock shows."""
    return when.strftime(_language.day)


def sentence(text: str) -> str:
    """A remark as a sentence of its own; a name such as pH keeps its small letter."""
    text = text.strip()
    first = text[:1] if text[1:2].isupper() else text[:1].upper()
    return first + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")
