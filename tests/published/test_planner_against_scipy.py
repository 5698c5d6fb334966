"""The plans for least, for good and for a mixture, against a linear programme and a grid."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from random_circuits import UNIT, circuits
from scipy.optimize import linprog

from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.model import Aim, DemandCircuit
from pondapp.core.circuit.planner import plan_circuit


def least_mean(circuit: DemandCircuit) -> float | None:
    """Least mean flow of the day in units, or None: one variable per branch and bypassed thing."""
    cost: list[float] = []
    bounds: list[tuple[float, float | None]] = []
    rows: list[dict[int, float]] = []
    limits: list[float] = []
    for pump in circuit.pumps:
        own = []
        for branch in pump.branches:
            run = len(cost)
            own.append(run)
            cost.append(pump.duty)
            low = max((w.asked for w in branch.demands if w.key not in branch.bypass), default=0.0)
            highs = [w.high for w in branch.demands if w.key not in branch.bypass and w.high]
            if highs and min(highs) < low - UNIT / 2:
                return None
            bounds.append((low / UNIT, min(highs) / UNIT if highs else None))
            for demand in branch.demands:
                if demand.key in branch.bypass:
                    rows.append({len(cost): 1.0, run: -1.0})  # no more than the branch has
                    limits.append(0.0)
                    cost.append(0.0)
                    bounds.append(
                        (demand.asked / UNIT, demand.high / UNIT if demand.high else None)
                    )
        if pump.most is not None:
            rows.append(dict.fromkeys(own, 1.0))
            limits.append(pump.most / UNIT)
    rows.append({index: -duty for index, duty in enumerate(cost)})
    limits.append(-circuit.turnover / UNIT)
    matrix = [[row.get(column, 0.0) for column in range(len(cost))] for row in rows]
    found = linprog(cost, A_ub=matrix, b_ub=limits, bounds=bounds)
    assert found.status in (0, 2)
    return float(found.fun) if found.status == 0 else None


def aimed(circuit: DemandCircuit, aim: Aim | None) -> DemandCircuit:
    """The circuit with one aim for everything, or with the aims that it has."""
    if aim is None:
        return circuit
    pumps = []
    for pump in circuit.pumps:
        branches = []
        for branch in pump.branches:
            demands = tuple(replace(demand, aim=aim) for demand in branch.demands)
            branches.append(replace(branch, demands=demands))
        pumps.append(replace(pump, branches=tuple(branches)))
    return replace(circuit, pumps=tuple(pumps))


def least_on_a_grid(circuit: DemandCircuit, greatest: int) -> float | None:
    """Least mean flow of the day in units, by trying every whole flow in every branch."""
    branches = [(pump, branch) for pump in circuit.pumps for branch in pump.branches]
    means = []
    for flows in product(range(greatest + 1), repeat=len(branches)):
        per_pump = dict.fromkeys((pump.key for pump in circuit.pumps), 0)
        fits, mean = True, 0.0
        for (pump, branch), flow in zip(branches, flows, strict=True):
            per_pump[pump.key] += flow
            mean += pump.duty * flow
            for demand in branch.demands:
                # A thing with a way round takes any part of the branch's flow, else all of it.
                most = flow * UNIT if demand.high is None else demand.high
                if demand.key in branch.bypass:
                    fits = fits and demand.asked <= min(most, flow * UNIT) + UNIT / 10
                else:
                    fits = fits and demand.asked - UNIT / 10 <= flow * UNIT <= most + UNIT / 10
        for pump in circuit.pumps:
            fits = fits and (pump.most is None or per_pump[pump.key] <= pump.most / UNIT + 0.1)
        if fits and mean >= circuit.turnover / UNIT - 0.1:
            means.append(mean)
    return min(means, default=None)


@pytest.mark.published
@settings(max_examples=200)
@given(circuits())
@pytest.mark.parametrize("aim", ["least", "good", None])
def test_each_plan_agrees_with_a_linear_programme(aim: Aim | None, circuit: DemandCircuit) -> None:
    asked = aimed(circuit, aim)
    expected, answer = least_mean(asked), plan_circuit(asked)
    if expected is None:
        assert not isinstance(answer, Plan)
    else:
        assert isinstance(answer, Plan)
        assert answer.daily_mean / UNIT == pytest.approx(expected, rel=1e-7, abs=1e-7)


@pytest.mark.published
@settings(max_examples=60)
@given(circuits(branches=2, greatest=8))
@pytest.mark.parametrize("aim", ["least", "good", None])
def test_each_plan_agrees_with_trying_every_flow(aim: Aim | None, circuit: DemandCircuit) -> None:
    asked = aimed(circuit, aim)
    expected, answer = least_on_a_grid(asked, 26), plan_circuit(asked)
    if expected is None:
        assert not isinstance(answer, Plan)
    else:
        assert isinstance(answer, Plan)
        assert answer.daily_mean / UNIT == pytest.approx(expected)


@pytest.mark.published
@settings(max_examples=200)
@given(circuits())
def test_good_never_takes_less_than_least(circuit: DemandCircuit) -> None:
    least, good = (plan_circuit(aimed(circuit, aim)) for aim in ("least", "good"))
    if isinstance(good, Plan):
        assert isinstance(least, Plan)
        assert good.daily_mean >= least.daily_mean * (1 - 1e-9)
