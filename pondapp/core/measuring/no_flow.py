"""A place where no water comes: seen, not measured."""

from dataclasses import dataclass

from pondapp.core.base.working import Step
from pondapp.core.measuring.spread import Spread


@dataclass(frozen=True, slots=True)
class NoFlow:
    """No flow, as somebody saw it.

    Looking gives no number that could be off by so much, so both ends of the interval are the
    flow itself, and nothing that weighs flows by their uncertainty may take it in.

    Attributes:
        flow: Flow [m3/s].
        standard_uncertainty: None is known; 0 [m3/s].
        low: Lower end [m3/s].
        high: Upper end [m3/s].
    """

    flow: float = 0.0
    standard_uncertainty: float = 0.0
    low: float = 0.0
    high: float = 0.0

    @property
    def spread(self) -> Spread:
        """No flow, for certain."""
        return Spread(self.flow)

    def steps(self) -> tuple[Step, ...]:
        """The working: there is none."""
        return ()
