"""The log as a table for a spreadsheet, in the reader's own units.

Its dates and decimal points are the same in every language, so that tables of two readers fit.
"""

import csv
import io
from collections.abc import Iterable, Mapping

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.reading import Reading
from pondapp.sizing.flow import Measured
from pondapp.sizing.methods import NAMES, measured_reading
from pondapp.words import t

# A spreadsheet takes text that starts with one of these for a formula and would run it.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%", "＝", "＋", "－", "＠")


def harmless(text: str) -> str:
    """Text that no spreadsheet takes for a formula; an apostrophe marks it as text."""
    return f"'{text}" if text.lstrip(" \u00a0\ufeff").startswith(FORMULA_STARTS) else text


def log_table(readings: Iterable[Reading], pond_names: Mapping[str, str], system: str) -> bytes:
    """All readings, oldest first, as CSV in UTF-8 with the mark by which spreadsheets know it."""
    flow_unit = units.unit_for("flow", system)
    rows = [
        [
            t("Taken at"), t("Pond"), t("Place"), t("How"),
            t("Flow ({unit})", unit=flow_unit),
            t("From ({unit})", unit=flow_unit),
            t("To ({unit})", unit=flow_unit),
            t("Wanted from ({unit})", unit=flow_unit),
            t("Wanted to ({unit})", unit=flow_unit),
            t("Verdict"), t("Note"),
        ]
    ]  # fmt: skip
    for reading in sorted(readings, key=lambda one: one.taken_at):
        found = _measured(reading)
        flow, low, high, verdict = (
            ("", "", "", "")
            if found is None
            else (
                _number(found.flow.flow, system),
                _number(found.flow.low, system),
                _number(found.flow.high, system),
                "" if found.kind == "no target" else units.tell(found.verdict, system),
            )
        )
        band = reading.band
        rows.append(
            [
                reading.taken_at.astimezone().strftime("%Y-%m-%d %H:%M"),
                harmless(pond_names.get(reading.pond_id, "")),
                harmless(reading.place_name),
                harmless(t(NAMES[reading.method.kind])),
                flow,
                low,
                high,
                _number(band.low_m3_s, system) if band else "",
                _number(band.high_m3_s, system) if band and band.high_m3_s is not None else "",
                harmless(verdict),
                harmless(reading.note),
            ]
        )
    file = io.StringIO(newline="")
    csv.writer(file).writerows(rows)
    return b"\xef\xbb\xbf" + file.getvalue().encode()


def _measured(reading: Reading) -> Measured | None:
    """None also for numbers that cannot be; their row still tells when and where."""
    try:
        return measured_reading(reading)
    except PondError:
        return None


def _number(flow: float, system: str) -> str:
    return units.machine_number(units.value_in(flow, "flow", system), 4)
