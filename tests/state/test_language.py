"""The language follows the device at first, and then what is chosen."""

import asyncio
from pathlib import Path

import pytest

from pondapp import words
from pondapp.models.preferences import Draft
from pondapp.state.session import Session
from pondapp.state.settings import starting_containers
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import StoreError
from pondapp.words import current_language


@pytest.mark.parametrize(
    ("device", "code"),
    [
        ("de-AT", "de"),
        ("de", "de"),
        ("pl_PL", "pl"),
        ("en-GB", "en"),
        ("fr", "en"),
        (None, "en"),
    ],
)
def test_the_nearest_language_is_the_one_to_begin_with(device: str | None, code: str) -> None:
    assert words.nearest_language(device) == code


def test_the_first_start_speaks_as_the_device_does(tmp_path: Path) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        assert session.settings.first_start
        session.settings.greet("de-DE")
        assert session.preferences.language == current_language().code == "de"
        assert len(session.preferences.containers) == 3

    asyncio.run(use())


@pytest.mark.parametrize(
    ("device", "system"),
    [("en-US", "us"), ("en_us", "us"), ("es-PR", "us"), ("zh-Hant-US", "us"), ("en-GB", "metric"),
     ("en", "metric"), ("de-DE", "metric"), ("us", "metric"), ("C", "metric"), (None, "metric")],
)  # fmt: skip
def test_the_first_start_measures_as_the_region_does_and_remembers_it(
    tmp_path: Path, device: str | None, system: str
) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        session.settings.greet(device)
        await session.settings.remember_greeting()
        again = Session(FolderStore(tmp_path))
        await again.load()
        for one in (session, again):
            assert not one.settings.first_start
            assert one.system == system
            assert tuple(one.preferences.containers) == starting_containers(system)
        await again.settings.save(again.preferences.model_copy(update={"units": "imperial"}))
        await again.settings.remember_greeting()
        last = Session(FolderStore(tmp_path))
        await last.load()
        assert last.system == "imperial"

    asyncio.run(use())


def test_a_device_that_takes_nothing_is_no_reason_to_stop(tmp_path: Path) -> None:
    class Full(FolderStore):
        async def put(self, key: str, text: str) -> None:
            raise StoreError(f"no room for {key} and its {len(text)} letters")

    async def use() -> None:
        session = Session(Full(tmp_path))
        session.settings.greet("en-US")
        await session.settings.remember_greeting()
        assert session.settings.first_start
        assert session.system == "us"

    asyncio.run(use())


def test_a_chosen_language_is_kept_and_spoken_again(tmp_path: Path) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        await session.drafts.save(
            Draft(id="pond", texts={"length": "1.234", "name": "A.1.2"}, kinds={"length": "length"})
        )
        await session.settings.save(session.preferences.model_copy(update={"language": "de"}))
        assert current_language().code == "de"
        assert session.drafts["pond"].texts == {"length": "1,234", "name": "A.1.2"}
        words.set_language("en")
        again = Session(FolderStore(tmp_path))
        await again.load()
        assert not again.settings.first_start
        assert current_language().code == "de"

    asyncio.run(use())


def test_a_language_of_a_newer_app_is_english_here() -> None:
    words.set_language("xx")
    assert current_language().code == "en"
