"""Every text of the app that a reader may see, found in the syntax trees of its modules."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parent.parent / "pondapp"
AREAS = ("core", "models", "answers", "store", "ui", "units.py")

# Calls whose argument at this place is a text: the sentences and labels of the core.
TEXT_AT = {
    "t": 0,
    "Message": 0,
    "phrase": 0,
    "rule": 0,
    "free_name": 0,
    "Source": 0,
    "Step": 1,
    "Term": 1,
    "require_within": 0,
    "require_above": 0,
    "_require_order": 0,
    "_require_names": 2,
}
# Single words that come to t(...) by way of a variable.
SINGLE = {
    "least", "most", "once", "computed", "hose", "pumps", "branches", "things",
}  # fmt: skip
# Calls that show their texts to nobody: types, formats, keys, names of routes and of styles.
SILENT = {
    "cast", "compile", "strftime", "sub", "search", "fullmatch", "TypeVar", "get", "startswith",
    "removesuffix", "removeprefix", "partition", "rpartition", "Route", "go", "navigate",
    "free_name", "Amount", "Kind", "Pipe", "ColorScheme", "getattr", "_make", "ValueError",
    "_gallons", "amount", "RuntimeError", "LookupError", "TypeError", "ClassVar", "StoreFailure",
    "_plain", "replace", "BasinDrawing", "_sort", "DOMException", "PydanticCustomError",
}  # fmt: skip
# What looks like words and is none that anybody reads.
NO_TEXTS = {
    "Quick": "the name of a pond that is never shown",
    "pondapp": "the name of the app",
    "hose, mm": "the key of a series; its name has a table",
    "hose, in": "the key of a series; its name has a table",
    "alone ": "the beginning of a key",
    "ribbed ": "the beginning of a series in the core, whose name readers see has a table",
}
WORDS = re.compile(
    r"[A-Za-z]{2,}[,;:]? |[A-Za-z] [a-z]|^[A-Z][a-z]{2,}|^\d+ [a-z]{3}|^[A-Z]-[a-z]{3}|^No$"
)
HEADING = re.compile(r"[A-Z][a-z]+ ?[a-z]*")
CODE = re.compile(
    r"[<>{]\w*[/:]|^[\w./-]+:[\w./{}-]*$|^\S+/\S+$|^[A-Z]\w*\[|^%|\\[dsb]|^[A-Z]\w+[A-Z]\w*$"
)

PLACE = re.compile(r"\{\w*\}")
NAMED = re.compile(r"[A-Za-z]{2,}")
# What formulas hold besides the letters of their quantities: the same in every language.
FORMULA = re.compile(r"[A-Za-z]{3,}")
FUNCTIONS = ("min", "max", "log", "exp")


def modules(*areas: str) -> Iterator[tuple[Path, ast.Module]]:
    """The modules of some folders of the package, or of all that hold texts, as syntax trees."""
    for area in areas or AREAS:
        root = PACKAGE / area
        for path in sorted(root.rglob("*.py")) if root.is_dir() else [root]:
            yield path, ast.parse(path.read_text(encoding="utf-8"))


def _called(call: ast.Call) -> str:
    return getattr(call.func, "attr", "") or getattr(call.func, "id", "")


def _errors() -> set[str]:
    """The names of all classes that are raised with a sentence."""
    parents = {
        node.name: {getattr(base, "id", "") for base in node.bases}
        for _, tree in modules()
        for node in ast.walk(tree)
        if isinstance(node, ast.ClassDef)
    }
    found = {"PondError"}
    while more := {name for name, bases in parents.items() if bases & found} - found:
        found |= more
    return found


def _constants(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def _branches(text: ast.expr) -> Iterator[str]:
    """The texts that an expression may be: itself, or either side of a condition."""
    if isinstance(text, ast.IfExp):
        yield from _branches(text.body)
        yield from _branches(text.orelse)
    elif isinstance(text, ast.Constant) and isinstance(text.value, str):
        yield text.value


def said(tree: ast.Module, errors: set[str]) -> set[str]:
    """The texts in the calls that say something."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = _called(node)
        place = 0 if name in errors else TEXT_AT.get(name)
        if place is not None and len(node.args) > place:
            found.update(_branches(node.args[place]))
        if name in errors or name == "phrase":
            for keyword in node.keywords:
                found.update(text for text in _branches(keyword.value) if text.isalpha())
        if name == "Message" and len(node.args) > 1 and isinstance(node.args[1], ast.Dict):
            for value in node.args[1].values:
                found.update(text for text in _branches(value) if WORDS.search(text + " "))
    return found


def _not_for_readers(tree: ast.Module) -> set[ast.AST]:
    """Docstrings, annotations, comparisons, keys of tables and silent calls, with all in them."""
    found: set[ast.AST] = set()

    def leave_out(node: ast.AST | None) -> None:
        if node is not None:
            found.update(ast.walk(node))

    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            leave_out(node.value)
        elif isinstance(node, ast.AnnAssign):
            leave_out(node.annotation)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            leave_out(node.returns)
            for argument in (*node.args.args, *node.args.kwonlyargs):
                leave_out(argument.annotation)
        elif isinstance(node, ast.Compare | ast.JoinedStr):
            leave_out(node)
        elif isinstance(node, ast.Subscript):
            leave_out(node.slice)
            if getattr(node.value, "id", "") == "Literal":
                leave_out(node)
        elif isinstance(node, ast.Dict):
            for key in node.keys:
                if not (isinstance(key, ast.Constant) and HEADING.match(str(key.value))):
                    leave_out(key)
        elif isinstance(node, ast.Call) and _called(node) in SILENT:
            for argument in (*node.args, *node.keywords):
                leave_out(argument)
        elif isinstance(node, ast.Call) and _called(node) in ("Term", "Source"):
            leave_out(node.args[0] if _called(node) == "Term" else node.args[1])
    return found


def worded(tree: ast.Module) -> dict[ast.Constant, str]:
    """All else that looks like words: what tables hold until somebody looks it up."""
    silent = _not_for_readers(tree)
    return {
        node: node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and node not in silent
        and WORDS.search(node.value)
        and not CODE.search(node.value)
        and "\n" not in node.value  # a definitions file
        and node.value not in NO_TEXTS
    }


_ERRORS = _errors()


def bare(tree: ast.Module) -> dict[ast.Constant, str]:
    """Words that a function says without looking them up; tables are looked up where they are used.

    What is raised or made a message is looked up where it is told.
    """
    looked_up: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and (_called(node) in TEXT_AT or _called(node) in _ERRORS):
            for argument in node.args:
                looked_up.update(ast.walk(argument))
    inside: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            inside.update(ast.walk(node))
    return {
        node: text
        for node, text in worded(tree).items()
        if node in inside and node not in looked_up
    }


def _looked_up_in(tree: ast.Module) -> set[str]:
    """The names of tables of which a text is taken inside of t(...)."""
    return {
        getattr(node.args[0].value, "id", "")
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and _called(node) == "t"
        and isinstance(node.args[0], ast.Subscript)
    }


def _tables(tree: ast.Module, names: set[str]) -> Iterator[str]:
    """The values of the tables of these names."""
    for node in tree.body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and isinstance(node.value, ast.Dict):
            target = node.targets[0] if isinstance(node, ast.Assign) else node.target
            if getattr(target, "id", "") in names:
                for value in node.value.values:
                    yield from _branches(value)


def _formulas(tree: ast.Module) -> set[str]:
    """Formulas that hold no word of a language."""
    return {
        text
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(text := node.value, str)
        and " = " in text
        and all(word in FUNCTIONS for word in FORMULA.findall(text))
    }


def texts() -> dict[str, str]:
    """Every text, with the module that it is first found in."""
    names = {name for _, tree in modules() for name in _looked_up_in(tree)}
    found: dict[str, str] = {}
    for path, tree in modules():
        single = {node for node in _constants(tree) if node in SINGLE}
        said_here = (
            single | said(tree, _ERRORS) | set(worded(tree).values()) | set(_tables(tree, names))
        )
        for text in sorted(said_here - _formulas(tree)):
            if NAMED.search(PLACE.sub("", text)):
                found.setdefault(text, str(path.relative_to(PACKAGE)))
    return found
