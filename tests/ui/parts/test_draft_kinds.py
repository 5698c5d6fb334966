"""Every amount in a draft is known by the last part of its key."""

import ast
import pkgutil
from collections.abc import Iterator, Mapping, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any

import pondapp.ui
from pondapp import units
from pondapp.state.draft_units import DRAFT_KINDS, draft_kind
from pondapp.ui.parts import fields


def test_kinds_are_known_and_found_behind_a_dot() -> None:
    assert set(DRAFT_KINDS.values()) <= set(units.KINDS)
    assert draft_kind("a1b2.length") == "length"
    assert draft_kind("length") == "length"
    assert draft_kind("a1b2.name") is None


def test_nothing_is_an_amount_only_where_it_may_be() -> None:
    assert fields.read_quantity("0", "number", "metric", zero=True) == (0.0, None)
    assert fields.read_quantity("0", "number", "metric")[0] is None
    hours = fields.read_quantity("2.5", "duration", "metric", bare_unit="h")
    assert hours == (9000.0, None)


def test_only_the_limit_that_was_passed_is_told() -> None:
    def told(text: str) -> str | None:
        return fields.read_quantity(text, "length", "metric", 1.0, 50.0)[1]

    assert told("20") is None
    assert told("0.5") == "Write an amount of at least 1 m"
    assert told("60") == "Write an amount of at most 50 m"


def in_systems(kind: str) -> bool:
    """Whether an amount of this kind is another number in other units."""
    return len(set(units.KINDS[kind].units.values())) > 1


NO_KINDS = ("DRAFT_KINDS", "SIDES")  # the second names fields that are called as kinds are


def modules() -> Iterator[Any]:
    for found in pkgutil.walk_packages(pondapp.ui.__path__, "pondapp.ui."):
        yield import_module(found.name)


def asked_for(thing: Any) -> Iterator[tuple[tuple[str, ...], str]]:
    """What tables of fields say: possible names of a field, and the kind that is asked for."""
    key, kind = getattr(thing, "key", None), getattr(thing, "kind", None)
    if isinstance(key, str) and kind in units.KINDS:
        yield (key,), str(kind)
    elif isinstance(thing, Mapping):
        for name, value in thing.items():
            parts = [value] if isinstance(value, str) else value
            if isinstance(name, str) and isinstance(parts, tuple):
                kinds = [part for part in parts if isinstance(part, str) and part in units.KINDS]
                words = tuple(part for part in (name, *parts) if isinstance(part, str))
                yield from ((words, kind) for kind in kinds)
                if kinds:
                    continue
            yield from asked_for(value)
    elif isinstance(thing, Sequence) and not isinstance(thing, str):
        texts = tuple(part for part in thing if isinstance(part, str))
        kinds = [part for part in texts if part in units.KINDS]
        if len(kinds) == 1 and len(texts) > 1:
            yield texts, kinds[0]
        for part in thing:
            yield from asked_for(part)


def test_every_field_of_every_table_is_known() -> None:
    found = [
        (module.__name__, name, keys, kind)
        for module in modules()
        for name, value in vars(module).items()
        if name.isupper() and name not in NO_KINDS
        for keys, kind in asked_for(value)
        if in_systems(kind)
    ]
    assert len(found) > 60
    unknown = [one for one in found if not any(draft_kind(key) == one[3] for key in one[2])]
    assert unknown == []


def literal(node: ast.AST | None) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def test_every_field_that_is_named_where_it_is_drawn_is_known() -> None:
    found = []
    for path in Path(pondapp.ui.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or "quantity_field" not in ast.unparse(node.func):
                continue
            keys = [
                literal(call.args[0])
                for call in ast.walk(node)
                if isinstance(call, ast.Call) and ast.unparse(call.func).endswith("note")
            ]
            kinds = [
                literal(call.args[0])
                for call in ast.walk(node)
                if isinstance(call, ast.Call) and ast.unparse(call.func).endswith("unit_for")
            ]
            found += [(key, kind) for key in keys for kind in kinds if key and kind]
    assert len(found) > 5
    assert [one for one in found if in_systems(one[1]) and draft_kind(one[0]) != one[1]] == []
