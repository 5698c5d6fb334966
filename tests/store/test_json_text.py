"""Text is looked at before it is parsed: how deep, how large, without ever taking long."""

import json
import time
from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.models.limits import DEEPEST, LARGEST_DOCUMENT
from pondapp.store.json_text import check, depth, parsed
from pondapp.store.key_value_store import StoreError

values = st.recursive(
    st.none() | st.integers() | st.text(st.characters(codec="utf-8") | st.sampled_from('[]{}"\\')),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=3), inner),
    max_leaves=20,
)


def deepest(value: Any) -> int:
    if isinstance(value, dict):
        return 1 + max(map(deepest, value.values()), default=0)
    return 1 + max(map(deepest, value), default=0) if isinstance(value, list) else 0


@given(values, st.booleans())
def test_the_depth_is_that_of_what_the_text_says(value: Any, plain: bool) -> None:
    text = json.dumps(value, ensure_ascii=plain)
    assert depth(text) == deepest(value)
    deep = "[" * (DEEPEST - deepest(value)) + text + "]" * (DEEPEST - deepest(value))
    assert check(deep) == deep
    with pytest.raises(StoreError, match="brackets inside"):
        check(f"[{deep}]")


def test_the_limit_itself_is_still_read() -> None:
    assert parsed("[" * DEEPEST + "]" * DEEPEST)
    assert parsed(json.dumps("[" * 1000)) == "[" * 1000
    assert parsed(json.dumps([[]] * 1000)) == [[]] * 1000
    with pytest.raises(StoreError, match=f"more than {DEEPEST} brackets"):
        parsed("[" * (DEEPEST + 1) + "]" * (DEEPEST + 1))
    with pytest.raises(StoreError, match=r"too large: 4\.1 MB, where 4 MB is the most"):
        check(" " * (LARGEST_DOCUMENT + 1))
    for text in ("", "[", "{]", "9" * 10_000, "]" * 100 + "[" * 70):
        with pytest.raises(StoreError, match="damaged"):
            parsed(text)


@pytest.mark.parametrize(
    "part", ["[", '{"a":', '"', '\\"', "\\", '"\\"', "[]", '["', "]["], ids=repr
)
def test_the_look_takes_time_that_grows_with_the_text_only(part: str) -> None:
    begun = time.perf_counter()
    with suppress(StoreError):
        check(part * 500_000, 10_000_000)
    assert time.perf_counter() - begun < 5
