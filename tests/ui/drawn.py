"""A screen drawn without a browser: what it says and what can be pressed on it."""

import asyncio
import inspect
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest
from flet.components import component_decorator as components
from flet.components import memo
from memory_store import MemoryStore

from pondapp.answers.sharing.example import example_pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    Method,
    NothingComes,
    WeighedBucket,
    WeighedFill,
)
from pondapp.state.session import Session
from pondapp.ui.shell import notice
from pondapp.ui.shell.session_context import set_session

TUB = Container(id="tub", name="Tub", volume_m3=0.01, tolerance_m3=0.0002)
PAIL = Container(id="pail", name="Pail", volume_m3=0.009, tolerance_m3=0.0002)
FILLS = (Fill(seconds=9.523), Fill(seconds=7.27, excluded=True))
METHODS: tuple[Method, ...] = (
    Bucket(container=TUB, fills=FILLS),
    WeighedBucket(
        empty_kg=0.4, scale_tolerance_kg=0.05,
        fills=(WeighedFill(seconds=54.0, full_kg=9.4),),
    ),
    LevelDrop(area_m2=2.0, area_tolerance_m2=0.1, drop_m=0.05, level_tolerance_m=0.002,
              fills=FILLS),
    FilledSpace(volume_m3=0.25, volume_tolerance_m3=0.01, porosity=0.4, porosity_tolerance=0.05,
                fills=FILLS),
    LipDepth(head_m=0.012, head_tolerance_m=0.001, width_m=0.3, width_tolerance_m=0.01,
             crest_height_m=0.1),
    MeterReading(flow_m3_s=600 / 3.6e6, tolerance=0.05),
    NothingComes(),
)  # fmt: skip


def leave(session: Session, draft: Draft) -> None:
    """Have a draft in hand as it is, with the moment at which it was left."""
    session.drafts._held[draft.id] = draft


class Screen:
    """One screen over one session; each look draws it anew, as the framework does."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.session = Session(MemoryStore())
        set_session(self.session)
        asyncio.run(self.session.ponds.save(example_pond()))
        asyncio.run(self.session.logs.read_all())
        self.params: dict[str, str] = {}
        self.went: list[str] = []
        self.notes: list[tuple[str, Any]] = []
        self._later: list[Any] = []
        self._held: dict[int, Any] = {}
        self._hook = 0
        page = SimpleNamespace(
            run_task=lambda work, *arguments: self._later.append((work, arguments)),
            navigate=self.went.append,
            route="/here",
            width=390,
            height=844,
        )

        def draw(component: Any, arguments: Any, named: Any, **_: Any) -> Any:
            return component(*arguments, **named)

        renderer = SimpleNamespace(render_component=draw, set_memo=lambda: None)
        monkeypatch.setattr(notice, "show", lambda text, undo=None: self.notes.append((text, undo)))
        monkeypatch.setattr(components, "current_renderer", lambda: renderer)
        monkeypatch.setattr(memo, "current_renderer", lambda: renderer)
        monkeypatch.setattr(ft, "context", SimpleNamespace(page=page))
        monkeypatch.setattr(ft, "use_route_params", lambda: self.params)
        monkeypatch.setattr(ft, "use_view_path", lambda: "/here")
        monkeypatch.setattr(ft, "use_state", self._use_state)
        monkeypatch.setattr(ft, "use_ref", self._use_ref)
        monkeypatch.setattr(ft, "use_memo", lambda make, _=None: make())
        monkeypatch.setattr(ft, "use_effect", lambda *_, **__: None)

    def _next(self, begin: Any) -> int:
        self._hook += 1
        self._held.setdefault(self._hook, begin)
        return self._hook

    def _use_state(self, begin: Any) -> tuple[Any, Any]:
        number = self._next(begin)

        def put(value: Any) -> None:
            self._held[number] = value(self._held[number]) if callable(value) else value

        return self._held[number], put

    def _use_ref(self, begin: Any = None) -> Any:
        number = self._next(SimpleNamespace(current=begin))
        return self._held[number]

    def open(self, page: Any, **params: str) -> None:
        """Go to a screen."""
        self._page, self.params, self._held = page, params, {}
        self.look()

    def look(self) -> ft.View:
        """Draw the screen."""

        async def drawn() -> ft.View:
            self._hook = 0
            view: ft.View = self._page()
            await self.session.logs.read_all()  # what the screen asked for
            return view

        return asyncio.run(drawn())

    def text(self) -> str:
        """All that it says."""
        return words_of(self.look())

    def buttons(self) -> dict[str, Any]:
        """What can be pressed, by its words."""
        found: dict[str, Any] = {}
        for one in _below(self.look()):
            if isinstance(one, ft.FilledButton | ft.OutlinedButton | ft.TextButton):
                found.setdefault(_plain(" ".join(_words(one))), one)
        return found

    def press(self, words: str) -> None:
        """Press the button that has these words, and let all that follows happen."""
        (button,) = [one for name, one in self.buttons().items() if words in name][:1]
        assert not button.disabled, words
        asyncio.run(self._pressed(button.on_click))

    async def _pressed(self, handler: Any) -> None:
        answer = handler(None)
        if inspect.isawaitable(answer):
            await answer
        await self.settle()

    async def settle(self) -> None:
        """Do what was put off."""
        while self._later:
            work, arguments = self._later.pop(0)
            if getattr(work, "__name__", "") != "tick":
                await work(*arguments)

    def undo(self) -> None:
        """Take back what the last note told of."""
        _, take_back = self.notes[-1]
        asyncio.run(take_back())
        asyncio.run(self.settle())


def parts_of(control: Any) -> Iterator[Any]:
    """A control and all that is in it."""
    return _below(control)


def words_of(control: Any) -> str:
    """All that a control says."""
    return _plain("\n".join(str(one.value) for one in _below(control) if isinstance(one, ft.Text)))


def _plain(text: str) -> str:
    """Words without what keeps a number and its unit together."""
    return text.replace("\u00a0", " ").replace("\ufeff", "")


def _words(control: Any) -> Iterator[str]:
    for one in _below(control):
        if isinstance(one, ft.Text):
            yield str(one.value)
        elif isinstance(one, ft.Icon) and one.semantics_label:
            yield str(one.semantics_label)


def _below(control: Any) -> Iterator[Any]:
    yield control
    parts = [*(getattr(control, "controls", None) or [])]
    parts += getattr(control, "actions", None) or []
    for name in ("title", "content", "bottom_appbar", "appbar"):
        part = getattr(control, name, None)
        parts += [part] if isinstance(part, ft.BaseControl) else []
    for part in parts:
        yield from _below(part)
