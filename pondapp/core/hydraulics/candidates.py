"""The pumps on the shelf, best first, each with the reason for its place."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.errors import NoSolution, OutOfRange, require_within
from pondapp.core.hydraulics.energy import Costs, costs, hydraulic_power
from pondapp.core.hydraulics.network import Circuit, head_for_targets, operating_point, speed_for
from pondapp.core.hydraulics.pump_curve import PumpCurve, power_at_speed
from pondapp.core.messages import Amount, Message, phrase
from pondapp.core.working import Step


@dataclass(frozen=True, slots=True)
class Candidate:
    """A pump that could be bought.

    Attributes:
        name: Its name, unlike any other's.
        curve: Its curve at full speed.
        power: Power from the mains at full speed [W], 0 to 1e6.
        price: Price in the owner's currency [-], 0 to 1e9.
        adjustable: Whether its speed can be set.
    """

    name: str
    curve: PumpCurve
    power: float
    price: float
    adjustable: bool = False

    def __post_init__(self) -> None:
        require_within(phrase("power of {name}", name=self.name), self.power, 0.0, 1e6, "W")
        require_within(phrase("price of {name}", name=self.name), self.price, 0.0, 1e9, "-")


@dataclass(frozen=True, slots=True)
class Ranked:
    """A candidate in its place.

    Attributes:
        candidate: The pump.
        place: Its place, 1 for the best.
        enough: Whether it gives every end its wanted flow.
        delivered: Flow with all valves as entered [m3/s], 0 if none or not known.
        spare_head: Head left over at the wanted flow [m], below 0 if it is too weak.
        speed: Share of full speed that is enough [-]; 1 if it is not adjustable or too weak.
        costs: Purchase and energy; at the speed that is enough.
        reason: Why it stands here.
        warnings: What to doubt; mostly empty.
    """

    candidate: Candidate
    place: int
    enough: bool
    delivered: float
    spare_head: float
    speed: float
    costs: Costs
    reason: Message
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working of its costs."""
        return self.costs.steps()


@dataclass(frozen=True, slots=True)
class _Judged:
    """A candidate before it has its place."""

    candidate: Candidate
    enough: bool
    delivered: float
    spare: float
    speed: float
    costs: Costs
    trouble: Message | None
    warnings: tuple[Message, ...]


def ranking(
    candidates: Sequence[Candidate],
    circuit: Circuit,
    targets: Mapping[str, float],
    viscosity: float,
    density: float,
    rules: PumpAssumptions,
) -> tuple[Ranked, ...]:
    """Order pumps: those that are enough by purchase and energy over the years, then the others.

    Args:
        candidates: The pumps, each name once.
        circuit: Everything behind the pump.
        targets: Wanted flow of every end by name [m3/s], 0 to 10.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        density: Density of the water [kg/m3], 900 to 1100.
        rules: Tariff, running time, years, slowest speed and when a pump is oversized.

    Returns:
        All candidates, best first, with flow [m3/s], spare head [m], costs [-] and the reason.

    Raises:
        OutOfRange: A number is outside its range, or two pumps share a name.
        NoSolution: No flow is wanted anywhere.

    Source:
        Least cost among the pumps that are enough; the least missing head among the others.
    """
    names = [candidate.name for candidate in candidates]
    for name in names:
        if names.count(name) > 1:
            raise OutOfRange("two pumps are called {name}", name=name)
    wanted = head_for_targets(circuit, targets, viscosity)
    judged = [
        _judge(c, circuit, wanted.flow, wanted.head, viscosity, density, rules) for c in candidates
    ]
    judged.sort(
        key=lambda j: (
            not j.enough,
            j.costs.total if j.enough else -j.spare,
            j.costs.total,
            j.candidate.name,
        )
    )
    best = judged[0] if judged else None
    return tuple(
        Ranked(
            j.candidate,
            place,
            j.enough,
            j.delivered,
            j.spare,
            j.speed,
            j.costs,
            _reason(j, best, wanted.flow, rules),
            j.warnings,
        )
        for place, j in enumerate(judged, 1)
    )


def _judge(
    candidate: Candidate,
    circuit: Circuit,
    flow: float,
    head: float,
    viscosity: float,
    density: float,
    rules: PumpAssumptions,
) -> _Judged:
    """What one pump gives and costs."""
    curve = candidate.curve
    spare = curve.reach(flow) - head
    enough = spare >= 0.0 and curve.least_flow <= flow <= curve.most_flow
    warnings: list[Message] = []
    delivered, trouble = 0.0, None
    try:
        point = operating_point(curve, circuit, viscosity)
        delivered = point.flow
        warnings.extend(point.warnings)
    except NoSolution as problem:
        trouble = problem.message
    if flow > curve.most_flow and not curve.estimate and spare >= 0.0:
        trouble = Message(
            "its printed curve ends at {end}, below the {flow} that is wanted",
            {"end": Amount(curve.most_flow, "m3/s"), "flow": Amount(flow, "m3/s")},
        )
    speed = 1.0
    if enough and candidate.adjustable:
        # Off the known part of the slowed curve only full speed is sure.
        try:
            speed = speed_for(curve, flow, head, rules.slowest_speed).speed
        except NoSolution as problem:
            warnings.append(problem.message)
    power = power_at_speed(candidate.power, speed)
    money = costs(candidate.price, power, rules.running_time, rules.tariff, rules.cost_years)
    useful = hydraulic_power(flow, head, density) if head > 0.0 else 0.0
    if enough and power < useful:
        warnings.append(
            Message(
                "{power} cannot be right: the water alone takes {useful}",
                {"power": Amount(power, "W"), "useful": Amount(useful, "W")},
            )
        )
    elif enough and useful > rules.efficiency_high * power:
        warnings.append(
            Message(
                "it would turn {share} of its power into flow; small pumps reach {usual}: check "
                "its watts and curve",
                {
                    "share": Amount(useful / power, "share"),
                    "usual": Amount(rules.efficiency_high, "share"),
                },
            )
        )
    return _Judged(candidate, enough, delivered, spare, speed, money, trouble, tuple(warnings))


def _reason(judged: _Judged, best: _Judged | None, flow: float, rules: PumpAssumptions) -> Message:
    """Why a pump stands where it stands."""
    years = Amount(rules.cost_years, "-")
    total = Amount(judged.costs.total, "-")
    if not judged.enough:
        if judged.spare < 0.0:
            return Message(
                "too weak: {missing} of head are missing at {flow}",
                {"missing": Amount(-judged.spare, "m"), "flow": Amount(flow, "m3/s")},
            )
        return judged.trouble or Message(
            "{flow} is off the known part of its curve", {"flow": Amount(flow, "m3/s")}
        )
    if judged is best:
        return Message(
            "enough, and the cheapest over {years} years: {total}",
            {"years": years, "total": total},
        )
    more = Amount(judged.costs.total - best.costs.total, "-") if best else total
    if judged.speed == 1.0 and judged.delivered > rules.too_much_flow * flow:
        return Message(
            "enough, but oversized: it gives {delivered} where {flow} are wanted, and costs {more} "
            "more over {years} years",
            {
                "delivered": Amount(judged.delivered, "m3/s"),
                "flow": Amount(flow, "m3/s"),
                "more": more,
                "years": years,
            },
        )
    return Message(
        "enough, but costs {more} more over {years} years", {"more": more, "years": years}
    )
