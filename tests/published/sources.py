"""SOURCES.md: every source of the app, what is taken from it, and how it was looked at.

`python tests/published/sources.py` writes it; a test fails when it is out of date.
"""

import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE))

from rows import all_rows  # noqa: E402
from topics import KINDS, topics  # noqa: E402
from verified import CONSTANTS, VERIFIED  # noqa: E402

import pondapp.answers  # noqa: E402
import pondapp.core  # noqa: E402
from pondapp.answers.rules.sources import FORMULAS  # noqa: E402
from pondapp.core.assumptions import Assumptions  # noqa: E402
from pondapp.core.base.working import Source  # noqa: E402

FILE = HERE / "SOURCES.md"
OUTCOMES = ("verified", "corrected", "follows", "not checked")
MOST_NAMED = 4


def held(thing: object) -> Iterator[Source]:
    """The sources that a value of a module holds, in tables too."""
    if isinstance(thing, Source):
        yield thing
    elif isinstance(thing, Mapping):
        for value in thing.values():
            yield from held(value)
    elif isinstance(thing, tuple | list | frozenset):
        for value in thing:
            yield from held(value)
    elif is_dataclass(thing) and not isinstance(thing, type):
        for item in fields(thing):
            yield from held(getattr(thing, item.name))


def all_sources() -> dict[Source, list[str]]:
    """Every source that a module names, with what the app takes from it."""
    found: dict[Source, list[str]] = defaultdict(list)
    for package in (pondapp.core, pondapp.answers):
        for module in walk_packages(package.__path__, f"{package.__name__}."):
            for value in vars(import_module(module.name)).values():
                for source in held(value):
                    found[source]
    for formulas in FORMULAS.values():
        for one in formulas:
            found[one.source].append(one.what)
    for rule in Assumptions().known():
        found[rule.source].append(rule.label)
    return {source: takes for source, takes in found.items() if source.status != "entered"}


def taken(takes: list[str]) -> str:
    """What is taken, named as far as it can be read in a table."""
    named = "; ".join(dict.fromkeys(takes[:MOST_NAMED])) or "a step of the working"
    return named if len(takes) <= MOST_NAMED else f"{named}; and {len(takes) - MOST_NAMED} more"


def cell(text: str) -> str:
    return text.replace("|", "\\|")


def page() -> str:
    """The whole file."""
    sources = all_sources()
    outcomes = Counter(VERIFIED[source.text][0] for source in sources)
    lines = [
        "# The numbers, and who printed them",
        "",
        "Made by `python tests/published/sources.py` from the code, from `verified.py` and from",
        "`check_values.csv`; a test fails when it is out of date.",
        "",
        "## Sources",
        "",
        f"{len(sources)} sources: "
        + ", ".join(f"{outcomes[name]} {name}" for name in OUTCOMES)
        + ". What the outcomes mean stands in `verified.py`.",
        "",
        "| source | what the app takes from it | told to the reader as | outcome | how |",
        "| --- | --- | --- | --- | --- |",
    ]
    for source in sorted(sources, key=lambda one: one.text.lower()):
        outcome, how = VERIFIED[source.text]
        row = (source.text, taken(sources[source]), source.status, outcome, how)
        lines.append("| " + " | ".join(map(cell, row)) + " |")
    lines += [
        "",
        "## Constants of the core",
        "",
        "| constant | value | looked at |",
        "| --- | --- | --- |",
    ]
    lines += [f"| `core.{name}` | {value} | {how} |" for name, (value, how) in CONSTANTS.items()]
    lines += [
        "",
        "## Checks",
        "",
        "A formula is a row for which the core computes; a table is a row that a table or a rule",
        "of the app repeats, so that it can only catch a slip of the pen.",
        "",
        "| topic | formula | table | does not apply |",
        "| --- | --- | --- | --- |",
    ]
    known, total = topics(), Counter[str]()
    for topic in dict.fromkeys(row.topic for row in all_rows()):
        module = known[topic]
        counts = [len(getattr(module, k)) for k in KINDS]
        total.update(dict(zip(("f", "t", "n"), counts, strict=True)))
        lines.append(f"| {topic} | " + " | ".join(map(str, counts)) + " |")
    lines.append(f"| all | {total['f']} | {total['t']} | {total['n']} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    FILE.write_text(page(), encoding="utf-8")
