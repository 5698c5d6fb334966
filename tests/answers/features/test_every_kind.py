"""Whoever asks something about a kind of water feature is told the same, of every kind."""

from datetime import UTC, datetime

import pytest
from samples_of_kinds import SAMPLES

from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.features.kinds import KINDS
from pondapp.answers.fish.stock import stock
from pondapp.answers.planning.plan import PondConflict
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import PumpComparison, compare
from pondapp.answers.pumps.quick import parts, quick_pond
from pondapp.answers.rules.rules import rules_of
from pondapp.answers.shopping.shopping import bill
from pondapp.core.circuit.model import FlowDemand
from pondapp.models.circuit import FEATURES, Branch, Feature, Jet, Line
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, NothingComes, Reading
from pondapp.models.water import TypedVolume

NOW = datetime(2026, 7, 1, 12, tzinfo=UTC)
FISH = (FishGroup(id="f", name="Goldfish", count=3, length_m=0.1),)
every_kind = pytest.mark.parametrize("kind", KINDS)


def pond_with(*fed: Feature, hours: float = 24.0, branches: tuple[Branch, ...] = ()) -> Pond:
    """A pond with these on a branch each, unless it is said how they are fed."""
    own = tuple(Branch(id=f"to-{one.id}", name=f"To {one.name}", feeds=(one.id,)) for one in fed)
    line = Line(id="line", name="Pump", hours_per_day=hours, branches=branches or own)
    return Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=1.0), fish=FISH,
        fed=fed, lines=(line,),
    )  # fmt: skip


def test_each_stored_class_has_its_kind_and_its_sample() -> None:
    assert tuple(KINDS) == FEATURES == tuple(SAMPLES)
    assert all(kind.key == key for key, kind in KINDS.items())


def told_to_rest(pond: Pond) -> bool:
    """Whether the plan has nothing against a pump that runs part of the day only."""
    plan = WorkedPond(pond).plan
    return not (isinstance(plan, PondConflict) and "round the clock" in plan.conflicts[0].template)


def rests_at_the_pump(kind: str) -> bool:
    """Whether the pumps' screen puts it on a timer beside a filter that runs all day."""
    filters = SAMPLES["high_flow"].model_copy(update={"id": "other", "name": "Other"})
    pond = pond_with(SAMPLES[kind], filters)
    (line,) = lines_of(pond)
    found = compare(WorkedPond(pond), line, {"to-one": 1e-4, "to-other": 1e-3})
    return isinstance(found, PumpComparison) and f"To {SAMPLES[kind].name}" in found.on_timer


def rests_on_a_pump_of_its_own(kind: str) -> bool:
    """Whether a resolution that gives it a pump of its own puts that on a timer."""
    narrow = Band(low_m3_s=1e-4, target_m3_s=1e-4, high_m3_s=2e-4)
    tight = SAMPLES[kind].model_copy(update={"band": narrow, "aim": None})
    strong = Jet(id="strong", name="Strong", flow_m3_s=2e-3)
    row = Branch(id="row", name="Row", feeds=("one", "strong"))
    found = WorkedPond(pond_with(tight, strong, branches=(row,))).plan
    assert isinstance(found, PondConflict)
    duties = {
        pump.duty
        for way in found.resolutions
        for pump in way.circuit.pumps
        if [demand.name for branch in pump.branches for demand in branch.demands] == [tight.name]
    }
    assert len(duties) == 1
    return duties.pop() < 1.0


def counted_as_filter(kind: str) -> bool:
    """Whether stock counts its media."""
    found = stock(WorkedPond(pond_with(SAMPLES[kind])), grown=False).usual
    return any("of media" in message.template for message in found.counted)


def dangerous_when_dry(kind: str) -> bool:
    """Whether it endangers the fish that no water comes out of it."""
    pond = pond_with(SAMPLES[kind])
    dry = Reading(
        id="r", pond_id="p", place_id="one", place_name=SAMPLES[kind].name, taken_at=NOW,
        method=NothingComes(), band=None,
    )  # fmt: skip
    matters = open_matters(WorkedPond(pond), [dry], NOW).matters
    (found,) = [one for one in matters if "no water comes" in one.sentence.template]
    return found.severity == "danger"


@every_kind
def test_who_may_rest_with_a_timer_has_one_answer(kind: str) -> None:
    """Common practice: what bacteria live in needs water round the clock, and all else may rest."""
    may_rest = not KINDS[kind].alive
    assert may_rest == (kind not in ("bog", "high_flow", "own_filter"))
    assert told_to_rest(pond_with(SAMPLES[kind], hours=8.0)) == may_rest
    assert rests_at_the_pump(kind) == may_rest
    assert rests_on_a_pump_of_its_own(kind) == may_rest
    assert dangerous_when_dry(kind) != may_rest


def test_quick_sizing_asks_as_a_saved_pond_does() -> None:
    found = quick_pond(1.0, "both", 0.3)
    demands: tuple[FlowDemand, ...] = tuple(
        demand for branch in found.plan.pumps[0].branches for demand in branch.branch.demands
    )
    fed = parts(1.0, "both", 0.3)
    assert [demand.all_day for demand in demands] == [KINDS[one.kind].alive for one in fed]
    assert [demand.kind for demand in demands] == [KINDS[one.kind].planner for one in fed]
    assert [demand.size for demand in demands] == [KINDS[one.kind].size_of(one) for one in fed]


@every_kind
def test_who_cleans_has_one_answer(kind: str) -> None:
    cleans = KINDS[kind].alive and KINDS[kind].known
    assert counted_as_filter(kind) == cleans
    assert bool(cleans and KINDS[kind].media_volume(SAMPLES[kind])) == cleans


@every_kind
def test_what_falls_brings_air_and_lifts_its_water(kind: str) -> None:
    pond = pond_with(SAMPLES[kind])
    found = stock(WorkedPond(pond), grown=False).usual
    assert any("falls" in message.template for message in found.counted) == KINDS[kind].falls
    assert (KINDS[kind].fall(SAMPLES[kind]) is not None) == (kind in ("lip", "stream"))


@every_kind
def test_its_band_grows_with_its_size_and_its_size_may_change(kind: str) -> None:
    described, sample = KINDS[kind], SAMPLES[kind]
    if described.size is None:
        assert described.size_of(sample) is None
        return
    before = described.size_of(sample)
    assert before is not None
    larger = described.resized(sample, 2 * before)
    assert described.size_of(larger) == 2 * before
    bands = [WorkedPond(pond_with(one)).wanted.places[0].band for one in (sample, larger)]
    assert bands[1].low == pytest.approx(2 * bands[0].low)
    own = sample.model_copy(update={"band": Band(low_m3_s=1e-4, target_m3_s=1e-4, high_m3_s=None)})
    assert described.size_of(own) is None


@every_kind
def test_its_rules_are_rules_of_the_app(kind: str) -> None:
    known = {rule.key for rule in rules_of(pond_with(SAMPLES[kind]))}
    assert set(KINDS[kind].rules) <= known


@every_kind
def test_it_can_be_bought_under_keys_of_its_own(kind: str) -> None:
    two = SAMPLES[kind].model_copy(update={"id": "two", "name": "Second"})
    keys = [item.key for item in bill(WorkedPond(pond_with(SAMPLES[kind], two))).items]
    assert len(keys) == len(set(keys))
    assert any(key.endswith(".one") for key in keys) == (kind != "lip")
