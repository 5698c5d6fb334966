"""What fails in a task of its own is told, and does not end what waits for it."""

import asyncio
from typing import Any, cast

import flet as ft

from pondapp.core.base.errors import PondError
from pondapp.ui.shell.app import tell_failures_of_tasks


class Page:
    """Runs a task as the framework does, and drops what it raises."""

    def run_task(self, handler: Any) -> Any:
        return asyncio.run(handler())


def test_a_failure_in_a_task_is_told_and_a_result_is_given_back() -> None:
    page, told = cast("ft.Page", Page()), []
    tell_failures_of_tasks(page, lambda _, error: told.append(error))

    async def add(one: int, *, other: int) -> int:
        return one + other

    async def fail(text: str) -> None:
        raise PondError(text)

    found: Any = page.run_task(add, 2, other=3)
    assert (found, told) == (5, [])
    assert page.run_task(fail, "no backup") is None
    assert [str(error) for error in told] == ["no backup"]
