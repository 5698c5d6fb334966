"""The list of common pond fish to pick from, and what a picked kind wants."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.fish.species import SPECIES, Species, remarks
from pondapp.models.pond import Pond
from pondapp.ui.fish import fish_form as form
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.names import free_name, listed
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

NEVER_RELEASE = (
    "Never release pond fish or their spawn: they harm wild waters. Not every kind may be kept "
    "everywhere: ask what your local rules say."
)


def list_of_kinds(typed: Typed, system: str) -> ft.Control:
    """Kinds to pick from; a touch makes a new group and folds the list away."""
    item = free_name(typed.texts, "g")

    def add(species: str) -> Callable[[Any], None]:
        def touched(_: Any) -> None:
            texts = typed.newest()
            if item not in listed(texts, form.GROUPS):  # a thumb may press twice
                typed.put(form.pick(texts, item, species, system))

        return touched

    def kinds() -> list[ft.Control]:
        return [
            layout.pairs(
                [
                    layout.second_button(
                        t("{fish}, {length}", fish=t(kind.name), length=_length(kind, system)),
                        add(key),
                    )
                    for key, kind in SPECIES.items()
                ]
            ),
            layout.small(
                t("With the usual length of grown fish. Common practice, no source; some grow "
                  "longer.")
            ),
            layout.caution(t(NEVER_RELEASE)),
        ]  # fmt: skip

    # Named by the group it makes next: after a touch the list is a new one, folded again.
    shown: ft.Control = fold(f"kinds-{item}", t("Pick a common kind"), kinds)
    return shown


def told(pond: Pond, typed: Typed, system: str) -> list[list[ft.Control]]:
    """For each group what does not fit its kind, and its care; nothing where none was picked."""
    names = listed(typed.texts, form.GROUPS)
    groups = form.picked(typed.texts, system)
    found = remarks(pond, groups)
    return [
        [
            *(_remark(units.tell(one, system)) for one in lines),
            *([_care(typed, item, group.species, system)] if group.species else []),
        ]
        for item, group, lines in zip(names, groups, found, strict=True)
    ]


def _care(typed: Typed, item: str, kind: Species, system: str) -> ft.Control:
    """What keeps a kind well, and the way to say that the fish are of another."""

    def other(_: Any) -> None:
        typed.put({**typed.newest(), f"{item}.species": ""})

    def care() -> list[ft.Control]:
        return [
            layout.body(t(kind.care)),
            *(layout.body(units.tell(line, system)) for line in kind.wants),
            layout.small(t("Common practice, no source.")),
            layout.small(t(NEVER_RELEASE)),
            layout.aside(t("They are another kind"), other),
        ]

    shown: ft.Control = fold(f"care-{item}", t("{fish}: care", fish=t(kind.name)), care)
    return shown


def _length(kind: Species, system: str) -> str:
    return units.show(kind.grown, "width", system, 2)


def _remark(words: str) -> ft.Control:
    """What does not fit: a mark and its words, of no severity, since it is a rule of thumb."""
    mark = ft.Icon(ft.Icons.INFO_OUTLINE, size=theme.drawn(theme.TITLE))
    return ft.Row([mark, written(words, size=theme.BODY, expand=True)], spacing=8)
