"""What is timed and left is told where one looks for it, and leads back."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen, leave

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.measuring.fills import fills_draft_id
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.measuring.places import PlacesPage
from pondapp.ui.pond.home import HomePage

FILLS = (Fill(seconds=9.5), Fill(seconds=9.7))
NOW = datetime.now(UTC)


def left_at(pond_id: str, place_id: str, *, fills: tuple[Fill, ...] = FILLS, ago: int = 0) -> Draft:
    return Draft(
        id=fills_draft_id(pond_id, place_id), pond_id=pond_id if pond_id != NO_POND else None,
        fills=fills, changed_at=NOW - timedelta(seconds=ago),
    )  # fmt: skip


@pytest.mark.parametrize("page", [HomePage, PlacesPage])
def test_fills_that_are_left_are_told_and_lead_back(screen: Screen, page: object) -> None:
    screen.open(page)
    assert "not saved" not in screen.text()
    leave(screen.session, left_at(EXAMPLE, "bog", ago=60))
    leave(screen.session, left_at(EXAMPLE, "to-bog", fills=FILLS[:1], ago=30))
    leave(screen.session, left_at(NO_POND, OUTLET))
    leave(screen.session, left_at(EXAMPLE, "lip", fills=()))
    told = [name for name in screen.buttons() if "not saved" in name]
    whose = [name.partition(": ")[::2] for name in told]
    assert [(many, place.partition(", ")[0]) for many, place in whose] == [
        ("2 fills not saved", "Outlet"),
        ("1 fill not saved", "To the bog"),
        ("2 fills not saved", "Bog filter"),
    ]
    assert all("day, " in name for name in told), "when"
    for name, route in zip(
        told, ("none/outlet", f"{EXAMPLE}/to-bog", f"{EXAMPLE}/bog"), strict=True
    ):
        screen.press(name)
        assert screen.went[-1] == f"/measure/{route}"


def test_fills_of_a_pond_that_is_gone_are_no_line(screen: Screen) -> None:
    leave(screen.session, left_at("gone", "bog"))
    asyncio.run(screen.settle())
    screen.open(HomePage)
    assert "not saved" not in screen.text()


def test_a_pond_that_went_in_mid_fill_is_told_where_it_is_timed(screen: Screen) -> None:
    told = "What you time is kept without a pond."
    screen.open(MeasurePage, pond_id=EXAMPLE, place_id="bog")
    assert told not in screen.text()
    screen.session.deletion.mark_deleted(EXAMPLE)  # as another tab may
    assert told in screen.text()
    screen.open(MeasurePage, pond_id=NO_POND, place_id=OUTLET)
    assert told not in screen.text()
