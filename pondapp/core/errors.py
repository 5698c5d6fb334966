"""Everything that is raised on purpose, with a sentence fit for the screen."""

from pondapp.core.messages import Amount, Message, Value


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


def require_within(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return the value if it lies in the closed range.

    Args:
        name: What the value is, in words that can stand in a sentence.
        value: The value to check [any].
        low: The smallest allowed value [any].
        high: The largest allowed value [any].
        unit: SI unit of the three, as pint reads it.

    Returns:
        The value unchanged [any].

    Raises:
        OutOfRange: The value is not a number or lies outside.
    """
    if low <= value <= high:  # nan fails this too
        return value
    raise OutOfRange(
        "{name} is {value}; it must be from {low} to {high}",
        name=name,
        value=Amount(value, unit),
        low=Amount(low, unit),
        high=Amount(high, unit),
    )


def require_above(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return the value if it is above low and not above high: the half-open range (low, high].

    Args:
        name: What the value is, in words that can stand in a sentence.
        value: The value to check [any].
        low: The bound that is itself not allowed [any].
        high: The largest allowed value [any].
        unit: SI unit of the three, as pint reads it.

    Returns:
        The value unchanged [any].

    Raises:
        OutOfRange: The value is not a number or lies outside.
    """
    if low < value <= high:
        return value
    raise OutOfRange(
        "{name} is {value}; it must be above {low} and at most {high}",
        name=name,
        value=Amount(value, unit),
        low=Amount(low, unit),
        high=Amount(high, unit),
    )
