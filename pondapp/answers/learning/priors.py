"""What is known of a circuit before any reading, as standard deviations by the rules in force.

A rule that says "so far either way" has no likelier middle: its standard deviation is the half
width over the root of 3 (JCGM 100:2008, 4.3.7). What no rule says is a rule of thumb, and why it
is so wide stands beside it.
"""

from math import log, sqrt

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY
from pondapp.core.hydraulics.valve_response import READ, valve_loss

EVENLY = 1.0 / sqrt(3.0)
CLEANED = 0.03
"""Of the pump's speed: no cleaning leaves it just as new. A third of what dirt may take."""
OTHER_PUMP = 0.5
"""Of the pump's speed, before a pump was changed: nobody says what ran then, up to twice or half
within two deviations."""
LIFT_BEFORE = 0.5
"""Of a lift [m], before the hose was changed: nobody says how high its outlet was."""
VALVE_TABLE = log(2.0)
"""Of the logarithm of a valve's loss against its table: the two printed tables of gate valves
differ by a factor of two half open (core/hydraulics/valves.py)."""
VALVE_UNKNOWN = 2.5
"""Of the logarithm of a valve's loss where nobody noted its handle: from hardly anything to fifteen
times what its hose takes in two deviations, that is from wide open to nearly shut."""
VALVE_USUAL = 0.1
"""Loss of such a valve over that of its hose, in the middle: rather open than shut."""
SOONEST = 1e-3


def worn(rules: Assumptions) -> float:
    """What dirt takes of the logarithm of a pump's speed until it wants cleaning."""
    return -log(rules.pumps.worn_share)


def wear_rate(rules: Assumptions) -> float:
    """Deviation of how fast that goes [1/s]: from clean to dirty between two cleanings."""
    return worn(rules) / max(DAY, rules.care.clean_every)


def dirt(rules: Assumptions) -> float:
    """Deviation of the logarithm of a branch's loss by dirt: as much flow as dirt in a pump takes.

    Loss goes with the square of the flow.
    """
    return 2.0 * worn(rules)


def loss_deviation(times: float) -> float:
    """Deviation of the logarithm of a loss that may be so many times more or less."""
    return max(SOONEST, log(times) * EVENLY)


def evenly(half_width: float) -> float:
    """Deviation of what may be off by so much either way."""
    return max(SOONEST, half_width * EVENLY)


def valve_middle(kind: str, opened: float) -> tuple[float, float]:
    """Logarithm of a valve's loss where its handle stands so, and what its reading leaves of it.

    Raises:
        OutOfRange: There is no such valve, or the opening is outside its range.
    """
    low, high = max(0.01, opened - READ), min(1.0, opened + READ)
    ends = log(valve_loss(kind, low)), log(valve_loss(kind, high))
    return log(valve_loss(kind, opened)), evenly(0.5 * abs(ends[0] - ends[1]))
