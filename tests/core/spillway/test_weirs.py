"""Weir formulas: against a general-purpose library, and as physics would have them."""

from collections.abc import Callable

import pytest
from fluids.open_flow import (
    Q_weir_rectangular_full_Ackers,
    Q_weir_rectangular_full_Kindsvater_Carter,
    Q_weir_rectangular_full_Rehbock,
    Q_weir_rectangular_Kindsvater_Carter,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.spillway.weirs import (
    WeirFlow,
    kindsvater_carter_coefficient,
    weir_flow_ackers,
    weir_flow_contracted,
    weir_flow_francis,
    weir_flow_kindsvater_carter,
    weir_flow_rehbock,
)

HEADS = st.floats(0.001, 1.0)
WIDTHS = st.floats(0.05, 10.0)
CRESTS = st.floats(0.01, 5.0)
Formula = Callable[[float, float, float], WeirFlow]
FULL_WIDTH: dict[Formula, Callable[[float, float, float], float]] = {
    weir_flow_rehbock: Q_weir_rectangular_full_Rehbock,
    weir_flow_kindsvater_carter: Q_weir_rectangular_full_Kindsvater_Carter,
    weir_flow_ackers: Q_weir_rectangular_full_Ackers,
}


@pytest.mark.parametrize("formula", FULL_WIDTH, ids=lambda f: f.__name__)
@settings(max_examples=40)
@given(head=HEADS, width=WIDTHS, crest=CRESTS)
def test_as_the_library_has_it(formula: Formula, head: float, width: float, crest: float) -> None:
    found = formula(head, width, crest).flow
    assert found == pytest.approx(FULL_WIDTH[formula](head, crest, width), rel=1e-12)


@pytest.mark.parametrize("formula", FULL_WIDTH, ids=lambda f: f.__name__)
@settings(max_examples=30)
@given(head=HEADS, width=WIDTHS, crest=CRESTS)
def test_rises_with_head_and_width_and_falls_with_the_crest(
    formula: Formula, head: float, width: float, crest: float
) -> None:
    flow = formula(head, width, crest).flow
    assert formula(1.01 * head, width, crest).flow > flow
    assert formula(head, 1.01 * width, crest).flow > flow
    assert formula(head, width, 1.01 * crest).flow < flow


@settings(max_examples=40)
@given(head=HEADS, width=WIDTHS, crest=CRESTS)
def test_a_contracted_lip_as_the_library_has_it(head: float, width: float, crest: float) -> None:
    found = weir_flow_contracted(head, width, crest)
    expected = Q_weir_rectangular_Kindsvater_Carter(head, crest, width)
    assert found.flow == pytest.approx(expected, rel=1e-12)
    if head < 0.03:
        assert found.warnings


@settings(max_examples=40)
@given(head=st.floats(0.061, 0.3), width=st.floats(1.0, 5.0))
def test_published_formulas_agree_where_all_of_them_hold(head: float, width: float) -> None:
    flows = [formula(head, width, 2.0).flow for formula in FULL_WIDTH]
    flows.append(weir_flow_francis(head, width, 0).flow)
    assert max(flows) / min(flows) < 1.05


def test_ends_that_draw_in_cost_flow() -> None:
    flows = [weir_flow_francis(0.1, 1.0, ends).flow for ends in (0, 1, 2)]
    assert flows == sorted(flows, reverse=True)


def test_a_narrow_lip_rises_less_with_its_head() -> None:
    assert kindsvater_carter_coefficient(0.5, 0.85) == pytest.approx(
        0.5 * (kindsvater_carter_coefficient(0.5, 0.8) + kindsvater_carter_coefficient(0.5, 0.9))
    )
    assert kindsvater_carter_coefficient(1.0, 0.3) < kindsvater_carter_coefficient(1.0, 1.0)


@pytest.mark.parametrize("formula", FULL_WIDTH, ids=lambda f: f.__name__)
def test_warns_outside_its_range_and_not_inside(formula: Formula) -> None:
    assert formula(0.1, 1.0, 0.5).warnings == ()
    thin = formula(0.01, 0.1, 0.05).warnings
    assert len(thin) == 3
    assert "from" in str(thin[0])
    assert "up to" in str(formula(0.6, 1.0, 0.2).warnings[-1])


def test_francis_warns() -> None:
    assert len(weir_flow_francis(0.02, 0.05, 2).warnings) == 2
    assert weir_flow_francis(0.1, 1.0, 2).warnings == ()


def test_steps_hold_the_answer() -> None:
    found = weir_flow_rehbock(0.02, 0.5, 0.1)
    (step,) = found.steps()
    assert step.result.value == found.flow
    assert [term.symbol for term in step.inputs] == ["h", "b", "P"]


@pytest.mark.parametrize("formula", [*FULL_WIDTH, weir_flow_contracted], ids=lambda f: f.__name__)
@pytest.mark.parametrize(
    "wrong", [(0.0, 1.0, 1.0), (3.0, 1.0, 1.0), (0.1, 0.0, 1.0), (0.1, 1.0, 0.0),
              (float("nan"), 1.0, 1.0)],
)  # fmt: skip
def test_refuses(formula: Formula, wrong: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        formula(*wrong)


def test_refuses_what_the_others_do_not_know() -> None:
    with pytest.raises(OutOfRange):
        weir_flow_francis(0.1, 1.0, 3)
    with pytest.raises(OutOfRange):
        weir_flow_francis(1.0, 0.1, 2)
    with pytest.raises(OutOfRange):
        kindsvater_carter_coefficient(0.1, 0.1)
    with pytest.raises(OutOfRange):
        kindsvater_carter_coefficient(3.0, 1.0)
