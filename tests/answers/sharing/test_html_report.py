"""The printed plan: what it says, and that nothing typed becomes markup."""

import re
from datetime import UTC, datetime
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.sharing.html_report import plan_page
from pondapp.models.circuit import BogFilter, Branch, Line, Lip, Pipe
from pondapp.models.pond import Pond
from pondapp.models.reading import EarlierReading
from pondapp.models.water import TypedVolume

NOW = datetime(2026, 6, 7, 12, tzinfo=UTC)
EVIL = "<script>alert(1)</script><img src=x onerror=y>\"'&"


class Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [name for name, _ in attrs]

    def handle_data(self, data: str) -> None:
        self.text += data


def read(page: str) -> Reader:
    reader = Reader()
    reader.feed(page)
    return reader


PLAIN = read(plan_page(WorkedPond(example_pond()), example_readings(NOW), "metric", NOW))
DRAWN = ("svg", "polygon", "polyline", "text")
DRAWN_BY = (
    "role", "aria-label", "viewbox", "width", "points", "fill", "stroke", "stroke-width",
    "stroke-linejoin", "stroke-dasharray", "x", "y", "text-anchor", "font-size", "font-weight",
)  # fmt: skip


@pytest.mark.parametrize("system", units.SYSTEMS)
def test_flows_paths_and_what_to_buy_are_on_it(system: str) -> None:
    pond = example_pond()
    page = read(plan_page(WorkedPond(pond), example_readings(NOW), system, NOW))
    assert pond.name in page.text
    assert "2026-06-07" in page.text
    for name in (*(thing.name for thing in pond.fed), *(line.name for line in pond.lines)):
        assert name in page.text
    assert "To buy" in page.text
    assert ("gal/h" in page.text) == (system != "metric")


def test_it_is_plain_and_asks_for_nothing() -> None:
    assert set(PLAIN.tags) <= {
        "html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "table", "thead",
        "tbody", "tr", "th", "td", "ol", "li", *DRAWN,
    }  # fmt: skip
    assert set(PLAIN.attributes) <= {"lang", "charset", "name", "content", "class", *DRAWN_BY}
    page = plan_page(WorkedPond(example_pond()), [], "metric", NOW)
    assert not re.search(r"https?:|url\(|@import", page)


def test_a_column_in_which_nothing_stands_is_left_out() -> None:
    pond = example_pond()
    assert "<th>Planned</th>" in plan_page(WorkedPond(pond), [], "metric", NOW)
    # The lip alone would burst the bog that shares its water: there is no plan.
    (line,) = pond.lines
    row = line.branches[0].model_copy(update={"feeds": ("bog", "lip")})
    rest = line.branches[1].model_copy(update={"feeds": ("box",)})
    stuck = pond.model_copy(
        update={"lines": (line.model_copy(update={"branches": (row, rest)}),), "aim": "good"}
    )
    page = plan_page(WorkedPond(stuck), [], "metric", NOW)
    assert "<th>Wanted</th>" in page
    assert "<th>Planned</th>" not in page


@given(st.text(min_size=1, max_size=60) | st.just(EVIL))
@settings(max_examples=40, deadline=None)
def test_what_was_typed_never_becomes_markup(text: str) -> None:
    text = text.encode("utf-8", "replace").decode()
    pond = example_pond()
    named = pond.model_copy(
        update={
            "name": text,
            "fed": tuple(thing.model_copy(update={"name": text}) for thing in pond.fed),
            "pumps": tuple(pump.model_copy(update={"name": text}) for pump in pond.pumps),
        }
    )
    page = read(plan_page(WorkedPond(named), example_readings(NOW), "metric", NOW))
    assert set(page.tags) == set(PLAIN.tags)
    assert set(page.attributes) == set(PLAIN.attributes)


def test_the_picture_has_a_line_for_each_of_its_numbers() -> None:
    assert PLAIN.tags.count("svg") == 1
    assert PLAIN.tags.count("li") == PLAIN.tags.count("text") == 4
    for words in ("Mid-size pump: right", "Slate lip: right"):
        assert words in PLAIN.text


def test_hose_valve_and_a_pump_not_chosen_are_told() -> None:
    pond = example_pond()
    line = pond.lines[0]
    hose = Pipe(series="hose, mm", size="40 mm", length_m=6.0)
    branch = line.branches[0].model_copy(update={"pipe": hose, "valve": "ball", "lift_m": 0.8})
    drawn = line.model_copy(update={"branches": (branch, *line.branches[1:]), "pump_id": None})
    page = read(
        plan_page(WorkedPond(pond.model_copy(update={"lines": (drawn,)})), [], "metric", NOW)
    )
    for words in ("6 m of 40 mm", "0.8 m", "ball valve", "pump not chosen yet"):
        assert words in page.text


def test_a_rule_that_cannot_be_is_told_in_place_of_flows() -> None:
    pond = example_pond().model_copy(update={"assumptions": {"no.such": 1.0}})
    page = read(plan_page(WorkedPond(pond), [], "metric", NOW))
    assert "There is no assumption called no.such." in page.text
    assert "Last measured" not in page.text


def test_demands_that_conflict_are_told_and_nothing_is_planned() -> None:
    row = Branch(id="b", name="Row", feeds=("bog", "lip"))
    pond = Pond(
        id="p", name="Invented", water=TypedVolume(volume_m3=1.0),
        fed=(
            BogFilter(id="bog", name="Bog", bed_volume_m3=0.05),
            Lip(id="lip", name="Lip", width_m=0.6),
        ),
        lines=(Line(id="l", name="Pump", branches=(row,)),),
    )  # fmt: skip
    page = read(plan_page(WorkedPond(pond), [], "metric", NOW))
    assert (
        "On the branch Row, Lip needs 8,000 L/h for its good flow and Bog can take at most 600 L/h."
        in (page.text)
    )
    assert "Planned:" not in page.text
    assert "not yet" in page.text


def test_a_reading_that_was_corrected_says_so_in_print() -> None:
    was = EarlierReading(changed_at=NOW, note="wrong bucket")
    readings = [one.model_copy(update={"earlier": (was,)}) for one in example_readings(NOW)]
    page = read(plan_page(WorkedPond(example_pond()), readings, "metric", NOW))
    assert "2026-06-01, corrected" in page.text
    assert "corrected" not in PLAIN.text
