"""What a pump really delivers where it stands: with its hose, and not by its lift alone."""

import pytest
from ponds import LPH, invented

from pondapp.answers.plumbing.network import network_of
from pondapp.answers.pumps.pump_reach import most_at_lift, operating_flow
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.models.circuit import Branch, Line, Pipe, Pump

POND = invented(volume=5.0)
STRONG = Pump(id="a", name="A", max_flow_m3_s=10000 * LPH, max_head_m=5.0)
FLOWS = {"b": 5000 * LPH}


def line(size: str, lift: float = 0.5) -> Line:
    pipe = Pipe(series="hose, mm", size=size, length_m=5.0)
    return Line(id="l", name="P", branches=(Branch(id="b", name="B", lift_m=lift, pipe=pipe),))


def test_a_thin_hose_takes_what_the_lift_alone_would_leave() -> None:
    """5 m of 13 mm hose: a pump of 10000 L/h and 5 m gives less than a third of 5000 L/h."""
    thin = operating_flow(network_of(POND, line("13 mm"), FLOWS), STRONG)
    assert thin is not None
    assert 1200 * LPH < thin < 1500 * LPH
    assert most_at_lift(STRONG, 0.5) == pytest.approx(10000 * LPH * 0.9 ** (1 / 1.5))
    # What it gives lies on its curve and on that of the hose at once.
    network = network_of(POND, line("13 mm"), FLOWS)
    run = network.circuit.branches[0].run
    head = 0.5 + run.loss(thin, network.viscosity)
    assert LabelCurve(5.0, 10000 * LPH).head_at(thin) == pytest.approx(head)


def test_a_wide_hose_leaves_nearly_all() -> None:
    wide = operating_flow(network_of(POND, line("50 mm"), FLOWS), STRONG)
    assert wide is not None
    assert 5000 * LPH < wide < (most_at_lift(STRONG, 0.5) or 0.0)


def test_too_high_and_not_known() -> None:
    assert operating_flow(network_of(POND, line("50 mm", 6.0), FLOWS), STRONG) == 0.0
    assert operating_flow(network_of(POND, line("50 mm"), FLOWS), Pump(id="b", name="B")) is None


def test_a_printed_curve_that_ends_gives_at_least_its_end() -> None:
    points = ((0.0, 6.0), (2000 * LPH, 5.5), (4000 * LPH, 4.8))
    printed = Pump(id="c", name="C", points=points)
    assert operating_flow(network_of(POND, line("50 mm"), FLOWS), printed) == pytest.approx(
        4000 * LPH
    )
