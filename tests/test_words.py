import pytest

from pondapp import units, words
from pondapp.core.messages import Amount, Message


@pytest.fixture
def german():
    words.use_table({"Stop": "Halt", "Aim for {flow}.": "{flow} anpeilen."})
    yield
    words.use_table(None)


def test_english_is_the_language_of_the_code():
    assert words.t("Stop") == "Stop"
    assert words.t("Aim for {flow}.", flow="3 L/s") == "Aim for 3 L/s."


@pytest.mark.usefixtures("german")
def test_a_table_turns_texts_and_messages_into_its_language():
    assert words.t("Stop") == "Halt"
    message = Message("Aim for {flow}.", {"flow": Amount(0.001, "m3/s")})
    assert units.tell(message, "metric") == "3600 L/h anpeilen."


@pytest.mark.usefixtures("german")
def test_a_text_that_the_table_lacks_is_shown_in_english():
    assert words.t("Start") == "Start"


def test_a_text_without_values_keeps_its_braces():
    assert words.t("{") == "{"
