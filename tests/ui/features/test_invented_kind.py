"""A kind that only this test knows goes through every answer and screen: none of them names kinds.

A rill: a small channel that water runs down. Its numbers are invented.
"""

import asyncio
from datetime import UTC, datetime
from typing import Annotated, Literal

import flet as ft
import pytest
from drawn import Screen
from pydantic import Field

from pondapp.answers.features import kinds
from pondapp.answers.features.kind import FeatureKind, Size
from pondapp.answers.features.rules_behind import rules_behind
from pondapp.answers.features.targets import targets
from pondapp.answers.fish.stock import stock
from pondapp.answers.log.log_names import parts
from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.planning.resolve import apply
from pondapp.answers.plumbing.path import assumed_lift, lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import PumpComparison, compare
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.shopping.shopping import bill
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.models.base import limits_of
from pondapp.models.circuit import (
    BogFilter,
    Branch,
    Feature,
    HighFlowFilter,
    Jet,
    Line,
    Lip,
    Skimmer,
)
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.water import TypedVolume
from pondapp.ui.features import looks
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.features.feature_form import read_feature, texts_of
from pondapp.ui.features.features import FeaturePage, FeaturesPage
from pondapp.ui.features.look import FeatureLook
from pondapp.ui.log.entry import EntryPage
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.parts.draft import draft_name
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.plumbing.path import PathPage

PER_WIDTH = 0.004  # m2/s


class Rill(Feature):
    """A small channel by its width."""

    kind: Literal["rill"] = "rill"
    width_m: Annotated[float, Field(gt=0, le=3)]
    fall_m: Annotated[float, Field(gt=0, le=3)] | None = None


class RillKind(FeatureKind[Rill]):
    stored = Rill
    title = "Rill"
    outlet = "end of the rill"
    aim = "good"
    rules = ("waterfalls.sheet_flow_per_width",)
    planner = "lip"
    size = Size("width_m", "width of {name}", "width", 0.05, lambda _pond, _volume: 2.0)
    falls = True
    cleaned_apart = True

    def band(self, rill: Rill, _volume: float, _rules: Assumptions, /) -> FlowBand:
        good = PER_WIDTH * rill.width_m
        return FlowBand(0.5 * good, good, 2.0 * good)

    def rule(self, _rill: Rill, _volume: float, _rules: Assumptions, /) -> Message:
        return Message("{flow} of rill.", {"flow": Amount(PER_WIDTH, "m2/s")})

    def steps(self, rill: Rill, _volume: float, _rules: Assumptions, /) -> tuple[Step, ...]:
        wide = Term("b", "width of the rill", rill.width_m, "width")
        flow = Term("Q", "good flow", PER_WIDTH * rill.width_m, "m3/s")
        return (Step(flow, "Q = q b", (wide,), COMMON_PRACTICE),)

    def fall(self, rill: Rill, /) -> float | None:
        return rill.fall_m


LOOK = FeatureLook(
    ft.Icons.WAVES,
    "A small channel that water runs down",
    Form(
        (
            QuantityField("rill", "Width of the rill", "width", limits_of(Rill, "width_m"),
                          needed=True),
            QuantityField("rill_fall", "How far it falls", "width", limits_of(Rill, "fall_m")),
        )
    ),
)  # fmt: skip


class WiderPond(Pond):
    """A pond that may have a rill."""

    fed: tuple[
        Annotated[
            BogFilter | HighFlowFilter | Lip | Jet | Skimmer | Rill, Field(discriminator="kind")
        ],
        ...,
    ] = ()


RILL = Rill(id="rill", name="Brook", width_m=0.2, fall_m=0.5)
BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=0.2)
POND = WiderPond(
    id="p",
    name="Invented",
    water=TypedVolume(volume_m3=1.0),
    fish=(FishGroup(id="f", name="Goldfish", count=3, length_m=0.1),),
    fed=(BOG, RILL),
)
IN_A_ROW = POND.model_copy(
    update={
        "lines": (
            Line(id="l", name="Pump", branches=(
                Branch(id="b", name="Row", feeds=("bog", "rill")),)),
        )
    }
)  # fmt: skip


@pytest.fixture(autouse=True)
def rills(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(kinds.KINDS, "rill", RillKind())
    monkeypatch.setitem(looks.LOOKS, "rill", LOOK)


def test_it_opens_again() -> None:
    assert WiderPond.model_validate_json(POND.model_dump_json()) == POND


def test_its_flow_its_rules_and_its_plan() -> None:
    target = targets(POND).place("rill")
    assert target is not None
    assert (target.band.low, target.band.target, target.band.high) == (4e-4, 8e-4, 1.6e-3)
    assert target.asked == 8e-4
    assert target.steps()[0].result.value == 8e-4
    assert [rule.label for rule in rules_behind(POND, "rill")] == ["Flow per width of lip"]
    plan = WorkedPond(POND).plan
    assert isinstance(plan, PondPlan)
    assert plan.through["rill"] == pytest.approx(8e-4)


def test_a_conflict_is_resolved_by_its_size() -> None:
    found = WorkedPond(IN_A_ROW).plan
    assert isinstance(found, PondConflict)
    narrower = next(
        way for way in found.resolutions if "wide, {change} narrower" in way.changes[0].template
    )
    changed = apply(WorkedPond(IN_A_ROW), narrower, iter("xyz").__next__)
    assert changed.fed[1].width_m < RILL.width_m
    assert isinstance(WorkedPond(changed).plan, PondPlan)


def test_it_rests_with_a_timer_falls_and_is_bought() -> None:
    line = lines_of(POND)[0]
    flows = {branch.id: 5e-4 for branch in line.branches}
    found = compare(WorkedPond(POND), line, flows)
    assert isinstance(found, PumpComparison)
    assert found.on_timer == ("To Brook",)
    to_brook = next(branch for branch in line.branches if branch.feeds == ("rill",))
    assert assumed_lift(POND, to_brook) == (0.5, True)
    counted = stock(WorkedPond(POND), grown=False).usual.counted
    assert any("falls" in message.template for message in counted)
    assert "thing.rill" in [item.key for item in bill(WorkedPond(POND)).items]
    assert parts()["rill"] == "Rill"
    assert "Brook" in plan_page(WorkedPond(POND), [], "metric", datetime(2026, 7, 1, tzinfo=UTC))


def test_it_is_typed_and_written_again() -> None:
    made, errors = read_feature(texts_of(RILL, "us"), "rill", "rill", "us")
    assert errors == {}
    assert made is not None
    assert (made.width_m, made.fall_m) == (
        pytest.approx(0.2, rel=1e-5),
        pytest.approx(0.5, rel=1e-5),
    )
    assert read_feature({"rill": "4 m"}, "rill", "rill", "metric")[1].keys() == {"rill"}


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    made = Screen(monkeypatch)
    asyncio.run(made.session.ponds.save(POND))
    return made


def test_its_screens(screen: Screen) -> None:
    screen.open(FeaturesPage, pond_id="p")
    assert "A small channel that water runs down" in screen.text()
    texts = {"whose": "rule", "rill": "30", "name": "Second"}
    name = draft_name("thing", "p", "new-rill")
    asyncio.run(screen.session.drafts.save(Draft(id=name, texts=texts)))
    screen.open(FeaturePage, pond_id="p", thing_id="new-rill")
    assert "Add: Rill" in screen.text()
    screen.press("Save")
    assert screen.session.ponds["p"].fed[-1].width_m == pytest.approx(0.3)
    screen.open(PathPage, pond_id="p")
    assert "Brook" in screen.text()
    screen.open(AtPlacePage, pond_id="p", place_id="rill")
    assert "Flow per width of lip" in screen.text()
    screen.open(MeasurePage, pond_id="p", place_id="rill")
    assert "end of the rill" in screen.text()
    screen.open(EntryPage, pond_id="p", item_id="new-cleaning")
    assert "Rill" in screen.text()
