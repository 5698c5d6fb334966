"""What pumps cost to run, and what is said to save: never more than it would."""

import pytest
from random_ponds import random_pond

from pondapp import units
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.running_costs import RunningCosts, Saving, running_costs, savings
from pondapp.answers.sharing.example import example_pond
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import Pump
from pondapp.models.pond import Pond

NAME = "Mid-size pump"


def with_pumps(*pumps: Pump, **changed: object) -> Pond:
    """The example with other pumps on the shelf, and its own changed."""
    own = next(one for one in example_pond().pumps if one.name == NAME)
    mine = own.model_copy(update=changed)
    return example_pond().model_copy(update={"pumps": (mine, *pumps)})


def asked(pond: Pond) -> tuple[RunningCosts, tuple[Saving, ...]]:
    worked = WorkedPond(pond)
    found = running_costs(worked)
    return found, savings(worked, found)


def frugal(**changed: object) -> Pump:
    own = next(one for one in example_pond().pumps if one.name == NAME)
    return own.model_copy(update={"id": "frugal", "name": "Frugal", "power_w": 60.0, **changed})


def test_a_year_of_a_pump_is_its_watts_and_hours_at_the_price() -> None:
    found, _ = asked(example_pond())
    (one,) = found.pumps
    assert one.energy == pytest.approx(85.0 * 8760 * 3600)
    assert found.per_year == pytest.approx(85.0 * 8.76 * 0.30)


def test_half_a_day_costs_half() -> None:
    pond = example_pond()
    line = pond.lines[0].model_copy(update={"hours_per_day": 12.0})
    half, _ = asked(pond.model_copy(update={"lines": (line,)}))
    whole, _ = asked(pond)
    assert half.pumps[0].per_year == pytest.approx(0.5 * whole.pumps[0].per_year)


def test_a_pump_that_does_it_for_less_is_told_with_the_years_that_its_price_takes() -> None:
    _, found = asked(with_pumps(frugal(price=120.0)))
    one = next(saving for saving in found if saving.way == "pump")
    assert one.low == one.high == pytest.approx(25.0 * 8.76 * 0.30)
    assert units.tell(one.what, "metric") == "Frugal in place of Mid-size pump"
    assert "2 years" in " ".join(units.tell(note, "metric") for note in one.notes)


def test_a_pump_that_is_too_weak_saves_nothing() -> None:
    weak = frugal(max_flow_m3_s=1000 / 3.6e6)
    assert not [saving for saving in asked(with_pumps(weak))[1] if saving.way == "pump"]


def test_a_pump_that_cannot_be_slowed_saves_nothing_by_a_plan_for_less() -> None:
    assert not [one for one in asked(example_pond())[1] if one.way == "plan"]
    adjustable = asked(with_pumps(adjustable=True))[1]
    (least,) = (one for one in adjustable if one.way == "plan")
    now = asked(with_pumps(adjustable=True))[0].per_year
    assert now
    assert 0.0 < least.low < now


def test_a_wider_hose_saves_only_with_a_smaller_pump_where_this_one_cannot_be_slowed() -> None:
    (pipe,) = (one for one in asked(example_pond())[1] if one.way == "pipe")
    assert "smaller pump" in units.tell(pipe.notes[0], "metric")
    slowed = asked(with_pumps(adjustable=True))[1]
    assert all("turned down" in units.tell(one.notes[0], "metric")
               for one in slowed if one.way == "pipe")  # fmt: skip


@pytest.mark.parametrize("lacking", ["pump", "watts"])
def test_without_pump_or_watts_no_sum_is_told(lacking: str) -> None:
    pond = with_pumps(power_w=None)
    if lacking == "pump":
        line = example_pond().lines[0].model_copy(update={"pump_id": None})
        pond = example_pond().model_copy(update={"lines": (line,)})
    found, cheaper = asked(pond)
    assert found.per_year is None
    assert found.missing
    assert cheaper == ()


@pytest.mark.parametrize("number", range(7000, 7060))
def test_no_change_saves_more_than_the_pumps_cost(number: int) -> None:
    try:
        found, cheaper = asked(random_pond(number).pond)
    except PondError:
        return
    whole = sum(one.per_year for one in found.pumps)
    for one in cheaper:
        assert 0.0 <= one.low <= one.high <= whole * (1.0 + 1e-9)
