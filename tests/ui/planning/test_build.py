"""A pond's Plan: every step with what is known of it, each leading to its screen."""

import asyncio

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp.answers.planning.steps import building_steps
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.ui.planning.build import TITLES, BuildPage, NoPlanPage
from pondapp.ui.shell import theme

STEPS = ["water", "fish", "things", "path", "plumbing", "pumps", "plan", "tune", "shopping",
         "share", "rules"]  # fmt: skip


def test_each_step_leads_to_its_screen_in_the_order_of_building(screen: Screen) -> None:
    screen.open(BuildPage, pond_id=EXAMPLE)
    for title in (*TITLES.values(), "Share or print this plan", "Rules and prices"):
        screen.press(title)
    assert screen.went == [f"/pond/{EXAMPLE}/{part}" for part in STEPS]


def test_it_says_how_far_each_step_is(screen: Screen) -> None:
    screen.open(BuildPage, pond_id=EXAMPLE)
    text = screen.text()
    assert "2,580 L, from its drawing" in text
    assert "of 19 bought" in text
    assert "Done" in " ".join(screen.buttons())
    assert "Still open Shopping list" in " ".join(screen.buttons())


def test_rules_that_were_changed_are_counted(screen: Screen) -> None:
    changed = example_pond().model_copy(update={"assumptions": {"pumps.tariff": 0.4}})
    asyncio.run(screen.session.ponds.save(changed))
    screen.open(BuildPage, pond_id=EXAMPLE)
    assert "1 changed by you" in screen.text()


def test_while_the_log_is_read_nothing_is_said_of_the_steps(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(screen.session.logs, "is_read", lambda _: False)
    screen.open(BuildPage, pond_id=EXAMPLE)
    assert "Reading the log." in screen.text()
    assert "Shopping list" not in screen.text()


def test_without_a_pond_in_hand_one_is_asked_for(screen: Screen) -> None:
    screen.open(NoPlanPage)
    screen.press(example_pond().name)
    assert screen.went == [f"/pond/{EXAMPLE}/build"]


def test_without_any_pond_adding_one_is_the_one_main_action(screen: Screen) -> None:
    screen.session.ponds.mark_deleted(EXAMPLE)
    assert not screen.session.ponds
    screen.open(NoPlanPage)
    main = [name for name, one in screen.buttons().items() if isinstance(one, ft.FilledButton)]
    assert main == ["Add a pond"]
    assert list(screen.buttons()).count("Add a pond") == 1
    screen.press("Add a pond")
    assert screen.went == ["/new"]


def test_a_step_that_is_not_right_has_the_colours_of_that(screen: Screen) -> None:
    weak = example_pond().model_copy(update={"pumps": example_pond().pumps[:1]})
    line = weak.lines[0].model_copy(update={"pump_id": "small"})
    asyncio.run(screen.session.ponds.save(weak.model_copy(update={"lines": (line,)})))
    screen.open(BuildPage, pond_id=EXAMPLE)
    ground, ink = theme.SEVERITY["wrong"]
    marks = [
        one.content for one in parts_of(screen.look())
        if isinstance(one, ft.Container) and one.bgcolor == ground
    ]  # fmt: skip
    assert marks
    assert {(mark.color, mark.semantics_label) for mark in marks} == {(ink, "Not right")}


def test_every_step_has_a_title() -> None:
    from datetime import UTC, datetime

    from pondapp.answers.pond import WorkedPond

    found = building_steps(WorkedPond(example_pond()), [], datetime.now(UTC))
    assert [step.part for step in found] == list(TITLES)
