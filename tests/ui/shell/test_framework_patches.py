"""What is changed in the framework is there in the pinned one, and does what it is for."""

import asyncio
from collections.abc import Callable, Iterator
from typing import Any

import flet as ft
import pytest
from flet.messaging.connection import Connection
from flet.messaging.session import Session
from flet.pubsub.pubsub_hub import PubSubHub

from pondapp.core.base.errors import PondError
from pondapp.ui.shell import framework_patches

LATE: dict[int, Callable[[Any], Any]] = {}
"""What touches of controls do whose screen is gone."""


@pytest.fixture
def loop() -> Iterator[asyncio.AbstractEventLoop]:
    made = asyncio.new_event_loop()
    yield made
    made.close()


@pytest.fixture
def told() -> list[BaseException]:
    return []


@pytest.fixture
def session(loop: asyncio.AbstractEventLoop, told: list[BaseException]) -> Session:
    """The framework's own session, patched."""
    connection = Connection()
    connection.loop = loop
    connection.pubsubhub = PubSubHub(loop)
    made = Session(connection)
    framework_patches.patch(made.page, lambda _, error: told.append(error), LATE.get)
    return made


def test_the_pinned_framework_has_what_is_replaced() -> None:
    framework_patches.require_known(ft.Page, framework_patches.PAGE)
    framework_patches.require_known(Session, framework_patches.SESSION)


class WithoutPatches:
    def error(self, message: str) -> None:
        """As it is."""


class OtherError(WithoutPatches):
    def error(self, message: str, code: int) -> None:  # type: ignore[override]
        """Called otherwise."""

    def apply_patch(self, control_id: int, patch: dict[str, Any]) -> None:
        """As it is."""


@pytest.mark.parametrize(
    ("owner", "said"),
    [
        (WithoutPatches, r"has no WithoutPatches\.apply_patch any more"),
        (OtherError, r"calls OtherError\.error in another way"),
    ],
)
def test_another_framework_is_refused(owner: type, said: str) -> None:
    with pytest.raises(RuntimeError, match=said):
        framework_patches.require_known(owner, framework_patches.SESSION)


def test_nothing_is_patched_where_something_is_not_as_expected(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delattr(Session, "apply_patch")
    before = session.page.run_task
    with pytest.raises(RuntimeError, match="apply_patch any more"):
        framework_patches.patch(session.page, lambda *_: None, LATE.get)
    assert session.page.run_task is before


def test_a_failure_in_a_task_is_told_and_a_result_is_given_back(
    session: Session, loop: asyncio.AbstractEventLoop, told: list[BaseException]
) -> None:
    async def add(one: int, *, other: int) -> int:
        return one + other

    async def fail(text: str) -> None:
        raise PondError(text)

    def result(work: Callable[..., Any], *arguments: Any, **named: Any) -> Any:
        return loop.run_until_complete(
            asyncio.wrap_future(session.page.run_task(work, *arguments, **named), loop=loop)
        )

    assert result(add, 2, other=3) == 5
    assert told == []
    assert result(fail, "no backup") is None
    assert [str(error) for error in told] == ["no backup"]


def test_a_failure_in_a_handler_is_told_as_it_was_raised(
    session: Session, loop: asyncio.AbstractEventLoop, told: list[BaseException]
) -> None:
    def fail(_: object) -> None:
        raise PondError("no reading")

    session.page.on_connect = fail
    loop.run_until_complete(session.dispatch_event(session.page._i, "connect", None))
    assert [(type(error), str(error)) for error in told] == [(PondError, "no reading")]


def test_a_touch_that_is_told_after_its_screen_went_is_heard_where_that_is_wanted(
    session: Session, loop: asyncio.AbstractEventLoop, monkeypatch: pytest.MonkeyPatch
) -> None:
    heard: list[int] = []

    async def act(_: object) -> None:
        heard.append(1)

    gone, other = ft.TextButton("Log"), ft.TextButton("Save")
    monkeypatch.setitem(LATE, gone._i, act)

    def touch(control: ft.TextButton, event: str = "click") -> int:
        async def told() -> None:
            await session.dispatch_event(control._i, event, None)
            await asyncio.sleep(0)

        loop.run_until_complete(told())
        return len(heard)

    assert touch(gone) == 1
    assert touch(gone, "focus") == 1
    assert touch(other) == 1
    session.index[gone._i] = gone  # it is there again, and hears for itself
    assert touch(gone) == 1


def test_a_field_hands_its_text_on_at_once(session: Session, told: list[BaseException]) -> None:
    heard: list[str] = []
    field = ft.TextField(value="1", data=heard.append)
    session.index[field._i] = field
    session.apply_patch(field._i, {"value": "12"})
    assert (field.value, heard) == ("12", ["12"])
    session.apply_patch(field._i, {"label": "Length"})  # no text
    assert heard == ["12"]
    field.data = lambda text: [][int(text)]
    session.apply_patch(field._i, {"value": "3"})
    assert [type(error) for error in told] == [IndexError]
