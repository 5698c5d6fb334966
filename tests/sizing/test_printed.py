"""The printed plan: what it says, and that nothing typed becomes markup."""

import re
from datetime import UTC, datetime
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.sizing.example import example_pond, example_readings
from pondapp.sizing.printed import plan_page

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


PLAIN = read(plan_page(example_pond(), example_readings(NOW), "metric", NOW))


@pytest.mark.parametrize("system", units.SYSTEMS)
def test_flows_paths_and_what_to_buy_are_on_it(system: str) -> None:
    pond = example_pond()
    page = read(plan_page(pond, example_readings(NOW), system, NOW))
    assert pond.name in page.text
    assert "2026-06-07" in page.text
    for name in (*(thing.name for thing in pond.fed), *(line.name for line in pond.lines)):
        assert name in page.text
    assert "To buy" in page.text
    assert ("gal/h" in page.text) == (system != "metric")


def test_it_is_plain_and_asks_for_nothing() -> None:
    assert set(PLAIN.tags) <= {
        "html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "table", "thead",
        "tbody", "tr", "th", "td",
    }  # fmt: skip
    assert set(PLAIN.attributes) <= {"lang", "charset", "name", "content", "class"}
    page = plan_page(example_pond(), [], "metric", NOW)
    assert not re.search(r"https?:|url\(|@import", page)


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
    page = read(plan_page(named, [], "metric", NOW))
    assert set(page.tags) == set(PLAIN.tags)
    assert set(page.attributes) == set(PLAIN.attributes)
