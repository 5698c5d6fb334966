"""The texts of the quick sizing screen, and what becomes of them."""

import asyncio

import pytest
from drawn import Screen

from pondapp.models.preferences import Draft
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.pond.new_pond import NEW_POND, read_new_pond
from pondapp.ui.pond.pond_form import PondFormPage
from pondapp.ui.pumps.size import (
    DRAFT,
    FORM,
    SizePage,
    as_new_pond,
    pond_answer,
    pump_answer,
)


def read_sizes(texts: dict[str, str], system: str) -> tuple[dict[str, float], dict[str, str]]:
    read = FORM.read(texts, system)
    return read.values, read.errors


FULL = {
    "volume": "1000", "filter": "both", "lip": "30", "lift": "1.2", "bore": "25",
    "hose": "smooth", "hose_length": "5", "pump_flow": "4000", "pump_head": "2,5",
    "pump_watts": "45", "tariff": "0,30",
}  # fmt: skip


def test_a_full_screen_has_both_answers() -> None:
    values, errors = read_sizes(FULL, "metric")
    assert errors == {}
    assert pond_answer(FULL, values) is not None
    answered = pump_answer(FULL, values, errors, pond_answer(FULL, values), "metric")
    assert answered is not None
    found, here = answered
    assert not here.assumed
    assert len(found.verdicts) == 2
    assert found.costs is not None
    assert found.costs.per_year == pytest.approx(0.045 * 8760 * 0.30)


def test_inch_hose_and_lift_in_feet() -> None:
    texts = {**FULL, "bore": "1", "lift": "3 ft 11 1/4 in"}
    values, errors = read_sizes({**texts, "volume": "264"}, "us")
    assert values["bore"] == pytest.approx(0.0254)
    assert values["lift"] == pytest.approx(47.25 * 0.0254)
    assert errors == {}


@pytest.mark.parametrize("key", [one.key for one in FORM.fields])
def test_each_field_says_what_is_wrong_with_it(key: str) -> None:
    values, errors = read_sizes({**FULL, key: "wet"}, "metric")
    assert set(errors) == {key}
    assert key not in values


def test_half_typed_gives_no_answer() -> None:
    assert pond_answer({}, {}) is None
    assert pump_answer({}, {"lift": 1.0}, {}, None, "metric") is None


def test_the_label_alone_is_answered_with_what_is_assumed() -> None:
    texts = {"pump_flow": "12000", "pump_head": "6"}
    values, errors = read_sizes(texts, "metric")
    answered = pump_answer(texts, values, errors, pond_answer({}, {"volume": 2.0}), "metric")
    assert answered is not None
    found, here = answered
    assert (here.lift, here.lift_assumed, here.size != "") == (1.0, True, True)
    assert found.verdicts[0].odds == "enough"
    assert here.odds(found.verdicts[0]) == "probably"  # no tick rests on an assumption


def test_what_was_typed_becomes_a_pond() -> None:
    values, _ = read_sizes(FULL, "metric")
    texts = {"name": "New", **as_new_pond(FULL, values, "metric")}
    read = read_new_pond(texts, "metric", "p")
    made = read.pond
    assert read.errors == {}
    assert made is not None
    assert {thing.kind for thing in made.fed} == {"bog", "high_flow", "lip"}
    assert made.pumps[0].max_head_m == 2.5
    branch = made.lines[0].branches[0]
    assert branch.lift_m == 1.2
    assert branch.pipe is not None
    assert (branch.pipe.series, branch.pipe.size, branch.pipe.length_m) == ("hose, mm", "25 mm", 5)


@pytest.mark.parametrize(
    ("volume", "lip", "pump"),
    [("6000", "30", "6,400 L/h"), ("20000", "100", "21,300 L/h"), ("6000", "", "6,000 L/h")],
)
def test_shop_new_pond_and_plan_say_the_same_of_the_pump(
    monkeypatch: pytest.MonkeyPatch, volume: str, lip: str, pump: str
) -> None:
    screen = Screen(monkeypatch)
    typed = {"volume": volume, "lip": lip, "filter": "bog", "lift": "1"}
    asyncio.run(screen.session.drafts.save(Draft(id=DRAFT, texts=typed)))
    screen.open(SizePage)
    told = screen.text()
    assert f"{pump} up there" in told
    assert ("If each gets a branch of its own" in told) == bool(lip)
    screen.press("Save as a pond")
    begun = screen.session.drafts[NEW_POND]
    texts = {**begun.texts, "name": "Shop"}
    asyncio.run(screen.session.drafts.save(begun.model_copy(update={"texts": texts})))
    screen.open(PondFormPage)
    assert f"The pump must give\n{pump}" in screen.text()
    screen.press("Save the pond")
    made = next(one for one in screen.session.ponds.values() if one.name == "Shop")
    screen.open(PlanPage, pond_id=made.id)
    assert f"{pump} is enough for everything" in screen.text()


def test_a_new_pond_that_cannot_all_work_says_so_before_it_is_saved(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    screen = Screen(monkeypatch)
    typed = {"name": "Shop", "shape": "typed", "volume": "20000", "lip": "30"}
    asyncio.run(screen.session.drafts.save(Draft(id=NEW_POND, texts=typed)))
    screen.open(PondFormPage)
    told = screen.text()
    assert "This can't all work" in told
    assert "20,000 L/h or more" in told
