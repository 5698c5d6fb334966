"""A pond is worked out once: no screen and no answer makes the same plan or circuit twice."""

import asyncio
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, datetime
from typing import Any

import pytest
from drawn import Screen

from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.fish.stock import stock
from pondapp.answers.planning import plan
from pondapp.answers.planning.evaluation import evaluations
from pondapp.answers.planning.plan import PondConflict
from pondapp.answers.plumbing import network
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import health
from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.shopping.shopping import bill
from pondapp.answers.tuning.tune import order, states
from pondapp.models.pond import Pond
from pondapp.ui.pond import matters
from pondapp.ui.pond.home import HomePage
from pondapp.ui.shell import routes, worked

NOW = datetime.now(UTC)
LOG = sorted(example_readings(NOW), key=lambda one: one.taken_at, reverse=True)
PARAMS = {
    "pond_id": EXAMPLE, "place_id": "lip", "part_id": "to-fall", "thing_id": "bog",
    "item_id": LOG[0].id, "line_id": "line", "run_key": "to-fall", "branch_id": "to-fall",
    "pump_id": "middle", "rule_key": "pumps.tariff",
}  # fmt: skip


def weak() -> Pond:
    """The example with a pump that is too small for what it feeds."""
    (line,) = example_pond().lines
    small, *others = example_pond().pumps
    small = small.model_copy(update={"max_flow_m3_s": 1e-4})
    update = {
        "lines": (line.model_copy(update={"pump_id": small.id}),),
        "pumps": (small, *others),
    }
    return example_pond().model_copy(update=update)


def at_odds() -> Pond:
    """The example with bog and lip on one branch, where one takes less than the other needs."""
    (line,) = example_pond().lines
    _, fall = line.branches
    branches = (fall.model_copy(update={"feeds": ("bog", "box", "lip")}),)
    update = {"lines": (line.model_copy(update={"branches": branches}),), "aim": "good"}
    return example_pond().model_copy(update=update)


PONDS: Mapping[str, tuple[Callable[[], Pond], int]] = {
    # Its own, and the least of all, which says what a pump is wanted to give.
    "as it is": (example_pond, 2),
    "weak pump": (weak, 4),  # and each once more as if no pump were chosen
    "at odds": (at_odds, 4),
}


def pages(tree: routes.Tree) -> Iterator[str]:
    for entry in tree.values():
        name, below = (entry, {}) if isinstance(entry, str) else entry
        yield name
        yield from pages(below)


SCREENS = ("pond.pond.PondPage", *dict.fromkeys(pages(routes.POND)))


class Calls:
    """What the planner was asked, and the circuits that were built, each with how often."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.plans: Counter[Any] = Counter()
        self.networks: Counter[Any] = Counter()
        plan_circuit, duty_for = plan.plan_circuit, network.duty_for

        def planned(circuit: Any, share: float) -> Any:
            self.plans[circuit] += 1
            return plan_circuit(circuit, share)

        def built(circuit: Any, wanted: Mapping[str, float], viscosity: float) -> Any:
            self.networks[circuit, tuple(wanted.items())] += 1
            return duty_for(circuit, wanted, viscosity)

        monkeypatch.setattr(matters, "_kept", {})
        monkeypatch.setattr(worked, "_kept", [])
        monkeypatch.setattr(plan, "plan_circuit", planned)
        monkeypatch.setattr(network, "duty_for", built)

    def again(self) -> list[Any]:
        """What was worked out more than once."""
        return [one for one, count in (self.plans + self.networks).items() if count > 1]


@pytest.mark.parametrize("pond", PONDS)
@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_works_a_pond_out_once(
    screen: Screen, name: str, pond: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, most = PONDS[pond]
    asyncio.run(screen.session.ponds.save(made()))
    for reading in LOG:
        asyncio.run(screen.session.logs.save_reading(reading))
    calls = Calls(monkeypatch)
    screen.open(routes._screen(name), **PARAMS)
    if name.endswith("PumpFormPage"):  # tries its pump in another pond, whose circuit is the same
        assert calls.networks.most_common(1)[0][1] <= 2
        calls.networks.clear()
    if name.endswith("WhatIfPage"):  # as entered, and as its readings tell: two ponds of one plan
        assert calls.plans.most_common(1)[0][1] <= 2
        calls.plans.clear()
    assert not calls.again()
    if name.endswith("PlanPage"):  # its own, the least and the good ones, each at most twice
        most = 6
    assert sum(calls.plans.values()) <= most


def test_the_screens_of_an_unchanged_pond_share_one_plan(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = Calls(monkeypatch)
    for name in SCREENS:
        if not name.endswith("PlanPage"):
            screen.open(routes._screen(name), **PARAMS)
    screen.open(HomePage)
    assert sum(calls.plans.values()) == 2
    asyncio.run(screen.session.ponds.save(weak()))
    screen.open(routes._screen("pond.pond.PondPage"), **PARAMS)
    assert sum(calls.plans.values()) <= 6


ANSWERS: Mapping[str, Callable[[WorkedPond], Any]] = {
    "print": lambda of: plan_page(of, LOG, "metric", NOW),
    "stock": lambda of: stock(of, grown=False),
    "order of tuning": lambda of: order(of, of.lines[0]),
    "tuning": lambda of: states(of, of.lines[0], LOG, {}, NOW),
    "health": lambda of: health(of, of.lines[0], LOG, "open"),
    "shopping": bill,
    "open matters": lambda of: open_matters(of, LOG, NOW),
}


@pytest.mark.parametrize("pond", PONDS)
@pytest.mark.parametrize("answer", ANSWERS)
def test_an_answer_works_a_pond_out_once(
    answer: str, pond: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    made, most = PONDS[pond]
    calls = Calls(monkeypatch)
    ANSWERS[answer](WorkedPond(made()))
    assert not calls.again()
    assert sum(calls.plans.values()) <= most


@pytest.mark.parametrize("pond", PONDS)
def test_all_answers_together_make_one_plan(pond: str, monkeypatch: pytest.MonkeyPatch) -> None:
    made, most = PONDS[pond]
    calls, of = Calls(monkeypatch), WorkedPond(made())
    for answer in ANSWERS.values():
        answer(of)
    assert not calls.again()
    assert sum(calls.plans.values()) <= most
    assert isinstance(of.plan, PondConflict) == (most > 2)


@pytest.mark.parametrize("aim", ["least", "good"])
def test_a_plan_that_has_this_aim_already_is_not_made_again(
    aim: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    pond = example_pond().model_copy(update={"aim": aim})
    calls, of = Calls(monkeypatch), WorkedPond(pond)
    found = evaluations(of)
    assert (found.least if aim == "least" else found.good).plan in (
        of.plan, of.without_pumps.plan,
    )  # fmt: skip
    assert not calls.again()
