"""Every address leads to a screen that is there."""

import asyncio
import sys

import flet as ft
import pytest

from pondapp.ui import routes


def all_routes(some: list[ft.Route] | None) -> list[ft.Route]:
    return [one for route in some or () for one in (route, *all_routes(route.children))]


def test_every_route_has_a_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(routes, "FIRST_PAUSE", 0.0)
    monkeypatch.setattr(routes, "PAUSE", 0.0)
    asyncio.run(routes.read_ahead())
    names = list(routes._names(routes.SCREENS))
    assert len(names) > 25
    for name in names:
        module, _, component = name.partition(".")
        page = getattr(sys.modules[f"pondapp.ui.pages.{module}"], component)
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
            "import sys, pondapp.ui.app\n"
            "print(*(n for n in sys.modules if n.startswith('pondapp.ui.pages.') or n == 'pint'))",
        ],
        check=True,
        capture_output=True,
        text=True,
    )
    assert set(told.stdout.split()) == {"pondapp.ui.pages.home", "pondapp.ui.pages.nowhere"}
