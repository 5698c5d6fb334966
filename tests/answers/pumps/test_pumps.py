"""Pumps in a pond's circuit against the core called directly; order, gaps and two pumps."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import BOG, LPH, NARROW_LIP, invented, two_branches

from pondapp.answers.plumbing.network import network_of
from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import (
    Option,
    PumpComparison,
    compare,
    curve_of,
    curves,
    fall_time,
    limits,
    put_pump,
    shelf,
    tariff_of,
    with_assumption,
    with_fall_time,
    without_pump,
    years_counted,
)
from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.base.messages import Message
from pondapp.core.hydraulics.energy import costs
from pondapp.core.hydraulics.network import operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.models.circuit import HighFlowFilter, Pipe, Pump

HOSE = Pipe(series="hose, mm", size="32 mm", length_m=4.0)
LINE = two_branches({"pipe": HOSE, "lift_m": 0.4}, {"pipe": HOSE, "lift_m": 1.2})


def pump(name: str, lph: float, head: float, watts: float | None, price: float | None) -> Pump:
    return Pump(
        id=name.lower().replace(" ", "-"), name=name, max_flow_m3_s=lph * LPH, max_head_m=head,
        power_w=watts, price=price,
    )  # fmt: skip


THRIFTY = pump("Thrifty", 6000, 4.0, 40, 150)
THIRSTY = pump("Thirsty", 6500, 4.2, 90, 60)
WEAK = pump("Weak", 2000, 1.1, 20, 30)
SMALL = pump("Small", 1300, 1.6, 10, 40)
NO_WATTS = pump("No watts", 7000, 5.0, None, 10)
NO_HEAD = Pump(id="nohead", name="No head", max_flow_m3_s=6000 * LPH, power_w=30)
POND = invented(BOG, NARROW_LIP, lines=(LINE,), pumps=(WEAK, NO_HEAD, NO_WATTS, THIRSTY, THRIFTY))
FLOWS = {"a": 600 * LPH, "b": 2000 * LPH}


def test_order_and_what_each_gives() -> None:
    found = shelf(WorkedPond(POND), LINE, FLOWS)
    names = [answer.pump.name for answer in found.answers]
    assert names == ["Thrifty", "Thirsty", "No watts", "Weak", "No head"]
    assert [a.state for a in found.answers] == ["enough", "enough", "enough", "weak", "unknown"]
    assert [a.place for a in found.answers] == [1, 2, 3, 4, 5]
    network = found.network
    direct = operating_point(LabelCurve(4.0, 6000 * LPH), network.circuit, network.viscosity)
    assert found.answers[0].delivered == pytest.approx(direct.flow, rel=1e-12)
    assert "cheapest" in str(found.answers[0].reason)
    assert "watts" in str(found.answers[2].reason)
    assert "too weak" in str(found.answers[3].reason)
    assert "largest head" in str(found.answers[4].reason)


def test_money_is_price_and_energy_over_the_years() -> None:
    best = shelf(WorkedPond(POND), LINE, FLOWS).answers[0]
    assert best.per_year == pytest.approx(40 * 8.760 * 0.30)
    assert best.total == pytest.approx(150 + 5 * 40 * 8.760 * 0.30)
    assert best.steps()[-1].result.value == pytest.approx(best.total)
    assert shelf(WorkedPond(POND), LINE, FLOWS).answers[2].total is None


def test_a_line_on_half_days_pays_half() -> None:
    half = LINE.model_copy(update={"hours_per_day": 12.0})
    assert shelf(WorkedPond(POND), half, FLOWS).answers[0].per_year == pytest.approx(
        20 * 8.760 * 0.30
    )


def test_a_missing_price_is_said() -> None:
    free = POND.model_copy(update={"pumps": (pump("Gift", 6000, 4.0, 40, None),)})
    answer = shelf(WorkedPond(free), LINE, FLOWS).answers[0]
    assert any("price is not entered" in str(note) for note in answer.notes)


def test_without_watts_nothing_is_said_of_power() -> None:
    lone = POND.model_copy(update={"pumps": (NO_WATTS,)})
    found = shelf(WorkedPond(lone), LINE, FLOWS)
    assert not any("power" in str(note) for note in found.answers[0].notes)


def test_an_adjustable_pump_runs_slower_and_cheaper() -> None:
    setable = THRIFTY.model_copy(update={"adjustable": True})
    answer = shelf(WorkedPond(POND.model_copy(update={"pumps": (setable,)})), LINE, FLOWS).answers[
        0
    ]
    assert answer.speed < 1.0
    assert answer.power == pytest.approx(40 * (0.1 + 0.9 * answer.speed**3))
    drawn = curves(network_of(POND, LINE, FLOWS), setable, answer.speed)
    assert drawn.slowed[0][1] == pytest.approx(4.0 * answer.speed**2)


def test_two_pumps_of_one_name_do_not_disturb_each_other() -> None:
    twin = THIRSTY.model_copy(update={"name": "Thrifty"})
    found = shelf(WorkedPond(POND.model_copy(update={"pumps": (THRIFTY, twin)})), LINE, FLOWS)
    assert [answer.pump.id for answer in found.answers] == ["thrifty", "thirsty"]


def test_points_of_the_curve_come_before_the_label() -> None:
    both = THRIFTY.model_copy(update={"points": ((0.0, 3.0), (0.0005, 2.0), (0.001, 0.5))})
    assert curve_of(both).head_at(0.0) == pytest.approx(3.0)
    with pytest.raises(NotEnoughReadings):
        curve_of(both.model_copy(update={"points": ((0.0, 3.0), (0.001, 1.0))}))
    with pytest.raises(OutOfRange):
        curve_of(both.model_copy(update={"points": ((0.0, 3.0), (0.1, 3.5), (0.2, 1.0))}))


def test_curves_meet_where_the_core_says() -> None:
    network = network_of(POND, LINE, FLOWS)
    drawn = curves(network, THRIFTY)
    assert drawn.settles
    flow, head = drawn.settles
    assert curve_of(THRIFTY).head_at(flow) == pytest.approx(head)
    heads = [head for _, head in drawn.system]
    assert heads == sorted(heads)
    assert drawn.system[0] == (0.0, pytest.approx(0.4))
    hopeless = curves(network, pump("Toy", 500, 0.3, 5, 5))
    assert hopeless.settles is None
    assert "too weak" in str(hopeless.trouble)


def test_the_waterfall_on_a_timer_against_one_pump() -> None:
    pond = POND.model_copy(update={"pumps": (THRIFTY, SMALL)})
    found = compare(WorkedPond(pond), LINE, FLOWS)
    assert isinstance(found, PumpComparison)
    assert isinstance(found.one, Option)
    assert isinstance(found.two, Option)
    assert [p.name for p in found.one.pumps] == ["Thrifty"]
    assert [p.name for p in found.two.pumps] == ["Small", "Thrifty"]
    money = [
        costs(40, 10, 365 * 86400, 0.3 / 3.6e6, 5),
        costs(150, 40, 365 * 43200, 0.3 / 3.6e6, 5),
    ]
    assert found.two.total == pytest.approx(sum(part.total for part in money))
    assert found.rest_flow == pytest.approx(600 * LPH)
    assert found.short_of == pytest.approx(2000 * LPH / 2)


def test_nothing_to_put_on_a_timer() -> None:
    box = POND.model_copy(update={"fed": (*POND.fed, HighFlowFilter(id="box", name="Box"))})
    line = LINE.model_copy(
        update={
            "branches": (
                LINE.branches[0],
                LINE.branches[1].model_copy(update={"feeds": ("box", "lip")}),
            )
        }
    )
    assert isinstance(compare(WorkedPond(box), line, FLOWS), Message)
    fall = LINE.model_copy(update={"branches": (LINE.branches[1],)})
    assert "nothing here needs water day and night" in str(compare(WorkedPond(POND), fall, FLOWS))


def test_no_pump_is_enough_for_two() -> None:
    found = compare(WorkedPond(POND.model_copy(update={"pumps": (WEAK,)})), LINE, FLOWS)
    assert isinstance(found, PumpComparison)
    assert isinstance(found.one, Message)
    assert isinstance(found.two, Message)
    assert "none of your pumps" in str(found.one)


def test_tariff_years_and_hours_are_the_ponds_own() -> None:
    assert tariff_of(POND) == pytest.approx(0.30 / 3.6e6)
    changed = with_assumption(POND, "pumps.tariff", 0.5 / 3.6e6)
    changed = with_assumption(changed, "pumps.cost_years", 10)
    changed = with_assumption(changed, "pumps.waterfall_share", 0.25)
    assert tariff_of(changed) == pytest.approx(0.5 / 3.6e6)
    assert (years_counted(changed), fall_time(changed)) == pytest.approx((10, 6 * 3600))
    best = shelf(WorkedPond(changed), LINE, FLOWS).answers[0]
    assert best.total == pytest.approx(150 + 10 * 40 * 8.760 * 0.5)
    with pytest.raises(OutOfRange):
        with_assumption(POND, "pumps.cost_years", limits("pumps.cost_years")[1] * 2)
    with pytest.raises(OutOfRange, match="no assumption"):
        limits("pumps.shoe_size")


def test_shelf_edits() -> None:
    more = put_pump(POND, SMALL)
    assert more.pumps[-1] == SMALL
    dearer = put_pump(more, SMALL.model_copy(update={"price": 99.0}))
    assert len(dearer.pumps) == len(more.pumps)
    assert dearer.pumps[-1].price == 99.0
    chosen = with_line(dearer, "line", pump_id="small")
    assert chosen.lines[0].pump_id == "small"
    gone = without_pump(chosen, "small")
    assert gone.lines[0].pump_id is None
    assert "small" not in {p.id for p in gone.pumps}


@settings(max_examples=20)
@given(factor=st.floats(1.0, 3.0), lph=st.floats(3000, 12000), head=st.floats(1.5, 8))
def test_a_stronger_pump_never_gives_less(factor: float, lph: float, head: float) -> None:
    plain = pump("Plain", lph, head, 50, 50)
    strong = pump("Strong", lph * factor, head * factor, 50, 50)
    pond = POND.model_copy(update={"pumps": (plain, strong)})
    by_name = {a.pump.name: a for a in shelf(WorkedPond(pond), LINE, FLOWS).answers}
    assert by_name["Strong"].delivered >= by_name["Plain"].delivered * (1 - 1e-9)


def test_what_two_pumps_save_is_the_difference() -> None:
    found = compare(WorkedPond(POND.model_copy(update={"pumps": (THRIFTY, SMALL)})), LINE, FLOWS)
    assert isinstance(found, PumpComparison)
    assert isinstance(found.one, Option)
    assert isinstance(found.two, Option)
    assert found.saved_per_year == pytest.approx(found.one.per_year - found.two.per_year)
    assert found.saved_in_all == pytest.approx(found.one.total - found.two.total)
    weak = compare(WorkedPond(POND.model_copy(update={"pumps": (WEAK,)})), LINE, FLOWS)
    assert isinstance(weak, PumpComparison)
    assert weak.saved_per_year is None


def test_the_time_of_the_waterfall_is_kept_as_a_share_of_the_day() -> None:
    assert fall_time(with_fall_time(POND, 5 * 3600.0)) == pytest.approx(5 * 3600.0)
