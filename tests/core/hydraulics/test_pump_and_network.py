"""Pump curves and branched circuits: balances that must hold, and refusals that say why."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, NotEnoughReadings, OutOfRange
from pondapp.core.hydraulics.network import (
    Outlet,
    PipeNetwork,
    duty_for,
    operating_point,
    speed_for,
    system_head,
    valve_settings,
)
from pondapp.core.hydraulics.pump_curve import (
    LabelCurve,
    at_speed,
    curve_through,
    power_at_speed,
)
from pondapp.core.hydraulics.run import Run

NU = 1.0034e-6
HOUR = 1.0 / 3600.0  # m3/s in m3/h
PRINTED = ((0.0, 5.0), (4 * HOUR, 4.5), (8 * HOUR, 2.9), (12 * HOUR, 0.0))

run = st.builds(Run, st.floats(0.2, 20.0), st.floats(0.015, 0.08), st.floats(0.0, 0.05))
outlet = st.builds(
    lambda r, lift, valve, closed: Outlet("?", r, lift, valve, closed),
    run,
    st.floats(0.0, 3.0),
    st.floats(0.0, 200.0),
    st.sampled_from([False, False, False, True]),
)
label = st.builds(LabelCurve, st.floats(0.5, 10.0), st.floats(HOUR, 30 * HOUR))


circuit = st.builds(
    lambda main, ends: PipeNetwork(
        main, tuple(replace(end, key=str(number), name="") for number, end in enumerate(ends))
    ),
    st.one_of(st.none(), run),
    st.lists(outlet, min_size=1, max_size=5),
)


@given(label, circuit)
@settings(max_examples=150)
def test_flows_add_at_the_tee_and_heads_close_every_loop(
    curve: LabelCurve, system: PipeNetwork
) -> None:
    if not [o for o in system.branches if not o.closed and o.lift < curve.max_head]:
        with pytest.raises(NoSolution):
            operating_point(curve, system, NU)
        return
    point = operating_point(curve, system, NU)
    flows = {b.key: b for b in point.branches}
    assert point.head == pytest.approx(curve.head_at(point.flow), rel=1e-8, abs=1e-9)
    lost = system.main.loss(point.flow, NU) if system.main else 0.0
    assert sum(b.flow for b in point.branches) == pytest.approx(point.flow, rel=1e-8, abs=1e-13)
    for end in system.branches:
        found = flows[end.key]
        assert found.head == pytest.approx(point.head - lost, rel=1e-8, abs=1e-9)
        if found.flow:
            assert not end.closed
            assert found.head - found.loss == pytest.approx(end.lift, rel=1e-8, abs=1e-8)
        else:
            assert end.closed or found.head <= end.lift + 1e-9
    dry = [o for o in system.branches if not o.closed and not flows[o.key].flow]
    assert sum("stays dry" in str(m) for m in point.warnings) == len(dry)
    assert len(point.steps()) == 2 + len(point.branches)


@given(label, circuit)
@settings(max_examples=60)
def test_system_head_meets_the_pump_where_it_settles(
    curve: LabelCurve, system: PipeNetwork
) -> None:
    try:
        point = operating_point(curve, system, NU)
    except NoSolution:
        return
    assume(point.flow > 1e-7)
    assert system_head(system, point.flow, NU) == pytest.approx(point.head, rel=1e-6, abs=1e-7)
    assert system_head(system, 1.1 * point.flow, NU) > system_head(system, point.flow, NU)


@given(circuit, st.lists(st.floats(0.02, 3.0), min_size=15, max_size=15), st.floats(1.0, 2.0))
@settings(max_examples=100)
def test_valves_as_told_give_the_flows_as_wanted(
    system: PipeNetwork, cubic_metres: list[float], spare: float
) -> None:
    open_ends = tuple(replace(end, valve=0.0, closed=False) for end in system.branches)
    system = PipeNetwork(system.main, open_ends)
    wanted = {o.key: q * HOUR for o, q in zip(system.branches, cubic_metres, strict=False)}
    need = duty_for(system, wanted, NU)
    assume(0.0 < need.head < 100.0)
    # A pump that gives the head wanted, with some to spare, at the flow wanted.
    curve = LabelCurve(2.0 * spare * need.head, math.sqrt(2.0) * need.flow, 2.0)
    settings_ = {v.key: v for v in valve_settings(curve, system, wanted, NU)}
    assert min(v.loss for v in settings_.values()) >= 0.0
    assert settings_[need.neediest.key].head == pytest.approx(
        (spare - 1.0) * need.head, rel=1e-6, abs=1e-6
    )

    assume(all(v.loss < 1e12 for v in settings_.values()))
    ends = tuple(replace(end, valve=settings_[end.key].loss) for end in system.branches)
    point = operating_point(curve, PipeNetwork(system.main, ends), NU)
    for name, flow in wanted.items():
        assert point.flow_in(name) == pytest.approx(flow, rel=1e-6)
    assert all(v.steps()[0].result.value == v.loss for v in settings_.values())


def bog_and_fall(**changes: object) -> PipeNetwork:
    fall = Outlet("fall", Run(4.0, 0.04, 1e-4, 2.0), 1.0)
    bog = Outlet("bog", Run(3.0, 0.025, 1e-4, 2.0), 0.3)
    return PipeNetwork(Run(2.0, 0.04, 1e-4, 2.0), (replace(fall, **changes), bog))  # type: ignore[arg-type]


def test_closing_a_valve_sends_the_water_elsewhere() -> None:
    curve = LabelCurve(4.0, 10 * HOUR)
    before = operating_point(curve, bog_and_fall(), NU)
    after = operating_point(curve, bog_and_fall(closed=True), NU)
    assert after.flow_in("fall") == 0.0
    assert after.flow_in("bog") > before.flow_in("bog")
    assert after.flow < before.flow
    with pytest.raises(OutOfRange, match="no branch"):
        after.flow_in("jet")


def test_a_high_outlet_stays_dry_and_it_is_said() -> None:
    point = operating_point(LabelCurve(4.0, 10 * HOUR), bog_and_fall(lift=3.9), NU)
    assert point.flow_in("fall") == 0.0
    assert point.flow_in("bog") > 0.0
    assert "fall stays dry" in str(point.warnings[0])
    assert "label" in str(point.warnings[1])


def test_colder_water_flows_slower() -> None:
    curve = LabelCurve(4.0, 10 * HOUR)
    cold = operating_point(curve, bog_and_fall(), 1.6e-6)
    assert cold.flow < operating_point(curve, bog_and_fall(), 0.8e-6).flow


def test_no_solution_says_why() -> None:
    system = bog_and_fall()
    shut = PipeNetwork(None, tuple(replace(o, closed=True) for o in system.branches))
    weak = LabelCurve(0.25, HOUR)
    with pytest.raises(NoSolution, match="every valve is closed"):
        operating_point(weak, shut, NU)
    with pytest.raises(NoSolution, match="every valve is closed"):
        system_head(shut, HOUR, NU)
    with pytest.raises(NoSolution, match=r"bog ends .* take a pump that lifts more"):
        operating_point(weak, system, NU)
    with pytest.raises(NoSolution, match="does not fit"):
        system_head(PipeNetwork(None, (Outlet("pin", Run(10.0, 0.001, 0.0), 0.0),)), 0.1, NU)
    with pytest.raises(NoSolution, match="fall takes"):
        valve_settings(weak, system, {"fall": 0.5 * HOUR, "bog": 0.1 * HOUR}, NU)
    with pytest.raises(NoSolution, match="known curve goes"):
        valve_settings(weak, system, {"fall": 5 * HOUR, "bog": 0.1 * HOUR}, NU)
    with pytest.raises(NoSolution, match="no flow is wanted"):
        duty_for(system, {"fall": 0.0, "bog": 0.0}, NU)


def test_beyond_the_printed_points_nothing_is_guessed() -> None:
    part = curve_through([(2 * HOUR, 4.8), (3 * HOUR, 4.7), (4 * HOUR, 4.5)])
    with pytest.raises(NoSolution, match="beyond the end"):
        operating_point(part, PipeNetwork(None, (Outlet("a", Run(1.0, 0.08, 0.0, 1.0), 0.0),)), NU)
    with pytest.raises(NoSolution, match="before the start"):
        operating_point(part, PipeNetwork(None, (Outlet("a", Run(1.0, 0.01, 0.0, 1.0), 0.0),)), NU)


def test_an_end_below_the_pond_may_pull_more_than_the_pump_is_known_for() -> None:
    below = PipeNetwork(None, (Outlet("ditch", Run(1.0, 0.0625, 0.0), -0.125),))
    with pytest.raises(NoSolution, match="beyond the end"):
        operating_point(LabelCurve(1.0, 0.0078125), below, NU)


def test_an_unwanted_end_is_shut() -> None:
    found = valve_settings(
        LabelCurve(4.0, 10 * HOUR), bog_and_fall(), {"fall": 2 * HOUR, "bog": 0.0}, NU
    )
    assert [(v.key, v.closed) for v in found] == [("fall", False), ("bog", True)]
    assert found[1].steps() == ()


A = Outlet("a", Run(1.0, 0.04, 0.0), 0.0)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Outlet("a", Run(1.0, 0.04, 0.0), 300.0),
        lambda: Outlet("a", Run(1.0, 0.04, 0.0), 0.0, -1.0),
        lambda: Outlet("a", Run(0.0, 0.04, 0.0), 0.0),
        lambda: PipeNetwork(None, ()),
        lambda: PipeNetwork(None, (A, A)),
        lambda: operating_point(LabelCurve(1.0, HOUR), PipeNetwork(None, (A,)), 1.0),
        lambda: system_head(PipeNetwork(None, (A,)), -1.0, NU),
        lambda: duty_for(PipeNetwork(None, (A,)), {}, NU),
        lambda: duty_for(PipeNetwork(None, (A,)), {"a": HOUR, "b": HOUR}, NU),
        lambda: duty_for(PipeNetwork(None, (A,)), {"a": math.nan}, NU),
        lambda: LabelCurve(0.0, HOUR),
        lambda: LabelCurve(1.0, math.inf),
        lambda: at_speed(LabelCurve(1.0, HOUR), 0.0),
        lambda: power_at_speed(-1.0, 1.0),
        lambda: power_at_speed(1.0, 3.0),
        lambda: curve_through([(0.0, 3.0), (HOUR, 3.0), (2 * HOUR, 1.0)]),
        lambda: curve_through([(0.0, 3.0), (0.0, 2.0), (2 * HOUR, 1.0)]),
        lambda: curve_through([(0.0, 3.0), (HOUR, 2.0), (2 * HOUR, -1.0)]),
        lambda: curve_through([(-1.0, 3.0), (HOUR, 2.0), (2 * HOUR, 1.0)]),
        lambda: speed_for(LabelCurve(1.0, HOUR), 0.0, 1.0, 0.3),
        lambda: speed_for(LabelCurve(1.0, HOUR), HOUR, -1.0, 0.3),
        lambda: speed_for(LabelCurve(1.0, HOUR), HOUR, 1.0, 0.0),
    ],
)
def test_nonsense_is_refused(make: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        make()


def test_two_points_are_no_curve() -> None:
    with pytest.raises(NotEnoughReadings):
        curve_through(PRINTED[:2])


@given(
    st.lists(st.tuples(st.floats(0.01, 3.0), st.floats(0.01, 3.0)), min_size=3, max_size=8),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
)
@settings(max_examples=150)
def test_a_curve_keeps_its_points_and_never_rises(
    steps: list[tuple[float, float]], one: float, other: float
) -> None:
    points, flow, head = [], 0.0, sum(h for _, h in steps)
    for dq, dh in steps:
        points.append((flow * HOUR, head))
        flow, head = flow + dq, head - dh
    curve = curve_through(points[::-1])
    for q, h in points:
        assert curve.head_at(q) == pytest.approx(h)
    low, high = sorted(curve.least_flow + x * (curve.most_flow - curve.least_flow)
                       for x in (one, other))  # fmt: skip
    assert curve.head_at(low) >= curve.head_at(high) - 1e-12
    assert not curve.estimate


@given(label, st.floats(0.1, 1.0), st.floats(0.0, 1.0))
@settings(max_examples=50)
def test_affinity(curve: LabelCurve, speed: float, share: float) -> None:
    slowed = at_speed(curve, speed)
    assert slowed.most_flow == pytest.approx(speed * curve.max_flow)
    assert slowed.head_at(speed * share * curve.max_flow) == pytest.approx(
        speed**2 * curve.head_at(share * curve.max_flow), rel=1e-9, abs=1e-12
    )
    assert power_at_speed(100.0, speed) == pytest.approx(100.0 * speed**3)


@given(label, st.floats(0.05, 0.9), st.floats(0.1, 1.0))
@settings(max_examples=80)
def test_the_speed_found_is_just_enough(curve: LabelCurve, share: float, load: float) -> None:
    flow = share * curve.max_flow
    head = load * curve.head_at(flow)
    found = speed_for(curve, flow, head, 0.05)
    assert found.speed <= 1.0
    assert at_speed(curve, found.speed).head_at(flow) == pytest.approx(head, rel=1e-7, abs=1e-9)
    assert found.steps()[0].result.value == found.speed


def test_speed_at_its_ends() -> None:
    curve = LabelCurve(4.0, 10 * HOUR)
    assert speed_for(curve, HOUR, 0.01, 0.5).speed == 0.5
    for flow, head in ((HOUR, 4.5), (11 * HOUR, 0.0)):
        with pytest.raises(NoSolution, match="full speed"):
            speed_for(curve, flow, head, 0.3)
    part = curve_through([(4 * HOUR, 4.5), (8 * HOUR, 2.9), (12 * HOUR, 0.0)])
    with pytest.raises(NoSolution, match="off the known part"):
        speed_for(part, HOUR, 4.5, 0.3)


@given(st.floats(0.5, 3.0), st.floats(0.1, 1.0))
@settings(max_examples=40)
def test_a_pump_set_to_be_just_enough_is_enough(fall: float, bog: float) -> None:
    curve, wanted = LabelCurve(6.0, 12 * HOUR), {"fall": fall * HOUR, "bog": bog * HOUR}
    need = duty_for(bog_and_fall(), wanted, NU)
    speed = speed_for(curve, need.flow, need.head, 0.05).speed
    found = valve_settings(at_speed(curve, speed), bog_and_fall(), wanted, NU)
    assert min(v.head for v in found) == pytest.approx(0.0, abs=1e-8)
