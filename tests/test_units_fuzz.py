"""Whatever is typed into a field of numbers: an amount that can be, or a sentence that helps.

FUZZ_CASES sets how many cases each test tries.
"""

import math
import os
from datetime import timedelta

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.core.base.errors import PondError

CASES = int(os.environ.get("FUZZ_CASES", "150"))
fuzz = settings(
    max_examples=CASES,
    deadline=timedelta(seconds=5),
    suppress_health_check=list(HealthCheck),
)
systems = st.sampled_from(units.SYSTEMS)
kinds = st.sampled_from(sorted(units.KINDS))
pieces = st.sampled_from(
    ["1", "12", "1,5", "1.000,5", "1,000", "½", "3/4", "1/0", " ", "ft", "in", "'", '"', "gal", "L",
     "m", "-", "+", "e9", "**", "^2", "²", "/", "h", "%", "°C", "nan", "inf", "10" * 20,
     "__import__",
     "(", ")", "\u00a0", "٣", "Ⅷ"]
)  # fmt: skip


def say(error: PondError, system: str) -> None:
    """An error is a sentence in the reader's units."""
    assert units.tell(error.message, system)


def typed(text: str, kind: str, system: str) -> None:
    try:
        value = units.parse(text, kind, system)
    except PondError as error:
        say(error, system)
        return
    assert math.isfinite(value)
    assert value <= 1e12
    assert units.show(value, kind, system)


@given(st.text(max_size=80), kinds, systems)
@fuzz
def test_any_text(text: str, kind: str, system: str) -> None:
    typed(text, kind, system)


@given(st.lists(pieces, max_size=8).map("".join), kinds, systems)
@fuzz
def test_pieces_of_amounts(text: str, kind: str, system: str) -> None:
    typed(text, kind, system)


@given(st.floats(1e-3, 1e5), kinds, systems)
@fuzz
def test_an_amount_that_was_shown_for_editing_is_read_again(
    number: float, kind: str, system: str
) -> None:
    text = units.significant(number, 6)
    value = (
        units.parse(text.replace(".", ","), kind, system)
        if "," in text
        else units.parse(text, kind, system)
    )
    again = units.parse(units.edit_text(value, kind, system), kind, system)
    assert math.isclose(again, value, rel_tol=5.1e-3, abs_tol=1e-9)
