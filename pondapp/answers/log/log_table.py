"""The log as a table for a spreadsheet, in the reader's own units.

Its dates and decimal points are the same in every language, so that tables of two readers fit.
"""

import csv
import io
import re
from collections.abc import Iterable, Mapping

from pondapp import units
from pondapp.answers.log.entries import values_in, words_of
from pondapp.answers.log.log import LogItem, kind_of, moment
from pondapp.answers.log.log_names import CHANGES, TITLES, WATER_VALUES, part_title
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.measuring.methods import MeasuringAssumptions, measured_reading
from pondapp.answers.methods.kinds import METHODS
from pondapp.core.base.errors import PondError
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading
from pondapp.words import t

# A spreadsheet takes text that starts with one of these for a formula and would run it, also after
# what cannot be seen or is taken away. A cell may start wherever a table is split: at a semicolon,
# a tab or a new line, inside quotes too when the semicolon is what separates.
_FORMULA = "[=+\\-@|%＝＋－＠]"
_SPLIT = ";\t\r\n\x0b\x0c\x1c-\x1e\x85\u2028\u2029"
_UNSEEN = (
    '"\\s\x00-\x20\x7f-\xa0\xad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u2000-\u200f'
    "\u2028-\u202f\u205f-\u206f\u2800\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\uffff"
    "\u0600-\u0605\u06dd\u070f\u0890\u0891\u08e2\U000110bd\U000110cd\U00013430-\U0001343f"
    "\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff"
)
_FIRST = "'*[\t\r\n]"
_ANYWHERE = rf"['{_UNSEEN}]*{_FORMULA}"
_DANGER = re.compile(rf"^(?={_FIRST})|(?:^|(?<=[{_SPLIT}]))(?={_ANYWHERE})")

# Columns with an amount: heading with or without the unit in it, and kind of quantity.
FLOWS = {
    "flow": "Flow ({unit})",
    "low": "Interval from ({unit})",
    "high": "Interval to ({unit})",
    "wanted_low": "Wanted from ({unit})",
    "wanted_high": "Wanted to ({unit})",
}
AMOUNTS = {
    "count": ("Fish", "number"),
    "changed_water": ("Water changed", "volume"),
    "feed": ("Feed", "small_mass"),
    **{key: (label, kind) for key, (label, kind) in WATER_VALUES.items()},
}
DIGITS = 4


def harmless(text: str) -> str:
    """Text that no spreadsheet takes for a formula, however it splits it.

    An apostrophe marks as text what would start one, and can be taken away again.
    """
    return _DANGER.sub("'", text)


def _headings(system: str) -> dict[str, str]:
    """What stands above each column, in their order."""
    flow_unit = units.unit_for("flow", system)
    heads = {
        "when": t("Taken at"), "kind": t("Kind"), "pond": t("Pond"), "place": t("Place"),
        "how": t("How"), **{key: t(text, unit=flow_unit) for key, text in FLOWS.items()},
        "coverage": t("Interval holds (%)"), "verdict": t("Verdict"), "what": t("What"),
        "amount": t("How much, as on the label"),
    }  # fmt: skip
    for key, (label, kind) in AMOUNTS.items():
        unit = units.unit_for(kind, system)
        heads[key] = t("{value} ({unit})", value=t(label), unit=unit) if unit else t(label)
    return {**heads, "note": t("Note"), "corrected": t("Corrected")}


def log_table(
    items: Iterable[LogItem],
    pond_names: Mapping[str, str],
    system: str,
    rules: Mapping[str, MeasuringAssumptions] | None = None,
) -> bytes:
    """All of a log, oldest first, as CSV in UTF-8 with the mark by which spreadsheets know it.

    Args:
        items: The log.
        pond_names: Names of the ponds, by id.
        system: Units of the reader.
        rules: By which flows are judged, by the pond's id; else by the app's own.
    """
    heads = _headings(system)
    rows = [list(heads.values())]
    for item in sorted(items, key=moment):
        texts = {
            "kind": t(TITLES[kind_of(item)]),
            "pond": pond_names.get(item.pond_id, ""),
            "note": item.note,
            "corrected": t("yes") if item.earlier else "",
        }
        if isinstance(item, Reading):
            told, numbers = _of_reading(item, (rules or {}).get(item.pond_id), system)
        else:
            told, numbers = _of_entry(item, system)
        cells = {key: harmless(text) for key, text in (texts | told).items()} | numbers
        cells["when"] = moment(item).astimezone().strftime("%Y-%m-%d %H:%M")
        rows.append([cells.get(key, "") for key in heads])
    file = io.StringIO(newline="")
    csv.writer(file).writerows(rows)
    return b"\xef\xbb\xbf" + file.getvalue().encode()


def _of_reading(
    reading: Reading, rules: MeasuringAssumptions | None, system: str
) -> tuple[dict[str, str], dict[str, str]]:
    """The texts and the numbers of a flow."""
    texts = {"place": reading.place_name, "how": t(METHODS[reading.method.kind].name)}
    flows: dict[str, float | None] = {}
    coverage = ""
    if band := reading.band:
        flows |= {"wanted_low": band.low_m3_s, "wanted_high": band.high_m3_s}
    if found := _measured(reading, rules):
        flows["flow"] = found.flow.flow
        if not found.dry:
            flows |= {"low": found.flow.low, "high": found.flow.high}
            coverage = units.machine_number(100.0 * found.coverage, DIGITS)
        if found.kind != "no target":
            texts["verdict"] = units.tell(found.verdict, system)
    numbers = {
        key: _number(value, "flow", system) for key, value in flows.items() if value is not None
    }
    return texts, numbers | ({"coverage": coverage} if coverage else {})


def _of_entry(entry: Entry, system: str) -> tuple[dict[str, str], dict[str, str]]:
    """The texts and the numbers of anything else."""
    words = words_of(entry.what)
    if "part" in words:
        words["what"] = t(part_title(words.pop("part")))
    if "change" in words:
        words["how"] = t(CHANGES[words.pop("change")])
    return words, {
        key: _number(value, AMOUNTS[key][1], system) for key, value in values_in(entry.what).items()
    }


def _measured(reading: Reading, rules: MeasuringAssumptions | None) -> Measured | None:
    """None also for numbers that cannot be; their row still tells when and where."""
    try:
        return measured_reading(reading, rules)
    except PondError:
        return None


def _number(value: float, kind: str, system: str) -> str:
    # A count is exact, however large.
    digits = 6 if kind == "number" else DIGITS
    return units.machine_number(units.value_in(value, kind, system), digits)
