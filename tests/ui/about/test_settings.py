"""The settings of the stopwatch: each switch is kept, and what is off is not asked of the page."""

import asyncio
from typing import Any

import flet as ft
from drawn import Screen, _below, words_of

from pondapp.models.preferences import StopwatchAids
from pondapp.ui.about.settings import AIDS, SettingsPage


def switches(screen: Screen) -> list[Any]:
    return [one for one in _below(screen.look()) if isinstance(one, ft.Switch)]


def turn(screen: Screen, number: int, on: bool) -> None:
    switches(screen)[number].on_change(
        type("Turned", (), {"control": type("Of", (), {"value": on})})
    )
    asyncio.run(screen.settle())


def test_each_switch_is_kept(screen: Screen) -> None:
    screen.open(SettingsPage)
    assert [one.value for one in switches(screen)] == [True, True, False, False]
    turn(screen, 0, False)
    turn(screen, 3, True)
    assert screen.session.preferences.aids == StopwatchAids(sound=False, keys=True)
    assert [one.value for one in switches(screen)] == [False, True, False, True]
    assert {name for name, *_ in AIDS} == set(StopwatchAids.model_fields)


def test_it_says_what_a_phone_may_keep_for_itself(screen: Screen) -> None:
    screen.open(SettingsPage)
    told = words_of(screen.look())
    assert "Many phones keep the volume keys for themselves" in told
    assert "Some phones do not let a web page do this" in told
