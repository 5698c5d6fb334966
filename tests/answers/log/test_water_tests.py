import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import BARE as POND

from pondapp import units
from pondapp.answers.care.severity import WORST_FIRST
from pondapp.answers.log.water_tests import read_test
from pondapp.models.entry import WaterTest
from pondapp.models.pond import Pond


def told(test: WaterTest, pond: Pond = POND) -> list[str]:
    return [units.tell(remark.sentence, "metric") for remark in read_test(test, pond).remarks]


def test_toxic_share_of_ammonia_as_printed() -> None:
    # Emerson et al.: 25 °C, pH 8.0 gives 5.38 %.
    found = read_test(WaterTest(temperature_c=25, ph=8.0, total_ammonia_kg_m3=1e-3), POND)
    assert found.toxic == pytest.approx(0.0538e-3, abs=2e-7)
    assert not found.good
    assert found.steps


def test_oxygen_share_minds_altitude_and_salt() -> None:
    test = WaterTest(temperature_c=20, oxygen_kg_m3=9.09e-3)
    low = read_test(test, POND)
    assert low.oxygen_share == pytest.approx(1.0, abs=0.002)
    high = read_test(test, POND.model_copy(update={"altitude_m": 1500.0}))
    salty = read_test(test.model_copy(update={"salt_kg_m3": 5.0}), POND)
    assert high.oxygen_share is not None
    assert high.oxygen_share > 1.15
    assert salty.oxygen_share is not None
    assert 1.02 < salty.oxygen_share < 1.04


def test_what_is_off_comes_first_and_in_the_reader_s_units() -> None:
    lines = told(
        WaterTest(ph=9.2, nitrite_kg_m3=1e-3, carbonate_hardness_kg_m3=0.035, oxygen_kg_m3=8e-3)
    )
    assert any(line.startswith("pH 9.2 is high") for line in lines)
    assert any(line.startswith("Nitrite is 1 mg/L, above 0.2 mg/L") for line in lines)
    assert any(line.startswith("Carbonate hardness is 1.96 °dH, below 3.92 °dH") for line in lines)
    assert lines[-1].startswith("Worked out with 18 °C")


def test_ammonia_without_ph_is_not_known_and_never_right() -> None:
    found = read_test(WaterTest(total_ammonia_kg_m3=1e-3), POND)
    assert [remark.severity for remark in found.remarks] == ["unknown"]
    assert told(WaterTest(total_ammonia_kg_m3=1e-3)) == [
        "The pH is missing: how toxic 1 mg/L of ammonia is cannot be told. Read the pH too."
    ]
    # 20 mg/L: even at pH 6.8 some 0.2 % of it is un-ionised at 18 °C, twice the limit.
    much = read_test(WaterTest(total_ammonia_kg_m3=20e-3), POND).remarks[0]
    assert much.severity == "danger"
    assert "even at pH 6.8" in str(much.sentence)


def test_ammonia_without_temperature_is_not_known_where_warm_water_makes_it_toxic() -> None:
    # At pH 8: 3.3 % of it at 18 °C and 5.7 % at 26 °C, by Emerson et al.
    def severities(total: float) -> list[str]:
        test = WaterTest(total_ammonia_kg_m3=total, ph=8.0)
        return [one.severity for one in read_test(test, POND).remarks if one.key == "ammonia"]

    assert severities(0.3e-3) == ["right"]
    assert severities(0.5e-3) == ["unknown"]
    assert severities(0.8e-3) == ["danger"]


@pytest.mark.parametrize(
    ("test", "severity"),
    [
        (WaterTest(total_ammonia_kg_m3=2e-3, ph=8.6, temperature_c=25), "danger"),
        (WaterTest(nitrite_kg_m3=0.3e-3), "wrong"),
        (WaterTest(nitrite_kg_m3=1.2e-3), "danger"),
        (WaterTest(oxygen_kg_m3=5e-3), "wrong"),
        (WaterTest(oxygen_kg_m3=3e-3), "danger"),
        (WaterTest(ph=6.5), "wrong"),
        (WaterTest(ph=5.5), "danger"),
        (WaterTest(ph=9.0), "wrong"),
        (WaterTest(ph=10.0), "danger"),
        (WaterTest(salt_kg_m3=6.0), "danger"),
        (WaterTest(temperature_c=29), "wrong"),
        (WaterTest(temperature_c=32), "wrong"),
        (WaterTest(temperature_c=32.5), "danger"),
        (WaterTest(temperature_c=38), "danger"),
        (WaterTest(temperature_c=45), "danger"),
        (WaterTest(nitrate_kg_m3=0.08), "wrong"),
        (WaterTest(ph=7.6, nitrite_kg_m3=0.0), "right"),
    ],
)
def test_how_bad_a_value_is(test: WaterTest, severity: str) -> None:
    remarks = read_test(test, POND).remarks
    assert (
        min((one.severity for one in remarks), key=WORST_FIRST.index, default="right") == severity
    )


def test_good_water_is_let_alone() -> None:
    found = read_test(WaterTest(ph=7.6, nitrite_kg_m3=0.0, nitrate_kg_m3=0.02), POND)
    assert found.good
    assert found.remarks == ()


values = st.none() | st.floats(0, 1)


@settings(max_examples=60)
@given(
    st.none() | st.floats(-2, 45), st.none() | st.floats(0, 14), values, values, values, values,
    st.none() | st.floats(0, 400),
)  # fmt: skip
def test_no_test_that_can_be_written_fails(
    warmth: float | None, ph: float | None, ammonia: float | None, nitrite: float | None,
    oxygen: float | None, hardness: float | None, salt: float | None,
) -> None:  # fmt: skip
    test = WaterTest(
        temperature_c=warmth, ph=ph, total_ammonia_kg_m3=ammonia, nitrite_kg_m3=nitrite,
        nitrate_kg_m3=0.0, oxygen_kg_m3=oxygen, carbonate_hardness_kg_m3=hardness, salt_kg_m3=salt,
    )  # fmt: skip
    found = read_test(test, POND)
    assert all("{" not in line for line in told(test))
    goods = [remark.good for remark in found.remarks]
    assert goods == sorted(goods)
    if found.toxic is not None:
        assert 0 <= found.toxic <= ammonia
