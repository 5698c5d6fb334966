"""The licences of all that ships: a list, and a text once it is asked for."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.store.key_value_store import StoreError
from pondapp.store.shipped import SHIPPED, Shipped, texts_of
from pondapp.ui.parts import fields, layout
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

NOTHING_YET: tuple[tuple[str, str], ...] = ()
NONE = -1  # no text is open
LINE_OF_TEXT = 50  # letters; a paragraph with longer lines is running text
PAGE = 20  # texts or paragraphs drawn at first; a licence can be longer than a book


@ft.component
def LicencesPage() -> Any:
    """Name, version and licence of each part."""
    rows = [
        (
            t("{name} {version}: {licence}", name=part.name, version=part.version,
              licence=part.licence),
            go(f"/about/licences/{part.key}"),
        )
        for part in SHIPPED
    ]  # fmt: skip
    told = t("All of this is free software. Touch a part to read its licence.")
    return layout.screen("/about/licences", t("Licences"), [layout.body(told), layout.links(rows)])


def _more(count: int, show: Callable[[], None]) -> list[ft.Control]:
    if count <= 0:
        return []
    return [layout.second_button(t("Show more ({count})", count=count), lambda _: show())]


@ft.component
def LicencePage() -> Any:
    """The text of one part, or the parts of a part that has many."""
    key = ft.use_route_params().get("name", "")
    part = next((one for one in SHIPPED if one.key == key), None)
    texts, set_texts = ft.use_state(NOTHING_YET)
    trouble, tell = ft.use_state("")
    wanted, search = ft.use_state("")
    opened, open_at = ft.use_state(NONE)
    shown, set_shown = ft.use_state(PAGE)

    async def load() -> None:
        if part is None:
            return
        try:
            set_texts(await texts_of(part))
        except (StoreError, OSError) as problem:
            system = session_now().system
            tell(units.explain(problem, system) if isinstance(problem, StoreError)
                 else t("This text could not be read. Try again with a connection."))  # fmt: skip

    ft.use_effect(load, [key])

    def turn(number: int) -> None:
        set_shown(PAGE)
        open_at(number)

    def more() -> None:
        set_shown(shown + PAGE)

    route = f"/about/licences/{key}"
    if part is None:
        return layout.screen(route, t("Licences"), [layout.body(t("No such page."))])
    controls = head(part)
    if trouble:
        controls.append(layout.caution(layout.sentence(trouble)))
    elif not texts:
        controls.append(layout.body(t("Reading the text.")))
    elif len(texts) > 1 and opened == NONE:
        # Two texts may cover parts of the same names.
        found = [
            (f"{number + 1}. {covered}", lambda _, at=number: turn(at))
            for number, (covered, _) in enumerate(texts)
            if wanted.lower() in covered.lower()
        ]
        controls.append(fields.text_field(t("Search the parts"), wanted, search))
        controls += [layout.links(found[:shown]), *_more(len(found) - shown, more)]
    else:
        covered, text = texts[max(opened, 0)]
        if len(texts) > 1:
            controls.append(layout.quiet_button(t("All parts"), lambda _: turn(NONE)))
            controls.append(layout.heading(covered))
        paragraphs = text.split("\n\n")
        controls += [layout.small(flowing(one)) for one in paragraphs[:shown]]
        controls += _more(len(paragraphs) - shown, more)
    return layout.screen(route, part.name, controls)


def flowing(paragraph: str) -> str:
    """A paragraph without the line ends that fitted the paper: a phone breaks its own lines."""
    lines = [line.strip() for line in paragraph.strip("\n").splitlines()]
    return (" " if max(map(len, lines), default=0) > LINE_OF_TEXT else "\n").join(lines)


def head(part: Shipped) -> list[ft.Control]:
    """What the part is, and where its source is where the licence wants that told."""
    lines: list[ft.Control] = [layout.fact(t("Licence"), part.licence, part.version)]
    if part.licence.startswith("MPL"):
        lines.append(layout.small(t("Its source is at {place}.", place="pyodide.org")))
    return lines
