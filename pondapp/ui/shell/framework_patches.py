"""All that is changed in the framework while it runs, and nothing else may change it.

What is replaced is looked at first. If a newer framework has it no more, or calls it otherwise, the
app refuses to start: without these changes texts and failures would be lost silently.
"""

import inspect
import sys
from collections.abc import Awaitable, Callable, Mapping
from contextvars import copy_context
from typing import Any

import flet as ft

Tell = Callable[[ft.Page, BaseException], None]
LateTouch = Callable[[int], Callable[[Any], Any] | None]

PAGE = {"run_task": ("self", "handler", "args", "kwargs")}
SESSION = {
    "error": ("self", "message"),
    "apply_patch": ("self", "control_id", "patch"),
    "dispatch_event": ("self", "control_id", "event_name", "event_data"),
}
"""Methods that are replaced, and how the framework calls them."""


def require_known(owner: type, methods: Mapping[str, tuple[str, ...]]) -> None:
    """Refuse a framework in which a method that is replaced is gone, or is called otherwise.

    Raises:
        RuntimeError: It is so.
    """
    for name, parameters in methods.items():
        method = inspect.getattr_static(owner, name, None)
        if not inspect.isfunction(method):
            raise RuntimeError(f"the framework has no {owner.__name__}.{name} any more")
        if tuple(inspect.signature(method).parameters) != parameters:
            raise RuntimeError(f"the framework calls {owner.__name__}.{name} in another way")


def patch(page: ft.Page, tell: Tell, late_touch: LateTouch) -> None:
    """Make all changes; call this in `main`.

    `tell` tells the reader of a failure, `late_touch` says what a touch of a control does whose
    screen is gone.
    """
    require_known(type(page), PAGE)
    require_known(type(page.session), SESSION)
    _tell_failures_of_tasks(page, tell)
    _tell_failures_of_handlers(page, tell)
    _call_fields_with_their_text(page)
    _hear_late_touches(page, late_touch)


def _tell_failures_of_tasks(page: ft.Page, tell: Tell) -> None:
    """Have what fails in a task of its own told too: the framework leaves it to a log."""
    plain: Any = page.run_task

    def run_task(handler: Callable[..., Awaitable[Any]], *args: Any, **kwargs: Any) -> Any:
        async def watched() -> Any:
            try:
                return await handler(*args, **kwargs)
            except Exception as error:  # noqa: BLE001 - told, whatever it is
                tell(page, error)
                return None

        return plain(watched)

    page.run_task = run_task  # type: ignore[method-assign]


def _tell_failures_of_handlers(page: ft.Page, tell: Tell) -> None:
    """Have what fails in a handler told: the framework would replace the screen by its words."""

    def error(message: str) -> None:
        # The framework calls this while it handles the error.
        tell(page, sys.exception() or RuntimeError(message))

    page.session.error = error  # type: ignore[method-assign]


def _call_fields_with_their_text(page: ft.Page) -> None:
    """Call the handler in a field's `data` at once when its text changes.

    The framework tells the text of a field first and calls the field's handler a moment later. A
    screen drawn in between would hold the text of the key before, and putting that into the field
    would take the newest key away. So a field's handler is called together with the text.
    """
    apply_patch = page.session.apply_patch
    # The handlers ask for the page, which the framework knows in this context only.
    context = copy_context()

    def apply_and_call(control_id: int, patch: dict[str, Any]) -> None:
        apply_patch(control_id, patch)
        control = page.session.index.get(control_id)
        if isinstance(control, ft.TextField) and "value" in patch and callable(control.data):
            try:
                context.run(control.data, patch["value"])
            except Exception as problem:  # noqa: BLE001  # as the framework does with a handler's
                page.session.error(str(problem))

    page.session.apply_patch = apply_and_call  # type: ignore[method-assign]


def _hear_late_touches(page: ft.Page, late_touch: LateTouch) -> None:
    """Hear a touch that is told after its screen went: while another was drawn, nobody listened."""
    plain = page.session.dispatch_event

    async def dispatch(control_id: int, event_name: str, event_data: Any) -> None:
        act = late_touch(control_id)
        if event_name == "click" and act is not None and control_id not in page.session.index:
            page.run_task(act, None)
        else:
            await plain(control_id, event_name, event_data)

    page.session.dispatch_event = dispatch  # type: ignore[method-assign]
