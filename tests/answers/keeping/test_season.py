"""What to do now: each line by its limit, the season and the half of the earth, and its tick."""

from datetime import UTC, date, datetime, timedelta

import pytest
from ponds import BARE

from pondapp.answers.keeping.season import Season, SeasonLine, season_of, what_to_do
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.errors import PondError
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.pond import Pond

NOW = datetime(2026, 11, 27, 12, tzinfo=UTC)
POND = example_pond()


def lines(celsius: float, season: Season, *log: Entry, pond: Pond = POND) -> dict[str, SeasonLine]:
    found = what_to_do(WorkedPond(pond), log, celsius + ZERO_CELSIUS, season, NOW)
    return {one.part: one for one in found}


def ticked(job: str, when: datetime) -> Entry:
    return Entry(id="e", pond_id=POND.id, when=when, what=WorkDone(what="Done", job=job))


@pytest.mark.parametrize(
    ("month", "north", "south"),
    [(1, "winter", "summer"), (2, "winter", "summer"), (3, "spring", "autumn"),
     (5, "spring", "autumn"), (6, "summer", "winter"), (8, "summer", "winter"),
     (9, "autumn", "spring"), (11, "autumn", "spring"), (12, "winter", "summer")],
)  # fmt: skip
def test_seasons_are_the_other_way_round_in_the_south(month: int, north: str, south: str) -> None:
    day = date(2026, month, 15)
    assert season_of(day, south=False) == north
    assert season_of(day, south=True) == south


@pytest.mark.parametrize(
    ("celsius", "said"),
    [(9.9, "do not feed"), (10.1, "feed little or nothing"), (14.0, "wheat germ"),
     (18.0, "medium protein"), (24.0, "two or three times"), (29.0, "do not feed")],
)  # fmt: skip
def test_feeding_is_what_the_chart_of_the_fish_says(celsius: float, said: str) -> None:
    assert said in str(lines(celsius, "summer")["feed"].sentence)


def test_every_limit_changes_what_is_to_be_done() -> None:
    assert lines(3.9, "winter")["ice"].now
    assert not lines(4.1, "winter")["ice"].now
    assert "half way up" in str(lines(7.9, "autumn")["pump"].sentence)
    assert not lines(8.1, "autumn")["pump"].now
    assert "deepest" in str(lines(8.1, "spring")["pump"].sentence)
    assert "off" in str(lines(9.9, "spring")["lamp"].sentence)
    assert "day and night" in str(lines(10.1, "spring")["lamp"].sentence)
    assert lines(9.9, "autumn")["plants"].job == "plants-cut"
    assert not lines(10.1, "autumn")["plants"].now
    assert lines(10.1, "spring")["plants"].job == "plants-divided"
    assert lines(7.9, "spring")["filter"].job == "filter-winter"
    assert lines(8.1, "spring")["filter"].job == "filter-start"
    assert not lines(8.1, "summer")["filter"].now
    assert "air" in lines(28.5, "summer")
    assert "air" not in lines(27.5, "summer")
    assert [lines(12, one)["net"].job for one in ("autumn", "winter", "spring", "summer")] == [
        "net-on", "net-off", "", "",
    ]  # fmt: skip


def test_in_water_as_cold_as_winter_the_leaves_are_down() -> None:
    late = lines(4.0, "autumn")["net"]
    assert "Take the leaves out" in str(late.sentence)
    assert late.job == "leaves-out"
    assert "Stretch a net" in str(lines(8.1, "autumn")["net"].sentence)


def test_only_a_pump_that_can_is_to_run_slower() -> None:
    assert "slower" not in str(lines(5.0, "winter")["pump"].sentence)
    quick, *rest = POND.pumps
    pumps = (quick.model_copy(update={"adjustable": True}), *rest)
    can = POND.model_copy(update={"pumps": pumps})
    assert "run slower" in str(lines(5.0, "winter", pond=can)["pump"].sentence)


def test_above_the_limit_a_skin_of_ice_is_still_said_in_one_sentence() -> None:
    said = str(lines(4.1, "winter")["ice"].sentence)
    assert "does not freeze over, though a frosty night" in said


def test_a_changed_rule_counts_and_each_line_says_whose_rule_it_is() -> None:
    own = POND.model_copy(update={"assumptions": {"care.ice_below": 275.15}})
    assert not lines(3.0, "winter", pond=own)["ice"].now
    for line in lines(3.0, "winter").values():
        assert line.source.text
        assert line.source.status in ("common practice", "rule of thumb")


def test_what_the_pond_does_not_have_is_left_out() -> None:
    bare = lines(5.0, "winter", pond=BARE.model_copy(update={"fed": (), "pumps": ()}))
    assert {"pump", "filter"}.isdisjoint(bare)
    assert {"feed", "ice"} <= bare.keys()


def test_a_tick_stands_for_its_season_and_comes_last_of_what_is_open() -> None:
    recent = ticked("net-on", NOW - timedelta(days=20))
    assert lines(9, "autumn", recent)["net"].done == recent.when
    assert lines(9, "winter", recent)["net"].done is None, "another job by then"
    assert lines(9, "autumn", ticked("net-on", NOW - timedelta(days=360)))["net"].done is None
    assert lines(9, "autumn", ticked("net-on", NOW + timedelta(days=2)))["net"].done is None
    order = what_to_do(WorkedPond(POND), [recent], 282.0, "autumn", NOW)
    states = [(line.now, line.done is not None) for line in order]
    assert states == sorted(states, key=lambda one: (not one[0], one[1]))


def test_water_that_cannot_be_is_refused() -> None:
    with pytest.raises(PondError):
        lines(-5.0, "winter")
