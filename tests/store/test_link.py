"""A plan in a link comes back whole, and a link can neither flood nor break the app."""

import base64
import math
import tracemalloc
import zlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.sharing.example import example_pond
from pondapp.models.circuit import BogFilter, Lip
from pondapp.models.limits import LARGEST_PLAN, LONGEST_LINK
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Corners, Drawn, TypedVolume
from pondapp.store import json_text, link
from pondapp.store.key_value_store import StoreError

PLAIN = Pond(id="p", name="Größe 池", water=TypedVolume(volume_m3=1.25))
names = st.text(st.characters(codec="utf-8"), min_size=1, max_size=80)
amounts = st.floats(1e-3, 50)


def say(error: StoreError) -> None:
    """An error is a sentence."""
    assert str(error)


def squeezed(data: bytes) -> str:
    squeeze = zlib.compressobj(9, wbits=-15, zdict=link.WORDS)
    packed = squeeze.compress(data) + squeeze.flush()
    return link.VERSION + base64.urlsafe_b64encode(packed).decode().rstrip("=")


@given(names, amounts, amounts, st.lists(names, max_size=6))
@settings(max_examples=60)
def test_a_plan_comes_back_equal(name: str, volume: float, width: float, beds: list[str]) -> None:
    fed = [BogFilter(id=f"b{n}", name=bed, bed_volume_m3=volume) for n, bed in enumerate(beds)]
    pond = Pond(
        id="p", name=name, water=TypedVolume(volume_m3=volume),
        fed=(*fed, Lip(id="lip", name="Lip", width_m=width)),
    )  # fmt: skip
    text = link.packed(pond)
    assert link.unpacked(text) == pond
    assert set(text) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_")


def test_links_of_the_first_version_open_for_ever() -> None:
    assert link.unpacked(FIRST) == PLAIN


FIRST = "1wx3nSG5zLzq87fD8VIVnGxdgiX8s8WKoZ2RaS34kwEpUYvxTCwA"


def test_the_sender_s_prices_stay_at_home() -> None:
    pond = example_pond()
    priced = pond.model_copy(
        update={"shopping": pond.shopping.model_copy(update={"prices": {"hose": 12.5}})}
    )
    received = link.unpacked(link.packed(priced))
    assert received.shopping.prices == {}
    assert link.same_plan(priced, received)
    assert not link.same_plan(priced, received.model_copy(update={"name": "Other"}))


def test_the_example_fits_a_code_that_phones_read() -> None:
    picture = link.code(link.link(example_pond(), "https://ponds.example/app/"))
    assert picture.startswith(b"\x89PNG")


def test_too_large_a_plan_is_refused_with_the_way_out() -> None:
    basins = tuple(
        Basin(
            id=f"b{n}", name="x" * 70 + str(n), depth_m=1 + n / 7,
            outline=Corners(
                points_m=tuple((math.sin(k + 60 * n), math.cos(k * n)) for k in range(60))
            ),
        )
        for n in range(10)
    )  # fmt: skip
    large = Pond(id="p", name="Large", water=Drawn(basins=basins))
    with pytest.raises(link.TooLong, match="share it as a file"):
        link.packed(large)
    with pytest.raises(link.TooLong, match="too large for a code"):
        link.code("https://ponds.example/#/shared/" + "A" * 1300)
    with pytest.raises(link.TooLong, match="too large for a code"):
        link.code("https://ponds.example/#/shared/" + "A" * 11_000)


def test_every_cut_and_every_changed_letter_is_noticed_or_still_a_plan() -> None:
    text = link.packed(PLAIN)
    for end in range(len(text)):
        with pytest.raises(StoreError):
            link.unpacked(text[:end])
    for place in range(len(text)):
        changed = text[:place] + ("A" if text[place] != "A" else "B") + text[place + 1 :]
        try:
            assert isinstance(link.unpacked(changed), Pond)
        except StoreError as error:
            say(error)


@pytest.mark.parametrize(
    "text",
    ["", "1", "2abc", "1====", "1%2F", "1" + "A" * 20_000, "1é", squeezed(b""),
     squeezed(b"[" * 90_000), squeezed(b"9" * 5_000), squeezed(b"[]"), squeezed(b'{"id": 5}'),
     squeezed(b'{"id": "p", "schema_version": 9}'), squeezed(b"\xff\xfe")],
)  # fmt: skip
def test_what_is_no_plan_is_refused(text: str) -> None:
    with pytest.raises(StoreError):
        link.unpacked(text)


def test_a_link_cannot_unpack_to_a_flood() -> None:
    bomb = squeezed(b" " * 8_000_000)
    assert len(bomb) < LONGEST_LINK
    tracemalloc.start()
    with pytest.raises(StoreError, match="damaged"):
        link.unpacked(bomb)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 4 * LARGEST_PLAN


@pytest.mark.parametrize(
    "data",
    [b"[" * 200_000, b'{"id": ' * 60_000, b'{"id": "p", "schema_version": 1, "fed": ' + b"[" * 6000,
     b'{"id": "p", "fed": ' + b"[" * 70 + b"]" * 70 + b"}"],
)  # fmt: skip
def test_brackets_without_end_are_refused_before_anything_reads_them(
    data: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(json_text.json, "loads", lambda _: pytest.fail("it was parsed"))
    text = squeezed(data)
    assert len(text) < LONGEST_LINK
    with pytest.raises(StoreError, match="damaged"):
        link.unpacked(text)


@pytest.mark.parametrize("word", ["none", "outlet", "new", "new-bog"])
def test_a_plan_never_has_a_word_of_the_app_for_its_id(word: str) -> None:
    pond = PLAIN.model_copy(update={"id": word})
    taken = link.unpacked(link.packed(pond))
    assert taken.id == f"own-{word}"
    assert link.unpacked(link.packed(pond)) == taken  # the same each time, so it is found again
    thing = Lip.model_construct(id=word, name="Lip", width_m=0.3)
    with pytest.raises(StoreError, match="a word of the app"):
        link.unpacked(link.packed(PLAIN.model_copy(update={"fed": (thing,)})))


@pytest.mark.parametrize("odd", ["", "a/b", "a b", "a.b", "é", "x" * 65, "../x", "a\n"])
def test_a_plan_with_an_odd_id_is_refused(odd: str) -> None:
    with pytest.raises(StoreError):
        link.unpacked(link.packed(PLAIN.model_copy(update={"id": odd})))
