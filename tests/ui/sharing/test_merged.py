"""What a file brings is said by pond, before it is taken in and after."""

from collections import Counter
from datetime import UTC, datetime

import pytest
from drawn import words_of

from pondapp.store.backup import Preview
from pondapp.ui.parts import layout
from pondapp.ui.sharing.incoming import merge_card


def preview(**of_pond: Counter[tuple[str, str]]) -> Preview:
    made = Preview("everything", datetime(2026, 5, 6, tzinfo=UTC), complete=True, touched=False)
    made.of_pond, made.names = of_pond, {"p": "Toad Terrace"}
    return made


@pytest.mark.usefixtures("screen")
def test_each_pond_is_named_with_what_came_for_it() -> None:
    look = preview(
        p=Counter(
            {
                ("pond", "both"): 1,
                ("reading", "new"): 3,
                ("entry", "mine"): 1,
                ("reading", "mine"): 1,
            }
        ),
        here=Counter({("entry", "new"): 1}),
        none=Counter({("reading", "theirs"): 2}),
    )
    told = words_of(layout.column(merge_card(look, "What came", {"here": "Heron Hollow"})))
    for text in (
        "What came", "Toad Terrace", "kept twice, one as “(2)”, new readings: 3, corrected here: 2",
        "Heron Hollow", "other new entries: 1", "Without a pond", "corrected in the file: 2",
    ):  # fmt: skip
        assert text in told


@pytest.mark.usefixtures("screen")
def test_where_nothing_comes_there_is_no_card() -> None:
    assert merge_card(preview(), "What came", {}) == []
    assert merge_card(preview(p=Counter()), "What came", {}) == []
