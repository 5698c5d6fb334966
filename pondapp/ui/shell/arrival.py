"""Tells the page that another screen has come, so that no touch hits what it was not meant for."""

import flet as ft

from pondapp.store.browser.page import ask
from pondapp.ui.shell import places, scrolled, theme

_route: list[str] = []  # of the screen that came last
_has_places: dict[str, bool] = {}  # by route, of the screen in front and the one before


def note(route: str, *, has_places: bool) -> None:
    """A screen is drawn, also one below that in front; with the four places or without."""
    page = ft.context.page
    if route == page.route:
        _has_places[route] = has_places
    if _route != [page.route]:
        before, _route[:] = "".join(_route), [page.route]
        scrolled.arrive(page.route)
        # Once all of it is drawn and handed over.
        page.run_task(scrolled.restore, page.route)
        page.run_task(_tell, page, before)


async def _tell(page: ft.Page, before: str) -> None:
    foot = side = 0.0
    if _has_places.pop(before, False) and _has_places.get(page.route, False):
        foot, side = (0.0, theme.RAIL) if places.at_side() else (places.height(), 0.0)
    await ask("arrived", route=page.route, foot=foot, side=side, bar=theme.TOUCH_MAIN)
