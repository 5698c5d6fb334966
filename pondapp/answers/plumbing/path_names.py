"""Distinct names for what is on the water path: the core tells features by name, a pond by id."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pondapp.answers.plumbing.path import line_name, lines_of
from pondapp.core.circuit.edits import free_name
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class Names:
    """Names by id, each the only one of its sort."""

    lines: Mapping[str, str]
    branches: Mapping[str, str]
    features: Mapping[str, str]


def _named(pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    given: dict[str, str] = {}
    for item_id, wish in pairs:
        given[item_id] = free_name(wish, list(given.values()))
    return given


def names_of(pond: Pond) -> Names:
    """Distinct names for everything on the water path."""
    lines = lines_of(pond)
    return Names(
        lines=_named((line.id, line_name(pond, line)) for line in lines),
        branches=_named((branch.id, branch.name) for line in lines for branch in line.branches),
        features=_named((feature.id, feature.name) for feature in pond.fed),
    )
