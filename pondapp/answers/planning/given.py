"""How a feature comes by what the plan gives it: by what was asked for, or by what others ask."""

from dataclasses import dataclass
from typing import Literal

from pondapp.answers.features.targets import Target, Targets
from pondapp.answers.planning.plan import SLACK, PondPlan
from pondapp.models.circuit import Branch


@dataclass(frozen=True, slots=True)
class Given:
    """Why a feature has its flow in the plan.

    Attributes:
        why: "asked" where it has just what was asked for it; else what asks for more, another
            feature on the same water or the whole pond.
        other: Id of that other feature; empty where there is none.
    """

    why: Literal["asked", "other", "pond"]
    other: str = ""


def given(plan: PondPlan, branch: Branch, target: Target, asked: Targets) -> Given:
    """Why a feature on a branch has its flow in the plan.

    Args:
        plan: The plan.
        branch: The branch.
        target: What the feature wants.
        asked: What all places want.
    """
    if plan.through[target.place_id] <= target.asked * (1.0 + SLACK):
        return Given("asked")
    fed = [place for item in branch.feeds if (place := asked.place(item))]
    most = max(fed, key=lambda place: place.asked)
    if plan.branches[branch.id] > most.asked * (1.0 + SLACK):
        return Given("pond")
    return Given("other", most.place_id)
