"""Every field of every form: its limits are those of what is stored, its text keeps its meaning."""

import ast
import asyncio
import pkgutil
from collections.abc import Iterator, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from memory_store import MemoryStore
from pydantic import ValidationError

import pondapp.ui
from pondapp import units, words
from pondapp.answers.rules.rules import rules_of
from pondapp.answers.sharing.example import example_pond
from pondapp.core.base.errors import PondError
from pondapp.models.base import KELVIN, Limits
from pondapp.models.preferences import EXACT, Draft
from pondapp.state.session import Session
from pondapp.ui.about.rules import rule_field
from pondapp.ui.parts.form import Form, QuantityField

RULES = rules_of(example_pond())


def forms() -> dict[str, Form]:
    """Every form of every module, by where it stands."""
    found: dict[int, tuple[str, Form]] = {}
    for about in pkgutil.walk_packages(pondapp.ui.__path__, "pondapp.ui."):
        for name, value in vars(import_module(about.name)).items():
            several = value.items() if isinstance(value, Mapping) else [("", value)]
            for part, one in several:
                if isinstance(one, Form) and (one.fields or one.lists or one.days):
                    found.setdefault(id(one), (f"{about.name}.{name}.{part}".strip("."), one))
    return dict(found.values())


FORMS = forms()
# The form of a rule is made when it is opened: here is one of each kind.
RULE_FORM = Form(tuple({rule.kind: rule_field(rule) for rule in RULES}.values()))


def keys_of(form: Form, item: str = "") -> Iterator[tuple[str, QuantityField]]:
    """The keys of all its texts that are amounts, with one thing in each of its lists."""
    for one in form.fields:
        yield f"{item}{one.key}", one
    for number, inner in enumerate(form.lists.values()):
        yield from keys_of(inner, f"{item}n{number}.")


FIELDS = [
    pytest.param(one, id=f"{where.removeprefix('pondapp.ui.')}.{key}")
    for where, form in FORMS.items()
    for key, one in keys_of(form)
] + [pytest.param(rule_field(rule), id=f"rules.{rule.key}") for rule in RULES]
# Typed in metric units and English; a fraction, a unit, and a comma that some write too.
TYPED = ("12.5", "1 1/2", "0.0625", "7,5", "12", "1.2")
WITH_UNIT = "12.5 and its unit"
NONSENSE = ("about 7,5 or 2.5", "12..5", "-3.5", "2.5 parsecs")


@pytest.fixture(autouse=True)
def english_afterwards() -> Iterator[None]:
    yield
    words.set_language("en")


def with_unit(kind: str) -> str:
    """An amount with the unit that its field shows, where that can be typed."""
    typed = f"12.5 {units.unit_for(kind, 'metric')}"
    try:
        units.parse(typed, kind, "metric")
    except PondError:
        return "12.5"
    return typed


SWITCHES = (
    ("us", "en"), ("us", "de"), ("imperial", "de"), ("imperial", "en"), ("metric", "en"),
    ("metric", "de"), ("us", "en"), ("metric", "en"),
)  # fmt: skip


@pytest.mark.parametrize(
    "form", [pytest.param(form, id=where) for where, form in {**FORMS, "rules": RULE_FORM}.items()]
)
def test_every_text_keeps_its_meaning_through_units_and_languages(form: Form) -> None:
    asked = dict(keys_of(form))

    def texts_of(typed: str) -> dict[str, str]:
        days = dict.fromkeys(form.days, "2026-03-04")
        amounts = {key: with_unit(one.kind) if typed == WITH_UNIT else typed
                   for key, one in asked.items()}  # fmt: skip
        return amounts | {"name": typed} | days

    every = {
        f"form{number}": texts_of(typed)
        for number, typed in enumerate((*TYPED, WITH_UNIT, *NONSENSE))
    }

    def keeps_its_meaning(typed: dict[str, str], now: dict[str, str], system: str) -> None:
        shown = {key for key in now if not key.endswith(EXACT)}
        assert (shown, now["name"]) == (set(typed), typed["name"])
        for key, one in asked.items():
            if typed[key] in NONSENSE:
                assert now[key] == typed[key]
                continue
            value = units.parse(typed[key], one.kind, "metric", ".")
            parsed = units.parse(now[key], one.kind, system)
            exact = now.get(f"{key}{EXACT}", "")
            kept = units.as_stored(parsed, exact, one.kind, system)
            assert kept == pytest.approx(value, rel=1e-8), (key, system, now[key])

    async def use() -> None:
        session = Session(MemoryStore())
        for draft_id, typed in every.items():
            await session.drafts.save(form.filled(Draft(id=draft_id), typed))
            assert set(session.drafts[draft_id].kinds) == {*asked, *form.days}
        for system, language in SWITCHES:
            chosen = session.preferences.model_copy(update={"units": system, "language": language})
            await session.settings.save(chosen)
            again = Session(session.store)
            await again.load()
            assert dict(again.drafts.items()) == dict(session.drafts.items())
            for draft_id, typed in every.items():
                keeps_its_meaning(typed, again.drafts[draft_id].texts, system)

    asyncio.run(use())


@pytest.mark.parametrize(
    "form", [pytest.param(form, id=where) for where, form in FORMS.items() if form.fields]
)
@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("system", units.SYSTEMS)
def test_what_is_stored_is_shown_short_and_is_the_same_if_it_is_left_alone(
    form: Form, language: str, system: str
) -> None:
    words.set_language(language)
    for share in (0.0123456789, 0.1, 1 / 3, 0.771234567):
        stored = {}
        for one in form.fields:
            low, high = max(one.limits.low, 0.0), one.limits.high
            low = max(low, KELVIN) if one.kind == "temperature" else low
            value = low + share * (high - low)
            stored[one.key] = float(round(value)) if one.limits.whole else value
        texts = form.write(stored, system)
        for one in form.fields:
            whole, _, rest = texts[one.key].partition("," if language == "de" else ".")
            if f"{one.key}{EXACT}" in texts and whole.strip("0"):
                assert len(rest) <= max(3 - len(whole), 2), texts[one.key]
        read = form.read(texts, system)
        assert not read.errors
        assert read.values == pytest.approx(stored, rel=1e-8, abs=1e-15)


def accepted(limits: Limits, value: float) -> bool:
    """Whether what is stored may hold this amount."""
    assert limits.stored is not None
    document, name, which = limits.stored
    stored: Any = value - KELVIN if name.endswith("_c") else value
    shape = str(document.model_fields[name].annotation)
    if shape.startswith("tuple[tuple"):
        stored = [[stored, 1.0], [1.0, stored]][which : which + 1]
    elif shape.startswith("tuple"):
        stored = [stored]
    elif shape.startswith("dict"):
        stored = {"key": stored}
    try:
        document.model_validate({name: stored})
    except ValidationError as error:
        return not any(
            one["loc"][0] == name and one["type"].startswith(("greater", "less", "int_"))
            for one in error.errors()
            if one["loc"]
        )
    return True


@pytest.mark.parametrize("one", FIELDS)
def test_a_field_takes_what_can_be_stored_and_nothing_else(one: QuantityField) -> None:
    limits = one.limits
    assert 0.0 <= max(limits.low, 0.0) < limits.high
    for value in (
        0.0, 1e-9, limits.low, limits.low * (1 - 1e-6), limits.low * (1 + 1e-6), limits.low + 1,
        0.5 * (max(limits.low, 0.0) + limits.high), limits.high - 1, limits.high * (1 - 1e-6),
        limits.high, limits.high * (1 + 1e-6), 2 * limits.high,
    ):  # fmt: skip
        if value < 0:
            continue
        text = f"{units.value_in(value, one.kind, 'metric'):.15g}"
        if "e" in text or text.startswith("-"):
            text = f"{units.value_in(value, one.kind, 'metric'):.20f}"
        if text.startswith("-"):
            continue
        typed = units.parse(text, one.kind, "metric")
        taken, error = one.read(text, "metric")
        assert (taken is None) == (error is not None)
        of_this_form = typed == 0.0 and one.zero is not None
        if limits.stored and not of_this_form:
            stored = accepted(limits, typed)
            if typed > limits.high and accepted(limits, limits.high * (1 + 1e-6)):
                stored = False  # more may be stored than is typed
            if typed < limits.low and accepted(limits, limits.low * (1 - 1e-6)):
                stored = False  # and less
            assert (taken is not None) == stored, (text, error)
        elif not limits.stored:
            assert (taken is not None) == (limits.low <= typed <= limits.high and (
                typed > 0 or one.may_be_nothing)), (text, error)  # fmt: skip


@pytest.mark.parametrize("one", FIELDS)
def test_a_field_is_of_the_quantity_that_is_stored(one: QuantityField) -> None:
    assert one.kind in units.KINDS
    si = units.KINDS[one.kind].si
    if one.limits.stored is None or si == "-":
        return
    name = one.limits.stored[1]
    suffix = {"K": "c", "W": "w"}.get(si, si.replace("/", "_"))
    if name not in UNNAMED:
        assert name.endswith(f"_{suffix}") or f"_{suffix}_" in name, name


UNNAMED = ("points", "prices", "seconds")


def length(limits: Limits, **more: Any) -> QuantityField:
    return QuantityField("length", "Length", "length", limits, **more)


def test_nothing_is_an_amount_only_where_it_may_be() -> None:
    assert length(Limits(0.0, 5.0)).read("0", "metric") == (0.0, None)
    assert length(Limits(0.0, 5.0, above=True)).read("0", "metric")[0] is None
    assert length(Limits(0.0, 5.0), zero=False).read("0", "metric")[0] is None
    assert length(Limits(0.0, 5.0)).read(" ", "metric") == (None, None)


def test_only_the_limit_that_was_passed_is_told() -> None:
    def told(text: str) -> str | None:
        return length(Limits(1.0, 50.0)).read(text, "metric")[1]

    assert told("20") is None
    assert told("0.5") == "Write an amount of at least 1 m"
    assert told("60") == "Write an amount of at most 50 m"


def test_a_text_is_known_wherever_its_thing_stands() -> None:
    inner = Form((length(Limits(0.0, 5.0)),))
    form = Form(
        (QuantityField("warm.length", "", "width", Limits(0.0, 5.0)),),
        {"things": Form(lists={"parts": inner})},
        days=("date",),
    )
    texts = {"warm.length": "", "a.b.length": "", "a.b.name": "", "length": "", "date": "", "a": ""}
    assert form.kinds(texts) == {"warm.length": "width", "a.b.length": "length", "date": "date"}
    read = inner.read({"a.b.length": "2", "length": "9"}, "metric", "a.b")
    assert (read.values, read.errors, read.whole) == ({"length": 2.0}, {}, True)
    assert inner.write({"length": 2.0}, "metric", "a.b") == {"a.b.length": "2"}


def test_what_is_needed_and_empty_is_missing() -> None:
    form = Form((length(Limits(0.0, 5.0), needed=True), QuantityField(
        "depth", "Depth", "length", Limits(0.0, 5.0))))  # fmt: skip
    assert form.read({}, "metric").missing == ("length",)
    assert form.read({}, "metric", "a").missing == ("a.length",)
    assert form.read({}, "metric", only=("depth",)).whole
    wrong = form.read({"length": "9"}, "metric")
    assert (wrong.missing, list(wrong.errors)) == ((), ["length"])


def test_a_draft_keeps_the_kind_of_a_text_that_another_screen_wrote() -> None:
    form = Form((length(Limits(0.0, 5.0)),))
    draft = form.filled(Draft(id="d", kinds={"depth": "width", "gone": "width"}),
                        {"length": "1", "depth": "2", "name": "3"})  # fmt: skip
    assert draft.kinds == {"length": "length", "depth": "width"}
    assert Form().filled(draft, {"length": "4"}).kinds == {"length": "length"}


def test_nobody_else_reads_or_draws_an_amount() -> None:
    """One notation: whoever asks for an amount asks a field of a form."""
    found = set()
    for path in Path(pondapp.ui.__path__[0]).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            called = ast.unparse(node.func) if isinstance(node, ast.Call) else ""
            if called in ("units.parse", "fields.quantity_field", "quantity_field"):
                found.add(path.name)
    assert found == {"form.py"}
