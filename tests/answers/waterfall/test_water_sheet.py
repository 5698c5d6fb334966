"""A flow over a lip: thin, closed, full or heavy; what gives a lip its flow."""

from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH

from pondapp.answers.plumbing.network import network_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.waterfall.lip_setting import band_of_lip, lip_setting, lips_of
from pondapp.answers.waterfall.water_sheet import Spread, sheet_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Fill, MeterReading, Reading
from pondapp.models.water import TypedVolume

RULES = Assumptions()
LIP = Lip(id="lip", name="Lip", width_m=0.30)
BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=0.1)
HOSE = Pipe(series="hose, mm", size="40 mm", length_m=6.0)

NOW = datetime(2026, 5, 2, tzinfo=UTC)


def pond(pump: Pump | None, valve: str = "ball", width: float = 0.30) -> Pond:
    branches = (
        Branch(id="to-lip", name="To the fall", pipe=HOSE, lift_m=0.8, valve=valve, feeds=("lip",)),
        Branch(id="to-bog", name="To the bog", pipe=HOSE, lift_m=0.3, valve="ball", feeds=("bog",)),
    )
    line = Line(id="line", name="Pump", pump_id=pump.id if pump else None, branches=branches)
    return Pond(
        id="p", name="P", water=TypedVolume(volume_m3=4.0),
        fed=(LIP.model_copy(update={"width_m": width}), BOG), lines=(line,),
        pumps=(pump,) if pump else (),
    )  # fmt: skip


STRONG = Pump(id="a", name="Strong", max_flow_m3_s=15_000 * LPH, max_head_m=6.0)


@pytest.mark.parametrize(
    ("lph", "kind", "words"),
    [(1500, "below", "Too thin"), (3000, "within", "closed"), (5000, "within", "full"),
     (9000, "above", "heavy")],
)  # fmt: skip
def test_the_rule_of_the_trade_on_thirty_centimetres(lph, kind, words) -> None:
    """Common practice, no source: 4000 L/h, half of it to close, twice it at most."""
    sheet = sheet_of(0.30, lph * LPH, RULES)
    assert sheet.kind == kind
    assert words in str(sheet.verdict)
    assert sheet.best_width == pytest.approx(0.30 * lph / 4000)
    assert sheet.steps()


def test_an_interval_over_the_limit_is_not_decided() -> None:
    sheet = sheet_of(0.30, 2100 * LPH, RULES, Spread(1900 * LPH, 2300 * LPH))
    assert sheet.kind == "undecided"


def test_a_film_is_said_to_be_one() -> None:
    sheet = sheet_of(2.0, 50 * LPH, RULES)
    assert sheet.behind is None
    assert sheet.kind == "below"


@settings(max_examples=40)
@given(st.floats(0.05, 5.0), st.floats(500.0, 50_000.0))
def test_a_lip_of_the_width_told_is_full(width: float, lph: float) -> None:
    sheet = sheet_of(width, lph * LPH, RULES)
    again = sheet_of(sheet.best_width, lph * LPH, RULES)
    assert again.flow == pytest.approx(again.band.target)
    assert sheet.narrowest < sheet.best_width < sheet.widest
    edge = sheet_of(sheet.widest, lph * LPH, RULES)
    assert edge.flow == pytest.approx(edge.band.low)
    if sheet.behind:
        assert sheet.thickness < sheet.behind.head


def test_a_strong_pump_gives_it_with_the_valve_partly_closed() -> None:
    found = lip_setting(WorkedPond(pond(STRONG)), LIP)
    assert found.flow == pytest.approx(4000 * LPH)
    assert found.total > found.flow
    assert "% open" in str(found.advice[-1]) or "nearly closed" in str(found.advice[-1])


def test_a_weak_pump_cannot_and_says_what_is_missing() -> None:
    weak = Pump(id="w", name="Weak", max_flow_m3_s=3000 * LPH, max_head_m=1.0)
    words = " ".join(map(str, lip_setting(WorkedPond(pond(weak)), LIP).advice))
    assert "Weak cannot" in words


def test_an_adjustable_pump_is_set_by_its_speed() -> None:
    pump = STRONG.model_copy(update={"adjustable": True})
    assert "full speed" in str(lip_setting(WorkedPond(pond(pump)), LIP).advice[-1])


def test_without_a_pump_or_a_branch_it_says_what_is_to_do() -> None:
    assert "Choose a pump" in str(lip_setting(WorkedPond(pond(None)), LIP).advice[-1])
    dry = pond(STRONG)
    lines = (dry.lines[0].model_copy(update={"branches": dry.lines[0].branches[1:]}),)
    with pytest.raises(NoSolution, match="no branch feeds"):
        lip_setting(WorkedPond(dry.model_copy(update={"lines": lines})), LIP)


def test_the_newest_reading_at_the_lip_is_found() -> None:
    def reading(key: str, place: str, lph: float) -> Reading:
        return Reading(
            id=key, pond_id="p", place_id=place, place_name="Lip",
            taken_at=datetime(2025, 6, 1, tzinfo=UTC), band=None,
            method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.05),
        )  # fmt: skip

    log = [reading("c", "bog", 500), reading("b", "lip", 3900), reading("a", "lip", 2000)]
    (one,) = lips_of(WorkedPond(pond(None)), log, NOW)
    assert one.measured is not None
    assert one.measured.flow.flow == pytest.approx(3900 * LPH)
    assert lips_of(WorkedPond(pond(None)), [], NOW)[0].measured is None


def test_the_owners_own_band_goes_before_the_rule() -> None:
    own = Band(low_m3_s=1e-3, target_m3_s=2e-3, high_m3_s=None)
    assert band_of_lip(pond(None), LIP.model_copy(update={"band": own})).target == 2e-3


@pytest.mark.parametrize(
    ("valve", "words"),
    [("none", "Fit a valve in its branch (To the fall)"), ("ball", "% open. Valves differ")],
)
def test_the_valve_in_the_branch_says_how_it_is_set(valve: str, words: str) -> None:
    assert words in str(lip_setting(WorkedPond(pond(STRONG, valve)), LIP).advice[-1])


def test_a_pump_that_just_does_it_needs_its_valve_wide_open_and_a_huge_one_a_crack() -> None:
    drawn = pond(STRONG)
    found = lip_setting(WorkedPond(drawn), LIP)
    # A label whose curve, Hmax (1 - (Q/Qmax)^1.5), goes through the flow and head needed.
    most = 2.0 * found.total
    just = STRONG.model_copy(
        update={"max_flow_m3_s": most, "max_head_m": found.head * (1 + 1e-6) / (1 - 0.5**1.5)}
    )
    flows_free = lip_setting(WorkedPond(pond(just)), LIP)
    assert str(flows_free.advice[-1]).endswith("with the valve of To the fall wide open.")
    huge = STRONG.model_copy(update={"max_flow_m3_s": 1.0, "max_head_m": 90.0})
    assert "nearly closed" in str(lip_setting(WorkedPond(pond(huge)), LIP).advice[-1])


def test_a_speed_that_no_knob_reaches_is_refused_with_the_reason() -> None:
    weak = Pump(id="w", name="Weak", max_flow_m3_s=3000 * LPH, max_head_m=1.0, adjustable=True)
    words = [str(line) for line in lip_setting(WorkedPond(pond(weak)), LIP).advice]
    assert words[1] == "Weak cannot do that."
    assert len(words) == 3


def test_a_reading_without_a_fill_that_counts_is_passed_over() -> None:
    tub = Container(id="t", name="Tub", volume_m3=0.04, tolerance_m3=0.0002)
    good, struck = (
        Reading(
            id=key, pond_id="p", place_id="lip", place_name="Lip", band=None,
            taken_at=datetime(2025, 6, 1, tzinfo=UTC),
            method=Bucket(container=tub, fills=(Fill(seconds=40.0, excluded=key == "struck"),)),
        )
        for key in ("good", "struck")
    )  # fmt: skip
    (one,) = lips_of(WorkedPond(pond(None)), [struck, good], NOW)
    assert one.measured is not None
    assert one.measured.flow.flow == pytest.approx(0.001)


@pytest.mark.parametrize(
    ("place", "bypass", "counts"),
    [("box", (), True), ("fall", (), True), ("bog", (), False),
     ("box", ("box",), False), ("box", ("lip",), False), ("fall", ("lip",), False)],
)  # fmt: skip
def test_all_the_water_of_a_lip_may_be_measured_elsewhere_on_its_branch(
    place: str, bypass: tuple[str, ...], counts: bool
) -> None:
    branches = (
        Branch(id="fall", name="To the fall", feeds=("box", "lip"), bypass=bypass),
        Branch(id="to-bog", name="To the bog", feeds=("bog",)),
    )
    box = HighFlowFilter(id="box", name="Box")
    drawn = pond(None)
    drawn = drawn.model_copy(
        update={
            "fed": (*drawn.fed, box),
            "lines": (Line(id="line", name="Pump", branches=branches),),
        }
    )
    log = [
        Reading(
            id="r", pond_id="p", place_id=place, place_name="There",
            taken_at=datetime(2026, 5, 1, tzinfo=UTC), band=None,
            method=MeterReading(flow_m3_s=3000 * LPH, tolerance=0.05),
        )
    ]  # fmt: skip
    assert (lips_of(WorkedPond(drawn), log, NOW)[0].measured is not None) is counts


@pytest.mark.parametrize("most", [6000, 8000, 9000, 10000, 12000, 30000])
def test_the_waterfall_is_no_surer_of_a_pump_than_the_pumps_are(most: float) -> None:
    pump = Pump(id="a", name="Pump A", max_flow_m3_s=most * LPH, max_head_m=2.5)
    drawn = pond(pump)
    found = lip_setting(WorkedPond(drawn), LIP)
    words = " ".join(map(str, found.advice))
    network = network_of(drawn, drawn.lines[0], {**WorkedPond(drawn).planned.flows,
                                                 "to-lip": found.flow})  # fmt: skip
    (answer,) = answers_for(network, (pump,))
    assert ("measure to be sure" in words) is (answer.state in ("probably", "open"))
    assert ("cannot do that" in words) is (answer.state == "weak")
    assert ("should give it" in words) or answer.state in ("open", "weak")
