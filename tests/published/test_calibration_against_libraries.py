"""The fit against scipy, and the calibrated circuit against EPANET."""

import warnings
from collections.abc import Sequence
from math import exp, log, sqrt
from pathlib import Path
from random import Random
from typing import Any

import epanet
import numpy
import pytest
import scipy.optimize

from pondapp.core.calibration.calibrated import MODEL_SCATTER, Datum, calibrated, values_at
from pondapp.core.calibration.learned import Learned, learned_circuit, learned_curve
from pondapp.core.calibration.scene import End, Scene, Unknown
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run

NU = 1.0034e-6


def problem(number: int) -> tuple[list[Unknown], Scene, list[Datum]]:
    """A circuit of one to four branches with readings that are a little or far off."""
    chance = Random(number)
    unknowns = [Unknown("flow", 0.0, 0.06), Unknown("head", 0.0, 0.04), Unknown("bend", 1.5, 0.2)]
    ends = []
    for branch in range(1 + number % 4):
        place = len(unknowns)
        unknowns += [Unknown(f"loss {branch}", 0.0, 0.2), Unknown(f"lift {branch}", 0.0, 0.03)]
        run = Run(chance.uniform(2.0, 9.0), chance.choice((0.025, 0.032, 0.040)), 4e-5, 3.0)
        outlet = Outlet(f"b{branch}", run, chance.uniform(0.2, 1.4), valve=chance.uniform(0, 20))
        ends.append(End(outlet, loss=((place, 1.0),), lift=((place + 1, 1.0),)))
    curve = LabelCurve(chance.uniform(3.0, 6.0), chance.uniform(1.5e-3, 4e-3), 1.5)
    scene = Scene(
        curve, ((0, 1.0),), ((1, 1.0),), 2, Run(2.0, 0.05, 3e-5, 1.0), (), tuple(ends), NU
    )
    entered = operating_point(
        curve, PipeNetwork(scene.main, tuple(one.outlet for one in ends)), NU
    )  # fmt: skip
    data = [
        Datum(f"{n}", 0, end, branch.flow * exp(chance.gauss(0.0, 0.08)), 0.02)
        for n in range(3)
        for end, branch in enumerate(entered.branches)
        if branch.flow > 1e-5
    ]
    return unknowns, scene, data


def flows_by_the_network(scene: Scene, values: Sequence[float]) -> list[float]:
    """The flows once more, by what the rest of the core makes of the circuit."""
    losses, lifts = {}, {}
    for branch, one in enumerate(scene.ends):
        losses[one.outlet.key] = exp(values[3 + 2 * branch])
        lifts[one.outlet.key] = values[4 + 2 * branch]
    learned = Learned(losses, lifts, {}, exp(values[0]), exp(values[1]), values[2])
    circuit = PipeNetwork(scene.main, tuple(one.outlet for one in scene.ends))
    point = operating_point(
        learned_curve(scene.curve, learned), learned_circuit(circuit, learned, standing=False), NU
    )
    return [branch.flow for branch in point.branches]


@pytest.mark.parametrize("number", range(40))
def test_the_best_fit_is_that_of_scipy(number: int) -> None:
    unknowns, scene, data = problem(number)
    fitted = calibrated(unknowns, [scene], data, 1e-6)
    found, unknowns = fitted.fitted, list(fitted.unknowns)  # known less well where it is strained

    def residuals(at: Any) -> Any:
        flows = flows_by_the_network(scene, values_at(unknowns, list(at)))
        told = [
            sqrt(weight)
            * log(flows[one.end or 0] / one.flow)
            / sqrt(one.share**2 + MODEL_SCATTER**2)
            for one, weight in zip(data, found.weights, strict=True)
        ]
        return numpy.array([*told, *at])

    best = scipy.optimize.least_squares(
        residuals, numpy.zeros(len(unknowns)), jac="3-point", xtol=1e-14, ftol=1e-14, gtol=1e-14
    )
    assert list(found.at) == pytest.approx(list(best.x), abs=1e-6)
    covariance = numpy.linalg.inv(best.jac.T @ best.jac)
    assert numpy.array(found.covariance) == pytest.approx(covariance, abs=1e-4)


@pytest.mark.parametrize("number", range(12))
def test_flows_of_a_calibrated_circuit_are_those_of_epanet(number: int, tmp_path: Path) -> None:
    with warnings.catch_warnings():  # its dependencies are deprecated
        warnings.simplefilter("ignore")
        import wntr

    chance = Random(number)
    branches = tuple(
        (chance.choice((0.025, 0.032, 0.040)), chance.uniform(2.0, 8.0), chance.uniform(2.0, 30.0),
         chance.uniform(0.2, 1.2))
        for _ in range(1 + number % 4)
    )  # fmt: skip
    head, most = chance.uniform(3.5, 5.0), chance.uniform(2e-3, 4e-3)
    circuit, curve = epanet.circuit(branches, head, most)
    learned = Learned(
        {one.key: chance.uniform(0.6, 1.6) for one in circuit.branches},
        {one.key: chance.uniform(-0.1, 0.1) for one in circuit.branches},
        {one.key: chance.uniform(0.0, 40.0) for one in circuit.branches},
        chance.uniform(0.85, 1.05), chance.uniform(0.8, 1.05), 2.0,
    )  # fmt: skip
    ours = operating_point(
        learned_curve(curve, learned), learned_circuit(circuit, learned, standing=True), epanet.NU
    )
    entered = tuple(
        (
            bore,
            length * learned.losses[one.key],
            k * learned.losses[one.key] + learned.valves[one.key],
            lift + learned.lifts[one.key],
        )
        for (bore, length, k, lift), one in zip(branches, circuit.branches, strict=True)
    )
    net = epanet.network(entered, head * learned.head, most * learned.flow)
    found = wntr.sim.EpanetSimulator(net).run_sim(file_prefix=str(tmp_path / "net"))
    flows = found.link["flowrate"].iloc[0]
    for one in ours.branches:
        assert one.flow == pytest.approx(float(flows[one.key]), rel=0.01)
