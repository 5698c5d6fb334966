"""Speed of the core beside general-purpose libraries: `python tests/bench/core.py`.

Contenders take turns within one run; each figure is the median of many turns. With `--no-browser`
the browser's Python is left out.
"""

import argparse
import math
import sys
import tempfile
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parent.parent / "published"))

import epanet
import fluids
import in_browser
import numpy
import scipy.optimize
import whole_pond

from pondapp.core.base.constants import GRAVITY
from pondapp.core.circuit import model as plan_model
from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.planner import plan_circuit
from pondapp.core.hydraulics.friction import friction_factor
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run

HOUR = 1.0 / 3600.0  # m3/s in m3/h
TURNS = 25
BATCH = 0.01  # s; long beside the clock's grain, short beside other programs' bursts
AIM_DESKTOP, AIM_BROWSER = 5.0, 50.0  # ms for a whole pond

Contender = tuple[str, Callable[[], object]]


def seconds_each(work: Callable[[], object], count: int) -> float:
    """Time of one call within a batch."""
    start = perf_counter()
    for _ in range(count):
        work()
    return (perf_counter() - start) / count


def race(title: str, *contenders: Contender) -> list[float]:
    """Let contenders take turns; print the median time of each and how it stands to the first."""
    counts = []
    for _, work in contenders:
        work()
        counts.append(max(1, int(BATCH / max(seconds_each(work, 3), 1e-7))))
    turns = [
        [seconds_each(work, count) for (_, work), count in zip(contenders, counts, strict=True)]
        for _ in range(TURNS)
    ]
    print(f"\n{title}")
    ratios = []
    for column, (name, _) in enumerate(contenders):
        time = median(turn[column] for turn in turns)
        ratio = median(turn[column] / turn[0] for turn in turns)
        ratios.append(ratio)
        print(f"  {name:<58}{1e6 * time:>10.2f} us{'' if column == 0 else f'{ratio:>9.1f} x'}")
    return ratios


def circling(values: list[tuple[float, ...]]) -> Callable[[], tuple[float, ...]]:
    """Different arguments for each call, so that nobody profits from a kept answer."""

    def forever() -> Iterator[tuple[float, ...]]:
        while True:
            yield from values

    return forever().__next__


def friction() -> None:
    """One friction factor of turbulent flow."""
    points = [
        (10.0 ** (3.7 + 0.02 * n), 1e-5 * (1 + n % 7) ** 3) for n in range(100)
    ]  # 5000 to 480000; 1e-5 to 3.4e-3
    ours, theirs, scipys, nothing = (circling(points) for _ in range(4))

    def by_scipy() -> float:
        reynolds, rough = scipys()

        def excess(x: float) -> float:
            return x + 2.0 * math.log10(rough / 3.7 + 2.51 * x / reynolds)

        return float(scipy.optimize.brentq(excess, 1.0, 50.0, xtol=1e-13)) ** -2

    race(
        "friction factor, turbulent",
        ("pondapp, ranges checked", lambda: friction_factor(*ours())),
        ("fluids.friction_factor", lambda: fluids.friction_factor(*theirs())),
        ("scipy brentq on Colebrook", by_scipy),
        ("an empty call, for scale", nothing),
    )


def hose() -> None:
    """A pump on one hose: where they settle."""
    bore, length, k, lift, head, most = 0.0381, 6.0, 3.0, 1.0, 5.0, 12.0 * HOUR

    def ours() -> float:
        circuit = PipeNetwork(None, (Outlet("end", Run(length, bore, 4e-5, k), lift),))
        return operating_point(LabelCurve(head, most, 2.0), circuit, epanet.NU).flow

    circuit = PipeNetwork(None, (Outlet("end", Run(length, bore, 4e-5, k), lift),))
    curve = LabelCurve(head, most, 2.0)

    def excess(flow: float) -> float:
        speed = 4.0 * flow / (math.pi * bore**2)
        f = fluids.friction_factor(Re=speed * bore / epanet.NU, eD=4e-5)
        lost = (f * length / bore + k) * speed**2 / (2.0 * GRAVITY)
        return head * (1.0 - (flow / most) ** 2) - lift - lost

    def theirs() -> float:
        return float(scipy.optimize.brentq(excess, 1e-6, most, xtol=1e-14))

    if not math.isclose(ours(), theirs(), rel_tol=1e-9):
        raise SystemExit("the operating points differ")
    race(
        "pump on one hose",
        (
            "pondapp, with velocity, heads and warnings",
            lambda: operating_point(curve, circuit, epanet.NU),
        ),
        ("fluids.friction_factor and scipy brentq, flow alone", theirs),
        ("pondapp, the circuit made and checked each time too", ours),
    )


BRANCHES = ((0.04, 6.0, 3.0, 0.8), (0.032, 4.0, 5.0, 0.4), (0.025, 8.0, 2.0, 0.2))
HEAD, MOST = 5.0, 12.0 * HOUR


def three_branches() -> None:
    """A pump, a main run and three branches, against EPANET."""
    with warnings.catch_warnings():  # its dependencies are deprecated
        warnings.simplefilter("ignore")
        import wntr
        from wntr.epanet.toolkit import ENepanet
    net = epanet.network(BRANCHES, HEAD, MOST)
    circuit, curve = epanet.circuit(BRANCHES, HEAD, MOST)
    with tempfile.TemporaryDirectory() as folder, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        prefix = str(Path(folder) / "net")

        def by_wntr() -> float:
            results = wntr.sim.EpanetSimulator(net).run_sim(file_prefix=prefix)
            return float(results.link["flowrate"].iloc[0]["pump"])

        if not math.isclose(
            by_wntr(), operating_point(curve, circuit, epanet.NU).flow, rel_tol=0.01
        ):
            raise SystemExit("the three-branch circuits differ")
        engine, other = ENepanet(), ENepanet()
        engine.ENopen(f"{prefix}.inp", f"{prefix}.rpt", f"{prefix}.bin")

        def solve(used: ENepanet) -> None:
            used.ENopenH()
            used.ENinitH(10)  # from fresh flows, nothing saved
            used.ENrunH()
            used.ENcloseH()

        def by_files() -> None:
            other.ENopen(f"{prefix}.inp", f"{prefix}.rpt", f"{prefix}.bin")
            solve(other)
            other.ENclose()

        race(
            "pump, main run and three branches",
            ("pondapp, with velocities, heads and warnings", lambda: operating_point(
                curve, circuit, epanet.NU)),
            ("wntr run_sim: input written, EPANET run, results read", by_wntr),
            ("EPANET alone: input read from file, solved once", by_files),
            ("EPANET alone: network in memory, solved once (compiled C)", lambda: solve(engine)),
        )  # fmt: skip
        engine.ENclose()


def planner() -> None:
    """The least flow for three branches, one with a way round, against a linear programme."""
    litres = 1e-3 * HOUR  # m3/s in L/h
    lows, highs = (1000, 4000, 3000), (3000, 9000, 8000)
    demands = [
        plan_model.FlowDemand(name, low * litres, high * litres, 0.5 * (low + high) * litres)
        for name, low, high in zip(("bog", "box", "lip"), lows, highs, strict=True)
    ]
    circuit = plan_model.DemandCircuit(
        (
            plan_model.DemandPump(
                "pump",
                tuple(
                    plan_model.DemandBranch(w.key, (w,), ("bog",) if w.key == "bog" else ())
                    for w in demands
                ),
                20000 * litres,
            ),
        ),
        10000 * litres,
    )
    # Flow in three branches and through the bog; through the bog no more than its branch has.
    cost = numpy.array([1.0, 1.0, 1.0, 0.0])
    rows = numpy.array([[-1.0, 0, 0, 1], [1, 1, 1, 0], [-1, -1, -1, 0]])
    limits = numpy.array([0.0, 20000.0, -10000.0])
    bounds = [(0.0, None), (4000.0, 9000.0), (3000.0, 8000.0), (1000.0, 3000.0)]

    def by_scipy() -> float:
        return float(scipy.optimize.linprog(cost, A_ub=rows, b_ub=limits, bounds=bounds).fun)

    found = plan_circuit(circuit)
    if not isinstance(found, Plan) or not math.isclose(
        found.daily_mean / litres, by_scipy(), rel_tol=1e-7
    ):
        raise SystemExit("the plans differ")
    race(
        "least flow for three branches",
        ("pondapp, with every flow and the reason", lambda: plan_circuit(circuit)),
        ("scipy linprog (HiGHS), its matrices made beforehand", by_scipy),
    )


def whole(browser: bool) -> None:
    """Everything the screens show of one pond."""
    turns = 60
    places = {"CPython": (whole_pond.report(turns), AIM_DESKTOP)}
    if browser:
        places["browser"] = (in_browser.report(turns), AIM_BROWSER)
    print(f"\neverything the screens show of one pond, ms{''.join(f'{p:>12}' for p in places)}")
    for name in places["CPython"][0]:
        print(f"  {name:<41}{''.join(f'{found[name]:>12.2f}' for found, _ in places.values())}")
    print(f"  {'aim for the whole pond':<41}{''.join(f'{a:>12.2f}' for _, a in places.values())}")


def main() -> None:
    """Print all tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--no-browser", action="store_true")
    chosen = parser.parse_args()
    print(f"Python {sys.version.split()[0]}; median of {TURNS} turns; x: times as long as pondapp")
    friction()
    hose()
    three_branches()
    planner()
    whole(not chosen.no_browser)


if __name__ == "__main__":
    main()
