"""Every amount on every screen: what it is, what it may be, and how it is read, written and drawn.

A form holds the texts of a screen as they were typed, by key. A list of things is one text, their
names (see `names.py`); the keys of a thing's own texts begin with its name and a point.
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Protocol

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.models.base import Limits
from pondapp.models.preferences import DAY, EXACT, Draft
from pondapp.ui.parts import fields
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

units.get_ready()  # a screen with fields is about to be shown

Texts = dict[str, str]
WHOLE = "12"  # an example of a whole number


class HasTexts(Protocol):
    """The texts of a screen as they are typed."""

    def text(self, key: str, default: str = "", /) -> str:
        """The text of a field."""

    def note(self, key: str, /) -> Callable[[str], None]:
        """A change handler for a field."""


@dataclass(frozen=True, slots=True)
class QuantityField:
    """A field for one amount."""

    key: str
    label: str
    """In English, with places for what tells it from its like, as the number of a row."""
    kind: str
    """A key of `units.KINDS`."""
    limits: Limits
    helper: str = ""
    needed: bool = False
    zero: bool | None = None
    """Whether nothing is an amount; None goes by the limits."""
    unit: str = ""
    """What the unit is called here, where that is not the kind's own."""

    @property
    def may_be_nothing(self) -> bool:
        """Whether 0 is an amount."""
        by_limits = self.limits.low <= 0.0 and not self.limits.above
        return by_limits if self.zero is None else self.zero

    def reworded(self, label: str = "", helper: str = "") -> "QuantityField":
        """The same amount as another screen asks for it."""
        return replace(self, label=label or self.label, helper=helper or self.helper)

    def read(self, text: str, system: str, exact: str = "") -> tuple[float | None, str | None]:
        """The amount in SI and no error, or no amount and what is wrong; empty text is neither.

        What stands beside the text is the amount as long as the text says no other.
        """
        if not text.strip():
            return None, None
        try:
            value = units.parse(text, self.kind, system)
            value = units.as_stored(value, exact, self.kind, system) if exact else value
        except PondError as problem:
            return None, units.tell(problem.message, system)
        if value <= 0 and not self.may_be_nothing:
            return None, t("{text} is nothing; write an amount above zero", text=text.strip())
        if value > self.limits.high:
            most = units.limit(self.limits.high, self.kind, system, most=True)
            return None, t("Write an amount of at most {most}", most=most)
        if value < self.limits.low:
            least = units.limit(self.limits.low, self.kind, system, most=False)
            return None, t("Write an amount of at least {least}", least=least)
        if self.limits.whole and value % 1:
            return None, t("Write a whole number, for example {example}", example=WHOLE)
        return value, None

    def write(self, value: float | None, system: str) -> str:
        """An amount in SI as the text to edit; none is an empty one."""
        return "" if value is None else units.edit_text(value, self.kind, system)

    def draw(
        self, text: str, on_change: Callable[[str], Any], system: str, *,
        error: str | None = None, helper: str | None = None, **words: object,
    ) -> ft.Control:  # fmt: skip
        """The field on a screen; a helper given takes the place of its own."""
        own = t(self.helper) if self.helper else ""
        return fields.quantity_field(
            t(self.label, **words), text, on_change,
            unit=t(self.unit) if self.unit else units.unit_for(self.kind, system),
            error=error, helper=own if helper is None else helper,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Amounts:
    """What the fields of a form hold."""

    values: dict[str, float]
    """In SI, by the keys of their fields."""
    errors: dict[str, str]
    """What is wrong with the others, by the keys of their texts."""
    missing: tuple[str, ...]
    """The texts that are needed and empty, in order."""

    @property
    def whole(self) -> bool:
        """Whether nothing is wrong or missing."""
        return not self.errors and not self.missing


def key_of(item: str, key: str) -> str:
    """The key of a text of a thing in a list; of the form itself, for no thing."""
    return f"{item}.{key}" if item else key


@dataclass(frozen=True, slots=True)
class Form:
    """The amounts of one screen."""

    fields: tuple[QuantityField, ...] = ()
    lists: Mapping[str, "Form"] = field(default_factory=dict)
    """By the key of each list, the form of one of its things."""
    days: tuple[str, ...] = ()
    """The keys of texts that are dates."""

    def __getitem__(self, key: str) -> QuantityField:
        """A field of its own."""
        return next(one for one in self.fields if one.key == key)

    def find(self, key: str) -> QuantityField | None:
        """The field of a text, of a thing in a list too; none if it holds no amount."""
        own = next((one for one in self.fields if one.key == key), None)
        if own is not None:
            return own
        _, _, rest = key.partition(".")
        found = (form.find(rest) for form in self.lists.values() if rest)
        return next((one for one in found if one is not None), None)

    def kinds(self, texts: Mapping[str, str]) -> dict[str, str]:
        """What the texts are: the kind of each amount, and the days."""
        kinds = {key: one.kind for key in texts if (one := self.find(key)) is not None}
        return kinds | {key: DAY for key in self.days if key in texts}

    def read(
        self, texts: Mapping[str, str], system: str, item: str = "",
        only: Collection[str] | None = None,
    ) -> Amounts:  # fmt: skip
        """The amounts of its own fields, or of those asked for; lists are read thing by thing."""
        found = Amounts({}, {}, ())
        missing: list[str] = []
        for one in self.fields:
            if only is not None and one.key not in only:
                continue
            key = key_of(item, one.key)
            value, error = one.read(texts.get(key, ""), system, texts.get(f"{key}{EXACT}", ""))
            if error is not None:
                found.errors[key] = error
            elif value is not None:
                found.values[one.key] = value
            elif one.needed:
                missing.append(key)
        return Amounts(found.values, found.errors, tuple(missing))

    def write(
        self, values: Mapping[str, float | None], system: str, item: str = ""
    ) -> dict[str, str]:
        """Amounts in SI as texts to edit, with what is rounded off; what is not known has none."""
        texts = {}
        for key, value in values.items():
            if value is not None:
                own, kind = key_of(item, key), self[key].kind
                texts[own] = self[key].write(value, system)
                if exact := units.exact_text(value, kind, system):
                    texts[f"{own}{EXACT}"] = exact
        return texts

    def filled(self, draft: Draft, texts: Texts) -> Draft:
        """A draft with these texts, each with its kind."""
        known = {key: kind for key, kind in draft.kinds.items() if key in texts}
        return draft.model_copy(update={"texts": texts, "kinds": known | self.kinds(texts)})

    def draw(
        self, typed: HasTexts, key: str, errors: Mapping[str, str] | None = None, *,
        begin: str = "", helper: str | None = None, **words: object,
    ) -> ft.Control:  # fmt: skip
        """The field of a text, with what is typed or what it begins with."""
        found = self.find(key)
        if found is None:
            raise LookupError(key)
        return found.draw(
            typed.text(key, begin), typed.note(key), session_now().system,
            error=(errors or {}).get(key), helper=helper, **words,
        )  # fmt: skip


NO_AMOUNTS = Form()
