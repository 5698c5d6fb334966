"""What the texts of a draft are in: they mean the same in other units and another language."""

from datetime import UTC, datetime
from typing import Literal, cast

from pondapp import units
from pondapp.answers.log.dates import read_date
from pondapp.core.base.errors import PondError
from pondapp.models.preferences import Draft, UnitSystem
from pondapp.words import as_day, current_language

# The kind of quantity that a field of this name holds in any draft.
DRAFT_KINDS = {
    "volume": "volume",
    "length": "length",
    "width": "length",
    "depth": "length",
    "bog": "volume",
    "lip": "width",
    "pump_flow": "flow",
    "pump_head": "head",
    "flow": "flow",
    "holds": "volume",
    "holds_give": "volume",
    "weighs": "mass",
    "weighs_give": "mass",
    "jet": "flow",
    "opening": "width",
    "band_low": "flow",
    "band_best": "flow",
    "band_high": "flow",
    "diameter": "length",
    "cut_length": "length",
    "cut_width": "length",
    "spacing": "length",
    "tape_width": "length",
    "along": "length",
    "across": "length",
    "shelf_depth": "width",
    "shelf_width": "width",
    "fill_flow_before": "flow",
    "fill_flow_after": "flow",
    "salt_mass": "mass",
    "meter_first": "water_meter",
    "meter_last": "water_meter",
    "temperature": "temperature",
    "altitude": "length",
    "feed": "small_mass",
    "ammonia": "concentration",
    "nitrite": "concentration",
    "nitrate": "concentration",
    "oxygen": "concentration",
    "general_hardness": "hardness",
    "carbonate_hardness": "hardness",
    "salt_level": "salt",
    "changed_water": "volume",
    "fish_length": "width",
    "grown_length": "width",
    "media": "volume",
    "fall_height": "width",
    "box_length": "width",
    "box_width": "width",
    "tub_across": "width",
    "rise": "width",
    "water_area": "area",
    "space": "volume",
    "drop": "small",
    "level_give": "small",
    "area_give": "share",
    "space_give": "share",
    "gaps": "share",
    "gaps_give": "share",
    "empty_weight": "mass",
    "full_weight": "mass",
    "scale_give": "mass",
    "depth_over_lip": "small",
    "depth_give": "small",
    "lip_width": "width",
    "lip_give": "width",
    "crest": "width",
    "meter_flow": "flow",
    "meter_give": "share",
    "lift": "head",
    "bore": "bore",
    "hose_length": "length",
    "pump_watts": "power",
    "tariff": "tariff",
    "price_length": "price_length",
    "price_area": "per_area",
    "price_volume": "price_volume",
    **{f"rule_{kind}": kind for kind in units.KINDS},
}


DATE = "date"  # the key of a day in any draft


def draft_kind(key: str) -> str | None:
    """The kind of quantity in a field of a draft; "a.length" is the length of the thing a."""
    return DRAFT_KINDS.get(key.rpartition(".")[2])


def in_units(draft: Draft, system: str) -> Draft:
    """A draft with its numbers in these units and with the decimal mark of the language in use.

    One that does not say what its numbers are in is taken to be so already.
    """
    mark = cast('Literal[".", ","]', current_language().decimal)
    before, point = draft.units or system, draft.decimal or mark
    texts = draft.texts
    if point != mark or before != system:
        texts = {key: _rewritten(key, text, before, system, point) for key, text in texts.items()}
    return draft.model_copy(
        update={"texts": texts, "units": cast("UnitSystem", system), "decimal": mark}
    )


def _rewritten(key: str, text: str, before: str, after: str, point: str) -> str:
    """A text of a field that means the same in other units; nonsense stays as it is."""
    if key == DATE and before != after:  # 6/1 is a day of June in one system, of January elsewhere
        try:
            return as_day(read_date(text, before, datetime.now(UTC).date()))
        except PondError:
            return text
    kind = draft_kind(key)
    if kind is None:
        return text
    text = units.repointed(text, point)
    return text if before == after else units.rewritten(text, kind, before, after)
