"""What is said of the turns that were made: it never says more than the fills can tell."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from statistics import mean

import pytest
from hypothesis import given
from hypothesis import strategies as st
from turning import KINDS, PLACE, TUB, by_table_and_feel, by_turns, turns_until_right

from pondapp import units
from pondapp.answers.measuring.flow import measured
from pondapp.answers.tuning.flow_sets import BranchPlace
from pondapp.answers.tuning.turns import (
    TimedSetting,
    TurnAdvice,
    advice_of_turns,
    settings_before,
)
from pondapp.core.filters.bands import FlowBand
from pondapp.models.reading import Container, Fill, FillSet

AIM = 1e-3
LPH = 1.0 / 3.6e6
AT = replace(PLACE, band=FlowBand(0.9 * AIM, AIM, 1.1 * AIM), valve="gate")
PAIL = Container(id="p", name="Pail", volume_m3=0.009, tolerance_m3=0.0003)
NOW = datetime(2026, 5, 6, 12, tzinfo=UTC)


def fills(ratio: float, tub: Container = TUB, scatter: float = 0.05) -> tuple[Fill, ...]:
    """Three fills at so many times the aim."""
    seconds = tub.volume_m3 / (ratio * AIM)
    return tuple(Fill(seconds=seconds + d) for d in (0.0, scatter, -scatter))


def setting(
    ratio: float, opened: float | None = None, tub: Container = TUB, place: BranchPlace = AT
) -> TimedSetting:
    found = measured(tub, fills(ratio, tub), place.band)
    assert found is not None
    return TimedSetting(found, tub, opened)


def said(*settings: TimedSetting, place: BranchPlace = AT) -> str:
    *before, now = settings
    return words(advice_of_turns(place, before, now))


def words(advice: TurnAdvice | None) -> str:
    if advice is None:
        return ""
    every = (advice.told, advice.turn, advice.likely, advice.opening)
    return " ".join(units.tell(one, "metric") for one in every if one is not None)


def ratios(*flows: float) -> list[TimedSetting]:
    return [setting(flow) for flow in flows]


@pytest.mark.parametrize(
    ("flows", "told", "turn"),
    [
        ((2.0, 0.7), "took 4,680 L/h away; that is 1,080 L/h too much",
         "Open it again, by about a quarter of that turn."),
        ((0.5, 1.3), "brought 2,880 L/h more; that is 1,080 L/h too much",
         "Close it again, by about a third of that turn."),
        ((2.0, 1.4), "took 2,160 L/h away; 1,440 L/h more has to go",
         "Close it further, by about a quarter of that turn."),
        ((0.2, 0.6), "brought 1,440 L/h more; 1,440 L/h is still missing",
         "Open it further, about as far again."),
        ((3.0, 2.5), "took 1,800 L/h away; 5,400 L/h more has to go",
         "Close it further, by about half of that turn."),
        ((1.15, 0.5), "took 2,340 L/h away; that is 1,800 L/h too much",
         "Open it again, by about two thirds of that turn."),
    ],
)  # fmt: skip
def test_a_turn_is_told_by_what_it_did_and_the_next_as_a_part_of_it(
    flows: tuple[float, ...], told: str, turn: str
) -> None:
    spoken = said(*ratios(*flows))
    assert told in spoken
    assert turn in spoken


def test_the_range_of_a_turn_is_told_in_the_same_words() -> None:
    assert "That may be anything from a tenth to a third of that turn." in said(*ratios(2.0, 0.7))
    assert "That may be half of that turn or more." in said(*ratios(0.2, 0.6))


def test_less_than_the_fills_can_tell_is_said_to_be_so() -> None:
    advice = advice_of_turns(AT, ratios(1.4), setting(1.405))
    assert words(advice) == "The last turn moved the flow by less than these fills can tell."
    assert advice is not None
    assert advice.way_too


@pytest.mark.parametrize(
    ("flows", "told", "turn"),
    [
        ((1.4, 1.8), "More came after the last turn, not less",
         "Close it again to where it stood, and by about a third of that turn further."),
        ((0.7, 0.5), "Less came after the last turn, not more",
         "Open it again to where it stood, and about as far again."),
    ],
)  # fmt: skip
def test_a_turn_the_wrong_way_is_called_so(flows: tuple[float, ...], told: str, turn: str) -> None:
    spoken = said(*ratios(*flows))
    assert told in spoken
    assert turn in spoken


def test_the_container_is_no_doubt_about_a_change_unless_another_was_filled() -> None:
    moved = setting(1.44, tub=PAIL)
    assert "took" not in said(setting(1.46, tub=PAIL), moved)
    assert "took" in said(setting(1.50, tub=PAIL), moved)  # the pail is known to 3 % only
    assert "less than these fills can tell" in said(setting(1.50), moved)


def test_where_the_handle_stood_tells_where_it_is_to_stand() -> None:
    # By the table K is 0.15 wide open and 33 at a fifth; 1/Q² as wanted at a K of 10: 31 % open.
    spoken = said(setting(2.0, 1.0), setting(0.6, 0.2))
    assert "By where the handle stood, that is about 30 % open, somewhere from 25 to 50" in spoken
    assert "Open it again, by about a sixth of that turn." in spoken
    again = said(setting(2.0, 1.0), setting(0.6, 0.2), setting(1.6, 0.4))
    assert "about 30 % open" in again  # between the nearest two now
    near = said(setting(1.5, 0.4), setting(0.7, 0.3))  # read no better than that
    assert "handle stood" not in near
    assert "Open it again, by about a third of that turn." in near
    odd = said(setting(1.5, 0.4), setting(0.7, 0.6))  # it says the opposite of the flows
    assert "handle stood" not in odd


def test_a_valve_that_is_wide_open_gives_no_more() -> None:
    for before in ([], [setting(0.5, 0.6)]):
        advice = advice_of_turns(AT, before, setting(0.7, 1.0))
        assert words(advice) == (
            "It is wide open and can give no more: close another branch's valve a little instead."
        )
        assert advice is not None
        assert not advice.way_too
    assert said(setting(0.3, 0.4), setting(0.5, 0.6), setting(0.55, 0.8)).endswith(
        "Going by where the handle stood, it has to be wide open."
    )


@pytest.mark.parametrize("ratio", [1.0, 1.09])
def test_nothing_is_said_of_a_flow_that_is_right_or_not_decided(ratio: float) -> None:
    assert said(setting(2.0), setting(ratio)) == ""


def test_nothing_is_learned_without_a_valve_or_a_turn() -> None:
    assert said(setting(2.0)) == ""
    assert said(*ratios(2.0, 0.7), place=replace(AT, valve="none")) == ""
    assert said(replace(setting(2.0), stands=False), setting(0.7)) == ""


def before(sets: Sequence[FillSet], *others: datetime) -> list[bool]:
    return [one.stands for one in settings_before(sets, AT, None, others, NOW)]


def test_what_another_valve_or_a_day_has_changed_is_not_compared() -> None:
    first, second = (
        FillSet(fills=fills(ratio), container=TUB, until=NOW - timedelta(minutes=minutes))
        for ratio, minutes in ((2.0, 20), (0.7, 10))
    )
    minute = timedelta(minutes=1)
    assert before([first, second]) == [True, True]
    assert before([first, second], NOW - 30 * minute) == [True, True]
    assert before([first, second], NOW - 15 * minute) == [False, False]
    assert before([first, second], NOW - 5 * minute) == [False, False]
    old = first.model_copy(update={"until": NOW - timedelta(days=2)})
    assert before([old, second]) == [False, True]
    ahead = second.model_copy(update={"until": NOW + timedelta(days=2)})
    assert before([first, ahead]) == [True, False]


def test_what_was_left_for_hours_is_of_another_visit() -> None:
    first, second, third = (
        FillSet(fills=fills(ratio), container=TUB, until=NOW - timedelta(minutes=minutes))
        for ratio, minutes in ((2.0, 300), (0.7, 200), (1.5, 10))
    )
    left = second.model_copy(update={"left": True})
    assert before([first, left]) == []
    assert before([first, left, third]) == [True]


def test_sets_of_early_versions_and_of_fills_that_do_not_count_are_no_settings() -> None:
    early = FillSet(fills=fills(2.0))
    struck = FillSet(
        fills=tuple(one.model_copy(update={"excluded": True}) for one in fills(2.0)),
        container=TUB, until=NOW,
    )  # fmt: skip
    assert before([early, struck]) == []


@given(st.lists(st.tuples(st.floats(0.05, 20.0), st.none() | st.floats(0.1, 1.0)), min_size=1))
def test_every_advice_can_be_read_and_points_to_the_aim(
    told: list[tuple[float, float | None]],
) -> None:
    settings = [setting(ratio, opened) for ratio, opened in told]
    advice = advice_of_turns(AT, settings[:-1], settings[-1])
    spoken = words(advice)
    assert "{" not in spoken
    if advice is not None and advice.turn is not None:
        assert spoken.split(". ")[1].startswith("Close" if told[-1][0] > 1.0 else "Open")


@pytest.mark.parametrize("kind", KINDS)
def test_valves_are_right_in_fewer_turns_by_what_is_said_than_by_feel(kind: str) -> None:
    def turns(reader: object, *, noted: bool) -> float:
        return mean(
            turns_until_right(kind, number, reader, noted=noted)  # type: ignore[arg-type]
            for number in range(150)
        )

    by_feel = turns(by_table_and_feel, noted=False)
    assert turns(by_turns, noted=False) < 0.9 * by_feel
    assert turns(by_turns, noted=True) < 0.9 * by_feel
