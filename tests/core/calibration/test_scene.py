"""A scene's flows are those of the circuit that was learned, and its slopes are their slopes."""

from dataclasses import replace

import pytest

from pondapp.core.base.errors import NoSolution
from pondapp.core.calibration.learned import Learned, learned_circuit, learned_curve
from pondapp.core.calibration.scene import End, Scene, learned_at, moved_flows, moved_head
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, curve_through
from pondapp.core.hydraulics.run import Run

NU = 1.0034e-6
FALL = End(
    Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),
    loss=((0, 1.0), (9, 2.0)), lift=((1, 1.0),), valve=((2, 1.0),),
)  # fmt: skip
BOG = End(Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3), loss=((3, 1.0),), lift=((4, 1.0),))
SCENE = Scene(
    LabelCurve(4.0, 10.0 / 3600), ((5, 1.0), (6, 1.0)), ((7, 1.0), (6, 2.0)), 8,
    Run(2.0, 0.050, 1e-5, 1.0), ((10, 1.0),), (FALL, BOG), NU,
)  # fmt: skip
VALUES = [0.1, 0.05, 1.5, -0.2, 0.02, 0.03, -0.05, 0.01, 1.4, 0.1, 0.2]
PRINTED = replace(SCENE, curve=curve_through([(0.0, 4.0), (1e-3, 3.4), (3e-3, 0.5)]), bend=None)


@pytest.mark.parametrize("scene", [SCENE, PRINTED, replace(SCENE, main=None, main_loss=())])
def test_flows_are_those_of_the_learned_circuit(scene: Scene) -> None:
    ends, whole = moved_flows(scene, VALUES)
    learned = learned_at(scene, VALUES)
    circuit = PipeNetwork(scene.main, tuple(one.outlet for one in scene.ends))
    point = operating_point(
        learned_curve(scene.curve, learned), learned_circuit(circuit, learned, standing=True), NU
    )
    assert whole.flow == pytest.approx(point.flow, rel=1e-9)
    assert [one.flow for one in ends] == pytest.approx([b.flow for b in point.branches], rel=1e-9)


@pytest.mark.parametrize("fixed", [0.0, 2e-4])
@pytest.mark.parametrize("place", range(11))
@pytest.mark.parametrize("scene", [SCENE, PRINTED])
def test_slopes_are_those_of_small_steps(scene: Scene, place: int, fixed: float) -> None:
    step = 1e-5

    def at(off: float) -> tuple[float, ...]:
        values = [value + off * (i == place) for i, value in enumerate(VALUES)]
        ends, whole = moved_flows(scene, values, fixed)
        return (*(one.flow for one in ends), whole.flow)

    ends, whole = moved_flows(scene, VALUES, fixed)
    told = [one.row.get(place, 0.0) for one in (*ends, whole)]
    seen = [(high - low) / (2.0 * step) for high, low in zip(at(step), at(-step), strict=True)]
    assert told == pytest.approx(seen, rel=1e-5, abs=1e-12)


def test_a_pump_that_does_not_lift_so_high_gives_nothing_and_no_slope() -> None:
    weak = replace(SCENE, curve=LabelCurve(0.2, 1e-3))
    ends, whole = moved_flows(weak, VALUES)
    assert [one.flow for one in ends] == [0.0, 0.0]
    assert whole.flow == 0.0
    assert not any(whole.row.values())
    assert all(one.lack > 0.0 for one in ends)  # by which a fit finds out of it
    with pytest.raises(NoSolution):
        moved_head(weak, VALUES)


def test_a_branch_below_the_others_runs_while_they_stay_dry() -> None:
    low = replace(SCENE, curve=LabelCurve(0.9, 1e-3))
    (fall, bog), _ = moved_flows(low, VALUES)
    assert fall.flow == 0.0 < bog.flow
    assert fall.row == {}


def test_nothing_learned_changes_nothing() -> None:
    circuit = PipeNetwork(SCENE.main, (FALL.outlet, BOG.outlet))
    assert learned_circuit(circuit, Learned(), standing=True) is circuit
    assert learned_curve(SCENE.curve, Learned()) is SCENE.curve
