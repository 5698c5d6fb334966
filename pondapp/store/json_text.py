"""JSON from outside or from the device, looked at before anything parses it.

A parser that calls itself for each bracket overflows the stack of the browser's Python, which ends
the app and cannot be caught. So depth and size are found first, by a scan that calls nothing.
"""

import json
import re
from typing import Any

from pondapp.core.base.messages import Amount
from pondapp.models.limits import DEEPEST, LARGEST_DOCUMENT
from pondapp.store.key_value_store import StoreError

# A string, to its end or the end of the text, or a bracket. It never goes back, so it is linear.
_STRING = r'"(?:[^"\\]++|\\.?)*+"?'
_PARTS = re.compile(rf"{_STRING}|[\[{{]|[\]}}]", re.DOTALL)
_NO_BRACKETS = re.compile(rf'{_STRING}|[^\[\]{{}}"]++', re.DOTALL)
_ONE_KIND = str.maketrans("{}", "[]")


def depth(text: str) -> int:
    """How many brackets stand inside one another at most; brackets inside strings do not count."""
    deepest = level = 0
    for part in _PARTS.finditer(text):
        mark = part[0][0]
        if mark in "[{":
            level += 1
            deepest = max(deepest, level)
        elif mark != '"':
            level = max(0, level - 1)
    return deepest


def _is_too_deep(text: str) -> bool:
    """The same for a text of any size in a fraction of the time, where it is in order.

    Pairs without anything between them are taken away: each round makes it less deep by one.
    """
    brackets = _NO_BRACKETS.sub("", text).translate(_ONE_KIND)
    for _ in range(DEEPEST):
        if not brackets:
            return False
        brackets = brackets.replace("[]", "")
    return depth(text) > DEEPEST


def check(text: str, largest: int = LARGEST_DOCUMENT) -> str:
    """Return the text if it may be parsed.

    Raises:
        StoreError: It is too large or nested too deep.
    """
    if len(text) > largest:
        raise StoreError(
            "its text is too large: {size} MB, where {most} MB is the most",
            size=Amount(-(-len(text) // 100_000) / 10, "-"),
            most=Amount(largest / 1e6, "-"),
        )
    # Few brackets cannot nest deep: nearly every text ends here.
    if text.count("[") + text.count("{") > DEEPEST and _is_too_deep(text):
        raise StoreError(
            "its text is damaged: more than {most} brackets inside one another",
            most=Amount(DEEPEST, "-"),
        )
    return text


def parsed(text: str, largest: int = LARGEST_DOCUMENT) -> Any:
    """What the text says.

    Raises:
        StoreError: It is no JSON, too large, or nested too deep.
    """
    try:
        return json.loads(check(text, largest))
    except ValueError as error:
        raise StoreError("its text is damaged") from error
