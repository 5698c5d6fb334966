"""The trend at a place: lost flow since the cleaning, and when the band is left."""

import random
import re
from datetime import UTC, datetime, timedelta

from ponds import BARE as POND

from pondapp import units
from pondapp.answers.log.log import LogItem, newest_first
from pondapp.answers.log.trend import PlaceTrend, place_trend
from pondapp.answers.measuring.flow import FlowBand
from pondapp.models.entry import Cleaning, Entry
from pondapp.models.reading import Bucket, Container, Fill, MeterReading, Reading

START = datetime(2025, 4, 1, tzinfo=UTC)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001)
BAND = FlowBand(low=8e-4, target=1e-3, high=1.2e-3)


def reading(day: float, flow: float, place: str = "lip") -> Reading:
    rng = random.Random(f"{day}{flow}")
    fills = tuple(Fill(seconds=0.009 / flow + rng.gauss(0, 0.05)) for _ in range(3))
    return Reading(
        id=f"r{round(100 * day)}", pond_id="p", place_id=place, place_name="Lip",
        taken_at=START + timedelta(days=day), method=Bucket(container=BUCKET, fills=fills),
        band=None,
    )  # fmt: skip


def cleaning(day: float) -> Entry:
    when = START + timedelta(days=day)
    return Entry(id=f"c{day}", pond_id="p", when=when, what=Cleaning(part="pump"))


def asked(*items: LogItem, band: FlowBand | None = BAND) -> tuple[PlaceTrend, str]:
    found = place_trend(POND, "lip", "Lip", band, newest_first(items))
    return found, " ".join(units.tell(one, "metric") for one in found.sentences)


def test_a_falling_flow_leaves_the_band_in_a_month_that_is_named() -> None:
    # 1.1e-3 falls by 1e-4 in 20 days: the band ends 60 days after the start, on 31 May.
    found, words = asked(*[reading(day, 1.1e-3 - 5e-6 * day) for day in range(0, 40, 4)])
    assert found.way == "leaving"
    assert "It falls by" in words
    assert "about May 2025" in words or "about June 2025" in words
    assert found.steps


def test_only_what_came_after_the_cleaning_counts() -> None:
    old = [reading(day, 1.1e-3 - 5e-6 * day) for day in range(0, 40, 4)]
    found, words = asked(*old, cleaning(41), reading(42, 1.1e-3), reading(44, 1.1e-3))
    assert found.way == "not decided"
    assert found.readings == 2
    assert words == "Not decided: 2 of the 3 readings that a trend needs since the cleaning."


def test_a_steady_flow_is_not_decided() -> None:
    found, words = asked(*[reading(day, 1e-3) for day in range(0, 28, 7)])
    assert found.way == "not decided"
    assert "may fall by" in words


def test_a_flow_that_has_left_is_told_so() -> None:
    found, _ = asked(*[reading(day, 9e-4 - 5e-6 * day) for day in range(0, 40, 4)])
    assert found.way == "outside"


def test_other_places_and_no_band() -> None:
    items = [reading(day, 1.1e-3 - 5e-6 * day) for day in range(0, 40, 4)]
    found, words = asked(*items, reading(41, 1e-5, "bog"), band=None)
    assert found.readings == 10
    assert "band" not in words


def test_all_at_one_time_is_borne() -> None:
    found, _ = asked(reading(1, 1e-3), reading(1, 1.01e-3), reading(1, 1.02e-3))
    assert found.way == "not decided"


def test_a_trend_is_told_by_the_chance_that_its_owner_asks_for() -> None:
    # About three times its uncertainty: enough for 95 in 100, and not for 999 in 1000.
    log = [reading(day, 1.1e-3 - slip) for day, slip in zip(
        range(0, 40, 8), (0.0, 2.5e-5, 1.5e-5, 5e-5, 4.5e-5), strict=True)]  # fmt: skip
    sure = {"measuring.sure": 0.999}
    careful = POND.model_copy(update={"assumptions": sure})
    plain = place_trend(POND, "lip", "Lip", BAND, newest_first(log))
    strict = place_trend(careful, "lip", "Lip", BAND, newest_first(log))
    assert "It falls by" in units.tell(plain.sentences[0], "metric")
    assert strict.way == "not decided"
    assert "may fall by" in units.tell(strict.sentences[0], "metric")


def test_flows_of_single_fills_of_a_steady_place_hardly_ever_make_a_trend() -> None:
    dice = random.Random(8)
    told = 0
    for _ in range(200):
        log = []
        for day in range(0, 40, 8):
            seconds = 20.0 * (1.0 + dice.gauss(0.0, 0.015)) + dice.gauss(0.0, 0.1)
            method = Bucket(container=BUCKET, fills=(Fill(seconds=seconds),))
            log.append(reading(day, 1e-3).model_copy(update={"method": method}))
        told += place_trend(POND, "lip", "Lip", BAND, newest_first(log)).sentences[0].template[
            :2] == "It"  # fmt: skip
    assert told <= 0.05 * 200


def test_readings_of_hours_say_nothing_of_a_month() -> None:
    contrary = (reading(0, 8.3e-4), reading(0.05, 8.3e-5), reading(0.1, 8.3e-4))
    clearly_falling = (reading(0, 9e-4), reading(0.05, 6e-4), reading(0.1, 3e-4))
    for readings in (contrary, clearly_falling):
        found, words = asked(*readings)
        assert found.way == "not decided"
        assert "month ahead" in words
        assert not any(amount in words for amount in ("L/h", "fall by", "falls by"))


def test_no_more_is_foretold_to_be_lost_than_flows() -> None:
    _, words = asked(*[reading(day, flow) for day, flow in ((0, 1e-3), (4, 2e-4), (8, 9e-4))])
    assert "month ahead" in words
    assert "fall by" not in words


def test_too_much_is_not_put_right_by_cleaning() -> None:
    found, words = asked(*[reading(day, 1.4e-3 + 5e-6 * day) for day in range(0, 40, 4)])
    assert found.way == "outside"
    assert "turn its valve down" in words
    assert "clean" not in words
    found, words = asked(*[reading(day, 9e-4 - 5e-6 * day) for day in range(0, 40, 4)])
    assert "clean" in words


def test_a_steady_flow_neither_rises_nor_is_more_harmless() -> None:
    for flow, way in ((1.15e-3, "steady within what is wanted"), (1.6e-3, "outside")):
        log = []
        for day in range(0, 40, 4):
            meter = MeterReading(flow_m3_s=flow, tolerance=0.01)
            log.append(reading(day, flow).model_copy(update={"method": meter}))
        found, words = asked(*log)
        assert found.way == way
        assert words.startswith("It is as steady as can be told, give or take")
        assert "rises" not in words
        assert "no harm" not in words


def test_a_fall_of_more_than_there_is_has_no_number() -> None:
    flows = ((0, 2.5e-3), (3, 1.94e-3), (6, 1.39e-3), (8, 9.7e-4))
    falling = [reading(day, flow) for day, flow in flows]
    _, words = asked(*falling)
    assert "It falls faster than can go on for a month." in words
    assert "It falls by" not in words


def later(days: float, *items: LogItem) -> str:
    """What is told so many days after the first reading."""
    now = START + timedelta(days=days)
    found = place_trend(POND, "lip", "Lip", BAND, newest_first(items), now)
    return " ".join(units.tell(one, "metric") for one in found.sentences)


def test_it_looks_ahead_from_now_and_not_from_its_newest_reading() -> None:
    log = [reading(day, 1.1e-3 - 2.5e-6 * day) for day in range(0, 40, 4)]
    at_once = later(37, *log)
    assert "It leaves what is wanted about" in at_once
    assert "99 % in a month" in at_once
    # The band ends about 120 days after the start; nobody measured since.
    for days in (115, 125):
        assert "Whether it is still within what is wanted is not known yet" in later(days, *log)
    steep = [reading(day, 1.1e-3 - 5e-6 * day) for day in range(0, 40, 4)]
    long_after = later(90, *steep)
    assert "If it went on like that, it is not what is wanted any more" in long_after
    for words in (long_after, later(125, *log), later(300, *steep)):
        assert "It leaves" not in words
        assert "Chance" not in words


def test_a_month_is_named_once() -> None:
    _, words = asked(*[reading(day, 1.1e-3 - 5e-6 * day) for day in range(0, 40, 4)])
    about = re.search(r"about (\w+ \d+)", words)
    assert about
    assert words.count(about[1]) == 1


def test_no_chance_is_told_as_sure() -> None:
    for slope in (5e-6, 2.5e-6, 1e-6):
        _, words = asked(*[reading(day, 1.1e-3 - slope * day) for day in range(0, 40, 4)])
        assert "100 %" not in words
        assert "under" not in words
