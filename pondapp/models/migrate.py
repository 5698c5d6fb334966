"""Bring a saved document of an older version up to date, on plain dicts."""

import copy
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount
from pondapp.models.preferences import DAY

Plain = dict[str, Any]
Step = Callable[[Plain], Plain]


def _lift_may_be_unknown(pond: Plain) -> Plain:
    """Version 1 stored a lift of 0 for every branch whose lift nobody had entered.

    Such a 0 becomes "not entered" where it cannot have been meant or was not asked: the branch
    feeds a lip that water falls from, or it has no hose, whose form is the one that asks the lift.
    A 0 beside an entered hose stays, as does every other lift.
    """
    falls = {
        feature["id"]
        for feature in pond.get("fed", ())
        if feature.get("kind") == "lip" and feature.get("fall_m")
    }
    for line in pond.get("lines", ()):
        for branch in line["branches"]:
            fed_fall = not falls.isdisjoint(branch.get("feeds", ()))
            if branch.get("lift_m", 0.0) == 0.0:
                branch["lift_m"] = None if fed_fall or branch.get("pipe") is None else 0.0
    return pond


RENAMED_RULES = {
    "care.trend_reach": "care.trend_horizon",
    "filters.gravel_surface_give": "filters.gravel_surface_tolerance",
    "measuring.slip_chance": "measuring.outlier_chance",
    "plumbing.supposed_length": "plumbing.assumed_length",
    "plumbing.supposed_lift": "plumbing.assumed_lift",
    **{
        f"measuring.{what}_give": f"measuring.{what}_tolerance"
        for what in (
            "area", "flow_meter", "hose_flow", "level", "lip_width", "porosity", "salt_mass",
            "salt_meter", "scale", "space", "water_meter",
        )
    },
}  # fmt: skip
"""Names that rules had up to version 2 of a pond, and those that they have now."""


def _rules_have_new_names(pond: Plain) -> Plain:
    """Rules that were changed for a pond are stored by name."""
    changed = pond.get("assumptions", {})
    pond["assumptions"] = {RENAMED_RULES.get(key, key): value for key, value in changed.items()}
    return pond


# What the amounts of drafts of version 1 are, which did not say so themselves: by kind of quantity,
# the last parts of the keys of their texts.
EARLY_KINDS = {
    "volume": ("volume", "bog", "holds", "holds_give", "changed_water", "media", "space"),
    "length": ("length", "width", "depth", "diameter", "cut_length", "cut_width", "spacing",
        "tape_width", "along", "across", "altitude", "hose_length"),
    "width": ("lip", "opening", "shelf_depth", "shelf_width", "fish_length", "grown_length",
        "fall_height", "box_length", "box_width", "tub_across", "rise", "lip_width", "lip_give",
        "crest"),
    "flow": ("pump_flow", "flow", "jet", "band_low", "band_best", "band_high",
        "fill_flow_before", "fill_flow_after", "meter_flow"),
    "head": ("pump_head", "lift"),
    "mass": ("weighs", "weighs_give", "salt_mass", "empty_weight", "full_weight",
        "scale_give"),
    "water_meter": ("meter_first", "meter_last"),
    "temperature": ("temperature",),
    "small_mass": ("feed",),
    "concentration": ("ammonia", "nitrite", "nitrate", "oxygen"),
    "hardness": ("general_hardness", "carbonate_hardness"),
    "salt": ("salt_level",),
    "area": ("water_area",),
    "small": ("drop", "level_give", "depth_over_lip", "depth_give"),
    "share": ("area_give", "space_give", "gaps", "gaps_give", "meter_give"),
    "bore": ("bore",),
    "power": ("pump_watts",),
    "tariff": ("tariff",),
    "price_length": ("price_length",),
    "per_area": ("price_area",),
    "price_volume": ("price_volume",),
    DAY: ("date",),
}  # fmt: skip
EARLY_RULE = "rule_"
"""Begins the key of the value of a rule; what follows is its kind."""


def _early_kinds(texts: Mapping[str, str]) -> dict[str, str]:
    """The kind of each text of a draft of version 1 that is an amount or a day."""
    known = {name: kind for kind, names in EARLY_KINDS.items() for name in names}
    named = {key: key.rpartition(".")[2] for key in texts}
    return {
        key: known.get(name) or name.removeprefix(EARLY_RULE)
        for key, name in named.items()
        if name in known or name.startswith(EARLY_RULE)
    }


EARLY_TOLERANCE, TOLERANCE = "_give", "_tolerance"
"""How the name of a text ended, and ends, that says how far an amount may be off."""


def _draft_says_its_kinds(draft: Plain) -> Plain:
    """Version 1 knew its amounts by the names of their fields only, some of which were others."""

    def renamed(texts: Mapping[str, str]) -> dict[str, str]:
        return {
            key.removesuffix(EARLY_TOLERANCE) + TOLERANCE
            if key.endswith(EARLY_TOLERANCE)
            else key: text
            for key, text in texts.items()
        }

    texts = draft.get("texts", {})
    draft["kinds"] = renamed(_early_kinds(texts))
    draft["texts"] = renamed(texts)
    return draft


def _fills_before_a_turn_are_sets(draft: Plain) -> Plain:
    """Version 2 kept all fills from before a turn as one list, whichever turn it was."""
    fills = draft.pop("before_turn", ())
    draft["before_turn"] = [{"fills": fills}] if fills else []
    return draft


# By kind of document: the first step turns version 1 into 2, the next 2 into 3, and so on. A step
# may change the dict it is given; the new schema_version is written for it.
STEPS: dict[str, Sequence[Step]] = {
    "pond": (_lift_may_be_unknown, _rules_have_new_names),
    "draft": (_draft_says_its_kinds, _fills_before_a_turn_are_sets),
}


class TooNew(PondError):
    """The document was saved by a newer version of the app."""


class Unmigratable(PondError):
    """The document is not what its version says."""


def version_of(data: Plain) -> int:
    """The schema version a document says it has; Unmigratable if it says none."""
    version = data.get("schema_version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise Unmigratable("it does not say which version of the app's format it has")
    return version


def migrated(
    kind: str, data: Plain, wanted: int, steps: Mapping[str, Sequence[Step]] = STEPS
) -> Plain:
    """The document in the wanted version; the one given is not changed.

    TooNew if it is newer than wanted, Unmigratable if there is no way or a step fails.
    """
    version = version_of(data)
    if version > wanted:
        raise TooNew(
            "it was saved by a newer version of the app (format {found}, known up to {known})",
            found=Amount(version, "-"),
            known=Amount(wanted, "-"),
        )
    known = steps.get(kind, ())
    if version < wanted and len(known) < wanted - 1:
        raise Unmigratable("there is no way from format {found}", found=Amount(version, "-"))
    data = copy.deepcopy(data)
    for number in range(version, wanted):
        try:
            data = known[number - 1](data)
        except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError) as error:
            raise Unmigratable(
                "it does not fit format {found}: {reason}",
                found=Amount(number, "-"),
                reason=f"{type(error).__name__} {error}",
            ) from error
        data["schema_version"] = number + 1
    return data
