"""What a water change takes and does, by hand, and what is not known stays said."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.keeping.water_change import (
    ChangeAsked,
    goal_of,
    water_change,
    worst_of,
)
from pondapp.answers.keeping.water_now import water_now
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Message
from pondapp.core.dosing.water_change import WaterChange
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0))
WORKED = WorkedPond(POND)
ASKED = ChangeAsked(water=1.0, temperature=295.15)
NOW = datetime(2026, 7, 1, 12, tzinfo=UTC)


def test_share_time_warmth_and_salt_by_hand() -> None:
    asked = replace(ASKED, tap_temperature=285.15, hose=1.2 / 3600.0, pond={"salt_level": 2.0})
    found = water_change(WORKED, asked)
    assert found.share == pytest.approx(0.2)
    assert found.minutes == pytest.approx(3000.0)  # 1000 L at 1200 L/h
    assert found.temperature == pytest.approx(293.15)
    assert found.warmer == pytest.approx(-2.0)
    assert found.salt == pytest.approx(2.0)  # 1 m³ with 2 kg in it goes
    assert found.running_over == pytest.approx(0.1813, abs=1e-4)  # 1 - exp(-0.2)
    assert not found.troubles


def test_what_nobody_entered_is_not_answered() -> None:
    found = water_change(WORKED, ASKED)
    assert (found.temperature, found.salt, found.minutes, found.course) == (None,) * 4
    assert not found.effects


@pytest.mark.parametrize(
    ("treated", "chlorine", "grams", "says"),
    [
        ("chlorine", 0.5e-3, 3.5, ["stands or is stirred"]),
        ("chlorine", None, 28.0, ["not entered", "stands or is stirred"]),
        ("chloramine", 0.5e-3, 3.5, ["ammonia"]),
        ("unknown", None, 28.0, ["counted as chloramine", "not entered", "ammonia"]),
    ],
)
def test_dechlorinator_by_computation(
    treated: str, chlorine: float | None, grams: float, says: list[str]
) -> None:
    asked = replace(ASKED, treated=treated, chlorine=chlorine)  # type: ignore[arg-type]
    binding = water_change(WORKED, asked).binding
    assert binding is not None
    assert binding.mass is not None
    assert 1000.0 * binding.mass == pytest.approx(grams)
    assert binding.least == pytest.approx(binding.mass * 1.9 / 7.0)
    told = " ".join(str(one) for one in binding.remarks)
    assert len(binding.remarks) == len(says)
    assert all(one in told for one in says)


def test_dry_powder_and_vitamin_weigh_less() -> None:
    safe = {}
    for binder in ("crystals", "dry", "vitamin"):
        asked = replace(ASKED, treated="chlorine", chlorine=1e-3, binder=binder)  # type: ignore[arg-type]
        binding = water_change(WORKED, asked).binding
        assert binding is not None
        assert binding.mass is not None
        safe[binder] = 1000.0 * binding.mass
    assert safe["crystals"] == pytest.approx(7.0)
    assert safe["dry"] == pytest.approx(4.46, abs=0.01)
    assert safe["vitamin"] == pytest.approx(2.5)


def test_well_water_needs_none_and_a_product_goes_by_its_label() -> None:
    assert water_change(WORKED, replace(ASKED, treated="none")).binding is None
    label = replace(ASKED, treated="chlorine", binder="label")
    open_yet = water_change(WORKED, label).binding
    assert open_yet is not None
    assert (open_yet.mass, open_yet.product) == (None, None)
    known = replace(label, label_dose=5.0, label_water=0.040)
    for whole, dose in ((False, 125.0), (True, 531.25)):
        binding = water_change(WORKED, replace(known, whole_pond=whole)).binding
        assert binding is not None
        assert binding.product
        assert binding.product.amount == pytest.approx(dose)


def test_too_much_and_too_cold_at_once_are_said() -> None:
    found = water_change(WORKED, replace(ASKED, water=2.0, tap_temperature=283.15))
    told = [str(one) for one in found.troubles]
    assert len(told) == 2
    assert "keep to 30 %" in told[0]
    assert "4.8 warmer" in told[1]  # the unit of a step; screens write degrees
    assert "1.25 m3" in told[1]
    with pytest.raises(OutOfRange, match="more than the 5 m3"):
        water_change(WORKED, replace(ASKED, water=5.1))


def test_effects_and_course() -> None:
    asked = replace(ASKED, pond={"nitrate": 0.080}, tap={"nitrate": 0.010}, goal=0.040)
    found = water_change(WORKED, asked)
    (nitrate,) = found.effects
    assert 1000.0 * nitrate.after == pytest.approx(66.0)
    assert nitrate.fresh_known
    assert isinstance(found.course, WaterChange)
    assert found.course.times == 4
    blind = water_change(WORKED, replace(asked, tap={}))
    assert not blind.effects[0].fresh_known
    refused = water_change(WORKED, replace(asked, tap={"nitrate": 0.045}))
    assert isinstance(refused.course, Message)
    assert "which the fresh water itself holds" in str(refused.course)
    no_less = water_change(WORKED, replace(asked, tap={"nitrate": 0.09}))
    assert "no less than the pond" in str(no_less.course)
    assert water_change(WORKED, replace(asked, goal=0.09)).course is None


def test_chloramine_brings_ammonia_with_it() -> None:
    asked = replace(ASKED, treated="chloramine", chlorine=1e-3, pond={"ammonia": 1e-3})
    (ammonia,) = water_change(WORKED, asked).effects
    assert ammonia.after == pytest.approx(1e-3 + 0.2 * (0.1975e-3 - 1e-3), rel=1e-3)
    (clean,) = water_change(WORKED, replace(asked, treated="none")).effects
    assert clean.after == pytest.approx(0.8e-3)


def test_ammonia_that_is_only_assumed_in_the_tap_discourages_no_change() -> None:
    asked = replace(ASKED, temperature=299.15, ph=8.6, pond={"ammonia": 1e-3}, what="ammonia")
    asked = replace(asked, goal=goal_of("ammonia", asked, WORKED.rules))
    found = water_change(WORKED, asked)
    assert not found.fresh_known
    told = str(found.course)
    assert "if the tap water holds chloramine" in told
    assert "They help all the same" in told
    assert "0.000958 kg/m3 of 0.001 kg/m3" in told
    assert not found.troubles  # this change lowers it
    little = water_change(WORKED, replace(asked, pond={"ammonia": 0.15e-3}))
    assert "no less than the pond holds" in str(little.course)
    assert "if the tap water holds chloramine, it brings ammonia" in str(little.troubles[0])
    well = water_change(WORKED, replace(asked, treated="none"))
    assert isinstance(well.course, WaterChange)


def test_chloramine_is_judged_by_the_ammonia_that_it_leaves() -> None:
    asked = replace(ASKED, water=1.5, temperature=299.15, treated="chloramine", chlorine=4e-3)
    found = water_change(WORKED, replace(asked, ph=8.6))
    (trouble,) = found.troubles
    assert "0.000237 kg/m3 in the pond, and 0.0001026 kg/m3 is the most" in str(trouble)
    assert found.binding is not None
    assert "thiosulfate and vitamin C do not bind it" in str(found.binding.remarks[-1])
    assert not water_change(WORKED, replace(asked, ph=7.0)).troubles
    assert not water_change(WORKED, replace(asked, ph=8.6, treated="chlorine")).troubles
    assert not water_change(WORKED, replace(asked, ph=8.6, chlorine=0.5e-3)).troubles
    # With what is in the pond already, less is too much.
    with_it = replace(asked, ph=8.6, chlorine=1e-3, pond={"ammonia": 0.09e-3})
    assert water_change(WORKED, with_it).troubles
    # Without a pH it is told by a usual one, which it names.
    assert "pH 8 " in str(water_change(WORKED, replace(asked, water=5.0)).troubles[-1])


def test_cold_water_and_too_much_of_it_ask_for_the_smaller_of_two_amounts() -> None:
    found = water_change(WORKED, replace(ASKED, water=5.0, tap_temperature=286.9))
    told = " ".join(str(one) for one in found.troubles)
    assert "keep to 30 %" in told or "keep to 0.3" in told
    assert "change 1.5 m3 at a time" in told


def test_hardness_is_told_in_its_own_unit_where_no_change_reaches_the_goal() -> None:
    asked = replace(ASKED, what="general_hardness", goal=0.2, pond={"general_hardness": 0.4},
                    tap={"general_hardness": 0.3})  # fmt: skip
    course = water_change(WORKED, asked).course
    assert isinstance(course, Message)
    assert course.values["fresh"] == (0.3, "hardness")


def test_soft_tap_water_that_takes_the_hardness_is_said() -> None:
    asked = replace(ASKED, pond={"carbonate_hardness": 0.072}, tap={"carbonate_hardness": 0.02})
    told = [str(one) for one in water_change(WORKED, asked).troubles]
    assert len(told) == 1
    assert "carbonate hardness" in told[0]
    assert not water_change(WORKED, replace(asked, tap={})).troubles
    less = replace(asked, pond={"carbonate_hardness": 0.03})  # too little before it as well
    assert "carbonate hardness falls" in str(water_change(WORKED, less).troubles[0])
    more = replace(asked, pond={"carbonate_hardness": 0.01})
    assert not water_change(WORKED, more).troubles


def test_the_whole_pond_may_be_typed_as_it_is_shown() -> None:
    worked = WorkedPond(POND.model_copy(update={"water": TypedVolume(volume_m3=2.5769)}))
    found = water_change(worked, replace(ASKED, water=2.58, treated="chlorine"))
    assert found.share == 1.0
    assert found.water == pytest.approx(2.5769)
    assert "shock" in str(found.troubles[0])
    with pytest.raises(OutOfRange):
        water_change(worked, replace(ASKED, water=2.6))


def test_the_goal_is_what_suits_the_pond_and_the_worst_is_chosen() -> None:
    rules = WORKED.rules
    asked = replace(ASKED, ph=8.0, pond={"nitrate": 0.06, "nitrite": 0.6e-3})
    assert goal_of("nitrate", asked, rules) == rules.water.nitrate_most
    assert worst_of(asked, rules) == "nitrite"
    assert worst_of(ASKED, rules) == "nitrate"
    assert goal_of("ammonia", ASKED, rules) is None  # without a pH nobody can say
    ammonia = goal_of("ammonia", asked, rules)
    assert ammonia is not None
    assert 1000.0 * ammonia == pytest.approx(0.45, abs=0.05)  # 4.4 % of it is poison at 22 °C


def test_the_water_of_now_is_what_the_log_still_holds() -> None:
    test = WaterTest(temperature_c=21.0, nitrate_kg_m3=0.06)
    entries = [
        Entry(id=f"e{days}", pond_id="p", when=NOW - timedelta(days=days), what=test)
        for days in (-1, 400)
    ]
    assert water_now(POND, entries, NOW).values == {}
    assert water_now(POND, entries, NOW).temperature == pytest.approx(291.15)
    fresh = Entry(id="f", pond_id="p", when=NOW - timedelta(hours=1), what=test)
    known = water_now(POND, [fresh], NOW)
    assert known.tested
    assert known.temperature == pytest.approx(294.15)
    assert known.values["nitrate"] == 0.06
    icy = fresh.model_copy(update={"what": WaterTest(temperature_c=-0.5)})
    assert water_now(POND, [icy], NOW).temperature == pytest.approx(273.15)


@pytest.mark.parametrize(
    ("dose", "water", "unit", "withheld", "said"),
    [(5.0, 0.04, "ml", False, ""), (5.0, 1e-3, "ml", False, "more than pond products ask for"),
     (5.0, 1e-4, "ml", True, "mistyped"), (1.0, 1e3, "tablet", True, "measured out")],
)  # fmt: skip
def test_a_label_is_looked_at_as_for_any_other_dose(
    dose: float, water: float, unit: str, withheld: bool, said: str
) -> None:
    label = replace(ASKED, treated="chlorine", binder="label", dosed_in=unit)
    found = water_change(WORKED, replace(label, label_dose=dose, label_water=water))
    assert found.binding
    assert found.binding.product
    assert found.binding.product.withheld == withheld
    assert said in " ".join(str(one) for one in found.troubles)
    assert bool(said) == bool(found.troubles)
