"""The words that a reader sees, in the reader's language.

Texts are written in English where they are used; `t` looks them up in the table of the language in
use. A text with numbers in it is a template: its named places are filled after the look-up, so
that another language may order them as it needs.
"""

from collections.abc import Mapping

_EMPTY: Mapping[str, str] = {}
_table: Mapping[str, str] = _EMPTY


def use_table(table: Mapping[str, str] | None) -> None:
    """Speak by this table from now on; None is English, the language of the code."""
    global _table
    _table = _EMPTY if table is None else table


def t(template: str, /, **values: object) -> str:
    """A text in the reader's language, its named places filled with `values`.

    A text that the table lacks is shown in English rather than not at all.
    """
    found = _table.get(template, template)
    return found.format_map(values) if values else found
