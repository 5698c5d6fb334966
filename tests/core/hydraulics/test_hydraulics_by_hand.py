"""Values worked out with paper and pencil, so that a changed formula cannot agree by accident."""

from dataclasses import replace
from math import sqrt

import pytest

from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount
from pondapp.core.hydraulics.bores import bore_of
from pondapp.core.hydraulics.candidates import Candidate, ranking
from pondapp.core.hydraulics.energy import energy_per_year
from pondapp.core.hydraulics.lost_flow import lost_flow
from pondapp.core.hydraulics.network import (
    Outlet,
    PipeNetwork,
    operating_point,
    speed_for,
    system_head,
    valve_settings,
)
from pondapp.core.hydraulics.pump_condition import pump_condition
from pondapp.core.hydraulics.pump_curve import ESTIMATED, LabelCurve, curve_through
from pondapp.core.hydraulics.run import Run, flow_and_slope, run_loss
from pondapp.core.hydraulics.tuning import as_found, least_speed, order_of_setting, turned
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Certainty

NU = 1e-6


def test_a_hundred_watts_all_year_are_876_6_kilowatt_hours() -> None:
    assert energy_per_year(100.0, 31557600.0) / 3.6e6 == pytest.approx(876.6)


def test_beyond_its_points_a_curve_goes_on_straight() -> None:
    curve = curve_through([(0.001, 3.0), (0.002, 2.0), (0.003, 0.5)])
    assert curve.head_at(0.0) == pytest.approx(4.0)
    assert curve.head_at(0.004) == pytest.approx(-1.0)
    assert curve.head_at(0.002) == pytest.approx(2.0)
    steep = curve_through([(0.002, 3.0), (0.004, 1.0), (0.006, 0.5)])
    assert steep.head_at(0.001) == pytest.approx(4.0)
    assert steep.head_at(0.008) == pytest.approx(0.0)
    assert steep.slope(0.001) == pytest.approx(-1000.0)
    assert steep.slope(0.008) == pytest.approx(-250.0)


def test_a_fitting_alone_lets_through_what_its_loss_allows() -> None:
    # K = 4 in a bore of 50 mm at 0.2 m: v = (2 g 0.2 / 4)^1/2 = 0.99029 m/s, over 1.9635e-3 m2.
    bend = Run(0.0, 0.05, 0.0, 4.0)
    assert flow_and_slope(bend, 0.2, NU)[0] == pytest.approx(1.94444e-3, rel=1e-4)
    # A valve of 12 more makes it four times as much to lose: half the flow.
    assert flow_and_slope(bend, 0.2, NU, 12.0)[0] == pytest.approx(0.97222e-3, rel=1e-4)
    assert flow_and_slope(Run(0.0, 0.05, 0.0, 0.0), 0.2, NU, 4.0)[0] == pytest.approx(
        1.94444e-3, rel=1e-4
    )


def test_the_parts_of_a_loss_are_kept_as_they_went_in() -> None:
    # 1 L/s in 40 mm: 0.79577 m/s, Re = v D / nu = 31 831 at 1e-6, v2 / 2g = 0.032288 m.
    found = run_loss(Run(1.0, 0.04, 0.0, 2.0), 1e-3, 1e-6, 1.5)
    assert found.flow == 1e-3
    assert found.velocity == pytest.approx(0.795775, rel=1e-5)
    assert found.reynolds == pytest.approx(31831.0, rel=1e-4)
    assert found.fittings == pytest.approx(0.064575, rel=1e-4)
    assert found.wall == pytest.approx(found.friction_factor * 25.0 * 0.032288, rel=1e-4)
    assert found.viscosity == 1e-6
    assert found.warnings == ()
    assert run_loss(Run(1.0, 0.04, 0.0, 2.0), 0.0, 1e-6, 1.5).friction_factor == 0.0


FITTINGS = PipeNetwork(None, (Outlet("a", Run(0.0, 0.05, 0.0, 4.0), 0.5),))


def test_a_pump_with_half_a_metre_to_spare_is_enough_and_one_that_lacks_it_says_so() -> None:
    # 1.94444 L/s take 0.5 m of lift and 0.2 m of loss. A label of H (1 - (Q/Qmax)2) with
    # Qmax = 2 Q gives three quarters of its head there: 1.2 m of 1.6 m, 0.2 m of 0.266667 m.
    flow = 1.94444e-3
    good = Candidate("good", LabelCurve(1.6, 2 * flow, 2.0), 60.0, 50.0)
    bad = Candidate("bad", LabelCurve(0.2 / 0.75, 2 * flow, 2.0), 60.0, 50.0)
    first, last = ranking((good, bad), FITTINGS, {"a": flow}, NU, 1000.0, PumpAssumptions())
    # A straight curve would give 0.8 m of 1.6 m, and dirt less, so the label makes no tick.
    assert (first.state, last.state) == ("probably", "weak")
    # A pump that reaches 0.27 m lifts nothing by 0.5 m.
    assert str(last.reason).startswith("too weak for the lift: at no flow it reaches 0.2667 m")
    assert last.delivered == last.given.high == 0.0
    # 13.3 W reach the water of 60: no reason for doubt.
    assert [warning.template for warning in first.warnings] == [ESTIMATED.template]


def test_few_watts_are_doubted_also_where_the_head_is_small() -> None:
    # 1.94444 L/s by 0.7 m are 13.35 W; a pump of 13 W cannot, one of 14 W is too good.
    flow, curve = 1.94444e-3, LabelCurve(1.6, 4 * 1.94444e-3, 2.0)
    for watts, words in ((13.0, "cannot be right: the water alone takes"), (14.0, "small pumps")):
        (found,) = ranking(
            (Candidate("x", curve, watts, 50.0),), FITTINGS, {"a": flow}, NU, 1000.0,
            PumpAssumptions(),
        )  # fmt: skip
        assert words in " ".join(map(str, found.warnings))


def test_a_branch_that_wants_nothing_is_shut_and_the_others_are_set_all_the_same() -> None:
    # The pump gives 1.2 m; 0.5 m of lift and 0.2 m of loss leave 0.5 m for the valve, which is
    # 2 g 0.5 / v2 = 10 at 0.99029 m/s.
    flow = 1.94444e-3
    idle = Outlet("idle", Run(0.0, 0.05, 0.0, 4.0), 0.1)
    circuit = PipeNetwork(None, (idle, *FITTINGS.branches))
    curve = LabelCurve(1.6, 2 * flow, 2.0)
    shut, open_ = valve_settings(curve, circuit, {"a": flow, "idle": 0.0}, NU)
    assert (shut.key, shut.flow, shut.loss, shut.head, shut.velocity, shut.closed) == (
        "idle", 0.0, 0.0, 0.0, 0.0, True
    )  # fmt: skip
    assert (open_.key, open_.flow, open_.closed) == ("a", flow, False)
    assert open_.head == pytest.approx(0.5, abs=1e-4)
    assert open_.loss == pytest.approx(10.0, rel=1e-3)
    assert open_.velocity == pytest.approx(0.99029, rel=1e-4)


def test_half_speed_gives_half_the_flow_at_a_quarter_of_the_head() -> None:
    # Full speed gives 3.0 m at 2 L/s, so half speed 0.75 m at 1 L/s.
    found = speed_for(LabelCurve(4.0, 4e-3, 2.0), 1e-3, 0.75, 0.1)
    assert found.speed == pytest.approx(0.5)
    assert (found.flow, found.head) == (1e-3, 0.75)
    # Printed points end at 3 L/s: at half speed 1.5 L/s is the last flow that is known.
    printed = curve_through([(0.0, 4.0), (2e-3, 3.0), (3e-3, 1.6)])
    assert speed_for(printed, 1.5e-3, 0.4, 0.1).speed == pytest.approx(0.5)
    with pytest.raises(NoSolution, match="off the known part"):
        speed_for(printed, 1.6e-3, 0.2, 0.1)


def test_what_a_circuit_takes_is_lift_and_losses() -> None:
    assert system_head(FITTINGS, 1.94444e-3, NU) == pytest.approx(0.7, rel=1e-4)
    assert system_head(FITTINGS, 0.0, NU) == 0.5


HALF = PipeNetwork(
    Run(0.0, 0.05, 0.0, 2.0),
    (Outlet("a", Run(0.0, 0.05, 0.0, 4.0), 0.5), Outlet("b", Run(0.0, 0.05, 0.0, 4.0), 0.5)),
)
# Both branches at 0.99029 m/s take 0.2 m, so the tee stands at 0.7 m; the main run at twice the
# speed takes 2 x 0.2 = 0.4 m, so the pump must make 1.1 m. Its label gives three quarters there.
EVEN = 1.94444e-3
SURE = Spread(EVEN, 5e-7)
RULE = Certainty(0.95, 0.10, 0.95)
JUST = LabelCurve(1.1 / 0.75, 4 * EVEN, 2.0)


def test_valves_are_told_from_flows_in_round_numbers() -> None:
    found = as_found(JUST, HALF, {"a": EVEN, "b": EVEN}, NU)
    assert found.head == pytest.approx(0.7, abs=1e-4)
    assert [o.valve for o in found.circuit.branches] == pytest.approx([0.0, 0.0], abs=0.01)
    # A quarter of a velocity head too much for the model is no more than a valve nearly open.
    slightly = as_found(JUST, HALF, {"a": 0.98 * EVEN, "b": 0.98 * EVEN}, NU)
    assert slightly.beyond == ()
    assert all(0.0 < o.valve < 1.0 for o in slightly.circuit.branches)


def test_a_branch_that_cannot_get_so_much_is_told_what_it_can() -> None:
    with pytest.raises(NoSolution) as refused:
        turned(JUST, HALF, "a", 1.5 * EVEN, NU)
    most = refused.value.message.values["most"]
    assert isinstance(most, Amount)
    assert most.value == pytest.approx(EVEN, rel=1e-4)
    shut = turned(JUST, HALF, "a", 0.5 * EVEN, NU)
    assert shut.key == "a"
    # Half the flow takes a quarter of the fittings' head, 0.05 m; the valve takes the rest:
    # (H - 0.5 - 0.05) 2g / v2 at 0.495145 m/s, where a head of 0.0125 m is one of valve.
    assert shut.valve == pytest.approx((shut.head - 0.55) / 0.0125, rel=1e-3)
    assert shut.flows["a"] == pytest.approx(0.5 * EVEN)
    assert shut.flows["b"] == pytest.approx(EVEN * sqrt((shut.head - 0.5) / 0.2), rel=1e-3)


def test_the_order_of_setting_begins_with_all_valves_open_however_they_stand() -> None:
    wanted = {"a": 0.5 * EVEN, "b": 0.9 * EVEN}
    turned_in = PipeNetwork(HALF.main, tuple(replace(o, valve=7.0) for o in HALF.branches))
    for circuit in (HALF, turned_in):
        first, second = order_of_setting(JUST, circuit, wanted, NU)
        assert (first.key, second.key) == ("a", "b")
        assert first.before == pytest.approx(EVEN, rel=1e-4)


def test_heads_behind_lost_flow_in_round_numbers() -> None:
    found = lost_flow(JUST, HALF, {"a": SURE, "b": SURE}, NU, RULE)
    assert found.where == "nowhere"
    assert found.head == pytest.approx(0.7, abs=1e-4)
    assert found.head_before == pytest.approx(0.7, abs=1e-4)
    assert found.speed_left == pytest.approx(1.0, abs=1e-4)
    bare = PipeNetwork(None, HALF.branches)
    weaker = lost_flow(
        LabelCurve(0.7 / 0.75, 4 * EVEN, 2.0), bare, {"a": SURE, "b": SURE}, NU, RULE
    )
    assert weaker.head_before == pytest.approx(0.7, abs=1e-4)


def test_a_pump_s_condition_keeps_what_was_measured() -> None:
    found = pump_condition(JUST, HALF, NU, Spread(2 * EVEN, 0.005 * EVEN), 0.85, RULE)
    assert found.measured == 2 * EVEN
    assert found.predicted == pytest.approx(2 * EVEN, rel=1e-4)
    assert found.head_taken == pytest.approx(1.1, abs=1e-3)
    assert found.state == "as expected"
    assert found.source == JUST.source


def test_sizes_of_hose_and_pipe_are_metres() -> None:
    assert bore_of("hose, mm", "25 mm") == pytest.approx(0.025)
    assert bore_of("hose, in", "1 in") == pytest.approx(0.0254)


def test_where_a_pump_settles_each_branch_has_its_flow_speed_and_heads() -> None:
    found = operating_point(JUST, HALF, NU)
    assert found.flow == pytest.approx(2 * EVEN, rel=1e-4)
    assert found.head == pytest.approx(1.1, abs=1e-4)
    for one, name in zip(found.branches, ("a", "b"), strict=True):
        assert one.key == name
        assert one.flow == pytest.approx(EVEN, rel=1e-4)
        assert one.velocity == pytest.approx(0.99029, rel=1e-4)
        assert one.head == pytest.approx(0.7, abs=1e-4)
        assert one.lift == 0.5


def test_without_a_main_run_the_pump_s_head_is_the_tee_s() -> None:
    bare, curve = PipeNetwork(None, HALF.branches), LabelCurve(0.7 / 0.75, 4 * EVEN, 2.0)
    assert as_found(curve, bare, {"a": EVEN, "b": EVEN}, NU).head == pytest.approx(0.7, abs=1e-4)


def test_a_shut_branch_that_gives_water_is_open_and_one_that_is_turned_opens() -> None:
    a, b = HALF.branches
    shut = PipeNetwork(HALF.main, (replace(a, closed=True), b))
    found = as_found(JUST, shut, {"a": EVEN, "b": EVEN}, NU)
    assert [outlet.closed for outlet in found.circuit.branches] == [False, False]
    after = turned(JUST, shut, "a", 0.5 * EVEN, NU)
    assert after.flows["a"] == pytest.approx(0.5 * EVEN)
    assert [outlet.closed for outlet in after.circuit.branches] == [False, False]


def test_what_a_branch_can_get_is_with_its_own_valve_open_and_the_others_as_they_stand() -> None:
    a, b = HALF.branches
    for other in (0.0, 7.0):
        stand = PipeNetwork(HALF.main, (replace(a, valve=7.0), replace(b, valve=other)))
        wide = PipeNetwork(HALF.main, (a, replace(b, valve=other)))
        with pytest.raises(NoSolution) as refused:
            turned(JUST, stand, "a", 3.0 * EVEN, NU)
        most = refused.value.message.values["most"]
        assert isinstance(most, Amount)
        assert most.value == pytest.approx(operating_point(JUST, wide, NU).branches[0].flow)


def test_the_slowest_pump_that_gives_the_flows_by_hand() -> None:
    # All valves open need all of the pump, also where one branch was not measured.
    assert least_speed(JUST, HALF, {"a": EVEN, "b": EVEN}, NU) == pytest.approx(1.0, abs=1e-4)
    assert least_speed(JUST, HALF, {"b": EVEN}, NU) == pytest.approx(1.0, abs=1e-4)
    # Half of it: 0.55 m at the tee and 0.1 m in the main run, so 0.65 m at a quarter of the
    # largest flow: n2 1.46667 - 1.46667 / 16 = 0.65, and n = 0.71112.
    half = {"a": 0.5 * EVEN, "b": 0.5 * EVEN}
    assert least_speed(JUST, HALF, half, NU) == pytest.approx(0.71112, rel=1e-4)


def test_a_valve_as_lossy_as_the_fittings_beside_it_is_a_circuit_too() -> None:
    bend = Run(0.0, 0.05, 0.0, 4.0)
    assert Outlet("x", bend, 0.0, valve=4.0).valve == 4.0
    # Twice the loss: the flow of 4 over the root of 2.
    assert flow_and_slope(bend, 0.2, NU, 4.0)[0] == pytest.approx(1.94444e-3 / sqrt(2.0), rel=1e-4)


def test_the_cheapest_says_what_it_costs_and_a_curve_that_begins_too_late_says_so() -> None:
    flow = 1.94444e-3
    late = curve_through([(1.5 * flow, 1.1), (2.0 * flow, 0.9), (3.0 * flow, 0.2)])
    shelf = (
        Candidate("late", late, 60.0, 1.0),
        Candidate("good", LabelCurve(1.6, 2 * flow, 2.0), 60.0, 50.0),
    )
    # 1.1 m at half as much again: heads fall with the flow, so there is more than the 0.7 m needed.
    late_one, good = ranking(shelf, FITTINGS, {"a": flow}, NU, 1000.0, PumpAssumptions())
    assert (late_one.candidate.key, late_one.state) == ("late", "enough")
    assert late_one.reason.values["total"] == Amount(late_one.costs.total, "money")
    assert late_one.reason.values["years"] == Amount(5.0, "-")
    assert good.reason.values["more"] == Amount(49.0, "money")
    # A curve that begins below what is needed may still rise enough before: nobody knows.
    low = curve_through([(1.5 * flow, 0.6), (2.0 * flow, 0.5), (3.0 * flow, 0.2)])
    (begins,) = ranking(
        (Candidate("low", low, 60.0, 1.0),), FITTINGS, {"a": flow}, NU, 1000.0, PumpAssumptions()
    )
    assert begins.state == "unknown"
    assert "printed points begin at" in str(begins.reason)
