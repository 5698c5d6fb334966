"""Every kind of water feature, by the name under which it is stored.

The stored classes are the list: the kind of each names the module here that describes it.
"""

from importlib import import_module
from typing import Any, cast

from pondapp.answers.features.kind import FeatureKind
from pondapp.models.circuit import FEATURES, WaterFeature

PUMP = "pump"
"""A place too, where water comes out, but no feature."""
PUMP_RULES = ("filters.turnover_whole", "filters.turnover_most")


def _described(kind: str) -> FeatureKind[Any]:
    return cast(FeatureKind[Any], import_module(f"pondapp.answers.features.{kind}").KIND)


KINDS: dict[str, FeatureKind[Any]] = {kind: _described(kind) for kind in FEATURES}


def kind_of(feature: WaterFeature) -> FeatureKind[Any]:
    """The kind of a feature."""
    return KINDS[feature.kind]
