"""What every KeyValueStore does."""

import asyncio

import pytest

from pondapp.store.key_value_store import KeyValueStore, StoreError


def test_a_new_box_is_empty(store: KeyValueStore) -> None:
    assert asyncio.run(store.get("pond/a")) is None
    assert asyncio.run(store.keys()) == []
    assert asyncio.run(store.items("pond/")) == []


@pytest.mark.parametrize("text", ["", "{}", "Größe 1,5 m³\r\n\n\u2028 🐟", "x" * 200_000, "\x00"])
def test_gives_back_the_same_text(store: KeyValueStore, text: str) -> None:
    asyncio.run(store.put("pond/a", text))
    assert asyncio.run(store.get("pond/a")) == text
    assert asyncio.run(store.items()) == [("pond/a", text)]


def test_the_last_put_counts(store: KeyValueStore) -> None:
    async def write() -> None:
        for text in ("longer than the second", "second"):
            await store.put("pond/a", text)

    asyncio.run(write())
    assert asyncio.run(store.items()) == [("pond/a", "second")]


def test_puts_started_together_end_in_order(store: KeyValueStore) -> None:
    async def write() -> None:
        await asyncio.gather(*(store.put("pond/a", str(n)) for n in range(20)))

    asyncio.run(write())
    assert asyncio.run(store.get("pond/a")) == "19"


def test_keys_are_sorted_and_limited_by_prefix(store: KeyValueStore) -> None:
    async def fill() -> None:
        for key in ("reading/b", "pond/b", "ponds/a", "pond/A", "pond/a", "quarantine/pond/a/1"):
            await store.put(key, key)

    asyncio.run(fill())
    assert asyncio.run(store.keys("pond/")) == ["pond/A", "pond/a", "pond/b"]
    assert asyncio.run(store.items("quarantine/")) == [
        ("quarantine/pond/a/1", "quarantine/pond/a/1")
    ]
    assert len(asyncio.run(store.keys())) == 6


def test_keys_that_differ_only_in_capitals_are_two(store: KeyValueStore) -> None:
    asyncio.run(store.put("pond/Ab", "1"))
    asyncio.run(store.put("pond/aB", "2"))
    assert asyncio.run(store.items()) == [("pond/Ab", "1"), ("pond/aB", "2")]


def test_delete_forgets_one_and_minds_no_missing_key(store: KeyValueStore) -> None:
    asyncio.run(store.put("pond/a", "1"))
    asyncio.run(store.put("pond/b", "2"))
    asyncio.run(store.delete("pond/a"))
    asyncio.run(store.delete("pond/a"))
    assert asyncio.run(store.get("pond/a")) is None
    assert asyncio.run(store.keys()) == ["pond/b"]


@pytest.mark.parametrize(
    "key",
    ["", "pond", "pond/", "/a", "pond/../x", "pond/a.b", "pond/a b", "pond/ä", "Pond/a",
     "pond/a\n", "pond/" + "a" * 65, "a/b/c/d/e/f", "pond\\a"],
)  # fmt: skip
def test_refuses_keys_that_no_folder_could_hold(store: KeyValueStore, key: str) -> None:
    for ask in (store.get(key), store.put(key, "x"), store.delete(key)):
        with pytest.raises(StoreError, match="cannot be used as a key"):
            asyncio.run(ask)
    assert asyncio.run(store.keys()) == []
