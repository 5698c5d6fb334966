"""Logs that do not fit together: what is told of them, and never a narrow interval."""

from collections.abc import Sequence
from datetime import timedelta
from math import isfinite
from random import Random

import pytest
from learning_ponds import NOW

from pondapp import units
from pondapp.answers.learning.page import Told, told_of
from pondapp.answers.learning.predictions import FlowTold
from pondapp.answers.log.log import LogItem
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.entry import Cleaning, Entry, PumpChange
from pondapp.models.pond import Pond
from pondapp.models.reading import Bucket, Container, Fill, FillSet, NothingComes, Reading

LPH = 1.0 / 3.6e6
TUB = Container(id="tub", name="Tub", volume_m3=0.04, tolerance_m3=0.001)
NAMES = {"bog": "Bog filter", "box": "Filter box", "lip": "Slate lip", "line": "Pump"}


def at(place: str, lph: float, hours: float, container: Container = TUB, fills: int = 3) -> Reading:
    """A reading of the example so many hours ago, its fills half a percent apart."""
    seconds = container.volume_m3 / (lph * LPH)
    return Reading(
        id=f"{place}-{round(100 * hours)}-{round(lph)}",
        pond_id=EXAMPLE, place_id=place, place_name=NAMES[place],
        taken_at=NOW - timedelta(hours=hours), band=None,
        method=Bucket(
            container=container,
            fills=tuple(Fill(seconds=seconds * (1.0 + 0.005 * (i % 3 - 1))) for i in range(fills)),
        ),
    )  # fmt: skip


def dry(place: str, hours: float) -> Reading:
    return at(place, 1000.0, hours).model_copy(update={"method": NothingComes()})


def logged(what: Cleaning | PumpChange, hours: float) -> Entry:
    return Entry(
        id=f"e-{round(100 * hours)}", pond_id=EXAMPLE, when=NOW - timedelta(hours=hours), what=what
    )


def told(*log: LogItem, pond: Pond | None = None, turned: float | None = None) -> Told:
    worked = WorkedPond(pond or example_pond())
    turns = {} if turned is None else {"to-fall": NOW - timedelta(hours=turned)}
    return told_of(worked, worked.lines[0], log, turns, NOW)


def flow(flows: Sequence[FlowTold], name: str) -> FlowTold:
    return next(one for one in flows if one.name == name)


def words(found: Told) -> str:
    return "\n".join(units.tell(one, "metric") for one in (*found.misfits, *found.valves))


@pytest.mark.parametrize(("place", "first", "second"), [("box", 6000, 3000), ("bog", 3000, 300)])
def test_two_readings_that_contradict_each_other_leave_open_what_lies_between(
    place: str, first: float, second: float
) -> None:
    found = told(at(place, first, 3), at(place, second, 2))
    now = flow(found.now, NAMES[place])
    assert now.low <= min(first, second) * 1.01 * LPH
    assert now.high >= max(first, second) * 0.99 * LPH
    assert now.open
    assert "Nobody can tell which holds: time it once more." in words(found)
    assert found.next is not None
    assert found.next.place.place_name == NAMES[place]
    for flows in (found.clean, *(flows for _, flows in found.pumps)):
        one = flow(flows, NAMES[place])
        assert one.half > 0.25 * one.flow


def test_a_third_reading_decides_between_the_two() -> None:
    found = told(at("box", 6000, 3), at("box", 3000, 2), at("box", 6060, 1))
    now = flow(found.now, "Filter box")
    assert now.close
    assert now.flow == pytest.approx(6030 * LPH, rel=0.02)
    assert "Filter box, 2026-06-01: 3,000 L/h does not fit the other readings" in words(found)
    other = told(at("box", 6000, 3), at("box", 3000, 2), at("box", 3030, 1))
    now = flow(other.now, "Filter box")
    assert now.flow == pytest.approx(3015 * LPH, rel=0.02)


def test_the_newest_is_never_outvoted() -> None:
    found = told(*(at("box", 6000 + hours, hours) for hours in range(3, 20)), at("box", 3000, 2))
    now = flow(found.now, "Filter box")
    assert now.low <= 3000 * 1.01 * LPH
    assert now.high >= 6000 * 0.99 * LPH


def test_two_of_now_that_agree_say_that_something_changed() -> None:
    found = told(at("box", 6000, 9), at("box", 6050, 8), at("box", 3000, 3), at("box", 3050, 2))
    assert flow(found.now, "Filter box").flow == pytest.approx(3025 * LPH, rel=0.02)
    assert "Something changed in between" in words(found)


def test_more_than_the_pump_can_give_is_told_and_not_fitted() -> None:
    found = told(at("box", 15_000, 3), at("bog", 1700, 2))
    assert "15,000 L/h is more than this pump can give (13,000 L/h at no head)" in words(found)
    assert flow(found.now, "Filter box").high < 12_960 * LPH
    alone = told(at("box", 15_000, 3))
    assert not alone.read
    assert alone.misfits
    assert "more than this pump" not in words(told(at("box", 11_500, 3)))


def test_a_cleaning_after_nothing_but_what_is_left_out_brought_nothing_that_is_told() -> None:
    found = told(
        at("box", 15_800, 720), logged(Cleaning(part="pump"), 482), at("box", 5975, 190),
        at("bog", 1560, 170), at("box", 2990, 48),
    )  # fmt: skip
    assert "more than this pump can give" in words(found)
    assert not any("brought" in one.template for one in found.cleanings)


def test_two_that_are_more_than_the_pump_can_give_together_are_told_as_well() -> None:
    larger = TUB.model_copy(update={"volume_m3": 0.08})  # noted as twice what it holds
    found = told(at("box", 12_000, 3, larger), at("bog", 3400, 2, larger))
    assert "15,400 L/h together is more than this pump can give" in words(found)
    assert not found.read


def test_what_another_pump_gave_is_not_measured_by_this_one() -> None:
    found = told(at("box", 15_000, 30), logged(PumpChange(what="Mid-size pump"), 20))
    assert "more than this pump" not in words(found)


@pytest.mark.parametrize("lph", [1000, 6000, 9000, 12_000, 12_900])
def test_cleaning_makes_no_pump_weaker(lph: float) -> None:
    found = told(at("box", lph, 3))
    for clean, now in zip(found.clean, found.now, strict=True):
        assert clean.flow >= now.flow
        assert clean.low >= now.low
        assert clean.high >= now.high


def test_less_after_a_cleaning_than_before_it_is_told_and_more_is_not() -> None:
    cleaned = logged(Cleaning(part="pump"), 24)
    fell = words(told(at("box", 5600, 48), at("box", 5550, 26), cleaned, at("box", 4000, 2)))
    assert "Filter box: 5,550 L/h came before the cleaning" in fell
    for after in (5500, 5800, 6500):  # the first is less than anybody can tell
        found = told(at("box", 5600, 48), at("box", 5550, 26), cleaned, at("box", after, 2))
        assert "before the cleaning" not in words(found)


def test_a_valve_that_was_turned_with_the_cleaning_explains_that_less_came() -> None:
    cleaned = logged(Cleaning(part="pump"), 24)
    found = told(at("box", 5600, 26), cleaned, at("box", 4000, 2), turned=20)
    assert "before the cleaning" not in words(found)


def test_what_is_old_is_not_told_in_figures_and_never_beyond_what_can_be() -> None:
    found = told(at("box", 6000, 24 * 365), at("bog", 1700, 24 * 365))
    assert not any(one.close for one in found.now)
    for flows in (found.now, found.clean, *(flows for _, flows in found.pumps)):
        for one in flows:
            assert 0.0 <= one.low <= one.flow <= one.high <= 1.0801 * 16_000 * LPH
    assert found.next is not None
    assert not found.next.close


def test_the_only_reading_of_a_place_is_what_is_told_of_it_however_far_off() -> None:
    found = told(at("bog", 300, 3), at("box", 600, 2))
    assert flow(found.now, "Bog filter").flow == pytest.approx(300 * LPH, rel=0.02)
    assert flow(found.now, "Filter box").flow == pytest.approx(600 * LPH, rel=0.02)
    assert "To the bog: these readings only fit if its valve is nearly shut" in words(found)


def without_valves() -> Pond:
    pond = example_pond()
    ends = tuple(one.model_copy(update={"valve": "none"}) for one in pond.lines[0].branches)
    return pond.model_copy(
        update={"lines": (pond.lines[0].model_copy(update={"branches": ends}),)}
    )  # fmt: skip


def test_what_was_entered_is_said_not_to_fit_and_is_trusted_less() -> None:
    fits = told(at("bog", 3100, 3), at("box", 6100, 2), pond=without_valves())
    assert not fits.misfits
    off = told(at("bog", 1500, 3), at("box", 1000, 2), pond=without_valves())
    assert "What was entered does not go with what was read" in words(off)
    assert "Look at" in words(off)
    assert flow(off.now, "Bog filter").flow == pytest.approx(1500 * LPH, rel=0.1)
    ours, others = off.clean[-1], fits.clean[-1]
    assert ours.half / ours.flow > 1.5 * others.half / others.flow


def test_what_is_no_sum_is_called_a_contradiction() -> None:
    found = told(at("line", 9000, 4), at("box", 3000, 3), at("bog", 1000, 2))
    assert "cannot be brought together with the rest" in words(found)
    assert not flow(found.now, "Bog filter").close
    assert not flow(found.now, "Mid-size pump").close


def test_where_no_water_came_last_nothing_is_told_until_it_is_read_again() -> None:
    found = told(at("box", 6000, 5), dry("box", 3), at("bog", 1700, 2))
    assert not flow(found.now, "Filter box").close
    assert not flow(found.now, "Mid-size pump").close
    assert flow(found.now, "Bog filter").close
    assert "no water came" in words(found)
    assert not told(dry("box", 3), at("box", 6000, 2)).misfits


def test_a_valve_that_was_turned_between_explains_it() -> None:
    found = told(at("box", 6000, 5), at("box", 3000, 3), turned=4.0)
    assert not found.misfits
    assert flow(found.now, "Filter box").flow == pytest.approx(3000 * LPH, rel=0.02)
    sets = (FillSet(fills=(Fill(seconds=24.0), Fill(seconds=24.2)), container=TUB,
                    until=NOW - timedelta(hours=3, minutes=4)),)  # fmt: skip
    noted = told(at("box", 3000, 3).model_copy(update={"before_turn": sets}))
    assert not noted.misfits
    assert flow(noted.now, "Filter box").flow == pytest.approx(3000 * LPH, rel=0.02)


def test_a_cleaning_that_brought_ten_times_the_flow_is_not_believed_as_it_stands() -> None:
    found = told(at("box", 600, 50), logged(Cleaning(part="pump"), 40), at("box", 6000, 3))
    assert "What was entered does not go with what was read" in words(found)
    assert flow(found.now, "Filter box").flow == pytest.approx(6000 * LPH, rel=0.05)


def test_one_water_is_told_by_the_place_where_it_was_read_last() -> None:
    assert [one.name for one in told(at("box", 6000, 3)).now][1] == "Filter box"
    assert [one.name for one in told(at("box", 6000, 3), at("lip", 6000, 2)).now][1] == "Slate lip"
    assert [one.name for one in told(at("lip", 6000, 3), dry("box", 2)).now][1] == "Filter box"


def test_what_is_of_the_same_minute_or_of_the_future_breaks_nothing() -> None:
    same = told(at("box", 6000, 3), at("box", 6060, 3), at("bog", 1700, 3))
    assert flow(same.now, "Filter box").close
    ahead = told(at("box", 300, -30), at("bog", 1700, 3))
    assert flow(ahead.now, "Slate lip").flow > 3000 * LPH


def test_sixty_that_scatter_are_not_called_sixty_slips() -> None:
    dice = Random(4)
    log = [
        at("bog" if i % 2 else "box", (1700 if i % 2 else 6000) * dice.gauss(1.0, 0.1), 24.0 * i)
        for i in range(60)
    ]
    found = told(*log)
    assert 1 <= len(found.misfits) <= 4
    assert flow(found.now, "Filter box").half > 0.05 * flow(found.now, "Filter box").flow
    alternating = told(*(at("box", 6000 if i % 2 else 3000, 24.0 * i) for i in range(60)))
    now = flow(alternating.now, "Filter box")
    assert now.low <= 3000 * 1.01 * LPH
    assert now.high >= 5900 * LPH


@pytest.mark.parametrize("times", [1 / 60, 1 / 3.785, 3.785, 60])
def test_a_reading_in_a_wrong_unit_is_never_told_without_a_word(times: float) -> None:
    found = told(at("bog", 1700 * times, 3), at("box", 6000 * times, 2))
    assert words(found)
    assert found.misfits or "nearly shut" in words(found)


@pytest.mark.parametrize("number", range(12))
def test_any_log_is_told_within_what_can_be(number: int) -> None:
    dice = Random(number)
    log: list[LogItem] = []
    for _ in range(dice.randrange(1, 14)):
        hours = round(
            dice.choice((-5.0, 0.5, 3.0, 30.0, 900.0, 9000.0)) * dice.uniform(0.9, 1.1), 2
        )
        what = dice.random()
        if what < 0.1:
            log.append(dry(dice.choice(("box", "bog", "line")), hours))
        elif what < 0.2:
            log.append(logged(dice.choice((Cleaning(part="pump"), PumpChange(what="x"))), hours))
        else:
            place = dice.choice(("box", "bog", "lip", "line"))
            log.append(at(place, 10.0 ** dice.uniform(1.5, 4.3), hours, fills=dice.randrange(1, 5)))
    found = told(*log)
    for flows in (found.now, found.clean, *(flows for _, flows in found.pumps)):
        for one in flows:
            assert isfinite(one.flow)
            assert 0.0 <= one.low <= one.flow <= one.high
            if one.close:
                assert one.high <= 1.08 * 16_000 * LPH * 1.001
    for clean, now in zip(found.clean, found.now, strict=True):
        assert clean.flow >= now.flow


def test_the_example_without_its_cleaning_says_that_something_is_missing() -> None:
    found = told(*example_readings(NOW))
    assert "nothing in the log explains it" in words(found)
    cleaned = logged(Cleaning(part="pump"), 24.0 * 20.1)
    assert not told(*example_readings(NOW), cleaned).misfits


def test_where_what_was_entered_cannot_be_what_nobody_read_has_no_flow() -> None:
    found = told(at("box", 90, 24))
    assert "What was entered does not go with what was read" in words(found)
    assert not flow(found.now, "Bog filter").told
    assert flow(found.now, "Filter box").told
