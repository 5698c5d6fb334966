"""Things in a list of texts: removed, put back where they were, never mixed up."""

from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.ui.parts.names import added, free_name, listed, put_back, removed


@given(count=st.integers(1, 8), data=st.data())
@settings(max_examples=30, deadline=None)
def test_what_is_removed_comes_back_where_it_was(count: int, data: st.DataObject) -> None:
    texts = {"groups": ""}
    for _ in range(count):
        name = free_name(texts, "g")
        assert name not in listed(texts, "groups")
        texts = added(texts, "groups", name)
    texts["g0.count"] = "3"
    place = data.draw(st.integers(0, count - 1))
    name = listed(texts, "groups")[place]
    gone = removed(texts, "groups", name)
    assert name not in listed(gone, "groups")
    assert put_back(gone, "groups", name, place) == texts


def test_a_name_of_something_removed_is_not_given_again() -> None:
    texts = removed(added({}, "a.shelves", "s0", {"a.s0.depth": "20"}), "a.shelves", "s0")
    assert free_name(texts, "s") == "s1"
