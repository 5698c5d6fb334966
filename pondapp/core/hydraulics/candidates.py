"""The pumps on the shelf, best first, each with the reason for its place."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange, require_within
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import Step
from pondapp.core.hydraulics.energy import Costs, costs, hydraulic_power
from pondapp.core.hydraulics.network import (
    PipeNetwork,
    PumpDuty,
    duty_for,
    operating_flow,
    operating_point,
    speed_for,
)
from pondapp.core.hydraulics.odds import (
    CASE_LIST,
    NO_DOUBT,
    Delivery,
    Doubt,
    circuit_in,
    delivery,
    needed_heads,
    printed_gap,
)
from pondapp.core.hydraulics.pump_curve import PumpCurve, at_speed, power_at_speed

State = Literal["enough", "probably", "strong", "open", "weak", "unknown"]
ORDER: tuple[State, ...] = ("enough", "probably", "strong", "open", "weak", "unknown")
"""Best first: enough whatever may be, probably, too strong to be held, perhaps, no, not known."""
DOES_IT = ("enough", "probably", "strong")


@dataclass(frozen=True, slots=True)
class Candidate:
    """A pump that could be bought.

    Attributes:
        key: What it goes by, unlike any other's.
        curve: Its curve at full speed.
        power: Power from the mains at full speed [W], 0 to 1e6.
        price: Price in the owner's currency [-], 0 to 1e9.
        adjustable: Whether its speed can be set.
        name: What sentences call it; its key where none is given.
    """

    key: str
    curve: PumpCurve
    power: float
    price: float
    adjustable: bool = False
    name: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.name or self.key)
        require_within(phrase("power of {name}", name=self.name), self.power, 0.0, 1e6, "W")
        require_within(phrase("price of {name}", name=self.name), self.price, 0.0, 1e9, "-")


@dataclass(frozen=True, slots=True)
class Ranked:
    """A candidate in its place.

    Attributes:
        candidate: The pump.
        place: Its place, 1 for the best.
        state: Whether it gives every end its wanted flow, as far as that can be known.
        given: Odds that it does, and what it gives.
        delivered: Flow with all valves as entered [m3/s], likely and when clean; 0 if none.
        useful: How much of it is wanted where it comes out [m3/s].
        speed: Share of full speed that is enough [-]; 1 if it is not adjustable or too weak.
        costs: Purchase and energy; at the speed that is enough.
        reason: Why it stands here.
        warnings: What to doubt; mostly empty.
    """

    candidate: Candidate
    place: int
    state: State
    given: Delivery
    delivered: float
    useful: float
    speed: float
    costs: Costs
    reason: Message
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working of its odds and its costs."""
        return (*self.given.steps(), *self.costs.steps())


@dataclass(frozen=True, slots=True)
class _Judged:
    """A candidate before it has its place."""

    candidate: Candidate
    state: State
    given: Delivery
    delivered: float
    useful: float
    speed: float
    costs: Costs
    trouble: Message | None
    warnings: tuple[Message, ...]

    @property
    def key(self) -> tuple[int, float, float, str]:
        """Sorts the best first: by money where it does the job, else by the water it brings."""
        merit = self.costs.total if self.state in DOES_IT else -self.useful
        return ORDER.index(self.state), merit, self.costs.total, self.candidate.name


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is asked of every pump, worked out once."""

    circuit: PipeNetwork
    cases: tuple[PipeNetwork, ...]
    heads: tuple[float, ...]
    needs: PumpDuty
    targets: Mapping[str, float]
    doubt: Doubt
    held: bool
    viscosity: float
    density: float
    rules: PumpAssumptions


def ranking(
    candidates: Sequence[Candidate],
    circuit: PipeNetwork,
    targets: Mapping[str, float],
    viscosity: float,
    density: float,
    rules: PumpAssumptions,
    doubt: Doubt = NO_DOUBT,
    *,
    held: bool = False,
) -> tuple[Ranked, ...]:
    """Order pumps: those that are enough by purchase and energy over the years, then the others.

    Args:
        candidates: The pumps, each key once.
        circuit: Everything behind the pump.
        targets: Wanted flow of every end by key [m3/s], 0 to 10.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        density: Density of the water [kg/m3], 900 to 1100.
        rules: Tariff, running time, years, slowest speed and how far anything may be off.
        doubt: How far the lifts [m] and losses [-] may be off.
        held: Whether every end has a valve that holds back what is too much.

    Returns:
        All candidates, best first, with flow [m3/s], spare head [m], costs [-] and the reason.

    Raises:
        OutOfRange: A number is outside its range, or two pumps share a key.
        NoSolution: No flow is wanted anywhere.

    Source:
        Least cost among the pumps that are enough, by the odds of delivery; the most of the wanted
        water among the others.

    Example:
        Two pumps for 1.94 L/s over a fall of half a metre:

        >>> from pondapp.core.hydraulics.network import Outlet
        >>> from pondapp.core.hydraulics.run import Run
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(0.0, 0.050, 0.0, 4.0), 0.5),))
        >>> shelf = (
        ...     Candidate("weak", LabelCurve(0.3, 4e-3), 60.0, 50.0),
        ...     Candidate("strong", LabelCurve(2.0, 4e-3), 60.0, 90.0),
        ... )
        >>> wanted, rules = {"fall": 1.94444e-3}, PumpAssumptions()
        >>> found = ranking(shelf, circuit, wanted, 1e-6, 998.2, rules)
        >>> [(one.candidate.key, one.state) for one in found]
        [('strong', 'enough'), ('weak', 'weak')]
    """
    keys = [candidate.key for candidate in candidates]
    for candidate in candidates:
        if keys.count(candidate.key) > 1:
            raise OutOfRange("two pumps are called {name}", name=candidate.name)
    needs = duty_for(circuit, targets, viscosity)
    cases = tuple(circuit_in(circuit, doubt, case) for case in CASE_LIST)
    heads = needed_heads(cases, targets, viscosity)
    asked = _Asked(
        circuit, cases, heads, needs, targets, doubt, held, viscosity, density, rules
    )  # fmt: skip
    judged = sorted((_judge(candidate, asked) for candidate in candidates), key=lambda j: j.key)
    best = judged[0] if judged else None
    return tuple(
        Ranked(
            j.candidate,
            place,
            j.state,
            j.given,
            j.delivered,
            j.useful,
            j.speed,
            j.costs,
            _reason(j, best, asked),
            j.warnings,
        )
        for place, j in enumerate(judged, 1)
    )


def _state(curve: PumpCurve, asked: _Asked) -> tuple[State, Delivery, Message | None]:
    """Odds in a word, no surer than what they rest on, and what would make them surer."""
    flow = asked.needs.flow

    def given(read_at: float | None = None) -> Delivery:
        return delivery(
            curve, asked.cases, asked.heads, asked.targets, asked.viscosity, asked.rules, read_at
        )

    gap = printed_gap(curve, flow)
    if gap is None:
        found = given()
        sure = not asked.doubt.assumed
        return ("probably" if found.odds == "enough" and not sure else found.odds), found, None
    side, end = gap
    add = Message(
        "its printed points end at {end}: add one beyond {flow}"
        if side == "beyond"
        else "its printed points begin at {end}: add one below {flow}",
        {"end": Amount(end, "m3/s"), "flow": Amount(flow, "m3/s")},
    )
    if curve.least_flow <= flow <= curve.most_flow:  # the label goes on where the points end
        found = given()
        return "probably" if found.odds == "enough" else found.odds, found, add
    # Heads fall with the flow, so the head at the last point is a bound of that beyond it.
    found = given(end)
    if side == "beyond":
        return "weak" if found.odds == "weak" else "unknown", found, add
    if found.odds in ("enough", "probably"):
        sure = found.odds == "enough" and not asked.doubt.assumed
        return "enough" if sure else "probably", found, None
    return "unknown", found, add


def _judge(candidate: Candidate, asked: _Asked) -> _Judged:
    """What one pump gives and costs."""
    curve, rules = candidate.curve, asked.rules
    flow, head = asked.needs.flow, asked.needs.head
    state, given, trouble = _state(curve, asked)
    delivered = operating_flow(curve, asked.circuit, asked.viscosity)
    warnings: list[Message] = []
    useful = min(delivered, flow)
    with suppress(NoSolution):  # then what it delivers says enough
        point = operating_point(curve, asked.circuit, asked.viscosity)
        warnings.extend(point.warnings)
        useful = sum(min(point.flow_in(end), most) for end, most in asked.targets.items())
    speed = 1.0
    if state in ("enough", "probably") and candidate.adjustable:
        # Off the known part of the slowed curve only full speed is sure.
        try:
            speed = speed_for(curve, flow, max(0.0, head), rules.slowest_speed).speed
        except NoSolution as problem:
            warnings.append(problem.message)
    if state in ("enough", "probably"):
        turned = at_speed(curve, speed)
        least = given.low if speed == 1.0 else operating_flow(
            turned, asked.circuit, asked.viscosity
        )  # fmt: skip
        if least > rules.too_much_flow * flow:
            if asked.held:
                warnings.append(_too_much(least, flow, speed, "a valve has to hold that back"))
            else:
                state = "strong"
                trouble = _too_much(least, flow, speed, "take a smaller one, or fit a valve")
    power = power_at_speed(candidate.power, speed, rules.power_kept)
    money = costs(candidate.price, power, rules.running_time, rules.tariff, rules.cost_years)
    if state in DOES_IT:
        warnings += _power_doubts(power, flow, head, asked)
    return _Judged(
        candidate, state, given, delivered, useful, speed, money, trouble, tuple(warnings)
    )  # fmt: skip


def _too_much(gives: float, flow: float, speed: float, remedy: str) -> Message:
    values = {"gives": Amount(gives, "m3/s"), "flow": Amount(flow, "m3/s")}
    if speed < 1.0:
        return Message(
            "too strong: even turned down it gives {gives} where {flow} are wanted; {remedy}",
            {**values, "remedy": phrase(remedy)},
        )
    return Message(
        "too strong: it gives {gives} or more where {flow} are wanted; {remedy}",
        {**values, "remedy": phrase(remedy)},
    )


def _power_doubts(power: float, flow: float, head: float, asked: _Asked) -> list[Message]:
    """Watts that cannot be, or hardly; nothing of a pump whose watts nobody entered."""
    if power == 0.0:
        return []
    usual = asked.rules.efficiency_high
    useful = hydraulic_power(flow, head, asked.density) if head > 0.0 else 0.0
    if power < useful:
        return [
            Message(
                "{power} cannot be right: the water alone takes {useful}; read its label again",
                {"power": Amount(power, "W"), "useful": Amount(useful, "W")},
            )
        ]
    if useful > usual * power:
        return [
            Message(
                "it would turn {share} of its power into flow; small pumps reach {usual}: check "
                "its watts and curve",
                {"share": Amount(useful / power, "share"), "usual": Amount(usual, "share")},
            )
        ]
    return []


def _reason(judged: _Judged, best: _Judged | None, asked: _Asked) -> Message:
    """Why a pump stands where it stands."""
    rules = asked.rules
    if judged.state == "weak":
        return _too_weak(judged, asked)
    if judged.trouble is not None:
        return judged.trouble
    if judged.state == "open":
        return Message(
            "it may be too weak: enough in about {cases} of 100 likely cases",
            {"cases": Amount(round(100.0 * judged.given.share / 5.0) * 5.0, "-")},
        )
    years, total = Amount(rules.cost_years, "-"), Amount(judged.costs.total, "money")
    if judged is best:
        if judged.state == "enough":
            return Message(
                "enough, and the cheapest over {years} years: {total}",
                {"years": years, "total": total},
            )
        return Message(
            "probably enough, and the cheapest of these over {years} years: {total}",
            {"years": years, "total": total},
        )
    more = judged.costs.total - best.costs.total if best else judged.costs.total
    values = {"more": Amount(abs(more), "money"), "years": years}
    if more < 0.0:
        return Message("less sure, but {more} cheaper over {years} years", values)
    if judged.state == "enough":
        return Message("enough, but costs {more} more over {years} years", values)
    return Message("probably enough, but costs {more} more over {years} years", values)


def _too_weak(judged: _Judged, asked: _Asked) -> Message:
    needs, reach = asked.needs, judged.candidate.curve.head_at(0.0)
    if judged.delivered == 0.0:
        return Message(
            "too weak for the lift: at no flow it reaches {reach}, and {head} are needed",
            {"reach": Amount(reach, "m"), "head": Amount(needs.head, "m")},
        )
    if judged.given.high == 0.0 or judged.delivered >= needs.flow:
        return Message(
            "too weak for {name}: {head} are needed, and the other branches take the water first",
            {"name": needs.neediest.name, "head": Amount(needs.head, "m")},
        )
    return Message(
        "too weak: {missing} short of the {flow} that are wanted",
        {
            "missing": Amount(needs.flow - judged.delivered, "m3/s"),
            "flow": Amount(needs.flow, "m3/s"),
        },
    )
