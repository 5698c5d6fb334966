from datetime import date

import pytest

from pondapp import units, words
from pondapp.core.base.messages import Amount, Message, phrase


@pytest.fixture
def german():
    table = {
        "Stop": "Halt",
        "Aim for {flow}.": "{flow} anpeilen.",
        "flow of {name}": "Durchfluss von {name}",
        "the lip": "die Kante",
    }
    words.set_language(words.Language("de", table, ",", "%d.%m.%Y"))
    yield
    words.set_language(words.ENGLISH)


def test_english_is_the_language_of_the_code():
    assert words.t("Stop") == "Stop"
    assert words.t("Aim for {flow}.", flow="3 L/s") == "Aim for 3 L/s."
    assert words.t(phrase("flow of {name}", name="Slate")) == "flow of Slate"


@pytest.mark.usefixtures("german")
def test_a_table_turns_texts_and_messages_into_its_language():
    assert words.t("Stop") == "Halt"
    message = Message("Aim for {flow}.", {"flow": Amount(0.001, "m3/s")})
    assert units.tell(message, "metric") == "3600 L/h anpeilen."


@pytest.mark.usefixtures("german")
def test_a_phrase_is_turned_with_what_is_in_it():
    told = phrase("flow of {name}", name="the lip")
    assert told == "flow of the lip"
    assert words.t(told) == "Durchfluss von die Kante"
    assert units.tell(Message("{what}", {"what": told}), "metric") == "Durchfluss von die Kante"


@pytest.mark.usefixtures("german")
def test_a_text_that_the_table_lacks_is_shown_in_english():
    assert words.t("Start") == "Start"


def test_a_text_without_values_keeps_its_braces():
    assert words.t("{") == "{"


@pytest.mark.usefixtures("german")
def test_numbers_and_dates_are_written_as_in_the_language():
    assert units.show(0.0015, "volume", "metric") == "1,5 L"
    assert units.money(12.5) == "12,50"
    assert words.as_day(date(2026, 11, 25)) == "25.11.2026"
    assert words.as_day(date(2026, 11, 5)) == "05.11.2026"


def test_english_dates_begin_with_the_year():
    assert words.as_day(date(2026, 11, 25)) == "2026-11-25"
