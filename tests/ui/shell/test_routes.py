"""Every address leads to a screen that is there."""

import sys
from importlib import import_module

import flet as ft
from flet.components.router import _match_routes

from pondapp.ui.shell import routes


def all_routes(some: list[ft.Route] | None) -> list[ft.Route]:
    return [one for route in some or () for one in (route, *all_routes(route.children))]


def names(tree: routes.Tree) -> list[str]:
    found = []
    for entry in tree.values():
        name, below = (entry, {}) if isinstance(entry, str) else entry
        found += [name, *names(below)]
    return found


def test_every_route_has_a_screen() -> None:
    assert len(names(routes.SCREENS)) > 25
    for name in names(routes.SCREENS):
        module, _, component = name.rpartition(".")
        page = getattr(import_module(f"pondapp.ui.{module}"), component)
        assert page.__is_component__, name


def test_addresses_are_nested_as_back_leads() -> None:
    (home,) = routes.routes()
    pond = next(route for route in all_routes([home]) if route.path == "pond/:pond_id")
    assert {"plan", "log", "water"} <= {route.path for route in pond.children or ()}


def test_the_first_screen_reads_no_other_screens_code() -> None:
    import subprocess

    told = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, pondapp.ui.shell.app\nprint(*sys.modules)",
        ],
        check=True,
        capture_output=True,
        text=True,
    )
    screens = {f"pondapp.ui.{name.rpartition('.')[0]}" for name in names(routes.SCREENS)}
    assert len(screens) > 25
    later = {
        "pint", "pondapp.answers.care.open_matters", "pondapp.answers.pond",
        "pondapp.answers.planning.plan", "pondapp.core.hydraulics", "pondapp.core.circuit",
        "segno", "pondapp.store.backup", "pondapp.store.folder_store",
        "pondapp.store.link", "pondapp.store.shipped", "pondapp.ui.shell.cleared",
    }  # fmt: skip
    assert set(told.stdout.split()) & (screens | later) == set()


def test_every_other_address_leads_to_a_screen_that_says_so() -> None:
    def last(path: str) -> str | None:
        chain = _match_routes(routes.routes(), path)
        assert chain is not None
        return chain[-1].route.path

    assert last("/no-such") == last("/pond/a/no-such") == last("/no/such/screen") == ":address+"
    assert last("/") is None
    assert last("/pond/a") == "pond/:pond_id"
    assert last("/help/log") == ":topic"
