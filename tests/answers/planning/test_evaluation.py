"""Least and good side by side: each the exact plan, and what the difference costs a year."""

import pytest
from ponds import LPH

from pondapp.answers.planning.evaluation import evaluations
from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume


def pond(*pumps: Pump, pump_id: str | None = None, feeds: tuple[str, ...] = ("lip",)) -> Pond:
    pipe = Pipe(series="hose, mm", size="50 mm", length_m=3.0)
    branch = Branch(id="b", name="B", pipe=pipe, lift_m=1.0, feeds=feeds)
    line = Line(id="l", name="Pump", pump_id=pump_id, branches=(branch,))
    return Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=1.0),
        fed=(
            Lip(id="lip", name="Lip", width_m=0.3),
            BogFilter(id="bog", name="Bog", bed_volume_m3=0.01),
        ),
        lines=(line,), pumps=pumps,
    )  # fmt: skip


def pump(adjustable: bool, power: float | None = 60.0) -> Pump:
    return Pump(id="a", name="A", max_flow_m3_s=8000 * LPH, max_head_m=4.0, power_w=power,
                adjustable=adjustable)  # fmt: skip


def totals(of: Pond) -> list[float]:
    found = evaluations(WorkedPond(of))
    plans = [one.plan for one in (found.least, found.good)]
    assert all(isinstance(plan, PondPlan) for plan in plans)
    return [plan.total for plan in plans if isinstance(plan, PondPlan)]


def test_both_plans_are_the_sums_of_what_was_asked() -> None:
    assert totals(pond()) == pytest.approx([2000 * LPH, 4000 * LPH])


def test_without_a_pump_a_usual_one_is_assumed_and_said() -> None:
    found = evaluations(WorkedPond(pond()))
    assert "a usual small pump" in str(found.least.basis)
    least, good = found.least.running, found.good.running
    assert least is not None
    assert good is not None
    assert least.power_low < least.power_high
    # Twice the flow at a head that is a little higher takes a little more than twice the power.
    assert 2.0 < good.power_low / least.power_low < 2.6
    # By the hour and the usual tariff: 1 W round the clock is 8.76 kWh or 2.63 a year.
    assert least.per_year_low == pytest.approx(least.power_low * 8.76 * 0.30)
    more = found.difference
    assert more is not None
    assert more.per_year_high == pytest.approx(good.per_year_high - least.per_year_high)


def test_a_pump_that_cannot_be_slowed_draws_the_same_for_either() -> None:
    found = evaluations(WorkedPond(pond(pump(False), pump_id="a")))
    assert found.least.running == found.good.running
    assert found.difference is not None
    assert found.difference.power_high == 0.0
    assert str(found.fixed[0]).startswith("A draws its 60 W for either")


def test_an_adjustable_pump_saves_the_difference() -> None:
    found = evaluations(WorkedPond(pond(pump(True), pump_id="a")))
    assert found.fixed == ()
    assert found.difference is not None
    assert found.difference.power_low == found.difference.power_high > 0.0
    assert str(found.good.basis) == "By A."


def test_a_pump_that_is_too_weak_for_good_is_said() -> None:
    found = evaluations(WorkedPond(example_pond()))
    assert found.least.weak is None
    assert "by its label it delivers about" in str(found.good.weak)
    assert found.good.running is not None


def test_what_cannot_work_has_no_watts() -> None:
    found = evaluations(WorkedPond(pond(feeds=("bog", "lip"))))
    assert isinstance(found.good.plan, PondConflict)
    assert found.good.running is None
    assert found.difference is None
