"""What is typed keeps its meaning: across a switch of units that is cut off, a backup, two tabs."""

import asyncio
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path

import pytest
from memory_store import MemoryStore

from pondapp import units, words
from pondapp.models.preferences import Draft, Preferences
from pondapp.state.draft_units import in_units
from pondapp.state.session import Session
from pondapp.state.tabs import Follower, apply_changes
from pondapp.store.backup import everything, preview, restore
from pondapp.store.backup_file import whole
from pondapp.store.documents import read_text
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import StoreError

NOW = datetime(2026, 5, 6, tzinfo=UTC)
NAMES = [f"form{number}" for number in range(8)]
VOLUME = {"volume": "volume"}


def litres(session: Session, name: str) -> float:
    texts = session.drafts[name].texts
    read = units.parse(texts["volume"], "volume", session.system)
    return units.as_stored(read, texts.get("volume=", ""), "volume", session.system)


class CutStore(FolderStore):
    """A device that dies after so many writes."""

    left = 10**6

    async def put(self, key: str, text: str) -> None:
        if not self.left:
            raise StoreError("the battery is empty")
        self.left -= 1
        await super().put(key, text)


@pytest.mark.parametrize("writes", range(10))
def test_a_switch_of_units_cut_off_anywhere_changes_no_meaning(tmp_path: Path, writes: int) -> None:
    async def use() -> None:
        store = CutStore(tmp_path)
        session = Session(store)
        await session.load()
        for name in NAMES:
            await session.drafts.save(
                Draft(id=name, texts={"volume": "1000", "name": "1000"}, kinds=VOLUME)
            )
        store.left = writes
        wanted = session.preferences.model_copy(update={"units": "us"})
        if writes < 9:
            with pytest.raises(StoreError):
                await session.settings.save(wanted)
        else:
            await session.settings.save(wanted)
        assert [litres(session, name) for name in NAMES] == pytest.approx([1.0] * 8, rel=1e-5)
        again = Session(FolderStore(tmp_path))
        await again.load()
        assert again.system == ("us" if writes else "metric")
        assert [litres(again, name) for name in NAMES] == pytest.approx([1.0] * 8, rel=1e-5)
        assert all(again.drafts[name].texts["name"] == "1000" for name in NAMES)

    asyncio.run(use())


def test_a_switch_is_one_step_of_the_box() -> None:
    steps: list[set[str]] = []

    class Counting(MemoryStore):
        async def put(self, key: str, text: str) -> None:
            steps.append({key})
            await super().put(key, text)

        async def apply(
            self,
            changes: Mapping[str, str | None],
            expected: Mapping[str, str | None] | None = None,
        ) -> None:
            steps.append(set(changes))
            await super().apply(changes, expected)

    async def use() -> None:
        session = Session(Counting())
        for name in NAMES:
            await session.drafts.save(Draft(id=name, texts={"volume": "1000"}, kinds=VOLUME))
        steps.clear()
        await session.settings.save(session.preferences.model_copy(update={"units": "us"}))
        assert steps == [{"preferences/app", *(f"draft/{name}" for name in NAMES)}]
        # The screens look at them anew.
        assert all(session.drafts.remote_revisions[name] == 1 for name in NAMES)

    asyncio.run(use())


@pytest.mark.parametrize("says", [True, False], ids=["of today", "of an early version"])
def test_a_draft_of_a_backup_in_gallons_is_merged_into_litres(says: bool) -> None:
    async def use() -> None:
        theirs = Session(MemoryStore())
        await theirs.settings.save(Preferences(units="us"))
        await theirs.drafts.save(Draft(id="form", texts={"volume": "500"}, kinds=VOLUME))
        file = await whole(everything(theirs.store, NOW))
        if not says:
            assert b'"units":"us","decimal"' in file
            file = file.replace(b'"units":"us","decimal"', b'"units":null,"decimal"')
        mine = Session(MemoryStore())
        await mine.settings.save(Preferences(units="metric"))
        seen = await preview(mine.store, file)
        await restore(mine.store, seen, "merge", NOW)
        await mine.load()
        assert (mine.system, mine.drafts["form"].texts) == (
            "metric", {"volume": "1893", "volume=": repr(units.parse("500", "volume", "us"))},
        )  # fmt: skip

    asyncio.run(use())


def test_a_draft_of_an_early_version_is_in_the_units_of_its_device(tmp_path: Path) -> None:
    async def use() -> None:
        early = '{"schema_version":1,"id":"form","texts":{"volume":"500"},"fills":[]}'
        store = FolderStore(tmp_path)
        await store.put("draft/form", early)
        await store.put("preferences/app", Preferences(units="us").model_dump_json())
        session = Session(store)
        await session.load()
        assert session.drafts["form"].texts == {"volume": "500"}
        assert session.drafts["form"].units == "us"
        await session.settings.save(session.preferences.model_copy(update={"units": "metric"}))
        kept = read_text("draft", "form", Draft, await store.get("draft/form") or "")
        assert (kept.texts["volume"], kept.units) == ("1893", "metric")
        assert litres(session, "form") == pytest.approx(500 * 231 * 0.0254**3)
        await session.settings.save(session.preferences.model_copy(update={"units": "us"}))
        assert session.drafts["form"].texts == {"volume": "500"}  # there and back: as typed

    asyncio.run(use())


def test_a_day_and_a_decimal_keep_their_meaning_too() -> None:
    texts = {"date": "6/1/2025", "volume": "1.5", "note": "1.5"}
    typed = Draft(id="d", texts=texts, kinds={"date": "date", "volume": "volume"}, units="us")
    assert in_units(typed, "metric").texts["date"] == "2025-06-01"
    words.set_language("de")
    german = in_units(typed.model_copy(update={"decimal": "."}), "us")
    assert german.texts == {"date": "6/1/2025", "volume": "1,5", "note": "1.5"}
    nonsense = typed.model_copy(update={"texts": {"date": "soon", "volume": "a lot"}})
    assert in_units(nonsense, "metric").texts == nonsense.texts


def test_two_tabs_switch_together_whatever_is_heard_first() -> None:
    async def use() -> None:
        store = MemoryStore()
        one, two = Session(store), Session(MemoryStore(beside=store))
        tasks: list[asyncio.Future[None]] = []
        Follower(two, lambda do: tasks.append(asyncio.ensure_future(do())) or tasks[-1])  # type: ignore[func-returns-value]
        await one.settings.save(one.preferences)
        await one.drafts.save(Draft(id="form", texts={"volume": "1000"}, kinds=VOLUME))
        await asyncio.gather(*tasks)
        store.tabs[1].deaf = True
        await one.settings.save(one.preferences.model_copy(update={"units": "us"}))
        # A key typed before the other's switch is heard of: in litres still.
        await two.drafts.save(two.drafts["form"].model_copy(update={"texts": {"volume": "2000"}}))
        assert two.drafts["form"].texts == {"volume": "2000"}
        await apply_changes(two, ["draft/form", "preferences/app"])
        await apply_changes(one, ["draft/form"])
        for session in (one, two):
            assert session.system == "us"
            assert litres(session, "form") == pytest.approx(2.0, rel=1e-5)

    asyncio.run(use())
