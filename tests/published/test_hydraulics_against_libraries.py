"""Hydraulics against general-purpose libraries: fluids, iapws, scipy and EPANET through wntr."""

import math
import warnings
from pathlib import Path

import epanet
import fluids
import iapws
import pytest
import scipy.interpolate
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.constants import GRAVITY
from pondapp.core.hydraulics.friction import friction_factor
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, curve_through
from pondapp.core.hydraulics.run import Run
from pondapp.core.hydraulics.solve import root
from pondapp.core.hydraulics.water import density, dynamic_viscosity

pytestmark = pytest.mark.published
HOUR = 1.0 / 3600.0  # m3/s in m3/h


@pytest.mark.parametrize("celsius", range(1, 41, 3))
def test_water_agrees_with_the_full_formulation(celsius: int) -> None:
    kelvin = celsius + 273.15
    water = iapws.IAPWS95(T=kelvin, P=0.101325)
    assert density(kelvin) == pytest.approx(water.rho, rel=1e-6)
    assert dynamic_viscosity(kelvin) == pytest.approx(water.mu, rel=1e-4)


@settings(max_examples=150)
@given(st.floats(math.log(4001.0), math.log(9.9e7)), st.floats(0.0, 0.05))
def test_turbulent_friction_agrees(log_re: float, rough: float) -> None:
    re = math.exp(log_re)
    assert friction_factor(re, rough) == pytest.approx(
        fluids.friction.Clamond(Re=re, eD=rough), rel=1e-9
    )


def departures(low: float, high: float) -> list[float]:
    """Computed over measured friction of smooth pipes, less 1, in a range of Reynolds numbers."""
    measured = zip(fluids.friction.oregon_Res, fluids.friction.oregon_fd_smooth, strict=True)
    return [friction_factor(re, 0.0) / f - 1.0 for re, f in measured if low <= re <= high]


def test_measured_turbulent_flow_in_smooth_pipes() -> None:
    # Single points lie up to 5 % off; on average Colebrook is right.
    found = departures(4000.0, 1.1e6)
    assert len(found) == 18
    assert max(map(abs, found)) < 0.05
    assert abs(sum(found) / len(found)) < 0.01


def test_measured_laminar_flow_in_smooth_pipes() -> None:
    # All but one point lie above 64 / Re, as if the flow were never quite calm; from 1000 on the
    # measured pipe is already on its way to turbulence.
    found = departures(10.0, 1000.0)
    assert len(found) == 23
    assert max(map(abs, found)) < 0.10
    assert abs(sum(found) / len(found)) < 0.04


@settings(max_examples=60)
@given(st.floats(-0.9, 3.0), st.floats(0.5, 5.0))
def test_roots_agree(shift: float, power: float) -> None:
    def f(x: float) -> float:
        return math.copysign(abs(x) ** power, x) + x - shift

    assert root(f, -3.0, 4.0, 0.0) == pytest.approx(
        scipy.optimize.brentq(f, -3.0, 4.0, xtol=1e-14), abs=1e-11
    )


@settings(max_examples=60)
@given(st.lists(st.tuples(st.floats(0.1, 3.0), st.floats(0.05, 2.0)), min_size=3, max_size=7))
def test_pump_curve_agrees_with_pchip(steps: list[tuple[float, float]]) -> None:
    flow, head, points = 0.0, sum(h for _, h in steps), []
    for dq, dh in steps:
        points.append((flow * HOUR, head))
        flow, head = flow + dq, head - dh
    curve = curve_through(points)
    theirs = scipy.interpolate.PchipInterpolator(*zip(*points, strict=True))
    for step in range(21):
        q = step / 20.0 * curve.most_flow
        assert curve.head_at(q) == pytest.approx(float(theirs(q)), rel=1e-9, abs=1e-10)


CASES = [
    # bore [m], length [m], minor loss, lift [m] of each of three branches; head and flow of a pump
    (((0.04, 6.0, 3.0, 0.8), (0.032, 4.0, 5.0, 0.4), (0.025, 8.0, 2.0, 0.2)), 5.0, 12.0),
    (((0.05, 10.0, 4.0, 1.2), (0.04, 3.0, 8.0, 1.0), (0.032, 5.0, 1.0, 0.0)), 4.0, 18.0),
    (((0.025, 3.0, 1.0, 0.3), (0.025, 6.0, 9.0, 0.5), (0.02, 2.0, 4.0, 0.1)), 3.0, 6.0),
    (((0.063, 20.0, 5.0, 2.0), (0.05, 15.0, 2.0, 1.5), (0.04, 10.0, 20.0, 0.5)), 8.0, 30.0),
]


@pytest.mark.parametrize(("branches", "head", "flow"), CASES)
def test_three_branches_agree_with_epanet(
    branches: tuple[epanet.Branch, ...],
    head: float,
    flow: float,
    tmp_path: Path,
) -> None:
    net = epanet.network(branches, head, flow * HOUR)
    with warnings.catch_warnings():  # its own dependencies are deprecated, not ours
        warnings.simplefilter("ignore")
        import wntr

        flows = (
            wntr.sim.EpanetSimulator(net)
            .run_sim(file_prefix=str(tmp_path / "net"))
            .link["flowrate"]
            .iloc[0]
        )
    circuit, curve = epanet.circuit(branches, head, flow * HOUR)
    point = operating_point(curve, circuit, epanet.NU)
    for branch in circuit.branches:
        assert point.flow_in(branch.key) == pytest.approx(flows[branch.key], rel=0.01)
    assert point.flow == pytest.approx(flows["pump"], rel=0.01)


@settings(max_examples=40)
@given(st.floats(0.015, 0.08), st.floats(1.0, 50.0), st.floats(0.0, 20.0), st.floats(0.0, 2.0))
def test_operating_point_agrees_with_fluids_and_scipy(
    bore: float, length: float, k: float, lift: float
) -> None:
    nu, head, most = 1.0034e-6, 5.0, 12.0 * HOUR

    def excess(flow: float) -> float:
        speed = 4.0 * flow / (math.pi * bore**2)
        # Their Colebrook has no answer for still water, which is no part of the question.
        f = fluids.friction.Clamond(Re=max(speed * bore / nu, 4000.0), eD=1e-4)
        lost = (f * length / bore + k) * speed**2 / (2.0 * GRAVITY)
        return head * (1.0 - (flow / most) ** 2) - lift - lost

    circuit = PipeNetwork(None, (Outlet("o", Run(length, bore, 1e-4, k), lift),))
    found = operating_point(LabelCurve(head, most, 2.0), circuit, nu).flow
    assert 4.0 * found / (math.pi * bore * nu) > 4000.0
    assert found == pytest.approx(scipy.optimize.brentq(excess, 1e-7, most, xtol=1e-15), rel=1e-7)
