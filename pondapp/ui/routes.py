"""Which address shows which screen. A screen's code is read when it is first shown.

Reading all of it would take longer than everything else between a touch on the icon and the first
screen. It is not read in the background either: a screen that is drawn meanwhile may stay empty.
"""

from collections.abc import Callable
from importlib import import_module
from typing import Any

import flet as ft

from pondapp.ui.pages.home import HomePage

# What a router makes of a route is the screen; the screens above it are those that Back leads to.
Tree = dict[str, "str | tuple[str, Tree]"]

POND: Tree = {
    "at/:place_id": "at_place.AtPlacePage",
    "measure/:place_id": "measure.MeasurePage",
    "plan": "plan.PlanPage",
    "path": ("path.PathPage", {":part_id": "path.PathPartPage"}),
    "things": ("things.ThingsPage", {":thing_id": "things.ThingPage"}),
    "water": "water.WaterPage",
    "fish": "fish.FishPage",
    "share": "share.SharePage",
    "health": "health.HealthPage",
    "log": (
        "log.LogPage",
        {"due": "care.CarePage", "charts": "charts.ChartsPage", ":item_id": "entry.EntryPage"},
    ),
    "plumbing": ("plumbing.PlumbingPage", {":line_id/:run_key": "run_form.RunFormPage"}),
    "tune": (
        "tune.TunePage",
        {
            ":branch_id": (
                "tune_branch.TuneBranchPage",
                {"measure/:place_id": "measure.MeasurePage"},
            ),
        },
    ),
    "pumps": ("pumps.PumpsPage", {":pump_id": "pump_form.PumpFormPage"}),
    "shopping": "shopping.ShoppingPage",
    "rules": ("rules.RulesPage", {":rule_key": "rules.RulePage"}),
}

SCREENS: Tree = {
    "measure": ("places.PlacesPage", {":pond_id/:place_id": "measure.MeasurePage"}),
    "pond/:pond_id": ("pond.PondPage", POND),
    "size": "size.SizePage",
    "log": ("log.LogPage", {":item_id": "entry.EntryPage"}),
    "waterfall": "waterfall.WaterfallPage",
    "new": "pond_form.PondFormPage",
    "containers": "containers.ContainersPage",
    "settings": "settings.SettingsPage",
    "backup": "backup.BackupPage",
    "help": ("help.HelpPage", {":topic": "help.TopicPage"}),
    "safety": "safety.SafetyPage",
    "about": (
        "about.AboutPage",
        {
            "numbers": "numbers.NumbersPage",
            "licences": ("licences.LicencesPage", {":name": "licences.LicencePage"}),
        },
    ),
    "shared/:plan": "shared.SharedPage",
}


def _name_and_below(entry: "str | tuple[str, Tree]") -> tuple[str, Tree]:
    return (entry, {}) if isinstance(entry, str) else entry


def _screen(name: str) -> Callable[[], Any]:
    module, _, component = name.partition(".")

    def show() -> Any:
        return getattr(import_module(f"pondapp.ui.pages.{module}"), component)()

    return show


def _routes(tree: Tree) -> list[ft.Route]:
    return [
        ft.Route(path=path, component=_screen(name), children=_routes(below) or None)
        for path, (name, below) in ((path, _name_and_below(entry)) for path, entry in tree.items())
    ]


def routes() -> list[ft.Route]:
    """All routes, below the first screen."""
    return [ft.Route(component=HomePage, children=_routes(SCREENS))]
