import importlib
import pkgutil

import pondapp.core
from pondapp.answers.rules.rules import usual_rules
from pondapp.answers.rules.sources import FORMULAS
from pondapp.core.base.working import Source

NO_FORMULA = (
    "pondapp.core.assumptions",
    "pondapp.core.base.working",
)


def test_every_source_of_the_core_is_told():
    told = {one.source for formulas in FORMULAS.values() for one in formulas}
    told |= {rule.source for rule in usual_rules()}
    for module in pkgutil.walk_packages(pondapp.core.__path__, "pondapp.core."):
        if module.name.startswith(NO_FORMULA):
            continue
        for name, thing in vars(importlib.import_module(module.name)).items():
            if isinstance(thing, Source) and thing.status != "entered" and name != "ARITHMETIC":
                assert thing in told, f"{module.name}.{name}"


def test_nothing_is_told_twice():
    told = [one for formulas in FORMULAS.values() for one in formulas]
    assert len(told) == len(set(told))
