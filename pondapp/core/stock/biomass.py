"""How much the fish weigh, from how many and how long they are."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.errors import require_within
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.stock.span import NOTHING, Span

FULTON = Source("Fulton's condition factor: mass over length cubed", "published")


@dataclass(frozen=True, slots=True)
class FishGroup:
    """Fish of about the same length.

    Attributes:
        count: How many [-].
        length: From nose to the tip of the tail [m].
    """

    count: int
    length: float


@dataclass(frozen=True, slots=True)
class Biomass:
    """What all fish weigh together.

    Attributes:
        total: All fish [kg].
        each: One fish of each group [kg].
        groups: The groups.
        condition: Mass over length cubed [kg/m3].
    """

    total: Span
    each: tuple[Span, ...]
    groups: tuple[FishGroup, ...]
    condition: Span

    def steps(self) -> tuple[Step, ...]:
        """The working, for the likely values."""
        condition = Term("k", "mass over length cubed", self.condition.likely, "kg/m3")
        lines = []
        masses = []
        for group, each in zip(self.groups, self.each, strict=True):
            length = Term("L", "length of a fish", group.length, "width")
            mass = Term("m", "mass of a fish", each.likely, "kg")
            masses += [Term("n", "fish of that length", float(group.count), "-"), mass]
            lines.append(Step(mass, "m = k L³", (condition, length), FULTON))
        total = Term("B", "all fish", self.total.likely, "kg")
        return (*lines, Step(total, "B = sum of n m", tuple(masses), ARITHMETIC))


def fish_mass(length: float, condition: float) -> float:
    """Mass of a fish from its length.

    Args:
        length: From nose to the tip of the tail [m], 0.005 to 1.5.
        condition: Mass over length cubed [kg/m3], 2 to 60: ten times Fulton's factor.

    Returns:
        Mass [kg].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        m = K L³ / 100 with grams and centimetres, K the condition factor: T. W. Fulton, The rate of
        growth of fishes, 22nd Annual Report of the Fishery Board for Scotland (1904), from memory.

    Example:
        A fish of 40 cm:

        >>> round(fish_mass(0.40, 16.0), 2)
        1.02
    """
    require_within("length of a fish", length, 0.005, 1.5, "width")
    require_within("mass of a fish over its length cubed", condition, 2.0, 60.0, "kg/m3")
    return float(condition * length**3)


def condition_span(rules: StockAssumptions) -> Span:
    """Mass over length cubed, slim to stout.

    Args:
        rules: The assumptions in force.

    Returns:
        Mass over length cubed [kg/m3].

    Raises:
        OutOfRange: The three values do not rise.

    Source:
        The rules' own sources.

    Example:
        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> round(condition_span(StockAssumptions()).likely, 1)
        17.0
    """
    return Span(rules.condition_low, rules.condition_likely, rules.condition_high)


def biomass(groups: Sequence[FishGroup], rules: StockAssumptions) -> Biomass:
    """What all fish weigh together.

    Args:
        groups: Fish by length; counts 0 to 100000, lengths 0.005 to 1.5 m; may be empty.
        rules: The assumptions in force.

    Returns:
        Mass of all fish [kg] and of one fish of each group [kg].

    Raises:
        OutOfRange: A count, a length or a rule is outside its range.

    Source:
        Fulton's condition factor, one for all lengths: T. W. Fulton, The rate of growth of fishes,
        22nd Annual Report of the Fishery Board for Scotland (1904), from memory.

    Example:
        Five koi of 40 cm:

        >>> from pondapp.core.assumptions.stock import StockAssumptions
        >>> found = biomass([FishGroup(5, 0.40)], StockAssumptions())
        >>> round(found.total.likely, 1)
        5.4
    """
    condition = condition_span(rules)
    each = []
    total = NOTHING
    for group in groups:
        require_within("number of fish", group.count, 0, 100000, "-")
        one = Span(
            fish_mass(group.length, condition.low),
            fish_mass(group.length, condition.likely),
            fish_mass(group.length, condition.high),
        )
        each.append(one)
        total = total.plus(one.times(float(group.count)))
    return Biomass(total, tuple(each), tuple(groups), condition)
