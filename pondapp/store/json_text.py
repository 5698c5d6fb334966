"""JSON from outside or from the device, looked at before anything parses it.

A parser that calls itself for each bracket overflows the stack of the browser's Python, which ends
the app and cannot be caught. So depth and size are found first, by a scan that calls nothing.
"""

import json
import re
from typing import Any

from pondapp.core.messages import Amount
from pondapp.models.limits import DEEPEST, LARGEST_DOCUMENT
from pondapp.store.box import StoreError

# A string, to its end or the end of the text, or a bracket. It never goes back, so it is linear.
_PARTS = re.compile(r'"(?:[^"\\]++|\\.?)*+"?|[\[{]|[\]}]', re.DOTALL)


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
    if text.count("[") + text.count("{") > DEEPEST and depth(text) > DEEPEST:
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
