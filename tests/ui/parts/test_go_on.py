"""Enter goes from field to field, past what is not shown, and then to the main action."""

import asyncio
from typing import Any

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp.models.preferences import Draft
from pondapp.ui.parts import fields, go_on, layout
from pondapp.ui.pond.new_pond import NEW_POND
from pondapp.ui.pond.pond_form import PondFormPage
from pondapp.ui.pumps.size import SizePage


def labels(screen: Any) -> list[str]:
    """The fields and the action that Enter reaches from the first field on, by their labels."""
    called = {
        one.content.controls[1]._i: str(
            one.content.controls[0].controls[1].semantics_label
        ).partition(" (")[0]
        for one in parts_of(screen)
        if isinstance(one, ft.MergeSemantics)
        and isinstance(one.content, ft.Column)
        and len(one.content.controls) > 1
        and isinstance(one.content.controls[1], ft.TextField)
    }
    at: Any = next(one for one in parts_of(screen) if isinstance(one, ft.TextField))
    found = [called[at._i]]
    while isinstance(at, ft.TextField):
        at = go_on.after(at, screen)
        if at is not None:
            found.append(called.get(at._i, "the button"))
    return found


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def test_the_new_pond_from_its_name_to_its_button(screen: Screen) -> None:
    texts = {"name": "A", "shape": "ellipse", "sides": "shelf", "length": "3", "width": "2",
             "depth": "1", "shelf_depth": "30", "shelf_width": "30", "bog": "100"}  # fmt: skip
    asyncio.run(screen.session.drafts.save(Draft(id=NEW_POND, texts=texts)))
    screen.open(PondFormPage)
    assert labels(screen.look()) == [
        "Name of the pond", "Length", "Width", "Deepest", "Below water", "Reaches in",
        "Bog filter, outside volume", "Outlet of the bog above the water", "Waterfall lip width",
        "the button",
    ]  # fmt: skip


@pytest.mark.parametrize("width", [390, 1180])
def test_the_other_question_is_not_on_the_way(screen: Screen, width: int) -> None:
    ft.context.page.width = width
    screen.open(SizePage)
    assert not any("label" in one for one in labels(screen.look()))


def test_a_field_that_is_there_no_more_leads_nowhere() -> None:
    gone, other = ft.TextField(), ft.TextField()
    assert go_on.after(gone, layout.column([other])) is None


def test_lines_of_a_note_are_the_only_fields_in_which_enter_is_a_letter() -> None:
    def field(made: ft.Control) -> ft.TextField:
        return next(one for one in parts_of(made) if isinstance(one, ft.TextField))

    note = field(fields.text_field("Note", "", lambda _: None, multiline=True))
    name = field(fields.text_field("Name", "", lambda _: None))
    flow = field(fields.quantity_field("Flow", "", lambda _: None, unit="L/h"))
    assert note.on_submit is None
    assert name.on_submit is flow.on_submit is go_on.go_on
