"""Water, friction, runs, fittings, valves, bores: limits, refusals, what physics demands."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics import bores, fittings, valves
from pondapp.core.hydraulics.friction import friction_factor
from pondapp.core.hydraulics.run import Run, bore_for, flow_and_slope, run_loss, velocity_in
from pondapp.core.hydraulics.solve import root
from pondapp.core.hydraulics.water import density, dynamic_viscosity, kinematic_viscosity

NU = 1.0034e-6
roughness = st.floats(0.0, 0.05)
runs = st.builds(
    Run, st.floats(0.1, 300.0), st.floats(0.005, 0.3), roughness, st.floats(0.0, 500.0)
)


def test_water_is_densest_at_four_degrees() -> None:
    densest = max((density(273.15 + t / 10), t) for t in range(401))
    assert densest[1] == 40
    assert densest[0] == pytest.approx(999.975, abs=0.001)


@given(st.floats(273.15, 312.0), st.floats(0.1, 1.0))
@settings(max_examples=40)
def test_warmer_water_is_thinner(t: float, rise: float) -> None:
    assert dynamic_viscosity(t + rise) < dynamic_viscosity(t)
    assert kinematic_viscosity(t) == dynamic_viscosity(t) / density(t)


@pytest.mark.parametrize("function", [density, dynamic_viscosity, kinematic_viscosity])
@pytest.mark.parametrize("t", [273.14, 313.16, math.nan, math.inf])
def test_ice_and_hot_water_are_refused(function: Callable[[float], float], t: float) -> None:
    with pytest.raises(OutOfRange):
        function(t)


@given(st.floats(math.log(1e-3), math.log(9e7)), st.floats(1e-6, 0.1), roughness)
@settings(max_examples=200)
def test_loss_grows_with_flow_through_all_regimes(log_re: float, step: float, rough: float) -> None:
    re = math.exp(log_re)
    faster = re * (1.0 + step)
    assert friction_factor(faster, rough) * faster**2 > friction_factor(re, rough) * re**2


@given(roughness)
@settings(max_examples=40)
def test_regimes_join_without_step_or_kink(rough: float) -> None:
    for edge in (2000.0, 4000.0):
        below, at, above = (friction_factor(edge * (1 + d), rough) for d in (-1e-5, 0.0, 1e-5))
        assert below == pytest.approx(at, rel=1e-4)
        assert (above - at) / at * 1e5 == pytest.approx((at - below) / at * 1e5, abs=1e-3)


@given(st.floats(4000.0, 1e8), roughness)
@settings(max_examples=100)
def test_turbulent_factor_satisfies_colebrook(re: float, rough: float) -> None:
    x = friction_factor(re, rough) ** -0.5
    assert x == pytest.approx(-2.0 * math.log10(rough / 3.7 + 2.51 * x / re), rel=1e-13)


@given(st.floats(100.0, 1e8), st.floats(0.0, 0.04), st.floats(1e-4, 0.01))
@settings(max_examples=60)
def test_rougher_never_takes_less(re: float, rough: float, more: float) -> None:
    assert friction_factor(re, rough + more) >= friction_factor(re, rough)


@pytest.mark.parametrize(
    ("re", "rough"), [(0.0, 0.0), (-1.0, 0.0), (2e8, 0.0), (1e4, -1e-9), (1e4, 0.06), (math.nan, 0)]
)
def test_friction_refuses(re: float, rough: float) -> None:
    with pytest.raises(OutOfRange):
        friction_factor(re, rough)


@given(runs, st.floats(math.log(1e-8), math.log(0.05)))
@settings(max_examples=200)
def test_flow_undoes_loss(run: Run, log_flow: float) -> None:
    flow = math.exp(log_flow)
    loss = run.loss(flow, NU)
    if loss <= 1e4:
        assert flow_and_slope(run, loss, NU)[0] == pytest.approx(flow, rel=1e-9)


@given(runs, st.floats(1e-7, 0.05))
@settings(max_examples=60)
def test_parts_add_up_and_are_explained(run: Run, flow: float) -> None:
    if velocity_in(run.bore, flow) * run.bore / NU > 1e8:
        return
    found = run_loss(run, flow, NU, 1.5)
    assert found.total == pytest.approx(run.loss(flow, NU), rel=1e-12)
    assert found.steps()[-1].result.value == found.total
    assert any("faster" in str(m) for m in found.warnings) == (found.velocity > 1.5)


def test_still_water_loses_nothing() -> None:
    run = Run(10.0, 0.04, 1e-4, 3.0)
    found = run_loss(run, 0.0, NU, 1.5)
    assert (found.total, found.warnings) == (0.0, ())
    assert flow_and_slope(run, 0.0, NU) == (0.0, 0.0)


def test_the_bore_in_the_warning_is_wide_enough() -> None:
    run = Run(10.0, 0.02, 0.0)
    assert run_loss(run, 0.001, NU, 1.5).warnings
    wider = Run(10.0, bore_for(0.001, 1.5), 0.0)
    assert velocity_in(wider.bore, 0.001) == pytest.approx(1.5)


def test_uncertain_regime_is_said() -> None:
    flow = 3000.0 * NU * math.pi * 0.04 / 4.0
    assert "calm and turbulent" in str(run_loss(Run(100.0, 0.04, 0.0), flow, NU, 1.5).warnings[0])


def test_a_loss_that_nobody_would_notice_is_no_reason_to_warn() -> None:
    flow = 3000.0 * NU * math.pi * 0.04 / 4.0
    found = run_loss(Run(10.0, 0.04, 0.0), flow, NU, 1.5)
    assert found.wall < 0.01
    assert found.warnings == ()


def test_ribbed_hose_takes_two_to_three_times_as_much() -> None:
    smooth, ribbed = Run(10.0, 0.032, 1.5e-6 / 0.032), Run(10.0, 0.032, 0.03)
    assert 2.0 < ribbed.loss(1e-3, NU) / smooth.loss(1e-3, NU) < 3.2


@pytest.mark.parametrize(
    "make",
    [
        lambda: Run(-1.0, 0.04, 0.0),
        lambda: Run(1.0, 0.0, 0.0),
        lambda: Run(1.0, 0.04, 0.2),
        lambda: Run(1.0, 0.04, 0.0, -1.0),
        lambda: Run(math.nan, 0.04, 0.0),
        lambda: run_loss(Run(1.0, 0.04, 0.0), -1.0, NU, 1.5),
        lambda: run_loss(Run(1.0, 0.04, 0.0), 0.001, 1.0, 1.5),
        lambda: run_loss(Run(1.0, 0.04, 0.0), 0.001, NU, 0.0),
        lambda: run_loss(Run(1.0, 0.002, 0.0), 9.0, NU, 1.5),
        lambda: velocity_in(0.0, 1.0),
        lambda: bore_for(0.0, 1.0),
        lambda: bore_for(1.0, 0.0),
        lambda: fittings.fittings_loss({"magic": 1}),
        lambda: fittings.fittings_loss({"elbow_90": -1}),
        lambda: valves.valve_opening("tap", 1.0),
        lambda: valves.valve_opening("ball", -1.0),
        lambda: bores.sizes("rope"),
        lambda: bores.bore_of("hose, mm", "41 mm"),
        lambda: bores.size_for("hose, mm", 0.0),
    ],
)
def test_nonsense_is_refused(make: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        make()


def test_fittings_add() -> None:
    assert fittings.fittings_loss({}) == 0.0
    assert fittings.fittings_loss({"inlet": 1, "elbow_90": 2, "outlet": 1}) == 3.0


@pytest.mark.parametrize("kind", valves.VALVES)
def test_a_valve_opens_as_its_table_says(kind: str) -> None:
    points, _ = valves.VALVES[kind]
    for opening, loss in points:
        assert valves.valve_opening(kind, loss) == pytest.approx(opening)
    (x0, k0), (x1, k1) = points[:2]
    assert valves.valve_opening(kind, math.sqrt(k0 * k1)) == pytest.approx(0.5 * (x0 + x1))


def test_valve_at_its_ends() -> None:
    assert valves.valve_opening("ball", 0.0) == 1.0
    with pytest.raises(NoSolution, match="guesswork"):
        valves.valve_opening("ball", 1e4)


@pytest.mark.parametrize("series", bores.SERIES)
def test_sizes_rise_and_are_found_again(series: str) -> None:
    found = bores.sizes(series)
    assert [s.bore for s in found] == sorted({s.bore for s in found})
    for size in found:
        assert bores.bore_of(series, size.name) == size.bore
        assert bores.size_for(series, size.bore) == size
    with pytest.raises(NoSolution, match="widest"):
        bores.size_for(series, 1.0)


@given(st.floats(-5.0, 5.0), st.floats(0.1, 10.0), st.floats(0.1, 10.0))
@settings(max_examples=60)
def test_root_is_found_and_bracketed(at: float, left: float, right: float) -> None:
    found = root(lambda x: math.expm1(3.0 * (x - at)), at - left, at + right, 0.0)
    assert found == pytest.approx(at, abs=1e-12)


def test_root_at_an_end_is_taken() -> None:
    assert root(lambda x: x, 0.0, 1.0, 0.0) == 0.0
    assert root(lambda x: x - 1.0, 0.0, 1.0, 0.0) == 1.0


@pytest.mark.parametrize("function", [lambda x: x * x + 1.0, lambda x: math.nan * x])
def test_root_refuses_what_does_not_cross(function: Callable[[float], float]) -> None:
    with pytest.raises(NoSolution):
        root(function, -1.0, 1.0, 0.0)
    with pytest.raises(NoSolution):
        root(lambda x: math.nan if abs(x) < 0.9 else x, -1.0, 1.0, 0.0)


def test_root_at_a_vertical_tangent_is_found() -> None:
    found = root(lambda x: math.copysign(abs(x) ** 0.5625, x) + x, -3.0, 4.0, 0.0)
    assert found == pytest.approx(0.0, abs=1e-300)


@pytest.mark.parametrize(
    ("flow", "law"),
    [
        # 25 mm and 1e-6 m2/s: Re = 4 Q / (pi D nu), so these are Re 1000, 3000 and 30 000.
        (1.9635e-5, "f = 64 / Re"),
        (5.8905e-5, "f on the curve that joins 64/Re and Colebrook"),
        (5.8905e-4, "1/√f = -2 log(e/(3.7 D) + 2.51/(Re √f))"),
    ],
)
def test_the_working_names_the_law_of_the_regime(flow: float, law: str) -> None:
    found = run_loss(Run(10.0, 0.025, 1e-5, 0.0), flow, 1e-6, 2.0)
    assert [step.formula for step in found.steps() if step.result.symbol == "f"] == [law]
