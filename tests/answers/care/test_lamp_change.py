"""The lamp that is kept with a pond: when it is to be changed, and where that is told."""

from datetime import UTC, date, datetime, timedelta

import pytest

from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.running_costs import running_costs, savings
from pondapp.answers.sharing.calendar_file import events
from pondapp.answers.sharing.example import example_pond
from pondapp.models.lamp import UvLamp
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.store.merging import following, merged

NOW = datetime(2026, 11, 27, 12, tzinfo=UTC)
LIT = date(2026, 3, 1)
POND = Pond(id="p", name="Invented", water=TypedVolume(volume_m3=5.0))


def with_lamp(pond: Pond = POND, **known: object) -> Pond:
    lamp = UvLamp.model_validate({"power_w": 11.0, **known})
    return pond.model_copy(update={"lamp": lamp})


def test_by_its_label_or_else_by_the_rule() -> None:
    assert lamp_change(POND, NOW) is None
    assert lamp_change(with_lamp(), NOW) is None
    by_rule = lamp_change(with_lamp(lit_since=LIT), NOW)
    assert by_rule is not None
    assert (by_rule.day, by_rule.is_due) == (LIT + timedelta(hours=8000), False)
    by_label = lamp_change(with_lamp(lit_since=LIT, life_s=6000 * 3600), NOW)
    assert by_label is not None
    assert (by_label.day, by_label.is_due) == (LIT + timedelta(hours=6000), True)
    assert str(by_label.sentence) == "UV lamp: to be changed since 2026-11-06."
    own = POND.model_copy(update={"assumptions": {"filters.lamp_life": 2000 * 3600.0}})
    assert lamp_change(with_lamp(own, lit_since=LIT), NOW).is_due  # type: ignore[union-attr]


def test_it_is_open_once_it_is_due() -> None:
    def goals(pond: Pond) -> list[tuple[str, str]]:
        found = open_matters(WorkedPond(pond), (), NOW).matters
        return [(one.severity, one.goal) for one in found if one.goal == "lamp"]

    assert goals(with_lamp(lit_since=LIT)) == []
    assert goals(with_lamp(lit_since=date(2025, 3, 1))) == [("wrong", "lamp")]


@pytest.mark.parametrize("since", [LIT, date(2025, 3, 1)])
def test_the_calendar_rings_for_it_once_and_never_for_the_past(since: date) -> None:
    (event,) = (one for one in events(with_lamp(lit_since=since), (), NOW) if "lamp" in one.uid)
    assert event.rule == ""
    assert event.day == max(since + timedelta(hours=8000), date(2026, 11, 28))


def test_it_is_a_part_of_what_the_pond_costs_and_changes_no_saving() -> None:
    plain, lit = WorkedPond(example_pond()), WorkedPond(with_lamp(example_pond()))
    without, found = running_costs(plain), running_costs(lit)
    assert without.per_year is not None
    assert found.per_year == pytest.approx(without.per_year + 11.0 * 8.76 * 0.30)
    assert found.energy == pytest.approx(without.energy + 11.0 * 8760 * 3600)
    assert [one.low for one in savings(lit, found)] == [one.low for one in savings(plain, without)]


def test_two_phones_keep_what_either_says_of_it() -> None:
    first = following(with_lamp(lit_since=LIT), POND)
    assert merged(POND, first).document == first  # type: ignore[union-attr]
    assert merged(first, POND).document == first  # type: ignore[union-attr]
    other = following(with_lamp(lit_since=date(2026, 5, 1)), POND)
    both = merged(first, other)
    assert both is not None
    assert both.beside is not None
    assert {both.document.lamp, both.beside.lamp} == {first.lamp, other.lamp}
