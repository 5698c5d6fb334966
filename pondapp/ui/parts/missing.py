"""What is still to be filled in, all of it, each with the way to its place on the screen."""

from collections.abc import Sequence
from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.go_on import screen_of, shown
from pondapp.words import t

SCROLLING = 300  # milliseconds


def findable(label: str, choice: ft.Control) -> ft.Control:
    """A choice that a touch on its label leads to; one of its label on a screen."""
    return ft.Container(choice, key=ft.ScrollKey(label))  # type: ignore[call-arg]


def still_missing(labels: Sequence[str]) -> ft.Control:
    """The labels of what is empty, from the top of the screen down; a touch leads to each."""

    def to(label: str) -> Any:
        async def bring(event: Any) -> None:
            await _bring(screen_of(event.control), label)

        return bring

    ways = [layout.quiet_button(label, to(label)) for label in labels]
    return ft.Column(
        [layout.small(t("Still missing:")), ft.Row(ways, wrap=True, spacing=0, run_spacing=0)],
        spacing=0,
    )


def waiting(labels: Sequence[str], *, wrong: bool) -> list[ft.Control]:
    """Above a button that cannot save yet: why not, and the ways to what is empty."""
    if wrong:
        return [layout.small(t("Correct what is marked above, then save."))]
    return [still_missing(labels)] if labels else []


async def _bring(screen: Any, label: str) -> None:
    """Put the keyboard into the field of this label, or show the choice that is called so."""
    place = place_of(screen, label)
    scrolled: Any = place
    if isinstance(place, ft.TextField):
        await scrolled.focus()
        return
    while scrolled is not None and not getattr(scrolled, "scroll", None):
        scrolled = scrolled.parent
    if scrolled is not None:
        await scrolled.scroll_to(scroll_key=label, duration=SCROLLING)


def place_of(screen: Any, label: str) -> ft.Control | None:
    """The field of this label that is empty, or else the choice; its unit may stand behind it."""
    for one in shown(screen):
        key = getattr(one, "key", None)
        if isinstance(key, ft.ScrollKey) and key.value == label:
            return one if isinstance(one, ft.Control) else None
        if isinstance(key, str) and (key == label or key.startswith(f"{label} (")):
            field = next((part for part in shown(one) if isinstance(part, ft.TextField)), None)
            if field is not None and not (field.value or "").strip():
                return field
    return None
