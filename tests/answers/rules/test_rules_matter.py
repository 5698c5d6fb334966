"""Every rule that is offered changes some answer about some pond."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cache

import pytest
from pydantic import BaseModel
from samples_of_kinds import SAMPLES

from pondapp.answers.care.due import due
from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.care.watch_plans import watch_plans
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.features.bog_build import bog_build
from pondapp.answers.features.kinds import KINDS
from pondapp.answers.features.targets import FlowBand, targets
from pondapp.answers.fish.stock import stock
from pondapp.answers.keeping.dose import salt_for
from pondapp.answers.keeping.evaporation import leak, warm_week, week_loss
from pondapp.answers.keeping.pump_off import pump_off
from pondapp.answers.keeping.season import what_to_do
from pondapp.answers.keeping.uv_lamp import uv_lamp
from pondapp.answers.keeping.water_change import ChangeAsked, water_change
from pondapp.answers.log.charts import water_range
from pondapp.answers.log.log import newest_first
from pondapp.answers.log.trend import place_trend
from pondapp.answers.log.water_tests import read_test
from pondapp.answers.measuring.aims import aimed, fill_aim
from pondapp.answers.measuring.compare import beside
from pondapp.answers.measuring.methods import measured_by, rules_for
from pondapp.answers.methods.kinds import METHODS
from pondapp.answers.planning.evaluation import evaluations
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.plumbing.plumbing import line_answer
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import health
from pondapp.answers.pumps.pumps import compare, shelf, with_assumption
from pondapp.answers.rules.rules import Rule, rules_of
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.shopping.shopping import bill
from pondapp.answers.water.fill import filled_by_clock, metered, salted
from pondapp.answers.water.liner import basin_liner
from pondapp.answers.water.volume import water_volume
from pondapp.answers.waterfall.lip_setting import lip_setting
from pondapp.answers.waterfall.water_sheet import sheet_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import BogFilter, HighFlowFilter
from pondapp.models.entry import Cleaning, Entry, WaterTest
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    LipDepth,
    MeterReading,
    NothingComes,
    Reading,
)
from pondapp.models.water import TypedVolume

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
EXAMPLE = example_pond()
LOG = newest_first(example_readings(NOW))
BUCKET = Container(id="b", name="Bucket", volume_m3=0.010, tolerance_m3=0.0002)
KOI = FishGroup(id="koi", name="Koi", count=30, length_m=0.45)
LINE = EXAMPLE.lines[0]
PLAIN = LINE.model_copy(update={
    "main": None,
    "branches": tuple(branch.model_copy(update={"pipe": None, "lift_m": None, "valve": "none"})
                      for branch in LINE.branches),
})  # fmt: skip
RIBBED = LINE.model_copy(update={
    "branches": tuple(
        branch.model_copy(update={"pipe": branch.pipe.model_copy(
            update={"series": "ribbed hose, mm"})})
        for branch in LINE.branches if branch.pipe
    ),
})  # fmt: skip
KEEN = tuple(pump.model_copy(update={"adjustable": True}) for pump in EXAMPLE.pumps)
LARGE = Pond(
    id="large", name="Large", water=TypedVolume(volume_m3=60), fish=(KOI,),
    fed=(HighFlowFilter(id="box", name="Box", media_volume_m3=0.2),
         BogFilter(id="bog", name="Bog", bed_volume_m3=3),
         *(sample.model_copy(update={"id": kind}) for kind, sample in SAMPLES.items()
           if not KINDS[kind].alive)),
)  # fmt: skip
WARMTHS = (3.0, 8.0, 11.0, 14.0, 18.0, 22.0, 29.0)
PONDS = (
    EXAMPLE, LARGE, EXAMPLE.model_copy(update={"lines": (PLAIN,), "fish": (KOI,)}),
    EXAMPLE.model_copy(update={"lines": (RIBBED,), "pumps": KEEN}),
)  # fmt: skip
TESTS = (
    WaterTest(total_ammonia_kg_m3=0.5e-3, ph=8.0), WaterTest(total_ammonia_kg_m3=3e-3),
    WaterTest(nitrite_kg_m3=0.5e-3, nitrate_kg_m3=0.06, oxygen_kg_m3=5e-3, temperature_c=29),
    WaterTest(salt_kg_m3=3.0), WaterTest(salt_kg_m3=5.5, oxygen_kg_m3=3.8e-3),
    WaterTest(ph=6.5), WaterTest(ph=9.0),
    WaterTest(general_hardness_kg_m3=0.2, carbonate_hardness_kg_m3=0.05),
)  # fmt: skip
Probe = Callable[[Pond], object]


def _water(pond: Pond) -> object:
    return [read_test(test, pond) for test in TESTS]


def _due(pond: Pond) -> object:
    """Each job done once, some days ago."""
    done = [
        Entry(id=what.kind, pond_id=pond.id, when=NOW - timedelta(days=5), what=what)
        for what in (Cleaning(part="all"), TESTS[0])
    ]
    return due(pond, newest_first([*LOG, *done]), NOW)


def _open(pond: Pond) -> object:
    aged = Entry(id="t", pond_id=pond.id, when=NOW - timedelta(days=20), what=TESTS[0])
    return open_matters(WorkedPond(pond), [aged, *LOG], NOW).matters


def _trend(pond: Pond) -> object:
    """A flow that falls by a third in a hundred days, and has some way to go."""
    band = FlowBand(1.0e-3, 1.2e-3, None)
    falling = [
        Reading(id=f"r{day}", pond_id=pond.id, place_id="box", place_name="Box", band=None,
                taken_at=NOW - timedelta(days=100 - day),
                method=MeterReading(flow_m3_s=1.8e-3 - 6e-6 * day, tolerance=0.002))
        for day in range(0, 100, 10)
    ]  # fmt: skip
    return place_trend(pond, "box", "Box", band, newest_first(falling))


def _stocked(pond: Pond) -> object:
    return [
        stock(WorkedPond(pond.model_copy(update={"water_temperature_c": heat})), grown=True)
        for heat in WARMTHS
    ]


def _measuring(pond: Pond) -> object:
    rules = rules_for(pond)
    band = targets(pond).places[0].band
    sets = ((9.5, 10.5), (12.0,), (2.0, 2.1, 2.0), (10.0, 10.1, 10.0, 13.0), (20.0, 20.4, 20.1))
    found: list[object] = [
        measured_by(Bucket(container=BUCKET, fills=tuple(Fill(seconds=s) for s in fills)), band,
                    rules.measuring)
        for fills in sets
    ]  # fmt: skip
    lips = ((0.03, 0.4), (0.008, 0.4))
    found += [
        measured_by(LipDepth(head_m=head, head_tolerance_m=0.001, width_m=width,
                             width_tolerance_m=0.005, crest_height_m=0.1), band, rules.measuring)
        for head, width in lips
    ]  # fmt: skip
    found += [kind.usual(rules) for kind in METHODS.values()]
    found += [fill_aim(BUCKET, band, rules.measuring), aimed(band, None, rules.measuring)]
    meter = Reading(
        id="m", pond_id=pond.id, place_id="bog", place_name="Bog", band=None,
        taken_at=NOW - timedelta(hours=30), method=MeterReading(flow_m3_s=1e-4, tolerance=0.05),
    )  # fmt: skip
    timed = measured_by(Bucket(container=BUCKET, fills=(Fill(seconds=90.0),)), band)
    assert timed is not None
    found.append(beside(timed.flow, "bucket", [meter], "bog", NOW, band, rules.measuring))
    found.append(measured_by(NothingComes(), band, rules.measuring))
    return found


def _volumes(pond: Pond) -> object:
    rules = rules_for(pond)
    return (
        filled_by_clock(3e-4, 2.8e-4, 9000.0, rules), metered(1.0, 4.0, rules),
        salted(3.0, 0.1, 1.3, None, rules),
    )  # fmt: skip


def _lines(pond: Pond) -> object:
    worked = WorkedPond(pond)
    flows = worked.planned.flows
    found: list[object] = []
    for line in worked.lines:
        for question in (shelf, compare, line_answer):
            answer = question(worked, line, flows)  # type: ignore[operator]
            found.append((answer, [one.steps() for one in getattr(answer, "answers", ())]))
    return found


def _pumps(pond: Pond) -> object:
    line = lines_of(pond)[0]
    return [health(WorkedPond(pond), line, LOG, valves) for valves in ("open", "kept")]  # type: ignore[arg-type]


def _liners(pond: Pond) -> object:
    return [basin_liner(basin, rules_for(pond)) for basin in getattr(pond.water, "basins", ())]


def _evaporated(pond: Pond) -> object:
    """A hot week as far as it is known, and a night's test with the bucket in both places."""
    worked = WorkedPond(pond)
    weeks = [
        week_loss(worked, water=warm_week(pond, worked.rules), air=297.15, humidity=damp, wind=wind,
                  area=10.0, hose=None)
        for damp, wind in ((None, "unknown"), (0.5, "open"))
    ]  # fmt: skip
    tests = [
        leak(worked, drop=fall, bucket=0.006, time=86400.0, level=None, stands=stands, area=10.0)
        for fall in (0.006, 0.012)
        for stands in ("in", "beside")
    ]  # type: ignore[misc]
    return weeks, tests


def _changed(pond: Pond) -> object:
    """Cold tap water, some of it too much at once, against what each way of binding takes."""
    asked = ChangeAsked(water=0.25 * water_volume(pond), temperature=295.15, tap_temperature=282.15)
    return [
        water_change(WorkedPond(pond), replace(asked, binder=binder, water=asked.water * part))
        for binder in ("crystals", "vitamin")
        for part in (1.0, 1.2)
    ]


def _built(pond: Pond) -> object:
    worked = WorkedPond(pond)
    bogs = [bog_build(worked, one) for one in pond.fed if isinstance(one, BogFilter)]
    return bogs, [told_of(worked, one) for one in pond.fed]


PROBES: tuple[Probe, ...] = (
    lambda pond: targets(pond), _due, _measuring, _volumes, _water,
    _stocked, lambda pond: bill(WorkedPond(pond)), _liners,
    lambda pond: WorkedPond(pond).plan,
    _lines, lambda pond: evaluations(WorkedPond(pond)), _pumps,
    _trend,
    lambda pond: [lip_setting(WorkedPond(pond), it) for it in pond.fed if it.kind == "lip"],
    lambda pond: [sheet_of(0.4, flow, rules_for(pond)) for flow in (2e-4, 1.5e-3, 6e-3)],
    lambda pond: [water_range(pond, key) for key in ("ph", "nitrite", "nitrate")],
    _open, _changed, lambda pond: salt_for(WorkedPond(pond), 0.5, 2.0),
    _evaporated,
    lambda pond: pump_off(WorkedPond(pond), temperature=297.15, oxygen=None, area=4.0),
    _built,
    lambda pond: uv_lamp(WorkedPond(pond), power=11.0, uvc=None, flow=5e-4, most=None, path=0.02,
                         since=NOW.date()),
    lambda pond: watch_plans(pond, NOW.date()),
    lambda pond: [
        what_to_do(WorkedPond(pond), (), heat + 273.15, "spring", NOW) for heat in WARMTHS
    ],
)  # fmt: skip
FIRST = {
    "filters": (0, 5, 6, 8, 3, 21, 22), "waterfalls": (0, 14, 2, 6),
    "stock": (4, 5, 17, 18, 19, 20),
    "measuring": (2, 3, 11, 12),
    "plumbing": (9,), "pumps": (9, 11, 10), "materials": (6, 7), "water": (4, 5),
    "care": (1, 16, 12, 23, 24),
}  # fmt: skip


GROUPS = (Assumptions, *(type(getattr(Assumptions(), part.name)) for part in fields(Assumptions)))


def said(value: object) -> object:
    """An answer without the rules that it holds on to: those say nothing to a reader."""
    if isinstance(value, GROUPS) or callable(value):
        return None
    if isinstance(value, BaseModel):
        return value.model_dump_json(exclude={"assumptions"})
    if is_dataclass(value):
        return [said(getattr(value, part.name)) for part in fields(value) if part.repr]
    if isinstance(value, Mapping):
        return [(key, said(one)) for key, one in value.items()]
    if isinstance(value, list | tuple):
        return [said(one) for one in value]
    return repr(value)


@cache
def asked(probe: int, pond: int, changed: tuple[tuple[str, float], ...] = ()) -> str:
    """What an answer says, or why there is none."""
    found = PONDS[pond].model_copy(update={"assumptions": dict(changed)})
    try:
        return repr(said(PROBES[probe](found)))
    except PondError as problem:
        return str(problem)


def others(rule: Rule) -> Iterator[float]:
    """Values to try in place of the default, near ones first."""
    near = (rule.default * share for share in (1.15, 0.85, 1.02, 0.98, 1.6, 0.6))
    for value in (*near, rule.low, rule.high, (rule.low + rule.high) / 2):
        if rule.low <= value <= rule.high and value != rule.default:
            yield value


def changes_something(rule: Rule) -> bool:
    first = FIRST[rule.group]
    order = (*first, *(place for place in range(len(PROBES)) if place not in first))
    values = list(others(rule))
    for probe in order:
        for pond in range(len(PONDS)):
            before = asked(probe, pond)
            for value in values:
                try:
                    with_assumption(PONDS[pond], rule.key, value)
                except PondError:
                    continue
                after = asked(probe, pond, ((rule.key, value),))
                if after != before:
                    return True
    return False


@pytest.mark.parametrize("rule", rules_of(EXAMPLE), ids=lambda rule: rule.key)
def test_a_rule_changes_some_answer(rule: Rule) -> None:
    assert changes_something(rule)
