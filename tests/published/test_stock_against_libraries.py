"""Air and oxygen against general-purpose libraries, over random inputs."""

import gsw
import iapws
import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.stock.air import standard_pressure
from pondapp.core.stock.oxygen import oxygen_saturation


@settings(max_examples=40)
@given(st.floats(-500.0, 5000.0))
def test_air_agrees_with_fluids(altitude: float) -> None:
    assert standard_pressure(altitude) == pytest.approx(ATMOSPHERE_1976(altitude).P, rel=1e-6)


@settings(max_examples=25)
@given(st.floats(0.5, 39.5))
def test_saturation_agrees_with_gsw(celsius: float) -> None:
    # The library fits the same measurements per kg of water, with other coefficients.
    per_kilogram = gsw.O2sol_SP_pt(0.0, celsius) * 1e-6 * 31.9988e-3
    water = iapws.IAPWS95(T=celsius + ZERO_CELSIUS, P=0.101325).rho
    found = oxygen_saturation(celsius + ZERO_CELSIUS)
    assert found == pytest.approx(per_kilogram * water, rel=5e-4)
