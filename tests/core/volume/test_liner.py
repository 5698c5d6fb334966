"""Sheets of liner."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.volume.liner import liner_size, sloped_liner_size


@settings(max_examples=50)
@given(st.floats(1.0, 30.0), st.floats(1.0, 30.0), st.floats(0.1, 3.0), st.floats(0.0, 0.99))
def test_the_rule_is_never_too_small(
    length: float, width: float, depth: float, share: float
) -> None:
    set_back = min(share * min(length, width) / (2 * depth), 10.0)
    rule = liner_size(length, width, depth, 0.3)
    sloped = sloped_liner_size(length, width, depth, set_back, 0.3)
    assert sloped.length <= rule.length * (1 + 1e-12)
    assert sloped.width <= rule.width * (1 + 1e-12)
    # A sheet can never be shorter than the pond with its overlaps.
    assert sloped.length >= length + 0.6 - 1e-9
    upright = sloped_liner_size(length, width, depth, 0.0, 0.3)
    assert upright.area == pytest.approx(rule.area)


def test_steps_name_both_sides() -> None:
    sheet = liner_size(4.0, 3.0, 1.0, 0.3)
    assert (sheet.length, sheet.width) == pytest.approx((6.6, 5.6))
    assert [step.result.value for step in sheet.steps()] == pytest.approx([6.6, 5.6, 36.96])
    assert sheet.steps()[1].formula == "W = w + 2 d + 2 o"
    assert sloped_liner_size(4.0, 3.0, 1.0, 0.5, 0.3).steps()[0].formula.startswith("L = l - ")


@pytest.mark.parametrize(
    "numbers", [(0.0, 3.0, 1.0, 0.3), (4.0, -1.0, 1.0, 0.3), (4.0, 3.0, 0.0, 0.3),
                (4.0, 3.0, 1.0, -0.1), (4.0, 3.0, 1.0, float("nan"))],
)  # fmt: skip
def test_numbers_out_of_range_are_refused(numbers: tuple[float, float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        liner_size(*numbers)
    with pytest.raises(OutOfRange):
        sloped_liner_size(*numbers[:3], 0.2, numbers[3])


def test_sides_that_meet_are_refused() -> None:
    with pytest.raises(OutOfRange):
        sloped_liner_size(4.0, 3.0, 2.0, 0.8, 0.3)
