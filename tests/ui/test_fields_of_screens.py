"""Every amount that a screen asks for: its draft knows what it is, and none ends the screen."""

import asyncio
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path
from typing import Any

import flet as ft
import pytest
from drawn import METHODS, Screen, parts_of

from pondapp import ui, units
from pondapp.answers.rules.rules import rules_of
from pondapp.answers.sharing.example import example_pond
from pondapp.models.fish import FishGroup
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill, Reading
from pondapp.state.ids import NO_POND
from pondapp.ui.about.rules import RulePage
from pondapp.ui.care.care import CarePage
from pondapp.ui.care.reminder import ReminderPage
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.keeping.dose import DosePage
from pondapp.ui.keeping.evaporation import EvaporationPage
from pondapp.ui.keeping.pump_off import PumpOffPage
from pondapp.ui.keeping.season import SeasonPage
from pondapp.ui.keeping.uv_lamp import UvLampPage
from pondapp.ui.keeping.water_change import WaterChangePage
from pondapp.ui.log.entry import EntryPage
from pondapp.ui.log.entry_form import AMOUNTS
from pondapp.ui.measuring.containers import ContainersPage
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.measuring.more import MorePage
from pondapp.ui.parts import fold, go_on
from pondapp.ui.parts.form import QuantityField
from pondapp.ui.plumbing.path import PathPartPage
from pondapp.ui.plumbing.run_form import RunFormPage
from pondapp.ui.pond.new_pond import NEW_POND
from pondapp.ui.pond.new_pond import SHAPES as NEW_SHAPES
from pondapp.ui.pond.pond_form import PondFormPage
from pondapp.ui.pumps.pump_form import PumpFormPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.pumps.size import SizePage
from pondapp.ui.shopping.shopping import ShoppingPage
from pondapp.ui.water.water import WaterPage
from pondapp.ui.water.water_form import SHAPES
from pondapp.ui.waterfall.waterfall import WaterfallPage
from pondapp.ui.what_if.what_if import WhatIfPage

POND = example_pond()
ID = POND.id
LINE = POND.lines[0]
BASIN = {"b0.name": "Pond", "basins": "b0", "b0.shelves": "s0", "b0.slope": "0",
         "b0.widths": "r0 r1 r2", "b0.points": "r0 r1 r2"}  # fmt: skip
Asked = tuple[Any, Mapping[str, str], str, Mapping[str, str]]


def screens() -> dict[str, Asked]:
    """Each screen with fields: its component, address, draft, and what is chosen on it."""
    pond = {"pond_id": ID}
    rule = rules_of(POND)[0]
    found: dict[str, Asked] = {
        "new pond": (PondFormPage, {}, NEW_POND, {
            "name": "A", "shape": "typed", "bog": "1", "lip": "1"}),
        "new pond with a box": (PondFormPage, {}, NEW_POND, {"shape": "typed", "high_flow": "yes"}),
        **{
            f"new pond, {shape}": (PondFormPage, {}, NEW_POND, {
                "name": "A", "shape": shape, "sides": "shelf_sloping"})
            for shape, _ in NEW_SHAPES[:-1]
        },
        "size of a pump": (SizePage, {}, "size", {"volume": "5000", "lift_by": "other"}),
        "size, the label": (SizePage, {}, "size", {
            "ask": "pump", "pump_flow": "6000", "pump_head": "3", "pump_watts": "40"}),
        "known water": (WaterPage, pond, f"water-{ID}", {"how": "typed"}),
        "fish": (FishPage, pond, f"fish-{ID}", {"fed": "weighed"}),
        "run": (RunFormPage, {**pond, "line_id": LINE.id, "run_key": LINE.branches[0].id}, "", {}),
        "main run": (RunFormPage, {**pond, "line_id": LINE.id, "run_key": "main"}, "", {}),
        "a pump's place": (PathPartPage, {**pond, "part_id": LINE.id}, "", {}),
        "a pump": (PumpFormPage, {**pond, "pump_id": "new"}, f"pump-new-{ID}", {
            "pump_flow": "6000", "pump_head": "3"}),
        "a pump by points": (PumpFormPage, {**pond, "pump_id": "new"}, f"pump-new-{ID}", {
            "known_by": "points"}),
        "costs": (PumpsPage, pond, f"pumps-{ID}", {"tariff": "0.3", "years": "5", "hours": "12"}),
        "reminders": (CarePage, pond, "", {}),
        "a reminder": (ReminderPage, {**pond, "reminder_id": "new"}, f"reminder-{ID}-new", {
            "unit": "weeks"}),
        "shopping": (ShoppingPage, pond, f"shopping-{ID}", {"open": "liner.basin"}),
        "a rule": (RulePage, {**pond, "rule_key": rule.key}, "", {}),
        "containers": (ContainersPage, {}, "container", {}),
        "containers, weighed": (ContainersPage, {}, "container", {"how": "weighed"}),
        "what if": (WhatIfPage, pond, f"whatif-{ID}", {f"pump.{LINE.id}": "by-label"}),
        "waterfall": (WaterfallPage, {}, "waterfall", {"which": "other", "lip": "30"}),
    }  # fmt: skip
    for binder in ("crystals", "label"):
        chosen = {"binder": binder}
        found[f"water change, {binder}"] = (WaterChangePage, pond, f"change-{ID}", chosen)
    for what in ("week", "leak"):
        found[f"evaporation, {what}"] = (EvaporationPage, pond, f"evaporation-{ID}", {"what": what})
    found["season"] = (SeasonPage, pond, f"season-{ID}", {})
    found["UV lamp"] = (UvLampPage, pond, f"uv-{ID}", {})
    found["pump off"] = (PumpOffPage, pond, f"pump_off-{ID}", {})
    for what in ("salt", "label"):
        found[f"dose, {what}"] = (DosePage, pond, f"dose-{ID}", {"what": what})
    for shape, _ in SHAPES:
        chosen = {"how": "drawn", **BASIN, "b0.shape": shape}
        found[f"water, {shape}"] = (WaterPage, pond, f"water-{ID}", chosen)
    for how in ("filling", "salt", "meter"):
        found[f"water by {how}"] = (WaterPage, pond, f"water-{ID}", {"measured": how})
    for kind in ("bog", "high_flow", "lip", "jet", "skimmer"):
        address = {**pond, "thing_id": f"new-{kind}"}
        found[f"new {kind}"] = (FeaturePage, address, f"thing-{ID}-new-{kind}", {"whose": "own"})
    address = {**pond, "thing_id": "new-stream"}
    chosen = {"whose": "own", "pools": "2"}
    found["new stream"] = (FeaturePage, address, f"thing-{ID}-new-stream", chosen)
    for kind in AMOUNTS:
        found[f"log, {kind}"] = (EntryPage, {**pond, "item_id": f"new-{kind}"}, "", {})
    for method in METHODS[:-1]:
        found[f"reading, {method.kind}"] = (EntryPage, {"item_id": f"r-{method.kind}"}, "", {})
        sized = method.kind in ("level_drop", "filling")
        for sides in ("box", "round", "known") if sized else ("box",):
            found[f"measure by {method.kind}, {sides}"] = (
                MorePage if method.kind == "bucket" else MeasurePage,
                {},
                f"fills-none-outlet-{method.kind}",
                {"sides": sides, "gravel": "yes"},
            )  # fmt: skip
    return found


SCREENS = screens()


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    made = Screen(monkeypatch)
    fish = FishGroup(id="g", name="Fish", count=3, length_m=0.2)
    asyncio.run(made.session.ponds.save(POND.model_copy(update={"fish": (fish,)})))
    for method in METHODS[:-1]:
        reading = Reading(id=f"r-{method.kind}", pond_id=NO_POND, place_id="outlet",
                          place_name="Outlet", taken_at=datetime(2026, 5, 6, tzinfo=UTC),
                          method=method, band=None)  # fmt: skip
        asyncio.run(made.session.logs.save_reading(reading))
    unfolded: Any = lambda _, controls, *__, **___: ft.Column(list(controls()))  # noqa: E731
    monkeypatch.setattr(fold, "Fold", unfolded)
    return made


def go_to(screen: Screen, name: str) -> None:
    """Open a screen with what is chosen on it."""
    page, address, draft_id, chosen = SCREENS[name]
    if draft_id:
        fills = (Fill(seconds=10.0), Fill(seconds=10.2)) if draft_id.startswith("fills") else ()
        screen.session.drafts.hold(Draft(id=draft_id, texts=dict(chosen), fills=fills))
    method = draft_id.rpartition("-")[2]
    if draft_id.startswith("fills") and method != "bucket":
        screen.session.drafts.hold(Draft(id="fills-none-outlet-bucket", texts={"method": method}))
    screen.open(page, **address)


Typing = Callable[[str], Any]


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[tuple[QuantityField, str, Typing]]:
    """The fields that were drawn: each with its text, and what a key in it does."""
    found: list[tuple[QuantityField, str, Typing]] = []
    draw = QuantityField.draw

    def noted(self: QuantityField, text: str, on_change: Typing, *rest: Any, **more: Any) -> Any:
        found.append((self, text, on_change))
        return draw(self, text, on_change, *rest, **more)

    monkeypatch.setattr(QuantityField, "draw", noted)
    return found


@pytest.mark.parametrize("name", SCREENS)
def test_what_is_typed_on_a_screen_is_known_and_never_ends_it(
    screen: Screen, drawn: list[tuple[QuantityField, str, Typing]], name: str
) -> None:
    go_to(screen, name)
    asked = list(drawn)
    assert asked, "this screen asks for no amount"
    for one, begin, typing in asked:
        most, least = (
            f"{units.value_in(value, one.kind, 'metric'):.15f}"
            for value in (one.limits.high * (1 - 1e-9), max(one.limits.low, 1e-9))
        )
        for text in (most, least):
            typing(text)
            typed = [
                draft.kinds.get(key)
                for draft in screen.session.drafts.values()
                for key, now in draft.texts.items()
                if now == text
            ]
            assert typed == [one.kind], one.key
            screen.look()
        typing(begin)


@pytest.mark.parametrize("name", SCREENS)
def test_no_two_things_beside_each_other_have_one_key(screen: Screen, name: str) -> None:
    """A field stays in hand by its key, so no other may have it, and each field must have one."""
    go_to(screen, name)
    for one in parts_of(screen.look()):
        beside = getattr(one, "controls", None) or []
        keys = [getattr(part.key, "value", part.key) for part in beside if part.key is not None]
        assert len(keys) == len(set(keys)), keys
        inside = [part for part in beside if any(_is_field(inner) for inner in _direct(part))]
        assert all(part.key is not None for part in inside), "a field without a key"


@pytest.mark.parametrize("name", SCREENS)
def test_enter_goes_through_all_fields_and_yes_stands_before_no(screen: Screen, name: str) -> None:
    go_to(screen, name)
    view = screen.look()
    fields = [one for one in parts_of(view) if isinstance(one, ft.TextField)]
    assert all(one.multiline or one.on_submit is go_on.go_on for one in fields)
    for one, below in pairwise(fields):
        assert go_on.after(one, view) is below
    assert not isinstance(go_on.after(fields[-1], view), ft.TextField)
    for group in (one for one in parts_of(view) if isinstance(one, ft.RadioGroup)):
        offered = [one.value for one in parts_of(group) if isinstance(one, ft.Radio)]
        assert {"yes", "no"}.isdisjoint(offered) or offered == ["yes", "no"]


def test_yes_and_no_are_offered_in_one_place() -> None:
    folder = Path(ui.__file__).parent
    saying = [path for path in folder.rglob("*.py") if '"Yes"' in path.read_text("utf-8")]
    assert [path.name for path in saying] == ["layout.py"]


def _direct(part: Any) -> list[Any]:
    """What a field's own column holds."""
    return [
        inner
        for merged in getattr(part, "controls", None) or []
        if isinstance(merged, ft.MergeSemantics)
        for inner in getattr(merged.content, "controls", None) or []
    ]


def _is_field(control: Any) -> bool:
    return isinstance(control, ft.TextField)
