"""How one kind of water feature is shown and entered; each is in the module that bears its name."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import flet as ft

from pondapp.models.circuit import Feature
from pondapp.ui.parts.form import Form, QuantityField


@dataclass(frozen=True, slots=True)
class Choice:
    """Something about a kind that is picked and no amount."""

    key: str
    """Of its text."""
    stored: str
    """The name under which it is stored."""
    label: str
    options: tuple[tuple[str, str], ...]
    """What is stored, and its words."""


NONE = ("", "0")  # texts that say of a number of things that there are none


@dataclass(frozen=True, slots=True)
class FeatureLook:
    """What readers see of one kind."""

    icon: ft.IconData
    line: str
    """What it is, in a line."""
    form: Form
    """The amounts that are asked about it; the limits of each say which stored number it is."""
    choices: tuple[Choice, ...] = ()
    only_with: Mapping[str, str] = field(default_factory=dict)
    """Amounts that are asked only where there are some of another, by their keys."""

    def asked(self, texts: Mapping[str, str]) -> tuple[QuantityField, ...]:
        """The amounts to ask, with what is typed."""
        return tuple(
            one
            for one in self.form.fields
            if one.key not in self.only_with
            or texts.get(self.only_with[one.key], "").strip() not in NONE
        )

    def missing(self, texts: Mapping[str, str]) -> list[str]:
        """The labels of what is still to be picked."""
        return [one.label for one in self.choices if not self._picked(one, texts)]

    def _picked(self, choice: Choice, texts: Mapping[str, str]) -> str:
        """What is picked, empty for nothing."""
        text = texts.get(choice.key, "")
        return text if text in dict(choice.options) else ""

    def picked(self, texts: Mapping[str, str]) -> dict[str, str]:
        """What is picked, by the names under which it is stored."""
        return {one.stored: self._picked(one, texts) for one in self.choices}

    def stored_names(self) -> dict[str, str]:
        """The stored number of each amount, by the key of its field."""
        return {one.key: one.limits.stored[1] for one in self.form.fields if one.limits.stored}

    def texts_of(self, feature: Feature, system: str) -> dict[str, str]:
        """A feature of this kind as it would be typed and picked."""
        amounts = {key: getattr(feature, name) for key, name in self.stored_names().items()}
        picked = {one.key: getattr(feature, one.stored) for one in self.choices}
        return self.form.write(amounts, system) | picked

    def to_store(self, values: dict[str, float]) -> dict[str, float | None]:
        """The stored numbers of what was typed, in SI."""
        return {name: values.get(key) for key, name in self.stored_names().items()}
