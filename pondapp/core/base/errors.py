"""Everything that is raised on purpose, with a sentence fit for the screen."""

from math import isnan

from pondapp.core.base.messages import Amount, Message, Value


class PondError(Exception):
    """The base of all of them: what is wrong, which value, which limit."""

    def __init__(self, template: str, **values: Value) -> None:
        self.message = Message(template, values)
        super().__init__(str(self.message))


class OutOfRange(PondError):
    """An argument is outside the range its source covers."""


class NoSolution(PondError):
    """The question has no answer, and the message says why."""


class NotEnoughReadings(PondError):
    """Fewer readings than the answer needs."""


TINY = 1e-6
"""Share of a range's upper end below which its lower end says no more than "above zero"."""


def _out_of_range(
    name: str, value: float, low: float, high: float, unit: str, *, above: bool
) -> OutOfRange:
    """Only the limit that was passed is worth a word."""
    amount = Amount(value, unit)
    if value > high:
        return OutOfRange(
            "{name} is {value}; it must be at most {high}",
            name=name,
            value=amount,
            high=Amount(high, unit),
        )
    if isnan(value):
        return OutOfRange("{name} is not a number", name=name)
    if 0.0 <= low <= TINY * high:
        template = (
            "{name} is {value}; it must be above zero"
            if above or low > 0.0
            else "{name} is {value}; it must not be below zero"
        )
        return OutOfRange(template, name=name, value=amount)
    template = (
        "{name} is {value}; it must be above {low}"
        if above
        else "{name} is {value}; it must be at least {low}"
    )
    return OutOfRange(template, name=name, value=amount, low=Amount(low, unit))


def require_within(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return the value if it lies in the closed range.

    Args:
        name: What the value is, in words that can stand in a sentence.
        value: The value to check.
        low: The smallest allowed value.
        high: The largest allowed value.
        unit: SI unit of the three, as pint reads it.

    Returns:
        The value unchanged.

    Raises:
        OutOfRange: The value is not a number or lies outside.
    """
    if low <= value <= high:  # nan fails this too
        return value
    raise _out_of_range(name, value, low, high, unit, above=False)


def require_above(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return the value if it is above low and not above high: the half-open range (low, high].

    Args:
        name: What the value is, in words that can stand in a sentence.
        value: The value to check.
        low: The bound that is itself not allowed.
        high: The largest allowed value.
        unit: SI unit of the three, as pint reads it.

    Returns:
        The value unchanged.

    Raises:
        OutOfRange: The value is not a number or lies outside.
    """
    if low < value <= high:
        return value
    raise _out_of_range(name, value, low, high, unit, above=True)
