"""A verdict looks as bad as it is: in the colours that its severity has on every screen."""

from typing import Any

import pytest
from drawn import TUB, _below

from pondapp.answers.measuring.flow import FlowBand, measured
from pondapp.models.reading import Fill
from pondapp.ui.parts.answers import flow_card
from pondapp.ui.shell import theme

BAND = FlowBand(low=0.25e-3, target=0.333e-3, high=0.417e-3)


@pytest.mark.usefixtures("screen")
@pytest.mark.parametrize(
    ("times", "severity"),
    [
        ((30.0, 30.1, 29.9), "right"),
        ((10.0, 10.1), "wrong"),
        ((90.0, 90.1), "wrong"),
        ((24.0,), "unknown"),
    ],
)
def test_a_verdict_has_the_colours_of_its_severity(times: tuple[float, ...], severity: Any) -> None:
    found = measured(TUB, [Fill(seconds=time) for time in times], BAND)
    assert found is not None
    assert found.severity == severity
    grounds = [getattr(one, "bgcolor", None) for one in _below(flow_card(found, "metric"))]
    assert theme.SEVERITY[severity][0] in grounds
    others = {theme.SEVERITY[one][0] for one in theme.SEVERITY if one != severity}
    assert not others & set(grounds)
