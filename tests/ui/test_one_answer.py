"""One reading, one answer: every screen, table and print says the same of it."""

import csv
import io
from collections.abc import Iterator
from datetime import UTC, datetime
from html import escape
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH

from pondapp import units
from pondapp.answers.features.targets import band_of
from pondapp.answers.log.charts import flow_chart
from pondapp.answers.log.log_table import log_table
from pondapp.answers.log.trend import place_trend
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.measuring.methods import measured_by, measured_reading, rules_for
from pondapp.answers.picture.states import WORDS, states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.tuning.tune import all_in, deviation, states
from pondapp.answers.waterfall.lip_setting import band_of_lip, lips_of
from pondapp.answers.waterfall.water_sheet import sheet_of
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Branch, Line, Lip, Pipe
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Fill, NothingComes, Reading
from pondapp.models.water import TypedVolume
from pondapp.ui.log.log_words import VERDICTS, headline, mark
from pondapp.ui.parts import answers
from pondapp.ui.waterfall.waterfall_link import flow_texts, spread_in

NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
HOSE = Pipe(series="hose, mm", size="40 mm", length_m=4.0)
LINE = Line(
    id="line", name="Pump",
    branches=(Branch(id="b", name="To lip", pipe=HOSE, lift_m=0.8, valve="gate", feeds=("lip",)),),
)  # fmt: skip
TUNED = {"within": "in", "below": "off", "above": "off", "undecided": "open"}


def pond(band: Band, rules: dict[str, float]) -> Pond:
    return Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=0.02),
        fed=(Lip(id="lip", name="Lip", width_m=0.3, band=band),), lines=(LINE,),
        assumptions=rules,
    )  # fmt: skip


def reading(times: list[float], container: Container, band: Band) -> Reading:
    fills = tuple(Fill(seconds=time) for time in times)
    return Reading(
        id="r", pond_id="p", place_id="lip", place_name="Lip", taken_at=NOW, band=band,
        method=Bucket(container=container, fills=fills),
    )  # fmt: skip


def said_of(of: Pond, one: Reading) -> dict[str, str]:
    """What each answer says of a log of one reading, as a kind of verdict."""
    rules, log = rules_for(of), [one]
    band = band_of(one.band) if one.band else None
    told: dict[str, Measured | None] = {
        "measure": measured_by(one.method, band, rules.measuring, one.steadiness),
        "log": measured_reading(one, rules.measuring),
        "waterfall, newest": lips_of(WorkedPond(of), log, NOW)[0].measured,
    }
    found: dict[str, str] = {name: each.kind if each else "none" for name, each in told.items()}
    shown = told["log"]
    assert shown is not None
    words = units.tell(shown.verdict, "metric")

    (row,) = csv.DictReader(
        io.StringIO(log_table(log, {}, "metric", {"p": rules.measuring}).decode("utf-8-sig"))
    )
    found["table"] = shown.kind if row["Verdict"] == words else row["Verdict"]
    page = plan_page(WorkedPond(of), log, "metric", NOW)
    found["print"] = shown.kind if f"<td>{escape(words)}</td>" in page else page
    line = headline(one, "metric")
    found["log, in one line"] = (
        shown.kind if shown.dry or line.endswith(VERDICTS[shown.kind]) else line
    )
    found["log, by its mark"] = (
        shown.kind if mark(one) == answers.mark_of(shown, answers.MARKS["within"]) else "another"
    )
    drawn = states_of(WorkedPond(of), log, NOW)["lip"]
    word = "Dry" if shown.dry else WORDS[shown.kind]
    found["pond"] = shown.kind if drawn.word == word else drawn.word

    (state,) = states(WorkedPond(of), LINE, log, {}, NOW)
    assert state.seen is not None
    off = deviation(state.seen.found, state.place)
    found["tune"] = shown.kind if state.state == TUNED[shown.kind] else state.state
    found["tune, the branch"] = shown.kind if off.state == TUNED[shown.kind] else off.state
    found["tune, all"] = shown.kind if all_in([state]) == (shown.kind == "within") else "right"

    if not shown.dry:
        spread = spread_in(flow_texts(shown, "metric"))
        lip = of.fed[0]
        assert isinstance(lip, Lip)
        found["waterfall"] = sheet_of(
            0.3, shown.flow.flow, rules, spread, band_of_lip(of, lip)
        ).kind
        (point,) = flow_chart(WorkedPond(of), "lip", log, None).points
        assert (point.low, point.high) == (shown.flow.low, shown.flow.high)
        # Of one reading no trend can be told, so it says neither right nor wrong.
        assert place_trend(of, "lip", "Lip", band, log).way == "not decided"
    return found


@pytest.fixture(scope="module")
def session() -> Iterator[SimpleNamespace]:
    made = SimpleNamespace(ponds={})
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(answers, "session_now", lambda: made)
        yield made


FACTORS = st.one_of(
    st.sampled_from([0.5, 0.95, 0.97, 0.99, 1.0, 1.01, 1.03, 1.05, 2.0]), st.floats(0.3, 3.0)
)


@settings(max_examples=120)
@given(
    st.floats(2.0, 70.0), st.lists(st.floats(0.9, 1.1), min_size=1, max_size=5), FACTORS, FACTORS,
    st.booleans(), st.sampled_from([0.0, 0.01, 0.03, 0.1]),
    st.sampled_from([{}, {"measuring.sure": 0.8}, {"measuring.widest_interval": 0.4,
                                                   "measuring.coverage": 0.9}]),
)  # fmt: skip
def test_every_answer_says_the_same_of_one_reading(
    session: SimpleNamespace, seconds: float, scatter: list[float], low: float, wide: float,
    open_end: bool, tolerance: float, rules: dict[str, float],
) -> None:  # fmt: skip
    tub = Container(id="t", name="Tub", volume_m3=0.02, tolerance_m3=tolerance * 0.02)
    times = [seconds * share for share in scatter]
    flow = 0.02 * len(times) / sum(times)
    least = low * flow
    most = None if open_end else least * (1.0 + wide)
    best = least if most is None else min(most, 1.2 * least)
    band = Band(low_m3_s=least, target_m3_s=best, high_m3_s=most)
    of, one = pond(band, rules), reading(times, tub, band)
    session.ponds = {"p": of}
    found = said_of(of, one)
    assert set(found.values()) == {found["log"]}, found


@pytest.mark.parametrize("scatter", [[1.0], [1.0, 1.0, 1.0], [9.52 / 8.395, 7.27 / 8.395]])
@pytest.mark.parametrize("edge", [0.9, 0.96, 1.0, 1.04, 1.1])
def test_at_the_very_edges_too(session: SimpleNamespace, scatter: list[float], edge: float) -> None:
    tub = Container(id="t", name="Tub", volume_m3=0.009, tolerance_m3=0.0001)
    times = [8.395 * share for share in scatter]
    flow = 0.009 * len(times) / sum(times)
    for least, most in ((edge * flow, 3 * flow), (flow / 3, edge * flow)):
        band = Band(low_m3_s=least, target_m3_s=0.5 * (least + most), high_m3_s=most)
        of = pond(band, {})
        session.ponds = {"p": of}
        found = said_of(of, reading(times, tub, band))
        assert set(found.values()) == {found["log"]}, found
        if edge == 1.0 or len(scatter) == 2:
            assert found["log"] == "undecided"


def test_two_fills_far_apart_are_never_right_and_ask_for_another() -> None:
    """Wanted 4000 to 16000 L/h; a bucket of 9 L in 9.52 and in 7.27 s."""
    band = Band(low_m3_s=4000 * LPH, target_m3_s=4010 * LPH, high_m3_s=16_000 * LPH)
    tub = Container(id="t", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001)
    of, one = pond(band, {}), reading([9.52, 7.27], tub, band)
    found = measured_reading(one, rules_for(of).measuring)
    assert found is not None
    assert found.flow.low == 0.0
    assert units.tell(found.advice[-1], "metric") == "These two differ by 27 %: time one more."
    (state,) = states(WorkedPond(of), LINE, [one], {}, NOW)
    assert state.state == "open"
    assert not all_in([state])
    off = deviation(found, state.place)
    assert "differ by more than they should" in str(off.sentence)
    assert off.turn == found.advice[-1]
    # A third that agrees with one of them makes it a matter of the other.
    third = measured_reading(reading([9.52, 7.27, 7.31], tub, band), rules_for(of).measuring)
    assert third is not None
    assert third.kind != "within"


def test_no_water_is_too_little_everywhere(session: SimpleNamespace) -> None:
    band = Band(low_m3_s=400 * LPH, target_m3_s=600 * LPH, high_m3_s=None)
    of = pond(band, {})
    session.ponds = {"p": of}
    tub = Container(id="t", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001)
    one = reading([9.0], tub, band).model_copy(update={"method": NothingComes(seen="outlet")})
    found = said_of(of, one)
    assert set(found.values()) == {"below"}, found


def test_what_is_open_says_what_would_decide() -> None:
    """More fills, a larger container, a container that is known better, or another flow."""
    band = band_of(Band(low_m3_s=1000 * LPH, target_m3_s=1200 * LPH, high_m3_s=3000 * LPH))

    def advice(litres: float, tolerance: float, lph: float, fills: int) -> str:
        tub = Container(
            id="t", name="Tub", volume_m3=litres / 1000,
            tolerance_m3=tolerance * litres / 1000,
        )  # fmt: skip
        time = tub.volume_m3 / (lph * LPH)
        found = measured_by(
            Bucket(container=tub, fills=tuple(Fill(seconds=time) for _ in range(fills))), band
        )
        assert found is not None
        assert found.kind == "undecided"
        message = found.advice[-1]
        assert isinstance(message, Message)
        return units.tell(message, "metric")

    assert advice(9, 0.01, 1030, 1) == "Time 2 more fills."
    assert advice(9, 0.005, 1015, 3) == "Time one more fill."
    assert advice(9, 0.005, 1009, 3).startswith("Time 7 more fills, or turn it to about 1,040 L/h")
    assert advice(0.4, 0.01, 1060, 3) == "Time 2 more fills, or use a container of 5 L or more."
    assert "Weigh its water" in advice(9, 0.08, 1050, 3)
    assert "right at a limit. Turn it to about 1,040 L/h" in advice(9, 0.005, 1001, 3)
