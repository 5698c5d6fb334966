"""Histories by chance: what users do while faults strike, and a model of what was acknowledged."""

import asyncio
import random
from contextlib import suppress
from dataclasses import dataclass, field
from math import isclose
from typing import Any, Protocol

import deeds
from memory_store import MemoryStore

from pondapp.core.base.errors import PondError
from pondapp.state import tabs
from pondapp.state.session import Session
from pondapp.store.key_value_store import StoreError

PONDS, READINGS, DRAFTS = "abc", [f"r{n}" for n in range(8)], "xy"
SYSTEMS = ("metric", "us", "imperial")
GONE = None


class Device(Protocol):
    """Two tabs of the app over one storage."""

    def do(self, tab: int, deed: list[Any]) -> bool | None:
        """Whether the app says that it is done; None if it was not even begun."""

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:
        """Begin a deed and end Python (or the whole browser) somewhere in it, then start again."""

    def rest(self) -> None:
        """Let each tab hear of the other."""

    def fill_up(self, full: bool) -> None:
        """No room is left, or there is some again."""

    def clear(self) -> None:
        """Delete all that is kept, under the running app."""

    def held(self) -> deeds.Found:
        """What a new start reads."""


def same(one: Any, other: Any) -> bool:
    """Whether two values are the same; amounts may be rounded when units are switched."""
    if isinstance(one, float | int) and isinstance(other, float | int):
        return isclose(one, other, rel_tol=0.01)
    return bool(one == other)


@dataclass
class Model:
    """What was acknowledged, and what may have happened besides."""

    certain: dict[str, Any] = field(default_factory=dict)
    perhaps: dict[str, list[Any]] = field(default_factory=dict)
    lost: list[str] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)
    """Of ponds, also of those that are deleted."""
    acknowledged: int = 0

    def changes(self, deed: list[Any]) -> dict[str, Any]:
        """What is there after a deed."""
        kind, *rest = deed
        if kind == "pond":
            return {f"pond/{rest[0]}": rest[1]}
        if kind == "reading":
            return {f"reading/{rest[1]}/{rest[0]}": rest[2]}
        if kind == "strike":
            return {key: GONE for key in self.keys() if key.endswith(f"/{rest[0]}")}
        if kind == "draft":
            return {f"draft/{rest[0]}": float(rest[1])}
        if kind == "drop draft":
            return {f"draft/{rest[0]}": GONE}
        if kind == "units":
            return {"units": rest[0]}
        if kind == "delete":
            within = f"reading/{rest[0]}/"
            return {f"pond/{rest[0]}": GONE} | {
                key: GONE for key in self.keys() if key.startswith(within)
            }
        return {}

    def keys(self) -> set[str]:
        """Everything that was ever heard of."""
        return {*self.certain, *self.perhaps}

    def done(self, deed: list[Any]) -> None:
        """The app said so."""
        self.acknowledged += 1
        self.bring_back(deed)
        if deed[0] == "pond":
            self.names[deed[1]] = deed[2]
        for key, value in self.changes(deed).items():
            if deed[0] == "drop draft":
                # Another tab may have had it in hand, saved or not, and bring it back: no loss.
                self.perhaps.setdefault(key, []).append(self.certain.get(key))
            else:
                self.perhaps.pop(key, None)
            self.certain[key] = value

    def bring_back(self, deed: list[Any]) -> None:
        """What is saved in a pond that the other tab has just deleted brings the pond back."""
        if deed[0] == "reading" and f"pond/{deed[2]}" in self.certain:
            self.perhaps.setdefault(f"pond/{deed[2]}", []).append(self.names.get(deed[2]))

    def heard(self, deed: list[Any], said: bool | None) -> None:
        """What the app said of a deed."""
        if said:
            self.done(deed)
        elif said is not None:
            self.begun(deed)

    def begun(self, deed: list[Any]) -> None:
        """It may have happened, whole or not at all."""
        self.bring_back(deed)
        for key, value in self.changes(deed).items():
            self.perhaps.setdefault(key, []).append(value)

    def compare(self, found: deeds.Found, when: str, *, living: bool = False) -> None:
        """Note what is not as it was acknowledged, then go on from what is there."""
        for key in sorted(self.keys() | {*found}):
            allowed = [self.certain.get(key, GONE), *self.perhaps.get(key, [])]
            if key == "units" and key not in self.certain:
                allowed.append("metric")
            if not any(same(found.get(key, GONE), value) for value in allowed):
                self.lost.append(f"{when}: {key} is {found.get(key, GONE)!r}, not {allowed}")
        self.adopt(found, living=living)

    def adopt(self, found: deeds.Found, *, living: bool) -> None:
        """Go on from what is there."""
        self.certain = dict(found)
        self.names |= {key[5:]: name for key, name in found.items() if key.startswith("pond/")}
        # What a tab that lives on could not save is still in its hand.
        in_hand = {key: values for key, values in self.perhaps.items() if key.startswith("draft/")}
        self.perhaps = in_hand if living else {}


def deed_of(chance: random.Random, number: int) -> list[Any]:
    """Something that a user may do now."""
    pond, reading, draft = chance.choice(PONDS), chance.choice(READINGS), chance.choice(DRAFTS)
    return chance.choice(
        [
            ["pond", pond, f"name {number}"],
            # An item belongs to one pond for good.
            ["reading", reading, PONDS[READINGS.index(reading) % 3], f"note {number}",
             chance.choice([0, 0, -400, 400, 0.5])],
            ["reading", reading, PONDS[READINGS.index(reading) % 3], f"note {number}", 0],
            ["strike", reading],
            ["draft", draft, chance.randint(1, 5000)],
            ["draft", draft, chance.randint(1, 5000)],
            ["drop draft", draft],
            ["units", chance.choice(SYSTEMS)],
            ["delete", pond],
            ["delete and undo", pond],
            ["share", pond],
        ]
    )  # fmt: skip


def live(device: Device, chance: random.Random, steps: int) -> Model:
    """One history: deeds in either tab, and now and then a fault."""
    model = Model()
    model.adopt(device.held(), living=False)
    for number in range(steps):
        tab, deed, fate = chance.randrange(2), deed_of(chance, number), chance.random()
        when = f"step {number}, {deed}"
        if fate < 0.06:
            model.begun(deed)
            device.cut(tab, deed, fate < 0.04, chance)
            model.compare(device.held(), f"{when}, ended in the middle")
        elif fate < 0.12:
            device.fill_up(True)
            model.heard(deed, device.do(tab, deed))
            device.fill_up(False)
        elif fate < 0.15:
            device.rest()
            device.clear()
            if device.do(tab, ["save again"]):
                model.compare(device.held(), f"{when}, deleted under it", living=True)
        else:
            if chance.random() < 0.5:
                device.rest()
            model.heard(deed, device.do(tab, deed))
    device.rest()
    model.compare(device.held(), "at the end")
    return model


# ---- on this computer


class Ended(BaseException):
    """Python is gone."""


class FaultyStore(MemoryStore):
    """A storage that has no room, or ends whoever uses it."""

    full = False
    left: int | None = None  # uses until the end

    def _strike(self) -> None:
        if self.left is not None:
            self.left -= 1
            if self.left < 0:
                raise Ended

    async def get(self, key: str) -> str | None:
        self._strike()
        return await super().get(key)

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        self._strike()
        return await super().items(prefix)

    async def put(self, key: str, text: str) -> None:
        await self.apply({key: text})

    async def delete(self, key: str) -> None:
        await self.apply({key: None})

    async def apply(self, changes: Any, expected: Any = None) -> None:
        self._strike()
        if self.full and any(changes.values()):
            raise StoreError("no room")
        await super().apply(changes, expected)
        self._strike()


class Here:
    """Two sessions in this Python, over one storage in memory."""

    def __init__(self) -> None:
        self.loop = asyncio.new_event_loop()
        self.loop.set_exception_handler(lambda *_: None)  # what is ended is not awaited
        self.texts: dict[str, str] = {}
        self.start()

    def start(self) -> None:
        for task in asyncio.all_tasks(self.loop):
            task.cancel()
        first = FaultyStore()
        first.texts.update(self.texts)
        self.stores = [first, FaultyStore(beside=first)]
        self.texts = first.texts
        self.sessions = [Session(store) for store in self.stores]

        async def begin() -> None:
            for session in self.sessions:
                await session.load()
                await session.logs.read_all()
                tabs.Follower(session, lambda do: asyncio.ensure_future(do()))

        self.loop.run_until_complete(begin())

    def do(self, tab: int, deed: list[Any]) -> bool | None:
        try:
            self.loop.run_until_complete(deeds.do(self.sessions[tab], deed))
        except deeds.NotBegun:
            return None
        except (PondError, deeds.NotDone):
            return False
        return True

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:  # noqa: ARG002
        self.stores[tab].left = chance.randrange(8)
        with suppress(PondError, deeds.NotDone, deeds.NotBegun, Ended):
            self.loop.run_until_complete(deeds.do(self.sessions[tab], deed))
        self.start()

    def rest(self) -> None:
        while asyncio.all_tasks(self.loop):  # each takes over what it heard of
            self.loop.run_until_complete(asyncio.sleep(tabs.PAUSE))

    def fill_up(self, full: bool) -> None:
        for store in self.stores:
            store.full = full

    def clear(self) -> None:
        self.texts.clear()

    def held(self) -> deeds.Found:
        store = MemoryStore()
        store.texts = self.texts
        return self.loop.run_until_complete(deeds.held(Session(store)))

    def close(self) -> None:
        for task in asyncio.all_tasks(self.loop):
            task.cancel()
        self.loop.run_until_complete(asyncio.sleep(0))
        self.loop.close()
