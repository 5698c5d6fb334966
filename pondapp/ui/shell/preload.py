"""All modules read at once, for the snapshot of Python's memory that later starts take up.

Nothing here may look at the page, the clock or what is stored: all of that is another one by the
time the snapshot is used.
"""

import gc
import pkgutil
from collections.abc import Iterable, Iterator
from importlib import import_module

import flet as ft

import pondapp
from pondapp import units
from pondapp.models.base import Document
from pondapp.ui.shell import late_modules, theme

OF_FRAMEWORK = ("flet.components.component", "flet.messaging.pyodide_connection")
"""What the framework reads when it starts, besides controls."""
OF_PACKAGES = ("segno",)
"""What the app itself reads no sooner than it is used."""


def read_all(controls: Iterable[str]) -> None:
    """Import every module of the app and make ready what screens need on their first use.

    `controls` are the names by which the app knows parts of the framework, which reads their code
    when they are first asked for.
    """
    for module in pkgutil.walk_packages(pondapp.__path__, f"{pondapp.__name__}."):
        import_module(module.name)
    for name in controls:
        getattr(ft, name)
    for name in (*OF_FRAMEWORK, *OF_PACKAGES):
        import_module(name)
    for kind in _and_kinds_of(Document):
        kind.model_rebuild()
    theme.themes()
    units.get_ready()
    late_modules.bring_when_asked()
    gc.collect()


def _and_kinds_of(kind: type[Document]) -> Iterator[type[Document]]:
    yield kind
    for one in kind.__subclasses__():
        yield from _and_kinds_of(one)
