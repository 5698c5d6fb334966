"""What only the page may ask of the browser: to keep the data, to share, to open a printable page.

Python runs in a worker, which has neither a share sheet nor a window; `boot.js` answers.
"""

import asyncio
import itertools
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, Literal

from pondapp.store.key_value_store import StoreError

LONGEST = 120.0  # seconds; a share sheet may stay open for a while
SMALL = 1000  # letters of a text that cannot end Python, whatever it is

_numbers = itertools.count(1)
_waiting: dict[int, asyncio.Future[Any]] = {}
_picked: list[Any] = []  # the file that was picked last
_hearers: dict[str, Callable[[Any], object]] = {}
_kept: list[Any] = []  # the channel and its callback live as long as the app


def _channel() -> Any:
    """The channel to the page; None on a desktop, which has none."""
    if _kept:
        return _kept[0]
    try:
        import flet_js
        import js
        from pyodide.ffi import create_proxy
    except ImportError:
        return None

    def heard(event: Any) -> None:
        if event.data.tab != flet_js.tab:
            return
        if getattr(event.data, "picked", None) is not None:
            _picked[:] = [event.data.picked]
            return
        for what, hear in _hearers.items():
            if (told := getattr(event.data, what, None)) is not None:
                hear(told)
                return
        waiting = _waiting.pop(int(event.data.answers), None)
        if waiting is not None and not waiting.done():
            waiting.set_result(event.data.answer)

    channel = js.BroadcastChannel.new(name("page"))
    proxy = create_proxy(heard)
    channel.onmessage = proxy
    _kept.extend([channel, proxy])
    return channel


def name(what: str) -> str:
    """Name of something that this copy of the app keeps or says, apart from other copies' own."""
    import flet_js

    return f"pondapp-{what} {flet_js.path}"


@contextmanager
def reading(key: str) -> Iterator[None]:
    """Tell the page which document is being read, for the case that Python dies of it.

    Raises:
        StoreError: It did so at an earlier start.
    """
    try:
        import flet_js
    except ImportError:
        yield
        return
    if flet_js.leftOut.includes(key):
        raise StoreError("the app ended while reading it; it is left out, and lies where it was")
    flet_js.reading = key
    try:
        yield
    finally:
        flet_js.reading = None


async def ask(what: str, seconds: float = LONGEST, **values: Any) -> Any:
    """What the page answers: "done", "cancelled", "impossible", or another word of its own."""
    channel = _channel()
    if channel is None:
        return "impossible"
    import flet_js
    import js
    from pyodide.ffi import to_js

    number = next(_numbers)
    _waiting[number] = asyncio.get_running_loop().create_future()
    asked = {"tab": flet_js.tab, "number": number, "ask": what, **values}
    channel.postMessage(to_js(asked, dict_converter=js.Object.fromEntries))
    try:
        return await asyncio.wait_for(_waiting[number], seconds)
    except TimeoutError:
        return "impossible"
    finally:
        _waiting.pop(number, None)


def listen() -> None:
    """Hear from the page from now on, also before anything is asked of it."""
    _channel()


def on_told(
    what: Literal["presses", "opened", "installing"], hear: Callable[[Any], object]
) -> None:
    """Hear what the page tells by itself.

    It tells of presses of its stopwatch, of files that were opened with the app, and whether it
    can be installed.
    """
    _hearers[what] = hear


def has_pad() -> bool:
    """Whether there is a page with a stopwatch of its own; a desktop has none."""
    return _channel() is not None


def last_picked() -> Any:
    """The file that was picked last on this page; None on a desktop."""
    return _picked[0] if _picked else None


def forget_picked() -> None:
    """It is taken: another of the same name is another file."""
    _picked.clear()


def address() -> str:
    """Address of the app itself, without the screen that is shown; empty on a desktop."""
    try:
        import flet_js
    except ImportError:
        return ""
    return str(flet_js.documentUrl).partition("#")[0]


async def make_room() -> bool:
    """Have deleted what only makes starts faster; False where there is nothing of it."""
    import flet_js

    return bool(await flet_js.makeRoom())


async def file_of_site(path: str) -> str | None:
    """A text that lies beside the app, as the browser keeps it; None where there is none."""
    import js

    answer = await js.fetch(f"{address()}{path}")
    return str(await answer.text()) if answer.ok else None


def text_scale() -> float:
    """How much larger than usual the reader's browser writes, as it was when the app started."""
    try:
        import flet_js
    except ImportError:  # a desktop does not tell
        return 1.0
    return float(flet_js.textScale)
