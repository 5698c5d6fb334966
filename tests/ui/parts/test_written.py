"""Amounts stay whole where a line ends, and are read as they were written."""

import pytest

from pondapp import words
from pondapp.ui.parts.written import written


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("From 8 L to 12 L", "From 8\u00a0L to 12\u00a0L"),
        ("6150 L/h in all", "6150\u00a0L/\ufeffh in all"),
        ("Open water: 5.53 m².", "Open water: 5.53\u00a0m²."),
        ("0 is upright, 1 comes in", "0\u00a0is upright, 1\u00a0comes in"),
        ("im 95-%-Bereich", "im 95-\ufeff%-\ufeffBereich"),
        ("der 95 %-Bereich", "der 95\u00a0%-\ufeffBereich"),
        ("Add a T-piece", "Add a T-\ufeffpiece"),  # and no line that ends in "T-"
        ("a half-open valve", "a half-open valve"),
        ("4 waterfalls", "4 waterfalls"),  # a long word may stand on a line of its own
    ],
)
def test_a_number_and_its_unit_stay_together(text: str, shown: str) -> None:
    control = written(text)
    assert control.value == shown
    assert control.semantics_label == (text if shown != text else None)


@pytest.mark.parametrize(
    ("language", "text", "said"),
    [
        ("en", "12,000 L, 1.5 m, 1,234,567 L/h", "12000 L, 1.5 m, 1234567 L/h"),
        ("pl", "12\u00a0000 L, 1,125 m, 1500 L/h", "12000 L, 1,125 m, 1500 L/h"),
        ("de", "12.000 L, 1,125 m, 1.234.567 L/h", "12000 L, 1,125 m, 1234567 L/h"),
    ],
)
def test_marks_between_thousands_are_seen_and_not_read_out(
    language: str, text: str, said: str
) -> None:
    words.set_language(language)
    control = written(text)
    assert control.value.replace("\u00a0", " ").replace("\ufeff", "") == text.replace("\u00a0", " ")
    assert control.semantics_label == said


def test_a_name_of_its_own_is_kept() -> None:
    assert written("8 L", semantics_label="eight litres").semantics_label == "eight litres"
