"""One run of pipe or hose with its fittings: what it takes from the water."""

from dataclasses import dataclass
from math import exp, log, pi, sqrt

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.hydraulics.friction import (
    LAMINAR_END,
    LAMINAR_LOG,
    ROUGHEST,
    SLOPE,
    STRETCH,
    TURBULENT_START,
    TYPICAL,
    bridge,
    factor,
    factor_and_slope,
    friction_factor,
)
from pondapp.core.hydraulics.solve import rising_root

MOST_FLOW = 10.0
"""Largest flow that is asked about [m3/s]."""
MOST_LOSS = 1e4
"""Largest head that is asked about [m]."""
LITTLE_LOSS = 0.01
"""Loss [m] about which nobody needs a warning: less than anyone measures a lift to."""
_QUARTER_PI = 0.25 * pi
_TWO_G = 2.0 * GRAVITY
_MOST_STEPS = 20  # far more than the worst case takes

DARCY = Source("Darcy-Weisbach with Colebrook's friction factor", "published")
MINOR = Source("loss of a fitting, K v² / 2g; any textbook of hydraulics", "published")


@dataclass(frozen=True, slots=True)
class Run:
    """One bore from end to end.

    Attributes:
        length: Length along the pipe [m], 0 to 1e4.
        bore: Inner diameter [m], 1e-3 to 2.
        relative_roughness: Wall roughness over bore [-], 0 to 0.05.
        fittings: Sum of the loss coefficients of everything in the run [-], 0 to 1e9.
    """

    length: float
    bore: float
    relative_roughness: float
    fittings: float = 0.0

    def __post_init__(self) -> None:
        require_within("length of the run", self.length, 0.0, 1e4, "m")
        require_within("bore", self.bore, 1e-3, 2.0, "bore")
        require_within("relative roughness", self.relative_roughness, 0.0, ROUGHEST, "-")
        require_within("sum of loss coefficients", self.fittings, 0.0, 1e9, "-")

    def loss(self, flow: float, viscosity: float, valve: float = 0.0) -> float:
        """Head loss [m] at a flow [m3/s] and kinematic viscosity [m2/s], unchecked for solvers."""
        if flow <= 0.0:
            return 0.0
        bore = self.bore
        velocity = flow / (_QUARTER_PI * bore * bore)
        k = self.fittings + valve
        if self.length:
            f = factor(velocity * bore / viscosity, self.relative_roughness)
            k += f * self.length / bore
        return k * velocity * velocity / _TWO_G


@dataclass(frozen=True, slots=True)
class RunLoss:
    """What a run takes from the water at one flow.

    Attributes:
        flow: Flow [m3/s].
        velocity: Mean speed of the water [m/s].
        reynolds: Reynolds number [-].
        friction_factor: Darcy friction factor [-], 0 at rest.
        wall: Head lost along the wall [m].
        fittings: Head lost in the fittings [m].
        warnings: When the water is too fast or its regime uncertain; mostly empty.
        run: The run.
        viscosity: Kinematic viscosity [m2/s].
    """

    flow: float
    velocity: float
    reynolds: float
    friction_factor: float
    wall: float
    fittings: float
    warnings: tuple[Message, ...]
    run: Run
    viscosity: float

    @property
    def total(self) -> float:
        """Head lost in all [m]."""
        return self.wall + self.fittings

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "flow", self.flow, "m3/s")
        bore = Term("D", "bore", self.run.bore, "bore")
        length = Term("L", "length", self.run.length, "m")
        rough = Term("e/D", "relative roughness", self.run.relative_roughness, "-")
        k = Term("ΣK", "sum of loss coefficients", self.run.fittings, "-")
        nu = Term("ν", "kinematic viscosity", self.viscosity, "m2/s")
        gravity = Term("g", "gravity", GRAVITY, "m/s2")
        velocity = Term("v", "speed of the water", self.velocity, "m/s")
        reynolds = Term("Re", "Reynolds number", self.reynolds, "-")
        f = Term("f", "friction factor", self.friction_factor, "-")
        wall = Term("h_f", "loss along the wall", self.wall, "m")
        fittings = Term("h_K", "loss in fittings", self.fittings, "m")
        total = Term("h", "loss of the run", self.total, "m")
        if self.reynolds >= TURBULENT_START:
            law = "1/√f = -2 log(e/(3.7 D) + 2.51/(Re √f))"
        elif self.reynolds <= LAMINAR_END:
            law = "f = 64 / Re"
        else:
            law = "f on the curve that joins 64/Re and Colebrook"
        return (
            Step(velocity, "v = 4 Q / (π D²)", (flow, bore), ARITHMETIC),
            Step(reynolds, "Re = v D / ν", (velocity, bore, nu), ARITHMETIC),
            Step(f, law, (reynolds, rough), DARCY),
            Step(wall, "h_f = f L/D v²/2g", (f, length, bore, velocity, gravity), DARCY),
            Step(fittings, "h_K = ΣK v²/2g", (k, velocity, gravity), MINOR),
            Step(total, "h = h_f + h_K", (wall, fittings), ARITHMETIC),
        )


def velocity_in(bore: float, flow: float) -> float:
    """Mean speed of the water in a full bore.

    Args:
        bore: Inner diameter [m], 1e-3 to 2.
        flow: Flow [m3/s], 0 to 10.

    Returns:
        Speed [m/s].

    Raises:
        OutOfRange: The bore or the flow is outside its range.

    Source:
        v = 4 Q / (π D²), flow over area (definition).

    Example:
        2000 L/h in a hose of 20 mm:

        >>> round(velocity_in(0.020, 2.0 / 3600), 3)
        1.768
    """
    require_within("bore", bore, 1e-3, 2.0, "bore")
    require_within("flow", flow, 0.0, MOST_FLOW, "m3/s")
    return 4.0 * flow / (pi * bore**2)


def bore_for(flow: float, velocity_max: float) -> float:
    """The least bore in which the water stays slow enough.

    Args:
        flow: Flow [m3/s], above 0 to 10.
        velocity_max: Fastest water allowed [m/s], 0.01 to 20.

    Returns:
        Inner diameter [m].

    Raises:
        OutOfRange: The flow or the speed is outside its range.

    Source:
        D = √(4 Q / (π v)), flow over area (definition); the speed is common practice.

    Example:
        10 000 L/h, no faster than 1.5 m/s:

        >>> round(1000.0 * bore_for(10.0 / 3600, 1.5), 1)  # mm
        48.6
    """
    require_above("flow", flow, 0.0, MOST_FLOW, "m3/s")
    require_within("fastest water allowed", velocity_max, 0.01, 20.0, "m/s")
    return sqrt(4.0 * flow / (pi * velocity_max))


def run_loss(run: Run, flow: float, viscosity: float, velocity_max: float) -> RunLoss:
    """Head that a run takes at a flow.

    Args:
        run: The run.
        flow: Flow [m3/s], 0 to 10, and a Reynolds number up to 1e8.
        viscosity: Kinematic viscosity [m2/s], 1e-7 to 1e-5.
        velocity_max: Speed above which a warning is given [m/s], 0.01 to 20.

    Returns:
        Losses [m], speed [m/s], with warnings.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics; f as in
        friction_factor.

    Example:
        10 m of smooth hose of 40 mm at 10 000 L/h and 20 °C:

        >>> hose = Run(10.0, 0.040, 1.5e-6 / 0.040)
        >>> round(run_loss(hose, 10.0 / 3600, 1.0034e-6, 5.0).total, 3)
        1.162
    """
    check_viscosity(viscosity)
    require_within("fastest water allowed", velocity_max, 0.01, 20.0, "m/s")
    velocity = velocity_in(run.bore, flow)
    reynolds = velocity * run.bore / viscosity
    f = friction_factor(reynolds, run.relative_roughness) if flow else 0.0
    dynamic = velocity**2 / (2.0 * GRAVITY)
    wall = f * run.length / run.bore * dynamic
    warnings = []
    if velocity > velocity_max:
        warnings.append(
            Message(
                "the water runs at {here}, faster than {limit}: a bore of {bore} would do",
                {
                    "here": Amount(velocity, "m/s"),
                    "limit": Amount(velocity_max, "m/s"),
                    "bore": Amount(bore_for(flow, velocity_max), "bore"),
                },
            )
        )
    if LAMINAR_END < reynolds < TURBULENT_START and wall > LITTLE_LOSS:
        warnings.append(
            Message(
                "the water is between calm and turbulent here, so the loss of {loss} is rough",
                {"loss": Amount(wall, "m")},
            )
        )
    return RunLoss(
        flow, velocity, reynolds, f, wall, run.fittings * dynamic, tuple(warnings), run, viscosity
    )


def loss_and_slope(
    run: Run, flow: float, viscosity: float, valve: float = 0.0
) -> tuple[float, float]:
    """The loss of a run and how fast it grows, without range checks, for solvers.

    Args:
        run: The run.
        flow: Flow [m3/s].
        viscosity: Kinematic viscosity [m2/s].
        valve: Loss coefficient of a valve in the run [-].

    Returns:
        Head lost [m] and its slope over the flow [s/m2]; 0 and 0 at rest.

    Source:
        Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics; derivative by
        calculus.

    Example:
        >>> loss, slope = loss_and_slope(Run(10.0, 0.040, 3.75e-5), 10.0 / 3600, 1.0034e-6)
        >>> round(loss, 3), round(slope)
        (1.162, 752)
    """
    if flow <= 0.0:
        return 0.0, 0.0
    bore = run.bore
    area = _QUARTER_PI * bore * bore
    velocity = flow / area
    k = run.fittings + valve
    if run.length == 0.0:
        loss = k * velocity * velocity / _TWO_G
        return loss, 2.0 * loss / flow
    f, bend = factor_and_slope(velocity * bore / viscosity, run.relative_roughness)
    wall = f * run.length / bore
    dynamic = velocity * velocity / _TWO_G
    return (k + wall) * dynamic, (2.0 * k + (2.0 + bend) * wall) * dynamic / flow


def flow_and_slope(
    run: Run, loss: float, viscosity: float, valve: float = 0.0
) -> tuple[float, float]:
    """The flow at a loss and how fast it grows, without range checks, for solvers.

    Args:
        run: The run, with a length or a fitting.
        loss: Head to lose [m].
        viscosity: Kinematic viscosity [m2/s].
        valve: Loss coefficient of a valve in the run [-].

    Returns:
        Flow [m3/s] and its slope over the loss [m2/s]; 0 and 0 where there is no head to lose.

    Source:
        Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics, solved for the flow;
        derivative by calculus.

    Example:
        The flow that loses 1.162 m in it:

        >>> flow, _ = flow_and_slope(Run(10.0, 0.040, 3.75e-5), 1.162, 1.0034e-6)
        >>> round(3.6e6 * flow, -1)  # L/h
        10000.0
    """
    if loss <= 0.0:
        return 0.0, 0.0
    bore = run.bore
    area = _QUARTER_PI * bore * bore
    k = run.fittings + valve
    push = _TWO_G * loss
    if run.length == 0.0:
        flow = area * sqrt(push / k)
        return flow, 0.5 * flow / loss
    slenderness = run.length / bore
    # Laminar flow has a formula: K v² + 64 ν L v / D² = 2 g h, a quadratic in v.
    drag = 64.0 * viscosity * slenderness / bore
    calm = 2.0 * push / (drag + sqrt(drag * drag + 4.0 * push * k))
    if calm * bore <= LAMINAR_END * viscosity:
        return area * calm, _TWO_G * area / (2.0 * k * calm + drag)
    # With x = 1/√f the speed is v = √(2 g h) x / w, w² = K x² + L/D. Put into Colebrook's equation
    # this leaves x alone, on both sides, and on the right it hardly matters.
    wall = run.relative_roughness / 3.7
    root_of_push = sqrt(push)
    film = 2.51 * viscosity / (bore * root_of_push)
    x = -SLOPE * log(wall + film * sqrt(k * TYPICAL * TYPICAL + slenderness))
    # Newton's method squares the error and divides it by some 100: three steps are the usual.
    for _ in range(_MOST_STEPS):
        kx = k * x
        w_squared = kx * x + slenderness
        film_w = film * sqrt(w_squared)
        inside = wall + film_w
        pull = SLOPE * film_w / inside
        q = 1.0 + pull * kx / w_squared
        step = (x + SLOPE * log(inside)) / q
        x -= step
        if -1e-6 < step < 1e-6:
            break
    velocity = root_of_push * x / sqrt(k * x * x + slenderness)
    if velocity * bore < TURBULENT_START * viscosity:
        return _flow_on_bridge(run, loss, viscosity, k)
    flow = area * velocity
    return flow, 0.5 * flow / loss * (1.0 + pull * slenderness / (x * q * w_squared))


def _flow_on_bridge(run: Run, loss: float, viscosity: float, k: float) -> tuple[float, float]:
    """Flow and slope between the regimes, where ln h rises with t as friction.bridge counts it."""
    c1, c2, c3 = bridge(run.relative_roughness)
    slenderness = run.length / run.bore
    start = LAMINAR_END * viscosity / run.bore  # speed at t = 0
    wanted = log(_TWO_G * loss / (start * start))

    def resistance(t: float) -> tuple[float, float]:
        wall = slenderness * exp(LAMINAR_LOG + t * (c1 + t * (c2 + t * c3)))
        bend = c1 + t * (2.0 * c2 + t * 3.0 * c3)
        return k + wall, wall * bend / (k + wall) + 2.0 * STRETCH

    def excess(t: float) -> tuple[float, float]:
        total, slope = resistance(t)
        return log(total) + 2.0 * STRETCH * t - wanted, slope

    t = rising_root(excess, 0.0, 1.0, 0.5, 0.0, 1e-9)
    flow = _QUARTER_PI * run.bore * run.bore * start * exp(STRETCH * t)
    return flow, STRETCH * flow / (loss * resistance(t)[1])


def check_viscosity(viscosity: float) -> float:
    """Refuse a viscosity that is not that of water.

    Args:
        viscosity: Kinematic viscosity [m2/s], 1e-7 to 1e-5.

    Returns:
        The viscosity unchanged [m2/s].

    Raises:
        OutOfRange: The viscosity is outside its range.

    Source:
        Range of water from ice to boiling with room to spare (this project's own).

    Example:
        >>> check_viscosity(1.0034e-6)
        1.0034e-06
    """
    return require_within("kinematic viscosity", viscosity, 1e-7, 1e-5, "m2/s")
