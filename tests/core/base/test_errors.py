"""A limit that was passed is told, and only that one."""

from math import nan

import pytest

from pondapp import units
from pondapp.core.base.errors import OutOfRange, require_above, require_within


def told(check: object, value: float, low: float, high: float, unit: str) -> str:
    with pytest.raises(OutOfRange) as caught:
        check("it", value, low, high, unit)  # type: ignore[operator]
    return units.tell(caught.value.message, "metric")


HOUR = 1 / 3600 / 1000  # m3/s in L/h


@pytest.mark.parametrize(
    ("check", "value", "low", "sentence"),
    [
        (require_within, 0.0, 1e-9, "it is 0 L/h; it must be above zero"),
        (require_above, 0.0, 0.0, "it is 0 L/h; it must be above zero"),
        (require_within, -HOUR, 0.0, "it is -1 L/h; it must not be below zero"),
        (require_within, 1e3 * HOUR, 2e3 * HOUR, "it is 1,000 L/h; it must be at least 2,000 L/h"),
        (require_above, 2e3 * HOUR, 2e3 * HOUR, "it is 2,000 L/h; it must be above 2,000 L/h"),
        (require_within, 0.02, 0.0, "it is 72,000 L/h; it must be at most 36,000 L/h"),
        (require_within, nan, 0.0, "it is not a number"),
    ],
)  # fmt: skip
def test_the_limit_that_was_passed_is_told(
    check: object, value: float, low: float, sentence: str
) -> None:
    assert told(check, value, low, 0.01, "m3/s") == sentence
