"""What stands side by side makes room for large text, and fields say what is wrong with them."""

from typing import Any

import flet as ft
import pytest

from pondapp.ui.about.licences import flowing
from pondapp.ui.parts import fields, layout
from pondapp.ui.shell import theme


def _texts(control: Any) -> list[ft.Text]:
    """All texts below a control, in order."""
    if isinstance(control, ft.Text):
        return [control]
    below = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [text for one in below if isinstance(one, ft.Control) for text in _texts(one)]


@pytest.fixture
def twice(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(theme, "text_scale", lambda: 2.0)


def test_ends_of_a_row_stand_side_by_side_at_usual_size() -> None:
    left = ft.Text("Friction along its length")
    assert isinstance(layout.ends(left, ft.Text("34 mm")), ft.Row)
    assert left.expand


@pytest.mark.usefixtures("twice")
def test_ends_of_a_row_stand_below_each_other_in_large_text() -> None:
    left = ft.Text("Friction along its length")
    assert isinstance(layout.ends(left, ft.Text("34 mm")), ft.Column)
    assert not left.expand  # it would reach for the end of a screen that has none


@pytest.mark.usefixtures("twice")
def test_large_text_needs_a_wider_screen_for_two_in_a_row() -> None:
    assert theme.widths()["pair"] == 2 * theme.WIDTHS["pair"]
    assert theme.tall(100.0) == 150.0


@pytest.mark.usefixtures("twice")
def test_a_mark_beside_large_words_is_larger_too() -> None:
    button: Any = layout.marked_button(ft.Icon(ft.Icons.TIMER), [layout.body("Words")], print)
    row: Any = button.content.controls[0]
    assert row.controls[-1].size == theme.TITLE * theme.MOST_DRAWN


@pytest.mark.usefixtures("twice")
def test_a_large_figure_grows_by_a_third_at_most() -> None:
    assert 2.0 * theme.figure(30.0) == pytest.approx(39.0)


def test_small_text_makes_nothing_smaller(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(theme, "text_scale", lambda: 0.8)
    assert theme.tall(48.0) == 48.0
    assert theme.figure(30.0) == theme.drawn(30.0) == 30.0


def test_a_field_is_named_by_its_label_and_its_help() -> None:
    field = fields.quantity_field("Volume", "", print, unit="L", helper="Leave empty")
    label, helper = _texts(field)
    assert label.value == label.semantics_label == "Volume (L)"
    assert helper.value == "Leave empty"


def test_what_is_wrong_is_in_the_name_of_the_field_and_said_aloud() -> None:
    wrong = "Write an amount of at most 3 L"
    field: Any = fields.quantity_field("Volume", "x", print, unit="L", error=wrong, helper="Help")
    label, told = _texts(field)
    assert label.semantics_label == f"Volume (L). {wrong}"
    assert told.semantics_label == wrong
    assert [c.live_region for c in field.controls if isinstance(c, ft.Semantics)] == [True]


def test_running_text_flows_and_lists_keep_their_lines() -> None:
    assert flowing("  " + "a" * 70 + "\n    b") == "a" * 70 + " b"
    assert flowing("Copyright one\nCopyright two") == "Copyright one\nCopyright two"
    assert flowing("") == ""
