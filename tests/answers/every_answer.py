"""Every answer that the screens give about a pond, asked at once, and all the sentences in them."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from typing import Any

from random_ponds import NOW, Kept

from pondapp import units
from pondapp.answers.care import due, glance, open_matters
from pondapp.answers.features import targets
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.features.bog_build import bog_build
from pondapp.answers.fish import stock
from pondapp.answers.keeping import dose, evaporation
from pondapp.answers.keeping import water_change as changed
from pondapp.answers.keeping.pump_off import pump_off
from pondapp.answers.log import charts, log_table, trend, water_tests
from pondapp.answers.measuring.methods import measured_reading, rules_for
from pondapp.answers.picture import picture, states
from pondapp.answers.planning import evaluation
from pondapp.answers.plumbing import plumbing
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps import health, pumps
from pondapp.answers.pumps import running_costs as costs
from pondapp.answers.rules import rules
from pondapp.answers.sharing import html_report
from pondapp.answers.shopping import shopping
from pondapp.answers.tuning import tune
from pondapp.answers.tuning.flow_sets import branch_places, newest_at
from pondapp.answers.water import basin_outline, liner, volume
from pondapp.answers.waterfall import lip_setting
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.entry import WaterTest

PHONE = 358.0
"""Width of a picture on a phone."""
# What an answer carries along to be worked with, and nobody reads.
UNSEEN = ("pondapp.core.hydraulics.network", "pondapp.core.hydraulics.odds")


@dataclass(frozen=True, slots=True)
class Refused:
    """An answer that was refused with a sentence."""

    message: Message


def _asked(question: Callable[[], Any]) -> Any:
    """The answer, or the sentence it is refused with; any other error is a bug and stays loud."""
    try:
        answer = question()
        return tuple(answer) if isinstance(answer, Iterator) else answer
    except PondError as problem:
        return Refused(problem.message)


def every_answer(kept: Kept) -> dict[str, Any]:
    """Each answer by the name of its question."""
    pond, log = kept.pond, kept.readings
    items = sorted((*kept.readings, *kept.entries), key=_when, reverse=True)
    flows = _asked(lambda: WorkedPond(pond).planned.flows)
    given: Mapping[str, float] = {} if isinstance(flows, Refused) else flows
    asked: dict[str, Callable[[], Any]] = {
        "volume": lambda: volume.volume_of(pond.water),
        "water": lambda: volume.water_volume(pond),
        "targets": lambda: targets.targets(pond),
        "wanted": lambda: WorkedPond(pond).wanted,
        "plan": lambda: WorkedPond(pond).plan,
        "planned": lambda: WorkedPond(pond).planned,
        "least and good": lambda: evaluation.evaluations(WorkedPond(pond)),
        "open matters": lambda: open_matters.open_matters(WorkedPond(pond), items, NOW),
        "picture": lambda: picture.picture(
            WorkedPond(pond), states.states_of(WorkedPond(pond), items, NOW), PHONE
        ),
        "pump against new": lambda: glance.pump_against_new(WorkedPond(pond), items, NOW),
        "running costs": lambda: costs.running_costs(WorkedPond(pond)),
        "savings": lambda: costs.savings(WorkedPond(pond), costs.running_costs(WorkedPond(pond))),
        "stock": lambda: stock.stock(WorkedPond(pond), grown=False),
        "stock grown": lambda: stock.stock(WorkedPond(pond), grown=True),
        "shopping": lambda: shopping.bill(WorkedPond(pond)),
        "due": lambda: due.due(pond, items, NOW),
        "water change": lambda: changed.water_change(
            WorkedPond(pond),
            changed.ChangeAsked(
                water=0.4 * volume.water_volume(pond),
                temperature=291.15,
                tap_temperature=279.15,
                pond={"nitrate": 0.12, "carbonate_hardness": 0.08, "salt_level": 1.0},
                tap={"carbonate_hardness": 0.02},
                hose=3e-4,
                goal=0.05,
            ),
        ),
        "hot week": lambda: evaporation.week_loss(
            WorkedPond(pond),
            water=298.15,
            air=297.15,
            humidity=None,
            wind="unknown",
            area=8.0,
            hose=3e-4,
        ),
        "leak": lambda: evaporation.leak(
            WorkedPond(pond),
            drop=0.03,
            bucket=0.004,
            time=36000.0,
            level=None,
            stands="in",
            area=8.0,
        ),
        "pump off": lambda: pump_off(WorkedPond(pond), temperature=299.15, oxygen=None, area=None),
        "salt": lambda: dose.salt_for(WorkedPond(pond), 0.5, 6.0),
        "label": lambda: dose.dose_for(WorkedPond(pond), 5.0, 10.0, "usgal"),
        "rules": lambda: rules.rules_of(pond),
        "log table": lambda: log_table.log_table(items, {pond.id: pond.name}, "metric"),
        "printed": lambda: html_report.plan_page(WorkedPond(pond), log, "us", NOW),
    }
    if hasattr(pond.water, "basins"):
        for basin in pond.water.basins:
            asked[f"picture of {basin.id}"] = lambda basin=basin: basin_outline.basin_picture(basin)
            asked[f"liner of {basin.id}"] = lambda basin=basin: liner.basin_liner(
                basin, rules_for(pond)
            )
    for line in () if isinstance(flows, Refused) else lines_of(pond):
        key = line.id
        asked |= {
            f"plumbing {key}": lambda line=line: plumbing.line_answer(
                WorkedPond(pond), line, given
            ),
            f"pumps {key}": lambda line=line: pumps.shelf(WorkedPond(pond), line, given),
            f"one or two {key}": lambda line=line: pumps.compare(WorkedPond(pond), line, given),
            f"tuning {key}": lambda line=line: tune.states(WorkedPond(pond), line, items, {}, NOW),
            f"order {key}": lambda line=line: tune.order(WorkedPond(pond), line),
            f"health {key}": lambda line=line: health.health(WorkedPond(pond), line, log, "open"),
            f"health kept {key}": lambda line=line: health.health(
                WorkedPond(pond), line, log, "kept"
            ),
        }
        for place in _places(pond, line):
            seen = newest_at(log, place.everywhere, rules_for(pond).measuring, place.band)
            if seen is None or seen.flow <= 0.0:
                continue
            asked[f"turn {place.branch.id}"] = lambda line=line, place=place, seen=seen: (
                tune.valve_effect(WorkedPond(pond), line, log, place.branch.id, seen.flow, NOW)
            )
    for feature in pond.fed:
        asked[f"told of {feature.id}"] = lambda one=feature: told_of(WorkedPond(pond), one)
        if feature.kind == "bog":
            asked[f"built {feature.id}"] = lambda bog=feature: bog_build(WorkedPond(pond), bog)
        if feature.kind == "lip":
            asked[f"lip {feature.id}"] = lambda lip=feature: lip_setting.lip_setting(
                WorkedPond(pond), lip
            )
    for place_id in {reading.place_id for reading in log}:
        asked[f"chart {place_id}"] = lambda one=place_id: charts.flow_chart(
            WorkedPond(pond), one, items, None
        )
        asked[f"trend {place_id}"] = lambda one=place_id: trend.place_trend(
            pond, one, one, charts.wanted_at(WorkedPond(pond), one, items), items
        )
    for reading in log:
        asked[f"reading {reading.id}"] = lambda one=reading: measured_reading(one)
    for entry in kept.entries:
        if isinstance(entry.what, WaterTest):
            asked[f"test {entry.id}"] = lambda one=entry.what: water_tests.read_test(one, pond)
    return {name: _asked(question) for name, question in asked.items()}


def _places(pond: Any, line: Any) -> tuple[Any, ...]:
    found = _asked(lambda: branch_places(WorkedPond(pond), line))
    return () if isinstance(found, Refused) else found


def _when(item: Any) -> Any:
    return getattr(item, "taken_at", None) or item.when


def parts_of(answer: Any) -> list[Any]:
    """Everything in an answer that a reader may come to see: each sentence, number and part."""
    found: list[Any] = []
    _gather(answer, found, 0)
    return found


def _gather(answer: Any, found: list[Any], depth: int) -> None:
    found.append(answer)
    if depth > 12 or isinstance(answer, str | bytes | int | float | Message):
        return
    if is_dataclass(answer) and not isinstance(answer, type):
        if type(answer).__module__ in UNSEEN:
            return
        for one in fields(answer):
            _gather(getattr(answer, one.name), found, depth + 1)
    elif isinstance(answer, Mapping):
        for part in answer.values():
            _gather(part, found, depth + 1)
    elif isinstance(answer, tuple | list):
        for part in answer:
            _gather(part, found, depth + 1)
    steps = getattr(answer, "steps", None)
    if callable(steps):
        _gather(steps(), found, depth + 1)


def told(message: Message) -> Iterator[str]:
    """A sentence as it is read, in each system of units."""
    return (units.tell(message, system) for system in ("metric", "us", "imperial"))
