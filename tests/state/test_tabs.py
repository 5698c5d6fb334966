"""Two tabs over one storage: each sees the other's changes, neither overwrites them silently."""

import asyncio
from collections.abc import Callable, Coroutine, Sequence
from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from memory_store import MemoryStore

from pondapp.answers.log.log import LogItem
from pondapp.models.entry import Entry, FreeNote
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill, FillSet, MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.state import drafts
from pondapp.state.drafts import joined
from pondapp.state.session import Session
from pondapp.state.tabs import Follower
from pondapp.store.key_value_store import AT_ONCE, Changed

VOLUME = {"volume": "volume"}


def pond(name: str) -> Pond:
    return Pond(id="p", name=name, water=TypedVolume(volume_m3=1))


TASKS: list[asyncio.Future[None]] = []


def start(do: Callable[[], Coroutine[Any, Any, None]]) -> asyncio.Future[None]:
    TASKS.append(asyncio.ensure_future(do()))
    return TASKS[-1]


async def two() -> tuple[Session, Session]:
    TASKS.clear()
    store = MemoryStore()
    sessions = Session(store), Session(MemoryStore(beside=store))
    for session in sessions:
        await session.load()
        Follower(session, start)
    return sessions


def deaf(session: Session) -> None:
    """As in the moment before the other tab's message arrives."""
    assert isinstance(session.store, MemoryStore)
    session.store.deaf = True


async def heard() -> None:
    await asyncio.gather(*TASKS)
    TASKS.clear()


def test_each_follows_the_other() -> None:
    async def use() -> None:
        one, two_ = await two()
        drawn: list[int] = []
        two_.device.on_change = lambda: drawn.append(1)
        await one.ponds.save(pond("First"))
        reading = Reading(
            id="r", pond_id="p", place_id="lip", place_name="Lip", taken_at=datetime.now(UTC),
            method=MeterReading(flow_m3_s=1e-3, tolerance=0.05), band=None,
        )  # fmt: skip
        await one.logs.save_reading(reading)
        await one.settings.save(one.preferences.model_copy(update={"units": "us"}))
        await heard()
        assert two_.ponds == one.ponds
        assert two_.logs.readings_of("p") == [reading]
        assert two_.system == "us"
        assert drawn
        await two_.ponds.save(pond("Second"))  # what was followed can be changed
        await heard()
        assert one.ponds["p"].name == "Second"
        assert one.ponds.undo_stack == {}  # undoing here would undo the other's change

    asyncio.run(use())


def test_a_change_made_at_the_same_time_is_not_overwritten() -> None:
    async def use() -> None:
        one, two_ = await two()
        await one.ponds.save(pond("First"))
        await heard()
        deaf(two_)
        await one.ponds.save(pond("Of one"))
        with pytest.raises(Changed, match="then save again"):
            await two_.ponds.save(pond("Of two"))
        assert two_.ponds["p"].name == "Of one"
        await two_.ponds.save(pond("Of two"))
        assert two_.ponds["p"].name == "Of two"

    asyncio.run(use())


def reading_of(note: str) -> Reading:
    return Reading(
        id="r", pond_id="p", place_id="lip", place_name="Lip", note=note, band=None,
        taken_at=datetime(2026, 5, 6, tzinfo=UTC),
        method=MeterReading(flow_m3_s=1e-3, tolerance=0.05),
    )  # fmt: skip


def entry_of(note: str) -> Entry:
    when = datetime(2026, 5, 6, tzinfo=UTC)
    return Entry(id="e", pond_id="p", when=when, what=FreeNote(), note=note)


@pytest.mark.parametrize("make", [reading_of, entry_of])
def test_an_item_of_a_log_changed_at_the_same_time_is_not_overwritten(
    make: Callable[[str], LogItem],
) -> None:
    async def keep(session: Session, item: LogItem) -> None:
        await (
            session.logs.save_reading(item)
            if isinstance(item, Reading)
            else session.logs.save_entry(item)
        )

    async def use() -> None:
        one, two_ = await two()
        for session in (one, two_):
            await session.logs.read_all()
        await keep(one, make("first"))
        await heard()
        assert two_.logs.newest(make("any")) == make("first")
        deaf(two_)
        await keep(one, make("of one"))
        with pytest.raises(Changed, match="nothing was saved here"):
            await keep(two_, make("of two"))
        assert two_.logs.newest(make("any")) == make("of one")  # what it overwrites is seen first
        await keep(two_, make("of two"))
        await heard()
        assert one.logs.newest(make("any")) == make("of two")

        await keep(one, make("of one again"))
        with pytest.raises(Changed, match="nothing was saved here"):
            await two_.logs.delete(make("of two"))  # what was changed is not deleted unseen
        assert two_.logs.newest(make("any")) == make("of one again")
        await two_.logs.delete(make("of one again"))
        await heard()
        assert one.logs.newest(make("any")) is None
        deaf(one)
        await keep(two_, make("again"))
        await two_.logs.delete(make("again"))
        await one.logs.delete(make("any"))  # gone already is no conflict
        assert await one.store.keys() == []

    asyncio.run(use())


def test_one_tab_is_not_taken_for_two() -> None:
    async def use() -> None:
        one, _ = await two()
        await asyncio.gather(*(one.ponds.save(pond(f"Name {n}")) for n in range(8)))
        drafts = [Draft(id="d", texts={"a": str(n)}) for n in range(8)]
        await asyncio.gather(*(one.drafts.save(draft) for draft in drafts))
        assert one.ponds["p"].name == "Name 7"
        assert one.drafts["d"].texts == {"a": "7"}
        kept = await one.store.get("draft/d")
        assert kept == one.drafts["d"].model_dump_json()

    asyncio.run(use())


def test_fills_timed_in_two_tabs_are_all_kept() -> None:
    async def use() -> None:
        one, two_ = await two()
        first = Draft(id="d", fills=(Fill(seconds=1),))
        await one.drafts.save(first)
        await heard()
        assert two_.drafts["d"] == one.drafts["d"]
        deaf(two_)
        await one.drafts.save(first.model_copy(update={"fills": (*first.fills, Fill(seconds=2))}))
        await two_.drafts.save(first.model_copy(update={"fills": (*first.fills, Fill(seconds=3))}))
        assert [fill.seconds for fill in two_.drafts["d"].fills] == [1, 2, 3]
        assert two_.drafts.remote_revisions["d"] == 2
        await heard()
        assert one.drafts["d"] == two_.drafts["d"]

    asyncio.run(use())


def test_what_is_deleted_in_one_is_gone_in_the_other() -> None:
    async def use() -> None:
        one, two_ = await two()
        await one.ponds.save(pond("First"))
        await one.drafts.save(Draft(id="d"))
        await heard()
        gone = one.deletion.mark_deleted("p")
        assert gone is not None
        await one.deletion.delete(gone)
        await one.drafts.delete("d")
        await heard()
        assert (two_.ponds, two_.drafts) == ({}, {})

    asyncio.run(use())


def test_what_another_tab_deletes_while_a_log_is_read_is_gone() -> None:
    async def use() -> None:
        one, two_ = await two()
        await one.ponds.save(pond("First"))
        first, second = (reading_of(n).model_copy(update={"id": n}) for n in ("a", "b"))
        for reading in (first, second):
            await one.logs.save_reading(reading)
        await heard()
        again = Session(two_.store)
        await again.load()
        plain = again.store.get_many

        async def get_many(keys: Sequence[str]) -> dict[str, str]:
            found = await plain(keys)
            if any(key.startswith("reading/") for key in keys):
                again.apply_remote_change(
                    "reading", first.storage_key(), None
                )  # it was there a moment ago
            return found

        again.store.get_many = get_many  # type: ignore[method-assign]
        await again.logs.read_all()
        assert again.logs.items_of("p") == [second]

    asyncio.run(use())


@pytest.mark.parametrize("order", [1, -1])
def test_an_item_that_another_tab_moves_is_where_it_was_moved_to(order: int) -> None:
    async def use() -> None:
        one, _ = await two()
        here = reading_of("moved")
        await one.logs.save_reading(here)
        there = here.model_copy(update={"pond_id": "q"})
        told = [(here.storage_key(), None), (there.storage_key(), there)]
        for storage_key, found in told[::order]:
            one.apply_remote_change("reading", storage_key, found)
        assert list(one.logs.readings.values()) == [there]

    asyncio.run(use())


def test_joined_drafts_keep_the_text_typed_last() -> None:
    theirs = Draft(id="d", texts={"a": "theirs", "b": "theirs"})
    mine = Draft(id="d", texts={"a": "mine"}, started_at=5.0)
    assert joined(None, theirs, mine) == Draft(
        id="d", texts={"a": "mine", "b": "theirs"}, started_at=5.0
    )
    known = Draft(id="d", texts={"a": "known", "b": "theirs"})
    assert joined(known, theirs, mine, waited=True).texts == {"a": "theirs", "b": "theirs"}
    twice, typed = Fill(seconds=138.632), Fill(seconds=9.5, typed=True)
    both = joined(None, Draft(id="d", fills=(twice, typed)), Draft(id="d", fills=(twice, typed)))
    assert both.fills == (twice, typed, typed)  # no stopwatch shows the same twice


A, B, C, D = (Fill(seconds=seconds) for seconds in (9.123, 9.234, 12.345, 12.456))


def turned(*fills: Fill, opened: float | None = None) -> FillSet:
    return FillSet(fills=fills, opened=opened)


def test_a_fill_of_another_tab_goes_with_the_setting_that_it_was_timed_at() -> None:
    known = Draft(id="d", fills=(A,))
    timed = Draft(id="d", fills=(A, B))
    turner = Draft(id="d", fills=(C,), before_turn=(turned(A, opened=0.5),), opened=0.4)
    for theirs, mine in ((timed, turner), (turner, timed)):
        both = joined(known, theirs, mine)
        assert (both.fills, both.opened) == ((C,), 0.4)
        assert both.before_turn == (turned(A, B, opened=0.5),)
    other = Draft(id="d", fills=(D,), before_turn=(turned(A, B),))
    both = joined(known, turner, other)  # both turned it: what is in hand here counts
    assert both.fills == (D,)
    assert [one.fills for one in both.before_turn] == [(A,), (C,), (B,)]
    undone = Draft(id="d", fills=(A, C))
    both = joined(turner, undone, turner.model_copy(update={"fills": (C, D)}))
    assert (both.fills, both.before_turn) == ((A, C, D), ())  # it was not turned after all
    assert joined(None, turner, Draft(id="d", fills=(D,))).fills == (C,)


@given(st.data())
def test_no_fill_of_two_tabs_is_lost_or_comes_twice(data: st.DataObject) -> None:
    number = iter(range(1, 1000))

    def grown(draft: Draft) -> Draft:
        for turns in data.draw(st.lists(st.booleans(), max_size=6)):
            if not turns:
                fill = Fill(seconds=next(number) + 0.001)
                draft = draft.model_copy(update={"fills": (*draft.fills, fill)})
            elif draft.fills:
                sets = (*draft.before_turn, turned(*draft.fills))
                draft = draft.model_copy(update={"fills": (), "before_turn": sets})
        return draft

    def times(draft: Draft) -> list[float]:
        sets = [*(one.fills for one in draft.before_turn), draft.fills]
        return sorted(fill.seconds for fills in sets for fill in fills)

    known = grown(Draft(id="d"))
    theirs, mine = grown(known), grown(known)
    assert times(joined(known, theirs, mine)) == sorted({*times(theirs), *times(mine)})


def test_what_is_in_hand_is_not_wiped_by_what_another_tab_saved_before_it() -> None:
    async def run() -> None:
        one, other = await two()
        await one.drafts.save(Draft(id="d", texts={"n": "first"}))
        await heard()
        await one.drafts.save(one.drafts["d"].model_copy(update={"texts": {"n": "theirs"}}))
        fill = Fill(seconds=4.2)
        held = other.drafts["d"].model_copy(update={"texts": {"n": "mine"}, "fills": (fill,)})
        other.drafts.hold(held)  # and before it is saved, the other tab's change is heard
        await heard()
        await other.drafts.save_held("d")
        await heard()
        for session in (one, other):
            assert session.drafts["d"].texts == {"n": "mine"}
            assert session.drafts["d"].fills == (fill,)

    asyncio.run(run())


@pytest.mark.parametrize("half_done", ["nothing", "a form", "a new form"])
def test_what_is_saved_brings_back_the_pond_that_another_tab_has_just_deleted(
    half_done: str,
) -> None:
    async def run() -> None:
        one, other = await two()
        await one.ponds.save(pond("Shared"))
        draft = Draft(id="health", pond_id="p", texts={"note": "windy"})
        if half_done == "a form":
            await other.drafts.save(draft)
        await heard()
        gone = one.deletion.mark_deleted("p")
        assert gone is not None
        await one.deletion.delete(gone)
        assert "p" in other.ponds  # it has not heard of it yet
        if half_done == "nothing":
            await other.logs.save_reading(reading_of("note"))
        else:
            await other.drafts.save(draft.model_copy(update={"texts": {"note": "calm"}}))
        found = Session(other.store)
        await found.load()
        await found.logs.read_all()
        assert list(found.ponds) == ["p"]
        assert len(found.logs.readings) + len(found.drafts) == 1

    asyncio.run(run())


@pytest.mark.parametrize("key", ["", "no key", "pond/../x", "unknown/a", "quarantine/pond/a/1"])
def test_what_is_no_document_changes_nothing(key: str) -> None:
    async def run() -> None:
        one, _ = await two()
        await one.ponds.save(pond("First"))
        Follower(one, start).on_key_changed(key)
        await heard()
        assert one.ponds == {"p": pond("First")}

    asyncio.run(run())


def test_what_a_newer_app_saved_in_another_tab_leaves_this_one_as_it_is() -> None:
    async def run() -> None:
        one, other = await two()
        await one.ponds.save(pond("First"))
        await heard()
        newer = pond("Newer").model_dump_json().replace('"schema_version":', '"schema_version":9')
        await one.store.put("pond/p", newer)
        await heard()
        assert other.ponds == {"p": pond("First")}

    asyncio.run(run())


def test_after_very_many_changes_everything_is_read_anew() -> None:
    async def run() -> None:
        one, other = await two()
        many = {f"draft/d{n}": Draft(id=f"d{n}").model_dump_json() for n in range(AT_ONCE + 1)}
        await one.store.apply({**many, "pond/p": pond("First").model_dump_json()})
        await heard()
        assert (len(other.drafts), list(other.ponds)) == (AT_ONCE + 1, ["p"])

    asyncio.run(run())


def test_the_text_typed_last_stays_where_the_clock_was_set_back(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    class Clock(datetime):
        shown = datetime(2026, 5, 6, tzinfo=UTC)

        @classmethod
        def now(cls, *_: object) -> datetime:  # type: ignore[override]
            return cls.shown

    monkeypatch.setattr(drafts, "datetime", Clock)
    ticks = [100.0]
    monkeypatch.setattr(drafts, "time", SimpleNamespace(monotonic=lambda: ticks[0]))

    async def use() -> None:
        one, two_ = await two()
        deaf(two_)
        await one.drafts.save(Draft(id="d", texts={"n": "before"}))
        Clock.shown -= timedelta(days=400)
        ticks[0] += 30
        await two_.drafts.save(Draft(id="d", texts={"n": "last"}))
        await heard()
        assert two_.drafts["d"].texts == one.drafts["d"].texts == {"n": "last"}
        two_.drafts.hold(two_.drafts["d"].model_copy(update={"texts": {"n": "had no room"}}))
        ticks[0] += 30
        await one.drafts.save(one.drafts["d"].model_copy(update={"texts": {"n": "typed since"}}))
        await two_.drafts.save_held("d")
        assert two_.drafts["d"].texts == {"n": "typed since"}

    asyncio.run(use())


def test_what_had_no_room_stays_in_hand_when_everything_is_loaded_anew() -> None:
    async def use() -> None:
        one, _ = await two()
        await one.settings.save(one.preferences.model_copy(update={"units": "us"}))
        await one.drafts.save(Draft(id="saved", texts={"volume": "100"}, kinds=VOLUME))
        one.drafts.hold(Draft(id="held", texts={"volume": "1000 L"}, kinds=VOLUME))
        await one.store.delete("preferences/app")
        await one.store.delete("draft/saved")
        await one.reload()
        assert one.system == "metric"  # as a new start would have it
        assert {name: held.texts for name, held in one.drafts.items()} == {
            "held": {"volume": "1000"}
        }

    asyncio.run(use())


def test_a_backup_that_is_noted_changes_no_choice_of_another_tab() -> None:
    async def use() -> None:
        one, two_ = await two()
        await one.settings.save(one.preferences)
        await heard()
        async with two_.device.writing:  # as while this tab saves something
            noting = asyncio.ensure_future(two_.settings.note_backup(datetime.now(UTC), 1, 0))
            await asyncio.sleep(0)
            chosen = one.preferences.model_copy(update={"units": "us"})
            await one.settings.save(chosen)
            two_.apply_remote_change("preferences", "app", chosen)
        await noting
        await heard()
        for session in (one, two_):
            assert (session.system, session.preferences.backed_up_readings) == ("us", 1)

    asyncio.run(use())
