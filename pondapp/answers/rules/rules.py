"""Every rule of thumb, tolerance and price that counts for a pond, and how to change one."""

from collections.abc import Mapping
from dataclasses import dataclass

from pondapp import units
from pondapp.answers.fish.stock import stock
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import with_assumption
from pondapp.answers.shopping.shopping import bill
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.rule import Assumption
from pondapp.core.base.errors import OutOfRange, PondError
from pondapp.core.base.messages import Message
from pondapp.core.base.working import Source as Source
from pondapp.models.pond import Pond

RESPIRATION = "stock.respiration_"
NO_ANSWER_YET = frozenset(
    {
        "filters.volume_mismatch",
        "plumbing.water_temperature",
    }
)
"""Rules of the core that no answer about a pond works with yet, or only by their defaults: nobody
is asked about them."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule as it stands for a pond; amounts in SI."""

    key: str
    group: str
    label: str
    kind: str
    """The kind of quantity that it is typed and shown as."""
    value: float
    default: float
    low: float
    high: float
    source: Source
    changed: bool
    """Whether the user changed it for this pond."""


def kind_for(about: Assumption) -> str:
    """The kind of quantity whose unit people would use for an assumption, large or small."""
    if about.unit == "-":
        return "share" if about.high <= 1.0 else "number"
    if about.key.startswith(RESPIRATION):
        return "respiration"
    kind = units.kind_of(about.unit, about.default) or "number"
    return "salt" if kind == "concentration" and about.default >= units.STRONG else kind


def rules_of(pond: Pond) -> tuple[Rule, ...]:
    """All rules that a pond's answers rest on, group by group."""
    return _rules(pond.assumptions)


def usual_rules() -> tuple[Rule, ...]:
    """All rules as they are before anybody changes one."""
    return _rules({})


def _rules(own: Mapping[str, float]) -> tuple[Rule, ...]:
    return tuple(
        Rule(
            key=about.key,
            group=about.key.partition(".")[0],
            label=about.label,
            kind=kind_for(about),
            value=own.get(about.key, about.default),
            default=about.default,
            low=about.low,
            high=about.high,
            source=about.source,
            changed=about.key in own,
        )
        for about in Assumptions().known()
        if about.key not in NO_ANSWER_YET
    )


def rule_of(pond: Pond, key: str) -> Rule | None:
    """One rule by its key."""
    return next((rule for rule in rules_of(pond) if rule.key == key), None)


def _problems(worked: WorkedPond) -> list[Message]:
    """What cannot be worked out for a pond, and why."""
    found = list(bill(worked).troubles)
    try:
        stock(worked, grown=False)
    except PondError as problem:
        found.append(problem.message)
    return found


def with_rule(pond: Pond, key: str, value: float) -> Pond:
    """The pond with a rule changed, in SI; the default itself is no change.

    Raises:
        PondError: The value makes no sense, or does not go with the pond's other rules.
    """
    about = rule_of(pond, key)
    if about is not None and value == about.default:
        return without_rule(pond, key)
    changed = with_assumption(pond, key, value)
    before = _problems(WorkedPond(pond))
    for problem in _problems(WorkedPond(changed)):
        if problem not in before:
            raise OutOfRange(problem.template, **problem.values)
    return changed


def without_rule(pond: Pond, key: str) -> Pond:
    """The pond with a rule back at its default."""
    kept = {other: value for other, value in pond.assumptions.items() if other != key}
    return pond.model_copy(update={"assumptions": kept})


def without_rules(pond: Pond) -> Pond:
    """The pond with every rule back at its default."""
    return pond.model_copy(update={"assumptions": {}})
