"""Every text has its translation, with the same places; and no screen holds a text past them."""

import ast
import gettext
import string
from io import BytesIO
from pathlib import Path

import catalogue
import pytest
from babel.messages import Catalog
from babel.messages.checkers import num_plurals
from babel.messages.extract import extract
from babel.messages.plurals import get_plural

from pondapp.words import ENGLISH, LANGUAGES, Language, po

# Texts of screens that are written as they are, in any language.
AS_THEY_ARE = {
    "pondapp": "the name of the app",
    "only here": "a state of a document in a backup, compared and never shown",
}


def path_of(language: Language) -> Path:
    return catalogue.CATALOGUES / f"{language.code}.po"


@pytest.fixture(scope="module")
def texts() -> Catalog:
    return catalogue.template()


@pytest.fixture(params=[known for known in LANGUAGES if known != ENGLISH], ids=lambda one: one.code)
def language(request: pytest.FixtureRequest) -> Language:
    found: Language = request.param
    return found


@pytest.fixture
def translated(language: Language) -> Catalog:
    return catalogue.read(path_of(language))


@pytest.fixture
def pairs(translated: Catalog) -> list[tuple[str, str]]:
    """Each text with its translation; of a counted one, each form with its English."""
    found = []
    for message in translated:
        if isinstance(message.id, str) and message.id:
            found.append((message.id, message.string))
        elif message.id:
            one, many = message.id
            found += [(one, message.string[0]), *((many, form) for form in message.string[1:])]
    return found


def places(template: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(template) if name is not None}


def test_every_text_is_translated(language: Language) -> None:
    assert catalogue.missing(path_of(language)) == []


def test_a_catalogue_holds_the_texts_of_the_sources_and_no_others(
    language: Language, texts: Catalog
) -> None:
    before = path_of(language).read_text(encoding="utf-8")
    assert catalogue.updated(before, texts) == before, "python3 build/dev.py words mends it"


def test_no_translation_is_a_guess_or_lacks_a_form(translated: Catalog) -> None:
    for message in translated:
        assert not message.fuzzy
        num_plurals(translated, message)


def test_translations_keep_the_named_places(pairs: list[tuple[str, str]]) -> None:
    assert [pair for pair in pairs if places(pair[0]) != places(pair[1])] == []


def test_translations_begin_and_end_as_the_texts_do(pairs: list[tuple[str, str]]) -> None:
    def ends(text: str) -> list[str]:
        bare = text.strip()
        mark = bare[-1:] if bare[-1:] in ".?!:,;…" else ""
        return [text[: len(text) - len(text.lstrip())], mark, text[len(text.rstrip()) :]]

    assert [pair for pair in pairs if ends(pair[0]) != ends(pair[1])] == []


def test_translations_are_set_with_the_signs_of_print(pairs: list[tuple[str, str]]) -> None:
    assert [text for _, text in pairs if {'"', "'"} & set(text) or "..." in text] == []


def test_a_start_reads_the_catalogue_as_babel_does(language: Language, translated: Catalog) -> None:
    read = {
        message.id if isinstance(message.id, str) else message.id[0]: (
            message.string if isinstance(message.string, str) else list(message.string)
        )
        for message in translated
        if message.id
    }
    assert po.read(path_of(language)) == read


def test_counts_take_the_forms_that_the_head_of_the_catalogue_says(
    language: Language, translated: Catalog
) -> None:
    usual = get_plural(language.code)
    assert (translated.num_plurals, translated.plural_expr) == (
        usual.num_plurals,
        usual.plural_expr,
    )
    of_gettext = gettext.c2py(translated.plural_expr)
    assert all(language.plural_form(count) == of_gettext(count) for count in range(1000))


SOURCE = b"""
TITLES = {"bog": "Bog filter", "pump": "Pump"}
def page(x: bool) -> str:
    "A docstring of words."
    if x == "Not a text":
        raise PondError("{text} is wrong", text="empty")
    told = counted("{count} line has no price", "{count} lines have no price", 3)
    return t("first" if x else "second", name=y) + tn("{n} fill", "{n} fills", 2)
"""


def test_the_search_finds_texts_wherever_they_stand() -> None:
    found = list(extract(catalogue.extract, BytesIO(SOURCE), catalogue.keywords()))
    assert {text for _, text, _, _ in found} == {
        "Bog filter",
        "Pump",
        "{text} is wrong",
        "empty",
        ("{count} line has no price", "{count} lines have no price"),
        "first",
        "second",
        ("{n} fill", "{n} fills"),
    }


def test_both_forms_of_a_counted_text_stand_where_it_is_counted() -> None:
    """Else the search would take them for two texts, and no language could count with them."""
    apart = [
        f"{path.name}:{node.lineno}"
        for path, tree in catalogue.modules().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and catalogue.called(node) in catalogue.COUNTED
        and not all(isinstance(form, ast.Constant | ast.Attribute) for form in node.args[:2])
    ]
    assert apart == []


def past_the_catalogue(tree: ast.Module) -> list[ast.Constant]:
    """Words that a function says without looking them up.

    Tables are looked up where they are used, and what is raised or made a message where it is told.
    """
    looked_up: set[ast.AST] = set()
    inside: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and catalogue.called(node) in catalogue.keywords():
            for argument in node.args:
                looked_up.update(ast.walk(argument))
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            inside.update(ast.walk(node))
    return [node for node in catalogue.worded(tree) if node in inside and node not in looked_up]


def test_no_screen_holds_a_text_past_the_catalogue() -> None:
    bare = {}
    for path, tree in catalogue.modules().items():
        if path.relative_to(catalogue.PACKAGE).parts[0] in ("ui", "state"):
            for node in past_the_catalogue(tree):
                if node.value not in AS_THEY_ARE:
                    bare[f"{path.name}:{node.lineno}"] = node.value
    assert bare == {}
