"""Histories by chance: what users do while faults strike, and a model of what was acknowledged."""

import asyncio
import random
import socket
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime, tzinfo
from math import isclose
from typing import Any, Protocol
from unittest.mock import patch

import deeds
from memory_store import MemoryStore

from pondapp.core.base.errors import PondError
from pondapp.state import drafts, tabs
from pondapp.state.session import Session
from pondapp.store import backup
from pondapp.store.key_value_store import StoreError
from pondapp.ui.measuring import fills
from pondapp.ui.shell import touch

PONDS, READINGS, DRAFTS = "abc", [f"r{n}" for n in range(8)], "xyz"
ABOUT = {"z": "c"}  # a draft that goes with its pond
SYSTEMS = ("metric", "us", "imperial")
JUMPS = (3.0, 30.0, -3.0, -30.0, -400 * 86_400.0)  # seconds by which a clock is set
FAULTS = (
    "none", "Python ended", "browser ended", "no room", "no network", "clock set",
    "deleted under it",
)  # fmt: skip
GONE = None
ANY = "any"
"""Of something that was not acknowledged: it may be whatever it is."""


class Device(Protocol):
    """Two tabs of the app over one storage."""

    def do(self, tab: int, deed: list[Any]) -> Any:
        """What the app says when it is done; False if it refuses, None if it was not even begun."""

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:
        """Begin a deed and end Python (or the whole browser) somewhere in it, then start again."""

    def rest(self) -> None:
        """Let each tab hear of the other."""

    def wait(self, least: float, most: float) -> None:
        """Let some seconds pass."""

    def set_clock(self, seconds: float) -> None:
        """Set the clock of the device, of both tabs, forward or back."""

    def fill_up(self, full: bool) -> None:
        """No room is left, or there is some again."""

    def unplug(self, gone: bool) -> None:
        """There is no network, or there is again."""

    def clear(self) -> None:
        """Delete all that is kept, under the running app."""

    def held(self) -> deeds.Found:
        """What a new start reads."""


def same(one: Any, other: Any) -> bool:
    """Whether two values are the same; amounts may be rounded when units are switched."""
    if isinstance(one, list) and isinstance(other, list):  # times, by thousandths of a second
        timed = sorted(value for value in other if value != ANY)
        if len(one) != len(other):
            return False
        if len(timed) == len(other):
            return all(
                isclose(a, b, abs_tol=0.001) for a, b in zip(sorted(one), timed, strict=True)
            )
        return all(any(isclose(a, b, abs_tol=0.001) for a in one) for b in timed)
    if isinstance(one, float | int) and isinstance(other, float | int):
        return isclose(one, other, rel_tol=0.01)
    return bool(one == other)


def in_file(file: str) -> deeds.Found:
    """What a backup holds, as an empty device takes it in."""

    async def take_in() -> deeds.Found:
        store = MemoryStore()
        look = await backup.preview(store, file.encode())
        await backup.restore(
            store, look, "replace", datetime.now(UTC)
        )  # refused if it is not whole
        return await deeds.held(Session(store))

    with ThreadPoolExecutor(1) as thread:  # here a browser's loop may be running
        return thread.submit(asyncio.run, take_in()).result()


@dataclass
class Model:
    """What was acknowledged, and what may have happened besides."""

    certain: dict[str, Any] = field(default_factory=dict)
    perhaps: dict[str, list[Any]] = field(default_factory=dict)
    lost: list[str] = field(default_factory=list)
    names: dict[str, list[str]] = field(default_factory=dict)
    """Of ponds, also of those that are deleted."""
    acknowledged: int = 0
    files: list[str] = field(default_factory=list)
    """Backups that were made; they lie where no fault of the app reaches."""
    undo: dict[str, list[Any]] | None = None
    """What taking back a restore returns to; None if nobody can say."""
    presses: dict[str, list[float]] = field(default_factory=dict)
    """When fills were begun, by the stopwatch that began them: ticks of its own clock."""
    set_since: bool = False
    """Whether the device's clock was set since a fill was begun last."""
    away_since: bool = False
    """Whether a page was put away since then."""
    tried: Counter[tuple[str, str]] = field(default_factory=Counter)
    """How often each deed met each fault, where the screen offered the deed."""

    def alternatives(self, key: str) -> list[Any]:
        """All that may lie under a key."""
        return [self.certain.get(key, GONE), *self.perhaps.get(key, [])]

    def be(self, key: str, alternatives: list[Any]) -> None:
        """One of these lies under a key."""
        self.certain[key], *more = [
            value for at, value in enumerate(alternatives) if value not in alternatives[:at]
        ]
        self.perhaps.pop(key, None)
        if more:
            self.perhaps[key] = more

    def changes(self, deed: list[Any], said: Any = None) -> dict[str, list[Any]]:
        """What may be there after a deed that was done, by key."""
        kind, *rest = deed
        fills = f"draft/{deeds.FILLS}"
        if kind == "pond":
            return {f"pond/{rest[0]}": [rest[1]]}
        if kind == "reading":
            return {f"reading/{rest[1]}/{rest[0]}": [rest[2]], f"timed/{rest[1]}/{rest[0]}": [GONE]}
        if kind == "strike":
            return {key: [GONE] for key in self.keys() if key.endswith(f"/{rest[0]}")}
        if kind == "draft":
            return {f"draft/{rest[0]}": [float(rest[1])]}
        if kind == "drop draft":
            return self.dropped(f"draft/{rest[0]}")
        if kind == "units":
            return {"units": [rest[0]]}
        if kind == "delete":
            gone = {key: [GONE] for key in self.keys() if f"/{rest[0]}/" in key}
            for draft, pond in ABOUT.items():
                gone |= self.dropped(f"draft/{draft}") if pond == rest[0] else {}
            return gone | {f"pond/{rest[0]}": [GONE]}
        if kind in ("start", "stop", "count"):
            timed = [value or [] for value in self.alternatives(fills)]
            return {
                fills: [[*value, *more] for more in self.counted(kind, said) for value in timed]
            }
        if kind == "log fills":
            place = f"{rest[1]}/{rest[0]}"
            timed = [value for value in self.alternatives(fills) if value is not GONE]
            after = [[], *self.left()]
            return {f"reading/{place}": [rest[2]], f"timed/{place}": timed, fills: after}
        if kind == "backup":  # noted in the settings, which are saved with it
            there = self.alternatives("units")
            return {"units": [*there, "metric"]} if GONE in there else {}
        if kind == "restore":
            return self.restored(*rest)
        if kind == "take back":
            undo = self.undo or {}
            return {key: [*before, *self.alternatives(key)] for key, before in undo.items()}
        return {}

    def dropped(self, key: str) -> dict[str, list[Any]]:
        """Another tab may have a draft in hand, saved or not, and bring it back: no loss."""
        return {key: [GONE, *self.alternatives(key)]}

    def left(self) -> list[list[Any]]:
        """Fills that a tab may have in hand because there was no room to save them."""
        timed = [value or [] for value in self.alternatives(f"draft/{deeds.FILLS}")]
        return [[one for one in a if one not in b] for a in timed for b in timed]

    def restored(self, how: str, file: str) -> dict[str, list[Any]]:
        """What may be there after a file was taken in."""
        found = in_file(file)
        after: dict[str, list[Any]] = {key: [value] for key, value in found.items()}
        if how == "merge":  # of two versions the one that follows, wherever it lies
            for key in {*found} - {"units"}:
                if not key.startswith("draft/"):
                    mine = [one for one in self.alternatives(key) if one is not GONE]
                    after[key] += mine
        for key in self.keys():
            if how == "merge" and (key == "units" or key.startswith("draft/")):  # mine stay
                there = self.alternatives(key)
                mine = [value for value in there if value is not GONE]
                if mine:
                    after[key] = [*mine, *after.get(key, [GONE])] if GONE in there else mine
            elif how == "replace":
                after.setdefault(key, [GONE])
                if key.startswith("draft/"):
                    after[key] += self.alternatives(key)
                if key == f"draft/{deeds.FILLS}":
                    after[key] += [[*found.get(key, []), *left] for left in self.left()]
        for key in found:
            if key.startswith("reading/"):
                after.setdefault(key.replace("reading", "timed"), [GONE])
        return after

    def keys(self) -> set[str]:
        """Everything that was ever heard of."""
        return {*self.certain, *self.perhaps}

    def counted(self, kind: str, said: dict[str, Any] | None) -> list[list[Any]]:
        """What a press may add to the fills that count."""
        if said is None:
            return [[]] if kind == "start" else [[], [ANY]]
        if kind == "count":
            return [[said["asked"]]]
        if kind == "start" or said["on"] != said["run"]:
            return [[]]  # the device's clock has a time; its reader says whether it counts
        took = [said["pressed"] - said["from"]]
        return [took, []] if self.set_since and self.away_since else [took]

    def pressed(self, kind: str, said: dict[str, Any]) -> None:
        """Whoever measures pressed the button of the stopwatch."""
        if kind == "start":
            self.presses.setdefault(said["run"], []).append(said["pressed"])
            self.set_since = self.away_since = False
        if kind == "stop" and said["on"] == said["run"] and not self.began_then(said):
            self.lost.append(f"a fill goes on from {said['from']}, when nobody pressed")

    def began_then(self, said: dict[str, Any]) -> bool:
        """Whether the fill that runs was begun when its user pressed."""
        return said["from"] in self.presses.get(said["on"], [])

    def done(self, deed: list[Any], said: Any = True) -> None:
        """The app said so."""
        self.acknowledged += 1
        kind = deed[0]
        if kind == "backup":
            self.require_all_in(said)
            self.files.append(said)
        after = self.changes(deed, said)
        self.bring_back(deed)
        if kind in ("restore", "take back"):
            self.undo = {key: self.alternatives(key) for key in after}
            self.set_since = self.away_since = True
        self.away_since |= kind == "put away"
        for key, alternatives in after.items():
            self.be(key, alternatives)
        if kind == "pond":
            self.names.setdefault(deed[1], []).append(deed[2])

    def begun(self, deed: list[Any], said: Any = None) -> None:
        """It may have happened, whole or not at all."""
        after = self.changes(deed, said)
        self.bring_back(deed)
        if deed[0] in ("restore", "take back"):
            self.undo = None
            self.set_since = self.away_since = True
        for key, alternatives in after.items():
            self.be(key, [*self.alternatives(key), *alternatives])
        if deed[0] == "pond":
            self.names.setdefault(deed[1], []).append(deed[2])

    def bring_back(self, deed: list[Any]) -> None:
        """What is saved in a pond that the other tab has just deleted brings the pond back."""
        at = {"reading": 2, "log fills": 2, "draft": 3}.get(deed[0])
        pond = deed[at] if at else None
        if pond is not None and GONE in (there := self.alternatives(f"pond/{pond}")):
            self.be(f"pond/{pond}", [*there, *self.names.get(pond, [])])

    def heard(self, deed: list[Any], said: Any, fault: str) -> None:
        """What the app said of a deed that met a fault."""
        if said is None:
            return
        self.tried[deed[0], fault] += 1
        if isinstance(said, dict):
            self.pressed(deed[0], said)
        if said is False or (isinstance(said, dict) and not said["kept"]):
            self.begun(deed, said or None)
        else:
            self.done(deed, said)

    def require_all_in(self, file: str) -> None:
        """A backup holds all that was acknowledged."""
        self.look(in_file(file), "in a backup")

    def look(self, found: deeds.Found, when: str) -> None:
        """Note what is not as it was acknowledged."""
        for key in sorted(self.keys() | {*found}):
            allowed = self.alternatives(key)
            if not any(same(found.get(key, GONE), value) for value in allowed):
                self.lost.append(f"{when}: {key} is {found.get(key, GONE)!r}, not {allowed}")

    def compare(self, found: deeds.Found, when: str, *, living: bool = False) -> None:
        """Note what is not as it was acknowledged, then go on from what is there."""
        self.look(found, when)
        self.adopt(found, living=living)

    def adopt(self, found: deeds.Found, *, living: bool) -> None:
        """Go on from what is there."""
        # What a tab that lives on could not save is still in its hand.
        in_hand = {key: self.alternatives(key) for key in self.perhaps if key.startswith("draft/")}
        self.certain = dict(found)
        for key, name in found.items():
            if key.startswith("pond/") and name not in self.names.get(key[5:], []):
                self.names.setdefault(key[5:], []).append(name)
        self.perhaps = in_hand if living else {}


def deed_of(chance: random.Random, number: int, files: list[str]) -> list[Any]:
    """Something that a user may do now."""
    pond, reading, draft = chance.choice(PONDS), chance.choice(READINGS), chance.choice(DRAFTS)
    its_pond = PONDS[READINGS.index(reading) % 3]  # an item belongs to one pond for good
    file = chance.choice(files[-3:]) if files else ""
    return chance.choice(
        [
            *[["pond", pond, f"name {number}"]] * 3,
            ["reading", reading, its_pond, f"note {number}", chance.choice([0, 0, -400, 400, 0.5])],
            *[["reading", reading, its_pond, f"note {number}", 0]] * 2,
            ["strike", reading],
            ["draft", draft, chance.randint(1, 5000), ABOUT.get(draft)],
            ["draft", draft, chance.randint(1, 5000), ABOUT.get(draft)],
            ["drop draft", draft],
            ["units", chance.choice(SYSTEMS)],
            ["delete", pond],
            ["delete and undo", pond],
            ["share", pond],
            ["start"],
            ["start"],
            ["stop"],
            ["stop"],
            [chance.choice(["count", "put away"])],
            *[["log fills", reading, its_pond, f"note {number}"]] * 2,
            ["backup"],
            ["restore", chance.choice(["merge", "merge", "replace"]), file] if file else ["backup"],
            ["take back"],
        ]
    )


def live(device: Device, chance: random.Random, steps: int) -> Model:
    """One history: deeds in either tab, and now and then a fault."""
    model = Model()
    model.adopt(device.held(), living=False)
    for number in range(steps):
        tab, deed, fate = chance.randrange(2), deed_of(chance, number, model.files), chance.random()
        if deed[0] == "take back" and model.undo is None:
            continue  # nobody could say what it returns to
        if deed[0] in deeds.MEASURING:  # a fill has one pair of hands
            device.rest()
            device.wait(0.1, 60.0)
        elif chance.random() < 0.5:
            device.rest()
        if fate < 0.06:
            model.begun(deed)
            model.tried[deed[0], "browser ended" if fate < 0.04 else "Python ended"] += 1
            device.cut(tab, deed, fate < 0.04, chance)
            model.compare(device.held(), f"{_told(number, deed)}, ended in the middle")
        elif fate < 0.12:
            device.fill_up(True)
            model.heard(deed, device.do(tab, deed), "no room")
            device.fill_up(False)
            device.wait(2.5, 60.0)  # nobody makes room sooner
        elif fate < 0.15:
            device.rest()
            device.clear()
            model.undo = None
            if device.do(tab, ["save again"]):
                model.tried["save again", "deleted under it"] += 1
                when = f"{_told(number, deed)}, deleted under it"
                model.compare(device.held(), when, living=True)
        elif fate < 0.20:
            device.unplug(True)
            model.heard(deed, device.do(tab, deed), "no network")
            device.unplug(False)
        else:
            if fate < 0.35:
                device.set_clock(chance.choice(JUMPS))
                model.set_since = True
            model.heard(deed, device.do(tab, deed), "clock set" if fate < 0.35 else "none")
    device.rest()
    model.compare(device.held(), "at the end")
    return model


def _told(number: int, deed: list[Any]) -> str:
    return f"step {number}, {deed[:2]}"


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

    async def keys(self, prefix: str = "") -> list[str]:
        self._strike()
        return await super().keys(prefix)

    async def put(self, key: str, text: str) -> None:
        await self.apply({key: text})

    async def delete(self, key: str) -> None:
        await self.apply({key: None})

    async def apply(self, changes: Any, expected: Any = None, *more: Any) -> None:
        self._strike()
        if self.full and any(changes.values()):
            raise StoreError("no room")
        await super().apply(changes, expected, *more)
        self._strike()


class Clock:
    """What the device's clock and its stopwatches show."""

    def __init__(self) -> None:
        self.passed = self.shift = 0.0

    def tick(self) -> float:
        return time.monotonic() + self.passed

    def monotonic(self) -> float:
        return self.tick()

    def time(self) -> float:
        return time.time() + self.passed + self.shift

    def now(self, zone: tzinfo) -> datetime:
        return datetime.fromtimestamp(self.time(), zone)


@contextmanager
def no_network() -> Iterator[None]:
    """Whoever asks for anything from outside gets nothing."""
    with patch.object(socket, "getaddrinfo", side_effect=OSError), \
            patch.object(socket.socket, "connect", side_effect=OSError):  # fmt: skip
        yield


class Here:
    """Two sessions in this Python, over one storage in memory and one clock."""

    def __init__(self) -> None:
        self.loop = asyncio.new_event_loop()
        self.loop.set_exception_handler(lambda *_: None)  # what is ended is not awaited
        self.clock, self.chance = Clock(), random.Random(0)
        self.patched = ExitStack()
        for place, name, stands in (
            (fills, "time", self.clock),
            (drafts, "datetime", self.clock),
            (drafts, "time", self.clock),
            (touch, "_now", [self.clock.tick]),
            (touch, "_run", []),
            (touch, "_away", []),
        ):
            self.patched.enter_context(patch.object(place, name, stands))
        self.network = ExitStack()
        self.texts: dict[str, str] = {}
        self.starts = 0
        self.start()

    def start(self) -> None:
        for task in asyncio.all_tasks(self.loop):
            task.cancel()
        first = FaultyStore()
        first.texts.update(self.texts)
        self.stores = [first, FaultyStore(beside=first)]
        self.texts = first.texts
        self.sessions = [Session(store) for store in self.stores]
        self.away: list[list[float]] = [[], []]
        self.starts += 1

        async def begin() -> None:
            for session in self.sessions:
                await session.load()
                await session.logs.read_all()
                tabs.Follower(session, lambda do: asyncio.ensure_future(do()))

        self.loop.run_until_complete(begin())

    def run(self, tab: int, deed: list[Any]) -> Any:
        """Do a deed with the stopwatch of this tab."""
        touch._run[:] = [f"{self.starts}.{tab}"]
        touch._away = self.away[tab]
        return self.loop.run_until_complete(deeds.do(self.sessions[tab], deed))

    def do(self, tab: int, deed: list[Any]) -> Any:
        try:
            return self.run(tab, deed)
        except deeds.NotBegun:
            return None
        except (PondError, deeds.NotDone):
            return False

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:  # noqa: ARG002
        self.stores[tab].left = chance.randrange(8)
        with suppress(PondError, deeds.NotDone, deeds.NotBegun, Ended):
            self.run(tab, deed)
        self.start()

    def rest(self) -> None:
        while asyncio.all_tasks(self.loop):  # each takes over what it heard of
            self.loop.run_until_complete(asyncio.sleep(tabs.PAUSE))

    def wait(self, least: float, most: float) -> None:
        self.clock.passed += self.chance.uniform(least, most)

    def set_clock(self, seconds: float) -> None:
        self.clock.shift += seconds

    def fill_up(self, full: bool) -> None:
        for store in self.stores:
            store.full = full

    def unplug(self, gone: bool) -> None:
        self.network.close()
        if gone:
            self.network.enter_context(no_network())

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
        self.patched.close()
