"""What an entry of the log did to pump and branches: what was read before it says little of now."""

from pondapp.answers.features.kinds import KINDS
from pondapp.answers.plumbing.path import feature_of
from pondapp.models.circuit import Branch
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond


def of_pump(entry: Entry) -> bool:
    """Whether the pump was cleaned, which moves all that it feeds."""
    return entry.what.kind == "cleaning" and entry.what.part in ("pump", "all")


def of_branch(pond: Pond, branch: Branch, entry: Entry) -> bool:
    """Whether something that a branch feeds was cleaned."""
    if entry.what.kind != "cleaning":
        return False
    part = entry.what.part
    if part == "all":
        return bool(branch.feeds)
    for feature_id in branch.feeds:
        feature = feature_of(pond, feature_id)
        if feature is not None and feature.kind == part:
            return True
        if feature is not None and part == "filter" and not KINDS[feature.kind].cleaned_apart:
            return True
    return False
