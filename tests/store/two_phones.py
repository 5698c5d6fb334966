"""Histories by chance of two phones that change one garden's ponds and exchange backup files."""

import asyncio
import json
import random
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

from memory_store import MemoryStore

from pondapp.answers.log.corrected import corrected
from pondapp.models.entry import Entry, FreeNote
from pondapp.models.pond import Pond
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.store import backup
from pondapp.store.backup_file import whole
from pondapp.store.documents import read_text, save
from pondapp.store.merging import following

NOW = datetime(2026, 5, 6, 7, 8, tzinfo=UTC)
STEPS = 30
PONDS = ("p", "q")
KINDS: dict[str, Any] = {"pond": Pond, "reading": Reading, "entry": Entry}


def kept(store: MemoryStore) -> dict[str, str]:
    """What a reader has there; not which copies could be had back."""
    return {key: text for key, text in store.texts.items() if key.split("/")[0] in KINDS}


def said(store: MemoryStore) -> set[str]:
    """Every name, note and flow that is told there, as it is or as it was."""
    found: set[str] = set()
    for text in kept(store).values():
        plain = json.loads(text)
        for version in (plain, *plain.get("earlier", ())):
            found.add(str(version.get("note")))
            found.add(str(version.get("name")).removesuffix(" (2)"))
            found.add(str((version.get("method") or {}).get("flow_m3_s")))
    return found


class Exchange:
    """Two phones, and all files that were ever written."""

    def __init__(self, *phones: MemoryStore) -> None:
        self.phones = phones
        self.files: list[bytes] = []

    def file(self, phone: MemoryStore) -> bytes:
        """A backup of a phone."""
        made = asyncio.run(whole(backup.everything(phone, NOW)))
        self.files.append(made)
        return made

    def take(self, phone: MemoryStore, file: bytes) -> None:
        """Merge a file."""
        look = asyncio.run(backup.preview(phone, file))
        asyncio.run(backup.restore(phone, look, "merge", NOW))

    def give(self, sender: MemoryStore, to: MemoryStore) -> None:
        """Send what is here now to the other."""
        self.take(to, self.file(sender))


class History:
    """What happens, and which names of ponds somebody who saw them took away."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.phones = (MemoryStore(), MemoryStore())
        self.exchange = Exchange(*self.phones)
        self.clock = NOW
        self.count = 0
        self.replaced: set[str] = set()

    def word(self) -> str:
        """A text that nobody wrote before."""
        self.count += 1
        return f"word {self.count}"

    def documents(self, phone: MemoryStore, kind: str) -> list[Any]:
        """All of a kind."""
        return [
            read_text(kind, key.partition("/")[2], KINDS[kind], text)
            for key, text in sorted(kept(phone).items())
            if key.startswith(f"{kind}/")
        ]

    def save(self, phone: MemoryStore, kind: str, document: Any) -> None:
        """As the app does."""
        asyncio.run(save(phone, kind, document))

    def add_pond(self, phone: MemoryStore) -> None:
        """Or change its volume and name."""
        pond_id = self.chance.choice(PONDS)
        mine = {one.id: one for one in self.documents(phone, "pond")}
        water = TypedVolume(volume_m3=self.chance.randrange(1, 50))
        made = Pond(id=pond_id, name=self.word(), water=water)
        before = mine.get(pond_id)
        if before is not None:
            self.replaced.add(before.name)
        self.save(phone, "pond", made if before is None else following(made, before))

    def add_item(self, phone: MemoryStore) -> None:
        """A reading or a note."""
        ids: Any = {"id": f"i{self.count}", "pond_id": self.chance.choice((*PONDS, "none"))}
        if self.chance.random() < 0.5:
            made: Any = Entry(**ids, when=self.clock, what=FreeNote(), note=self.word())
            self.save(phone, "entry", made)
            return
        flow = MeterReading(flow_m3_s=self.chance.randrange(1, 10**6) / 1e9, tolerance=0.05)
        made = Reading(
            **ids, place_id="lip", place_name="Lip", taken_at=self.clock, method=flow, band=None,
            note=self.word(),
        )  # fmt: skip
        self.save(phone, "reading", made)

    def correct(self, phone: MemoryStore) -> None:
        """Another note, or another time."""
        kind = self.chance.choice(("reading", "entry"))
        if items := self.documents(phone, kind):
            before = self.chance.choice(items)
            after = before.model_copy(update={"note": self.word()})
            off = timedelta(seconds=self.chance.choice((0, 0, -86_400)))  # of a clock that is wrong
            self.save(phone, kind, corrected(before, after, self.clock + off))

    def delete(self, phone: MemoryStore) -> None:
        """An item of a log."""
        if keys := [key for key in sorted(kept(phone)) if not key.startswith("pond/")]:
            asyncio.run(phone.delete(self.chance.choice(keys)))

    def send(self, phone: MemoryStore) -> None:
        """To the other, or write a file that may arrive later."""
        other = self.phones[self.phones[0] is phone]
        if self.chance.random() < 0.5:
            self.exchange.give(phone, other)
        else:
            self.exchange.file(phone)

    def take_old(self, phone: MemoryStore) -> None:
        """Any file that was ever written, its own too."""
        if self.exchange.files:
            self.exchange.take(phone, self.chance.choice(self.exchange.files))


DEEDS: dict[Callable[[History, MemoryStore], None], int] = {
    History.add_pond: 4, History.add_item: 5, History.correct: 5, History.delete: 1,
    History.send: 3, History.take_old: 3,
}  # fmt: skip


def live(seed: int) -> History:
    """Live one history, exchange files at last, and require that nothing is lost."""
    history = History(seed)
    for _ in range(STEPS):
        deed = history.chance.choices(list(DEEDS), list(DEEDS.values()))[0]
        phone = history.chance.choice(history.phones)
        before = said(phone)
        deed(history, phone)
        history.clock += timedelta(minutes=1)
        if deed in (History.send, History.take_old):
            lost = before - said(phone)
            assert not lost - history.replaced, (seed, lost)
    one, other = history.phones
    told = said(one) | said(other)
    first, second = (one, other) if history.chance.random() < 0.5 else (other, one)
    history.exchange.give(first, second)
    history.exchange.give(second, first)
    assert kept(first) == kept(second), seed
    lost = told - said(first)
    assert not lost - history.replaced, (seed, lost)
    quiet = kept(first)
    history.exchange.give(first, second)
    history.exchange.give(second, first)
    assert kept(first) == kept(second) == quiet, seed
    return history
