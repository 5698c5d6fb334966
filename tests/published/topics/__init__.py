"""How each topic of check_values.csv is found by the app: one module for each topic.

A module has FORMULAS, checks in which the core computes; TABLES, checks that find a number of a
table or a rule where the document prints it, and nothing is computed; and NOT_APPLICABLE, rows
that the app has no answer to, each with the reason. It leaves out what it has none of. A check is
a function of its row that calls what the app calls.
"""

from importlib import import_module
from pkgutil import iter_modules
from types import ModuleType

KINDS = ("FORMULAS", "TABLES", "NOT_APPLICABLE")


def topics() -> dict[str, ModuleType]:
    """The modules by the topic that they map, as it is called in the file."""
    found = [import_module(f"{__name__}.{one.name}") for one in iter_modules(__path__)]
    for module in found:
        for kind in KINDS:
            vars(module).setdefault(kind, {})
    return {module.TOPIC: module for module in found}
