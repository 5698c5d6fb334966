"""The planner's least flow against a general-purpose linear programme."""

import pytest
from hypothesis import given, settings
from random_circuits import UNIT, circuits
from scipy.optimize import linprog

from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.model import Circuit
from pondapp.core.circuit.planner import plan_circuit


def least_mean(circuit: Circuit) -> float | None:
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
            low = max((w.low for w in branch.wants if w.name not in branch.bypass), default=0.0)
            highs = [w.high for w in branch.wants if w.name not in branch.bypass and w.high]
            if highs and min(highs) < low - UNIT / 2:
                return None
            bounds.append((low / UNIT, min(highs) / UNIT if highs else None))
            for want in branch.wants:
                if want.name in branch.bypass:
                    rows.append({len(cost): 1.0, run: -1.0})  # no more than the branch has
                    limits.append(0.0)
                    cost.append(0.0)
                    bounds.append((want.low / UNIT, want.high / UNIT if want.high else None))
        if pump.most is not None:
            rows.append(dict.fromkeys(own, 1.0))
            limits.append(pump.most / UNIT)
    rows.append({index: -duty for index, duty in enumerate(cost)})
    limits.append(-circuit.turnover / UNIT)
    matrix = [[row.get(column, 0.0) for column in range(len(cost))] for row in rows]
    found = linprog(cost, A_ub=matrix, b_ub=limits, bounds=bounds)
    assert found.status in (0, 2)
    return float(found.fun) if found.status == 0 else None


@pytest.mark.published
@settings(max_examples=200)
@given(circuits())
def test_least_flow_agrees_with_a_linear_programme(circuit: Circuit) -> None:
    expected = least_mean(circuit)
    answer = plan_circuit(circuit)
    if expected is None:
        assert not isinstance(answer, Plan)
    else:
        assert isinstance(answer, Plan)
        assert answer.daily_mean / UNIT == pytest.approx(expected, rel=1e-7, abs=1e-7)
