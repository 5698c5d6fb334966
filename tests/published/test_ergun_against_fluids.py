"""Loss in a bed against a general-purpose library."""

import fluids.packed_bed
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.filters.bed_loss import pressure_loss_ergun


@pytest.mark.published
@settings(max_examples=60)
@given(
    st.floats(1e-4, 0.2),
    st.floats(0.2, 0.9),
    st.floats(1e-6, 0.5),
    st.floats(0.05, 3.0),
    st.floats(950.0, 1050.0),
    st.floats(5e-4, 2e-3),
)
def test_ergun_agrees_with_an_outside_library(
    dp: float, eps: float, v: float, deep: float, rho: float, mu: float
) -> None:
    assert pressure_loss_ergun(dp, eps, v, deep, rho, mu) == pytest.approx(
        fluids.packed_bed.Ergun(dp=dp, voidage=eps, vs=v, rho=rho, mu=mu, L=deep), rel=1e-12
    )
