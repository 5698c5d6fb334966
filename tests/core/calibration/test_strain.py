"""What was entered beside what readings ask for: where it cannot be, and how sure it is then."""

from random import Random

import pytest

from pondapp.core.base.errors import OutOfRange
from pondapp.core.calibration.fit import Fitted
from pondapp.core.calibration.scene import Unknown
from pondapp.core.calibration.strain import (
    MOST_WIDENED,
    USUAL,
    off_entered,
    strained_by,
    widened_by,
)


def test_what_was_entered_well_is_seldom_called_strained() -> None:
    chance = Random(5)
    called = sum(
        bool(strained_by([chance.gauss(0.0, 1.0) for _ in range(10)], 10, 0.01))
        for _ in range(2000)
    )
    assert called <= 60  # 1 % for the farthest and 1 % for the sum; above 60 once in 1,000


def test_many_that_are_each_a_little_off_are_strain_too() -> None:
    assert strained_by([2.5] * 4, 4, 0.01) == (0, 1, 2, 3)
    assert strained_by([2.5, 0.0, 0.0, 0.0], 4, 0.01) == ()


def test_no_reading_strains_nothing() -> None:
    assert strained_by([], 0, 0.01) == ()
    assert strained_by([0.0], 0, 0.01) == ()


def test_what_nobody_entered_is_no_strain_and_stays_as_open_as_it_was() -> None:
    valve = Unknown("valve", 0.0, 2.5, open=True)
    lift = Unknown("lift", 0.0, 0.1)
    found = Fitted((9.0, 9.0), ((1.0, 0.0), (0.0, 1.0)), (), (), ())
    off = off_entered([valve, lift], [valve, lift], found)
    assert off == [0.0, 9.0]
    wide = widened_by([valve, lift], off, 100)
    assert wide[0] == valve
    assert wide[1].deviation == pytest.approx(0.1 * 9.0 / USUAL)


def test_it_is_never_narrowed_nor_widened_without_end() -> None:
    lift = Unknown("lift", 0.0, 0.1)
    assert widened_by([lift], [0.5], 1) == (lift,)
    assert widened_by([lift], [1e6], 1)[0].deviation == pytest.approx(0.1 * MOST_WIDENED)


def test_refusals() -> None:
    with pytest.raises(OutOfRange):
        strained_by([1.0], 1, 0.9)
