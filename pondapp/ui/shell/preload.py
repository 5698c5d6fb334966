"""All modules read at once, for the snapshot of Python's memory that later starts take up.

Nothing here may look at the page, the clock or what is stored: all of that is another one by the
time the snapshot is used.
"""

import gc
import pkgutil
from collections.abc import Iterable
from importlib import import_module

import flet as ft

import pondapp
from pondapp import units
from pondapp.ui.shell import theme


def read_all(controls: Iterable[str]) -> None:
    """Import every module of the app and make ready what screens need on their first use.

    `controls` are the names by which the app knows parts of the framework, which reads their code
    when they are first asked for.
    """
    for module in pkgutil.walk_packages(pondapp.__path__, f"{pondapp.__name__}."):
        import_module(module.name)
    for name in controls:
        getattr(ft, name)
    theme.themes()
    units.get_ready()
    gc.collect()
