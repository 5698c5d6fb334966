"""What the texts of a draft are in: they mean the same in other units and another language."""

from datetime import UTC, datetime
from typing import Literal, cast

from pondapp import units
from pondapp.answers.log.dates import read_date
from pondapp.core.base.errors import PondError
from pondapp.models.preferences import DAY, EXACT, Draft, UnitSystem
from pondapp.words import as_day, current_language


def in_units(draft: Draft, system: str) -> Draft:
    """A draft with its numbers in these units and with the decimal mark of the language in use.

    One that does not say what its numbers are in is taken to be so already.
    """
    mark = cast('Literal[".", ","]', current_language().decimal)
    before, point = draft.units or system, draft.decimal or mark
    texts = dict(draft.texts)
    if point != mark or before != system:
        for key, kind in draft.kinds.items():
            if key in texts:
                exact = texts.pop(f"{key}{EXACT}", "")
                texts[key], exact = _rewritten(texts[key], exact, kind, before, system, point)
                if exact:
                    texts[f"{key}{EXACT}"] = exact
    return draft.model_copy(
        update={"texts": texts, "units": cast("UnitSystem", system), "decimal": mark}
    )


def _rewritten(
    text: str, exact: str, kind: str, before: str, after: str, point: str
) -> tuple[str, str]:
    """A text of a field, and what stands beside it, that mean the same in other units.

    Nonsense stays as it is.
    """
    if kind == DAY and before != after:  # 6/1 is a day of June in one system, of January elsewhere
        try:
            return as_day(read_date(text, before, datetime.now(UTC).date(), ahead=True)), ""
        except PondError:
            return text, ""
    if kind not in units.KINDS:
        return text, exact
    return units.rewritten(text, kind, before, after, point, exact)
