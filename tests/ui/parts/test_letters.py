"""What the app's font cannot draw is said below the field, and kept as it was typed."""

import pytest
from drawn import words_of

from pondapp.ui.parts import fields

BOXES = "Some of this shows as boxes here. Backups and shares keep it as typed."


@pytest.mark.parametrize("name", ["Frog \U0001f438", "بركة", "池", "Reed\u2192bog"])
def test_boxes_are_announced_below_what_the_field_asks_for(name: str) -> None:
    told = words_of(fields.text_field("Name", name, lambda _: None, helper="Empty: Bog"))
    assert told.endswith(f"Empty: Bog {BOXES}")


@pytest.mark.parametrize("name", ["", "Łąka", "Größe “à côté” ½", "Пруд", "Λίμνη", "one\ntwo"])
def test_nothing_is_said_of_letters_that_are_drawn(name: str) -> None:
    assert BOXES not in words_of(fields.text_field("Name", name, lambda _: None))
