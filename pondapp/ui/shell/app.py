"""The root of the interface: routes, themes, and the session that all screens share."""

import asyncio
import json
import traceback
from contextlib import suppress
from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.state.ids import NO_POND
from pondapp.state.session import Session
from pondapp.state.tabs import Follower
from pondapp.store.browser.page import ask, on_told
from pondapp.store.key_value_store import StoreError
from pondapp.store.places import this_device
from pondapp.ui.parts import layout
from pondapp.ui.pond.matters import count_due
from pondapp.ui.sharing import keeping
from pondapp.ui.shell import dialog, framework_patches, notice, places, system, theme, touch
from pondapp.ui.shell.routes import above, routes
from pondapp.ui.shell.session_context import session_now, set_session
from pondapp.words import LANGUAGES, t

BREATH = 0.3  # seconds between two logs that are read in the background


@ft.component
def App() -> Any:
    """All screens; drawn anew whenever the session says that something changed."""
    _, count = ft.use_state(0)
    session_now().device.on_change = lambda: count(lambda n: n + 1)
    language = session_now().preferences.language
    page = ft.context.page
    page.on_resize = lambda _: count(lambda n: n + 1)  # where the stopwatch is, and its room

    def tell() -> None:
        """The client and the page have words of their own, such as those of a calendar."""
        known = [ft.Locale(language.code) for language in LANGUAGES]
        page.locale_configuration = ft.LocaleConfiguration(known, ft.Locale(language))
        page.run_task(ask, "speak", language=language)

    ft.use_effect(tell, [language])
    _use_what_is_wanted(page)
    due = count_due()

    def show_due() -> None:
        if due is not None:
            page.run_task(system.show_badge, due)

    ft.use_effect(show_due, [due])
    return ft.Router(routes(), manage_views=True)


def _use_what_is_wanted(page: ft.Page) -> None:
    """Tell the page which ponds have changed: what its stopwatch last showed there is old.

    It skips the steps of its history that lead to a pond that is gone.
    """
    session = session_now()
    seen: Any = ft.use_ref(None)
    now = {**session.ponds, NO_POND: session.preferences.containers}
    before = seen.current
    seen.current = now
    if before is None or before == now:
        return
    if before.keys() != now.keys():
        page.run_task(ask, "ponds", ponds=json.dumps(list(session.ponds)))
    changed = [one for one, found in now.items() if before.get(one) != found]
    if NO_POND in changed:  # every fill time is of a container
        changed = list(now)
    page.run_task(ask, "stale", ponds=json.dumps(changed))


def _tell_failure(page: ft.Page, error: BaseException) -> None:
    """A failure must be loud, but it must not take the screen and what was typed with it."""
    if isinstance(error, PondError):
        title = t("That did not work")
        text = units.explain(error, session_now().system)
    else:
        traceback.print_exception(error)
        title = t("Something went wrong in the app")
        text = t("What you saved is safe. {error}", error=f"{type(error).__name__}: {error}")
    close = layout.quiet_button(t("Close"), lambda _: page.pop_dialog())
    dialog.show(page, ft.AlertDialog(title=ft.Text(title), content=ft.Text(text), actions=[close]))


def _tell_cleared(page: ft.Page, session: Session) -> None:
    async def tell() -> None:
        from pondapp.ui.shell import cleared  # only here: it hardly ever happens

        cleared.tell(page, session)

    page.run_task(tell)  # told from outside the framework


async def _learn_motion() -> None:
    """Leave out what moves for its own sake, where the device is set so."""
    session_now().device.moves = await ask("motion") == "free"


def _hear_presses(page: ft.Page, session: Session) -> None:
    """Take the presses of the page's stopwatch, also those from before Python was there."""

    async def take(text: str) -> None:
        from pondapp.ui.measuring import pad  # read only when something was pressed

        await pad.take_presses(text)

    async def begin() -> None:
        waiting = await ask("presses", ponds=json.dumps(list(session.ponds)))
        if waiting not in ("impossible", "[]"):
            await take(waiting)

    def hear(text: Any) -> None:
        page.run_task(take, str(text))

    on_told("presses", hear)
    page.run_task(begin)


async def main(page: ft.Page) -> None:
    """Load what is on the device, then show it."""
    page.title = "pondapp"
    page.theme, page.dark_theme = theme.themes()
    page.theme_mode = ft.ThemeMode.SYSTEM
    loop = asyncio.get_running_loop()
    loop.set_exception_handler(
        lambda _, context: _tell_failure(
            page, context.get("exception") or RuntimeError(str(context))
        )
    )
    framework_patches.patch(page, _tell_failure, places.late_touch)
    touch.listen()
    session = Session(await this_device())
    set_session(session)  # before anything can fail, since a failure is told in its language
    with suppress(StoreError):  # told below, and on the first screen
        await session.load()
    if session.settings.first_start:
        about: Any = await page.get_device_info()  # a desktop's does not know the language
        session.settings.greet(getattr(about, "language", None))
        page.run_task(session.settings.remember_greeting)
    Follower(session, page.run_task)

    session.store.cleared = lambda: _tell_cleared(page, session)
    notice.place(page)
    page.on_view_pop = lambda event: page.navigate(above(event.route))
    page.render_views(App)
    _hear_presses(page, session)
    system.listen(page, session)
    page.run_task(_learn_motion)
    if session.device.refused is not None:
        keeping.tell_refused(page, session.device.refused)
        return
    page.run_task(session.logs.read_all, BREATH)


def start() -> None:
    """Run the app in whatever Python this is."""
    ft.run(main)
