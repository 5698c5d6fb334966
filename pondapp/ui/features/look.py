"""How one kind of water feature is shown and entered; each is in the module that bears its name."""

from dataclasses import dataclass

import flet as ft

from pondapp.models.circuit import Feature
from pondapp.ui.parts.form import Form


@dataclass(frozen=True, slots=True)
class FeatureLook:
    """What readers see of one kind."""

    icon: ft.IconData
    line: str
    """What it is, in a line."""
    form: Form
    """The amounts that are asked about it; the limits of each say which stored number it is."""

    def stored_names(self) -> dict[str, str]:
        """The stored number of each amount, by the key of its field."""
        return {one.key: one.limits.stored[1] for one in self.form.fields if one.limits.stored}

    def texts_of(self, feature: Feature, system: str) -> dict[str, str]:
        """The amounts of a feature as they would be typed."""
        amounts = {key: getattr(feature, name) for key, name in self.stored_names().items()}
        return self.form.write(amounts, system)

    def to_store(self, values: dict[str, float]) -> dict[str, float | None]:
        """The stored numbers of what was typed, in SI."""
        return {name: values.get(key) for key, name in self.stored_names().items()}
