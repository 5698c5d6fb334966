"""The weir formula: against a general-purpose library, and as physics would have it."""

import pytest
from fluids.open_flow import Q_weir_rectangular_full_Rehbock
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.spillway.weirs import weir_flow_rehbock

HEADS = st.floats(0.001, 1.0)
WIDTHS = st.floats(0.05, 10.0)
CRESTS = st.floats(0.01, 5.0)


@settings(max_examples=40)
@given(head=HEADS, width=WIDTHS, crest=CRESTS)
def test_as_the_library_has_it(head: float, width: float, crest: float) -> None:
    found = weir_flow_rehbock(head, width, crest).flow
    assert found == pytest.approx(Q_weir_rectangular_full_Rehbock(head, crest, width), rel=1e-12)


@settings(max_examples=30)
@given(head=HEADS, width=WIDTHS, crest=CRESTS)
def test_rises_with_head_and_width_and_falls_with_the_crest(
    head: float, width: float, crest: float
) -> None:
    flow = weir_flow_rehbock(head, width, crest).flow
    assert weir_flow_rehbock(1.01 * head, width, crest).flow > flow
    assert weir_flow_rehbock(head, 1.01 * width, crest).flow > flow
    assert weir_flow_rehbock(head, width, 1.01 * crest).flow < flow


def test_warns_outside_its_range_and_not_inside() -> None:
    assert weir_flow_rehbock(0.1, 1.0, 0.5).warnings == ()
    thin = weir_flow_rehbock(0.01, 0.1, 0.05).warnings
    assert len(thin) == 3
    assert "from" in str(thin[0])
    assert "up to" in str(weir_flow_rehbock(0.6, 1.0, 0.2).warnings[-1])


def test_steps_hold_the_answer() -> None:
    found = weir_flow_rehbock(0.02, 0.5, 0.1)
    (step,) = found.steps()
    assert step.result.value == found.flow
    assert [term.symbol for term in step.inputs] == ["h", "b", "P"]


@pytest.mark.parametrize(
    "wrong", [(0.0, 1.0, 1.0), (3.0, 1.0, 1.0), (0.1, 0.0, 1.0), (0.1, 1.0, 0.0),
              (float("nan"), 1.0, 1.0)],
)  # fmt: skip
def test_refuses(wrong: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        weir_flow_rehbock(*wrong)
