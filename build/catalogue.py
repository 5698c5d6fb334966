"""Bring the catalogues up to the texts of the sources: .venv/bin/python build/catalogue.py.

Texts that are new come in untranslated, those that no source holds any more go out, and all others
stay as they are. Babel merges, orders and writes; what it is told here is where texts stand: in
calls, by Babel's own table of keywords, in tables and answers that are looked up later, and in the
programs of the page. Tables carry no mark that somebody could forget: whatever looks like words is
taken for a text.
"""

import ast
import re
from collections.abc import Collection, Iterator
from functools import cache
from io import BytesIO, StringIO
from pathlib import Path
from typing import BinaryIO

from babel.messages import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.frontend import parse_keywords
from babel.messages.pofile import read_po, write_po

from pondapp.web import page_words, places
from pondapp.words import po

PACKAGE = Path(__file__).resolve().parent.parent / "pondapp"
CATALOGUES = PACKAGE / "words"
NOT_SHIPPED = ("web", "words", "__main__.py")

# Calls that take texts, and at which places where it is not the first.
KEYWORDS = (
    "t", "tn:1,2", "Message", "counted:1,2", "phrase", "rule", "free_name", "Source", "Step:2",
    "Term:2", "require_within", "require_above", "_require_order", "_require_names:3",
)  # fmt: skip
COUNTED = ("tn", "counted")
# Single words that come to t(...) by way of a variable.
SINGLE = {
    "least", "most", "once", "computed", "hose", "pumps", "branches", "things",
    "teaspoons", "drops", "tablets",
}  # fmt: skip
# Calls that show their texts to nobody: types, keys, stored values.
SILENT = {
    "PydanticCustomError", "TypeVar", "ValueError", "_make", "amount", "cast", "free_name", "get",
    "replace",
}  # fmt: skip
# What looks like words and is none that anybody reads.
NO_TEXTS = {
    "Quick": "the name of a pond that is never shown",
    "hose, mm": "the key of a series; its name has a table",
    "hose, in": "the key of a series; its name has a table",
    "alone ": "the beginning of a key",
    "ribbed ": "the beginning of a series in the core, whose name readers see has a table",
}
WORDS = re.compile(
    r"[A-Za-z]{2,}[,;:]? |[A-Za-z] [a-z]|^[A-Z][a-z]{2,}|^\d+ [a-z]{3}|^[A-Z]-[a-z]{3}|^No$"
)
HEADING = re.compile(r"[A-Z][a-z]+ ?[a-z]*")
CODE = re.compile(r"[<>{]\w*[/:]|^%")

PLACE = re.compile(r"\{\w*\}")
NAMED = re.compile(r"[A-Za-z]{2,}")
# What formulas hold besides the letters of their quantities: the same in every language.
FORMULA = re.compile(r"[A-Za-z]{3,}")
FUNCTIONS = ("min", "max", "log", "exp")

Found = tuple[int, str | None, list[str | None], list[str]]


def is_shipped(path: Path) -> bool:
    """Whether a file or folder of the package goes to readers."""
    return path.relative_to(PACKAGE).parts[0] not in NOT_SHIPPED


@cache
def modules() -> dict[Path, ast.Module]:
    """All that may hold texts, as syntax trees."""
    paths = filter(is_shipped, sorted(PACKAGE.rglob("*.py")))
    return {path: ast.parse(path.read_bytes()) for path in paths}


def called(call: ast.Call) -> str:
    """The name by which something is called."""
    return getattr(call.func, "attr", "") or getattr(call.func, "id", "")


@cache
def keywords() -> dict[str, object]:
    """Babel's table of the calls that take texts: those above, and all that raise a sentence."""
    parents = {
        node.name: {getattr(base, "id", "") for base in node.bases}
        for tree in modules().values()
        for node in ast.walk(tree)
        if isinstance(node, ast.ClassDef)
    }
    errors = {"PondError"}
    while more := {name for name, bases in parents.items() if bases & errors} - errors:
        errors |= more
    return parse_keywords((*KEYWORDS, *sorted(errors)))


def _texts_of(node: ast.expr) -> list[str | None]:
    """The texts that an expression may be: itself, or either side of a condition."""
    if isinstance(node, ast.IfExp):
        return [*_texts_of(node.body), *_texts_of(node.orelse)]
    return [node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None]


def _said(tree: ast.Module, calls: Collection[str]) -> Iterator[Found]:
    """The calls that take texts, once for each that a condition may choose."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or (name := called(node)) not in calls:
            continue
        arguments = [_texts_of(argument) for argument in node.args]
        for choice in range(max(map(len, arguments), default=0)):
            chosen = [texts[min(choice, len(texts) - 1)] for texts in arguments]
            yield node.lineno, name, chosen, []


def _filled_in(tree: ast.Module, calls: Collection[str]) -> Iterator[str]:
    """Texts that go into the places of a sentence which is looked up later."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or called(node) not in calls:
            continue
        if called(node) == "Message" and len(node.args) > 1 and isinstance(node.args[1], ast.Dict):
            for value in node.args[1].values:
                yield from (text for text in _texts_of(value) if text and WORDS.search(text + " "))
        elif called(node) not in ("t", "tn"):
            for keyword in node.keywords:
                yield from (text for text in _texts_of(keyword.value) if text and text.isalpha())


def _not_for_readers(tree: ast.Module) -> set[ast.AST]:
    """Docstrings, annotations, comparisons, keys of tables and silent calls, with all in them."""
    found: set[ast.AST] = set()

    def leave_out(node: ast.AST | None) -> None:
        if node is not None:
            found.update(ast.walk(node))

    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            leave_out(node.value)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            leave_out(node.returns)
            for argument in (*node.args.args, *node.args.kwonlyargs):
                leave_out(argument.annotation)
        elif isinstance(node, ast.Compare | ast.JoinedStr):
            leave_out(node)
        elif isinstance(node, ast.Subscript):
            leave_out(node.slice)
        elif isinstance(node, ast.Dict):
            for key in node.keys:
                if not (isinstance(key, ast.Constant) and HEADING.match(str(key.value))):
                    leave_out(key)
        elif isinstance(node, ast.Call) and called(node) in SILENT:
            for argument in (*node.args, *node.keywords):
                leave_out(argument)
        elif isinstance(node, ast.Call) and called(node) in ("Term", "Source"):
            leave_out(node.args[0] if called(node) == "Term" else node.args[1])
        elif isinstance(node, ast.Call) and called(node) in COUNTED:
            for argument in node.args[:2]:
                leave_out(argument)
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


@cache
def _looked_up() -> set[str]:
    """The names of tables of which a text is taken inside of t(...)."""
    return {
        getattr(node.args[0].value, "id", "")
        for tree in modules().values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and called(node) == "t"
        and isinstance(node.args[0], ast.Subscript)
    }


def _tables(tree: ast.Module) -> Iterator[str]:
    """The values of the tables of which a text is looked up."""
    for node in tree.body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and isinstance(node.value, ast.Dict):
            target = node.targets[0] if isinstance(node, ast.Assign) else node.target
            if getattr(target, "id", "") in _looked_up():
                for value in node.value.values:
                    yield from filter(None, _texts_of(value))


def _is_formula(text: str) -> bool:
    return " = " in text and all(word in FUNCTIONS for word in FORMULA.findall(text))


def _is_said(text: str | None) -> bool:
    """Whether a text holds a word of a language."""
    return bool(text) and bool(NAMED.search(PLACE.sub("", text))) and not _is_formula(text)


def extract(
    source: BinaryIO, calls: Collection[str], comments: Collection[str], options: dict[str, str]
) -> Iterator[Found]:
    """Babel's way to ask for the texts of a module: line, call, arguments and comments."""
    del comments, options
    tree = ast.parse(source.read())
    for line, call, texts, notes in _said(tree, calls):
        yield line, call, [text if _is_said(text) else None for text in texts], notes
    rest = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)} & SINGLE
    rest.update(_filled_in(tree, calls), worded(tree).values(), _tables(tree))
    yield from ((1, None, [text], []) for text in sorted(rest) if _is_said(text))


def template() -> Catalog:
    """All texts of the sources, untranslated."""
    catalog = Catalog()
    found = extract_from_dir(
        PACKAGE,
        method_map=[("__main__.py", "ignore"), ("**.py", extract)],
        keywords=keywords(),
        directory_filter=lambda folder: is_shipped(Path(folder)),
    )
    for *_, text, _, _ in found:
        catalog.add(text)
    for program in sorted(places.TEMPLATES.glob("*.js")):
        for text in page_words.said(program.read_text(encoding="utf-8")):
            catalog.add(text)
    return catalog


def read(path: Path) -> Catalog:
    """A catalogue as Babel reads it."""
    return read_po(StringIO(path.read_text(encoding="utf-8")), abort_invalid=True)


def updated(catalogue: str, texts: Catalog) -> str:
    """A catalogue with these texts and no others.

    Without places in the sources, one text on a line and in the order of the alphabet, so that two
    who add texts seldom meet. Its head stays as somebody wrote it.
    """
    catalog = read_po(StringIO(catalogue))
    catalog.update(texts, no_fuzzy_matching=True)
    for message in catalog:
        message.flags.discard("python-format")  # there is none: "5 % of" only looks like one
    written = BytesIO()
    write_po(
        written, catalog, width=0, no_location=True, omit_header=True, sort_output=True,
        ignore_obsolete=True,
    )  # fmt: skip
    head, _, _ = catalogue.partition("\n\n")
    return f"{head}\n\n{written.getvalue().decode()}"


def missing(path: Path) -> list[str]:
    """The texts of a catalogue that are not translated, by their English."""
    texts = {message.id[0] if message.pluralizable else message.id for message in read(path)}
    return sorted(texts - po.read(path).keys() - {""})


def main() -> None:
    """Bring every catalogue up to date."""
    texts = template()
    for path in CATALOGUES.glob("*.po"):
        path.write_text(updated(path.read_text(encoding="utf-8"), texts), encoding="utf-8")
        print(f"{path.name}: {len(missing(path))} texts to translate")


if __name__ == "__main__":
    main()
