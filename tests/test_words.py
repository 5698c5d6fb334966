import re
from datetime import date
from pathlib import Path

import pytest

from pondapp import units, words
from pondapp.answers.care.due import days_text
from pondapp.core.base.messages import Amount, Message, counted, phrase
from pondapp.words import po

CATALOGUE = """# A head.
msgid ""
msgstr ""
"Language: xx\\n"

#, python-brace-format
msgid "flow of {name}"
msgstr "Durchfluss "
"von {name}"

msgid "a \\"quoted\\" word"
msgstr "ein \\"Wort\\" – und \\\\"

msgid "{count} day"
msgid_plural "{count} days"
msgstr[0] "{count} Tag"
msgstr[1] "{count} Tage"

msgid "not yet"
msgstr ""

msgid "{count} pump"
msgid_plural "{count} pumps"
msgstr[0] "{count} Pumpe"
msgstr[1] ""
"""


@pytest.fixture
def german() -> None:
    words.set_language("de")


def test_english_is_the_language_of_the_code() -> None:
    assert words.t("Stop") == "Stop"
    assert words.t("Aim for {flow}.", flow="3 L/s") == "Aim for 3 L/s."
    assert words.t(phrase("flow of {name}", name="Slate")) == "flow of Slate"


@pytest.mark.usefixtures("german")
def test_a_catalogue_turns_texts_and_messages_into_its_language() -> None:
    assert words.t("Stop") == "Stopp"
    message = Message(
        "Mostly because of this: {part} ({share} % of it).", {"part": "the scale", "share": "9"}
    )
    assert units.tell(message, "metric") == "Vor allem deswegen: die Waage (9 % davon)."


@pytest.mark.usefixtures("german")
def test_a_phrase_is_turned_with_what_is_in_it() -> None:
    told = phrase("flow of {name}", name="Skimmer")
    assert told == "flow of Skimmer"
    assert words.t(told) == "Durchfluss von Skimmer"
    assert units.tell(Message("{what}", {"what": told}), "metric") == words.t(told)


@pytest.mark.usefixtures("german")
def test_a_text_that_the_catalogue_lacks_is_shown_in_english() -> None:
    assert words.t("A sentence of a newer app.") == "A sentence of a newer app."
    assert words.tn("{count} sentence", "{count} sentences", 1) == "1 sentence"
    assert words.tn("{count} sentence", "{count} sentences", 2) == "2 sentences"


@pytest.mark.parametrize(
    ("count", "english", "german"),
    [
        (0, "0 of 9 lines have no price yet", "0 von 9 Zeilen haben noch keinen Preis"),
        (1, "1 of 9 lines has no price yet", "1 von 9 Zeilen hat noch keinen Preis"),
        (2, "2 of 9 lines have no price yet", "2 von 9 Zeilen haben noch keinen Preis"),
    ],
)
def test_a_sentence_that_counts_agrees_with_its_count(
    count: int, english: str, german: str
) -> None:
    message = counted(
        "{count} of {all} lines has no price yet; the total leaves it out",
        "{count} of {all} lines have no price yet; the total leaves them out",
        count,
        {"all": Amount(9.0, "-")},
    )
    assert str(message).startswith(english)
    assert units.tell(message, "metric").startswith(english)
    words.set_language("de")
    assert units.tell(message, "metric").startswith(german)


def test_one_day_is_no_days() -> None:
    assert [days_text(count) for count in (0, 1, 2)] == ["0 days", "1 day", "2 days"]
    words.set_language("de")
    assert [days_text(count) for count in (0, 1, 2)] == ["0 Tage", "1 Tag", "2 Tage"]


@pytest.mark.parametrize(
    ("count", "told"),
    [
        (0, "0 dni"),
        (1, "1 dzień"),
        (2, "2 dni"),
        (5, "5 dni"),
        (22, "22 dni"),
        (12000, "12\u00a0000 dni"),
    ],
)
def test_one_day_is_no_days_in_polish(count: int, told: str) -> None:
    words.set_language("pl")
    assert days_text(count) == told


@pytest.mark.parametrize(
    ("form", "counts"),
    [(0, (1,)), (1, (2, 3, 4, 22, 102, 104)), (2, (0, 5, 11, 12, 14, 21, 25, 101, 112, 114))],
)
def test_polish_counts_in_three_forms(
    form: int, counts: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    words.set_language("pl")
    forms = ["{count} pompa", "{count} pompy", "{count} pomp"]
    monkeypatch.setattr(words, "_texts", {"{count} pump": forms})
    for count in counts:
        told = words.tn("{count} pump", "{count} pumps", count)
        assert told == forms[form].format(count=count)


def test_a_text_without_values_keeps_its_braces() -> None:
    assert words.t("{") == "{"


@pytest.mark.usefixtures("german")
def test_numbers_and_dates_are_written_as_in_the_language() -> None:
    assert units.show(0.0015, "volume", "metric") == "1,5 L"
    assert units.money(12.5) == "12,50"
    assert words.as_day(date(2026, 11, 25)) == "25.11.2026"
    assert words.as_day(date(2026, 11, 5)) == "05.11.2026"
    assert units.tell(Message("{flow}", {"flow": Amount(0.0015, "m3/s")}), "metric") == "5.400 L/h"


def test_english_dates_begin_with_the_year() -> None:
    assert words.as_day(date(2026, 11, 25)) == "2026-11-25"


def test_a_catalogue_is_read_with_its_escapes_and_without_what_is_not_translated(
    tmp_path: Path,
) -> None:
    path = tmp_path / "xx.po"
    path.write_text(CATALOGUE, encoding="utf-8")
    assert po.read(path) == {
        "flow of {name}": "Durchfluss von {name}",
        'a "quoted" word': 'ein "Wort" – und \\',
        "{count} day": ["{count} Tag", "{count} Tage"],
    }


def test_the_reading_of_english_reads_no_catalogue(monkeypatch: pytest.MonkeyPatch) -> None:
    words._catalogue.cache_clear()
    monkeypatch.setattr(po, "read", pytest.fail)
    words.set_language("en")
    assert words.t("Stop") == "Stop"


def test_no_text_speaks_in_a_way_that_a_neighbour_would_not() -> None:
    stilted = re.compile(
        r"\b(wish(es)?|pleases?|content with|stands? at most|hungriest|hair's breadth|for its sake"
        r"|fish bear|1 times|worth a word|halve the doubt|size up|hangs? on|counts before|the band"
        r"|is sufficient|guessed from|in force|holds a mistake)\b",
        re.IGNORECASE,
    )
    texts = po.read(words.FOLDER / "de.po")
    assert len(texts) > 1000  # the English of any catalogue is that of all
    assert [one for one in texts if stilted.search(one)] == []


def test_a_sentence_begins_with_a_capital_unless_its_first_word_is_a_name_like_ph() -> None:
    assert words.sentence("feed little ") == "Feed little."
    assert words.sentence("pH 4 is low.") == "pH 4 is low."
    assert words.sentence("a") == "A."
