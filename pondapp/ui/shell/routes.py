"""Which address shows which screen. A screen's code is read when it is first shown.

Reading all of it would take longer than everything else between a touch on the icon and the first
screen. It is not read in the background either: a screen that is drawn meanwhile may stay empty.
"""

import re
from collections.abc import Callable, Iterator
from functools import cache
from importlib import import_module
from typing import Any

import flet as ft

from pondapp.ui.pond.home import HomePage
from pondapp.ui.shell.places import BUILD, OF_PLAN

# What a router makes of a route is the screen; the screens above it are those that Back leads to.
Tree = dict[str, "str | tuple[str, Tree]"]

MEASURE: tuple[str, Tree] = ("measuring.measure.MeasurePage", {"more": "measuring.more.MorePage"})
POND: Tree = {
    "at/:place_id": ("features.at_place.AtPlacePage", {"build": "features.build_bog.BuildBogPage"}),
    "measure/:place_id": MEASURE,
    "what-if": "what_if.what_if.WhatIfPage",
    "build": "planning.build.BuildPage",
    "plan": "planning.plan.PlanPage",
    "path": ("plumbing.path.PathPage", {":part_id": "plumbing.path.PathPartPage"}),
    "things": ("features.features.FeaturesPage", {":thing_id": "features.features.FeaturePage"}),
    "water": "water.water.WaterPage",
    "fish": "fish.fish.FishPage",
    "share": "sharing.share.SharePage",
    "health": "pumps.health.HealthPage",
    "costs": "pumps.running_costs.CostsPage",
    "learned": "learning.learned.LearnedPage",
    "log": (
        "log.log.LogPage",
        {
            "due": ("care.care.CarePage", {":reminder_id": "care.reminder.ReminderPage"}),
            "charts": "log.charts.ChartsPage",
            "season": "keeping.season.SeasonPage",
            "uv": "keeping.uv_lamp.UvLampPage",
            "evaporation": "keeping.evaporation.EvaporationPage",
            "pump-off": "keeping.pump_off.PumpOffPage",
            "dose": "keeping.dose.DosePage",
            "change": "keeping.water_change.WaterChangePage",
            ":item_id": "log.entry.EntryPage",
        },
    ),
    "plumbing": (
        "plumbing.plumbing.PlumbingPage",
        {":line_id/:run_key": "plumbing.run_form.RunFormPage"},
    ),
    "tune": (
        "tuning.tune.TunePage",
        {
            ":branch_id": (
                "tuning.tune_branch.TuneBranchPage",
                {"measure/:place_id": MEASURE},
            ),
        },
    ),
    "pumps": ("pumps.pumps.PumpsPage", {":pump_id": "pumps.pump_form.PumpFormPage"}),
    "shopping": "shopping.shopping.ShoppingPage",
    "rules": ("about.rules.RulesPage", {":rule_key": "about.rules.RulePage"}),
}

SCREENS: Tree = {
    "measure": (
        "measuring.places.PlacesPage",
        {":pond_id/:place_id": MEASURE},
    ),
    "pond/:pond_id": ("pond.pond.PondPage", POND),
    "size": "pumps.size.SizePage",
    "log": ("log.log.LogPage", {":item_id": "log.entry.EntryPage"}),
    "build": "planning.build.NoPlanPage",
    "waterfall": "waterfall.waterfall.WaterfallPage",
    "new": "pond.pond_form.PondFormPage",
    "containers": "measuring.containers.ContainersPage",
    "settings": "about.settings.SettingsPage",
    "backup": "sharing.backup.BackupPage",
    "help": ("about.help.HelpPage", {":topic": "about.help.TopicPage"}),
    "safety": "about.safety.SafetyPage",
    "about": (
        "about.about.AboutPage",
        {
            "numbers": "about.numbers.NumbersPage",
            "licences": ("about.licences.LicencesPage", {":name": "about.licences.LicencePage"}),
        },
    ),
    "shared/:plan": "sharing.shared.SharedPage",
}


def _addresses(tree: Tree, above: str = "") -> Iterator[str]:
    for path, entry in tree.items():
        here = f"{above}/{path}"
        yield here
        yield from _addresses(_name_and_below(entry)[1], here)


@cache
def _known() -> re.Pattern[str]:
    """Every address that leads to a screen."""
    every = (re.sub(r":\w+", "[^/]+", one) for one in _addresses(SCREENS))
    return re.compile("|".join(every))


def above(route: str) -> str:
    """Where Back leads from a screen: to the Plan from each of its steps, else one screen up."""
    step = OF_PLAN.match(route)
    if step:
        return f"{step[1]}/{BUILD}"
    found = route.rpartition("/")[0]
    while found and not _known().fullmatch(found):
        found = found.rpartition("/")[0]
    return found or "/"


def _name_and_below(entry: "str | tuple[str, Tree]") -> tuple[str, Tree]:
    return (entry, {}) if isinstance(entry, str) else entry


def _screen(name: str) -> Callable[[], Any]:
    module, _, component = name.rpartition(".")

    def show() -> Any:
        return getattr(import_module(f"pondapp.ui.{module}"), component)()

    return show


def _routes(tree: Tree) -> list[ft.Route]:
    return [
        ft.Route(path=path, component=_screen(name), children=_routes(below) or None)
        for path, (name, below) in ((path, _name_and_below(entry)) for path, entry in tree.items())
    ]


def routes() -> list[ft.Route]:
    """All routes, below the first screen; the last takes every address that leads nowhere."""
    nowhere = ft.Route(path=":address+", component=_screen("shell.nowhere.NowherePage"))
    return [ft.Route(component=HomePage, children=[*_routes(SCREENS), nowhere])]
