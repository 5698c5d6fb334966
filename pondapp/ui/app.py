"""The root of the interface: routes, themes, and the session that all screens share."""

import asyncio
import sys
import traceback
from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.store.places import this_device
from pondapp.ui import theme, touch
from pondapp.ui.current import session_now, set_session
from pondapp.ui.pages.at_place import AtPlacePage
from pondapp.ui.pages.backup import BackupPage
from pondapp.ui.pages.care import CarePage
from pondapp.ui.pages.charts import ChartsPage
from pondapp.ui.pages.containers import ContainersPage
from pondapp.ui.pages.entry import EntryPage
from pondapp.ui.pages.fish import FishPage
from pondapp.ui.pages.health import HealthPage
from pondapp.ui.pages.home import HomePage
from pondapp.ui.pages.log import LogPage
from pondapp.ui.pages.measure import MeasurePage
from pondapp.ui.pages.path import PathPage, PathPartPage
from pondapp.ui.pages.places import PlacesPage
from pondapp.ui.pages.plan import PlanPage
from pondapp.ui.pages.plumbing import PlumbingPage
from pondapp.ui.pages.pond import PondPage
from pondapp.ui.pages.pond_form import PondFormPage
from pondapp.ui.pages.pump_form import PumpFormPage
from pondapp.ui.pages.pumps import PumpsPage
from pondapp.ui.pages.rules import RulePage, RulesPage
from pondapp.ui.pages.run_form import RunFormPage
from pondapp.ui.pages.settings import SettingsPage
from pondapp.ui.pages.share import SharePage
from pondapp.ui.pages.shared import SharedPage
from pondapp.ui.pages.shopping import ShoppingPage
from pondapp.ui.pages.size import SizePage
from pondapp.ui.pages.things import ThingPage, ThingsPage
from pondapp.ui.pages.tune import TunePage
from pondapp.ui.pages.tune_branch import TuneBranchPage
from pondapp.ui.pages.water import WaterPage
from pondapp.ui.pages.waterfall import WaterfallPage
from pondapp.ui.session import Session
from pondapp.ui.tabs import Follower

BREATH = 0.3  # seconds between two logs that are read in the background


@ft.component
def App() -> Any:
    """All screens; drawn anew whenever the session says that something changed."""
    _, count = ft.use_state(0)
    session_now().changed = lambda: count(lambda n: n + 1)
    return ft.Router(
        [
            ft.Route(
                component=HomePage,
                children=[
                    ft.Route(path="size", component=SizePage),
                    ft.Route(path="waterfall", component=WaterfallPage),
                    ft.Route(path="settings", component=SettingsPage),
                    ft.Route(path="backup", component=BackupPage),
                    ft.Route(path="containers", component=ContainersPage),
                    ft.Route(
                        path="measure",
                        component=PlacesPage,
                        children=[ft.Route(path=":pond_id/:place_id", component=MeasurePage)],
                    ),
                    ft.Route(path="shared/:plan", component=SharedPage),
                    ft.Route(path="new", component=PondFormPage),
                    ft.Route(
                        path="pond/:pond_id",
                        component=PondPage,
                        children=[
                            ft.Route(path="at/:place_id", component=AtPlacePage),
                            ft.Route(path="measure/:place_id", component=MeasurePage),
                            ft.Route(path="plan", component=PlanPage),
                            ft.Route(
                                path="path",
                                component=PathPage,
                                children=[ft.Route(path=":part_id", component=PathPartPage)],
                            ),
                            ft.Route(
                                path="things",
                                component=ThingsPage,
                                children=[ft.Route(path=":thing_id", component=ThingPage)],
                            ),
                            ft.Route(path="water", component=WaterPage),
                            ft.Route(path="fish", component=FishPage),
                            ft.Route(path="share", component=SharePage),
                            ft.Route(path="health", component=HealthPage),
                            ft.Route(
                                path="log",
                                component=LogPage,
                                children=[
                                    ft.Route(path="due", component=CarePage),
                                    ft.Route(path="charts", component=ChartsPage),
                                    ft.Route(path=":item_id", component=EntryPage),
                                ],
                            ),
                            ft.Route(
                                path="plumbing",
                                component=PlumbingPage,
                                children=[
                                    ft.Route(path=":line_id/:run_key", component=RunFormPage)
                                ],
                            ),
                            ft.Route(
                                path="tune",
                                component=TunePage,
                                children=[ft.Route(path=":branch_id", component=TuneBranchPage)],
                            ),
                            ft.Route(
                                path="pumps",
                                component=PumpsPage,
                                children=[ft.Route(path=":pump_id", component=PumpFormPage)],
                            ),
                            ft.Route(path="shopping", component=ShoppingPage),
                            ft.Route(
                                path="rules",
                                component=RulesPage,
                                children=[ft.Route(path=":rule_key", component=RulePage)],
                            ),
                        ],
                    ),
                ],
            )
        ],
        not_found=HomePage,
        manage_views=True,
    )


def _tell_failure(page: ft.Page, error: BaseException) -> None:
    """A failure must be loud, but it must not take the screen and what was typed with it."""
    if isinstance(error, PondError):
        title, text = "That did not work", units.tell(error.message, session_now().system)
    else:
        traceback.print_exception(error)
        title = "Something went wrong in the app"
        text = f"What you saved is safe. {type(error).__name__}: {error}"
    page.show_dialog(ft.AlertDialog(title=ft.Text(title), content=ft.Text(text)))


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
    # The framework would replace the whole screen by its own words; it calls this in its handler.
    page.session.error = lambda message: _tell_failure(  # type: ignore[method-assign]
        page, sys.exception() or RuntimeError(message)
    )
    touch.listen()
    session = Session(await this_device())
    await session.load()
    set_session(session)
    Follower(session, page.run_task)
    page.render_views(App)
    page.run_task(session.read_logs, BREATH)


def start() -> None:
    """Run the app in whatever Python this is."""
    ft.run(main)
