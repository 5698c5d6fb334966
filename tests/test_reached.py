"""Whatever the package holds, the app reaches: code that only tests call is no code of the app.

Two searches, since each misses something. vulture looks at every name, also those of fields and
methods, but takes a name for used when anything anywhere has it. The second one follows imports,
so that it tells things of one name apart, but looks at the top of modules only.
"""

import ast
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

from vulture import Vulture

import pondapp

PACKAGE = Path(pondapp.__file__).parent
TREES = {
    path.relative_to(PACKAGE.parent): ast.parse(path.read_text(encoding="utf-8"))
    for path in sorted(PACKAGE.rglob("*.py"))
}

# What no Python code of ours calls, and who does; a path and a name in it, as patterns.
DOSING = "what the air takes gets its screen with the keeper's questions"
BY_NAME = "found in the module that bears the name of its kind"
PAD = "for the stopwatch of the page"
FRAMEWORK = "asked for by the standard library, to serve or to ask a server"
EXCEPTIONS = {
    ("pondapp/answers/features/*", "KIND"): BY_NAME,
    ("pondapp/answers/methods/*", "KIND"): BY_NAME,
    ("pondapp/ui/features/*", "LOOK"): BY_NAME,
    ("pondapp/ui/methods/*", "LOOK"): BY_NAME,
    ("pondapp/answers/measuring/outlook.py", "outlook"): PAD,
    ("pondapp/models/preferences.py", "countdown"): PAD,
    ("pondapp/models/*", "*_version"): "stored, and read by migrate.py before it is a model",
    ("pondapp/models/base.py", "model_config"): "read by pydantic",
    ("pondapp/models/reading.py", "cls"): "the first argument of a validator",
    ("pondapp/ui/shell/places.py", "will_unmount"): "called by the user interface",
    ("pondapp/ui/shell/preload.py", "read_all"): "called by worker.js",
    ("pondapp/ui/shell/app.py", "start"): "called by the site's main.py",
    ("pondapp/web/check.py", "check_zipped"): "holds the browser tests' hasty site to its budget",
    ("pondapp/web/hosted.py", "redirect_request"): FRAMEWORK,
    ("pondapp/web/serve.py", "*"): FRAMEWORK,
}


def excused(path: Path, name: str) -> bool:
    return any(
        fnmatch(path.as_posix(), where) and fnmatch(name, what) for where, what in EXCEPTIONS
    )


def named_in_texts() -> set[str]:
    """Names at the end of a dotted text: by such a text a screen is imported when first shown."""
    return {
        node.value.rpartition(".")[2]
        for tree in TREES.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and "." in node.value
    }


def test_vulture_finds_nothing_that_is_not_used() -> None:
    search = Vulture(ignore_decorators=["@field_validator", "@model_validator"])
    search.scavenge([str(PACKAGE)])
    by_text = named_in_texts()
    found = [
        f"{item.filename.relative_to(PACKAGE.parent)}: {item.typ} {item.name}"
        for item in search.get_unused_code()
        if item.typ != "attribute"  # set on what belongs to the framework or the browser
        and item.name not in by_text
        and not excused(item.filename.relative_to(PACKAGE.parent), item.name)
    ]
    assert not found, "used by tests only, or by nobody: give it its screen, or delete it"


def module_name(path: Path) -> str:
    return ".".join(path.with_suffix("").parts).removesuffix(".__init__")


def defined(statement: ast.stmt) -> Iterator[str]:
    """The names that a statement at the top of a module makes."""
    if isinstance(statement, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        yield statement.name
    elif isinstance(statement, ast.Assign):
        for target in statement.targets:
            yield from (part.id for part in ast.walk(target) if isinstance(part, ast.Name))
    elif isinstance(statement, ast.AnnAssign) and isinstance(statement.target, ast.Name):
        yield statement.target.id


def used() -> set[tuple[str, str]]:
    """Module and name of all that something else than its own definition uses."""
    modules = {module_name(path) for path in TREES}
    found: set[tuple[str, str]] = set()
    for path, tree in TREES.items():
        aliases: dict[str, str] = {}
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module:
                for one in node.names:
                    found.add((node.module, one.name))
                    if f"{node.module}.{one.name}" in modules:
                        aliases[one.asname or one.name] = f"{node.module}.{one.name}"
        for statement in tree.body:
            own = set(defined(statement))
            for node in ast.walk(statement):
                if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
                    if node.id not in own:
                        found.add((module_name(path), node.id))
                elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                    if node.value.id in aliases:
                        found.add((aliases[node.value.id], node.attr))
                elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                    found.add((module_name(path), node.value))  # a type named in quotes
    return found


def test_everything_at_the_top_of_a_module_is_used_by_something_else() -> None:
    reached, by_text = used(), named_in_texts()
    found = [
        f"{path}: {name}"
        for path, tree in TREES.items()
        for statement in tree.body
        for name in defined(statement)
        if (module_name(path), name) not in reached
        and name not in by_text
        and not excused(path, name)
    ]
    assert not found, "used by tests only, or by nobody: give it its screen, or delete it"


def test_every_exception_still_excuses_something() -> None:
    names = {
        (path, name)
        for path, tree in TREES.items()
        for node in ast.walk(tree)
        for name in (
            getattr(node, "name", None),
            getattr(node, "id", None),
            getattr(node, "arg", ""),
        )
        if isinstance(name, str)
    }
    for where, what in EXCEPTIONS:
        assert any(
            fnmatch(path.as_posix(), where) and fnmatch(name, what) for path, name in names
        ), f"{where}: {what}"
