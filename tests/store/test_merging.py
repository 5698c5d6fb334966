"""Two phones and one pond: whatever file goes to and fro, nothing is lost and both end equal."""

import asyncio
from datetime import timedelta

import pytest
from memory_store import MemoryStore
from two_phones import NOW, Exchange, kept, live

from pondapp.answers.log.corrected import corrected
from pondapp.models.entry import Entry, FreeNote
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.store import backup
from pondapp.store.documents import save
from pondapp.store.merging import following, mark, merged

HISTORIES = 200


def pond(name: str, litres: float = 1000) -> Pond:
    return Pond(id="p", name=name, water=TypedVolume(volume_m3=litres / 1000))


def note(text: str) -> Entry:
    return Entry(id="n", pond_id="p", when=NOW, what=FreeNote(), note=text)


def test_of_two_ponds_the_one_that_follows_stays_wherever_it_lies() -> None:
    first = pond("First")
    second = following(pond("Second"), first)
    third = following(pond("First"), second)  # a change that was taken back
    for older, newer in ((first, second), (second, third), (first, third)):
        for mine, theirs in ((older, newer), (newer, older)):
            found = merged(mine, theirs)
            assert found
            assert (found.document, found.beside) == (newer, None) or mark(older) == mark(newer)


def test_a_pond_that_both_changed_is_kept_twice_the_same_on_both() -> None:
    before = pond("Pond")
    mine, theirs = following(pond("Mine"), before), following(pond("Theirs", 2000), before)
    one, other = merged(mine, theirs), merged(theirs, mine)
    assert one
    assert one == other
    assert one.beside
    assert {one.document.name, one.beside.name.removesuffix(" (2)")} == {"Mine", "Theirs"}
    for earlier in (mine, theirs, before):  # files that arrive late
        again = merged(one.document, earlier)
        assert again
        assert (again.document, again.beside) == (one.document, None)


def test_saving_a_pond_as_it_was_is_no_version() -> None:
    before = following(pond("Second"), pond("First"))
    assert following(pond("Second"), before) == before


def test_a_correction_on_one_side_is_taken_and_the_older_file_changes_nothing() -> None:
    before = note("as it was")
    after = corrected(before, note("as it is"), NOW + timedelta(hours=1))
    for mine, theirs in ((before, after), (after, before)):
        found = merged(mine, theirs)
        assert found
        assert found.document == after


def test_corrections_on_both_sides_are_all_told() -> None:
    before = note("as it was")
    mine = corrected(before, note("mine"), NOW + timedelta(hours=2))
    theirs = corrected(before, note("theirs"), NOW + timedelta(hours=1))
    one, other = merged(mine, theirs), merged(theirs, mine)
    assert one
    assert one == other
    assert one.outcome == "both"
    assert one.document.note == "mine"  # the later one
    assert [was.note for was in one.document.earlier] == ["as it was", "theirs"]
    again = merged(one.document, theirs)
    assert again
    assert again.document == one.document


@pytest.mark.parametrize("seed", range(0, HISTORIES, 20))
def test_random_histories_end_equal_and_lose_nothing(seed: int) -> None:
    for number in range(seed, seed + 20):
        live(number)


def test_a_look_says_of_each_pond_what_merging_brings() -> None:
    mine, theirs = MemoryStore(), MemoryStore()
    before = pond("Pond")
    asyncio.run(save(mine, "pond", following(pond("Renamed"), before)))
    asyncio.run(save(theirs, "pond", before))
    asyncio.run(save(theirs, "entry", note("new")))
    exchange = Exchange(mine, theirs)
    look = asyncio.run(backup.preview(mine, exchange.file(theirs)))
    assert look.of_pond == {"p": {("pond", "mine"): 1, ("entry", "new"): 1}}
    assert look.names == {"p": "Pond"}
    exchange.give(theirs, mine)
    assert "Renamed" in kept(mine)["pond/p"]
