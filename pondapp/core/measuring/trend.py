"""How a flow changes over the season, and when it will leave its band."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above, require_within
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.student_t import MOST_DOF, t_factor
from pondapp.core.measuring.verdict import Certainty, decide

FEWEST_READINGS = 3  # two give a line but nothing to doubt it by
LINE = Source("weighted least squares, as in numpy", "computed")


@dataclass(frozen=True, slots=True)
class Trend:
    """A straight line through flows over time.

    Attributes:
        slope: Change of the flow per time [m3/s2], below 0 when it falls.
        slope_uncertainty: Its standard uncertainty [m3/s2].
        slope_low: Lower end of the slope's interval [m3/s2].
        slope_high: Upper end of the slope's interval [m3/s2].
        centre: Weighted mean of the times [s]; flow and slope are independent there.
        centre_flow: Flow on the line at that time [m3/s].
        centre_uncertainty: Standard uncertainty of that flow [m3/s].
        factor: Coverage factor of the intervals [-].
        count: Number of readings [-].
        freedom: Degrees of freedom of its uncertainties [-].
    """

    slope: float
    slope_uncertainty: float
    slope_low: float
    slope_high: float
    centre: float
    centre_flow: float
    centre_uncertainty: float
    factor: float
    count: int
    freedom: int

    def told(self, rule: Certainty) -> bool:
        """Whether it is decided, as of every flow, that the flow rises or that it falls.

        A change whose interval is wider than itself is never told.
        """
        change = Spread(abs(self.slope), self.slope_uncertainty, self.freedom)
        return decide(change, 0.0, None, replace(rule, widest=1.0)).kind == "within"

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        count = Term("n", "number of readings", float(self.count), "-")
        centre = Term("t0", "weighted mean of the times", self.centre, "s")
        flow = Term("Q0", "flow on the line at that time", self.centre_flow, "m3/s")
        slope = Term("m", "change of the flow per time", self.slope, "m3/s2")
        uncertainty = Term("u", "standard uncertainty of m", self.slope_uncertainty, "m3/s2")
        return (
            Step(flow, "Q0 = Σ(w Q) / Σw, w = 1 / u²", (count, centre), LINE),
            Step(slope, "m = Σ(w (t - t0) Q) / Σ(w (t - t0)²)", (count, centre, flow), LINE),
            Step(uncertainty, "u = R / √Σ(w (t - t0)²)", (count, centre, slope), LINE),
        )


@dataclass(frozen=True, slots=True)
class Leaving:
    """When a line passes a limit.

    Attributes:
        likely: Time at which the line itself passes it [s].
        earliest: Time from which the limit may have been passed [s].
        latest: Time by which it has been passed [s].
    """

    likely: float
    earliest: float
    latest: float


def trend(
    times: Sequence[float],
    flows: Sequence[float],
    uncertainties: Sequence[float],
    coverage: float,
) -> Trend:
    """Straight line through flows measured at different times.

    Args:
        times: When each was measured [s], from any start, each -1e11 to 1e11; three or more.
        flows: Flows [m3/s], each 0 to 1e6.
        uncertainties: Their standard uncertainties [m3/s], each above 0 to 1e6.
        coverage: Share of cases that an interval holds [-], 0.5 to 0.999.

    Returns:
        The line, with its slope [m3/s2] and its uncertainty, which is stretched where the flows
        scatter about the line by more than their own uncertainties.

    Raises:
        NotEnoughReadings: There are fewer than three.
        OutOfRange: The lists differ in length, a value is outside its range, or all readings
            were taken at one time.

    Source:
        Weighted least squares about the weighted mean, as in numpy.polyfit; stretched by Birge's
        ratio (see pooled) with n - 2 degrees of freedom.

    Example:
        A flow that falls by 0.1 L/s in a month:

        >>> month = 30 * 86400.0
        >>> times = [0.0, month, 2 * month, 3 * month]
        >>> line = trend(times, [1.0e-3, 0.9e-3, 0.8e-3, 0.7e-3], [2e-5] * 4, 0.95)
        >>> round(1e3 * line.slope * month, 3)  # L/s a month
        -0.1
    """
    count = len(times)
    if count < FEWEST_READINGS:
        raise NotEnoughReadings("a trend needs at least three readings")
    if not count == len(flows) == len(uncertainties):
        raise OutOfRange("each time needs its flow and its uncertainty")
    for time, flow, uncertainty in zip(times, flows, uncertainties, strict=True):
        require_within("time of the reading", time, -1e11, 1e11, "s")
        require_within("flow", flow, 0.0, 1e6, "m3/s")
        require_above("standard uncertainty", uncertainty, 0.0, 1e6, "m3/s")
    best = min(uncertainties)
    weights = [(best / uncertainty) ** 2 for uncertainty in uncertainties]
    total = sum(weights)
    start = times[0]
    centre = start + sum(w * (t - start) for w, t in zip(weights, times, strict=True)) / total
    away = [time - centre for time in times]
    spread = sum(w * a * a for w, a in zip(weights, away, strict=True))
    # A second of spread is nothing beside a season, and far above the rounding of the times.
    if sqrt(spread / total) < 1.0:
        raise OutOfRange("all readings were taken at one time; a trend needs them apart")
    centre_flow = sum(w * flow for w, flow in zip(weights, flows, strict=True)) / total
    slope = sum(
        w * a * (flow - centre_flow) for w, a, flow in zip(weights, away, flows, strict=True)
    ) / spread  # fmt: skip
    left = sum(
        ((flow - centre_flow - slope * a) / u) ** 2
        for flow, a, u in zip(flows, away, uncertainties, strict=True)
    )
    ratio = sqrt(left / (count - 2))
    # Scatter that the readings own up to is known beforehand; more than that was only seen.
    stretch, dof = (ratio, count - 2) if ratio > 1.0 else (1.0, MOST_DOF)
    factor = t_factor(coverage, dof)
    slope_uncertainty = stretch * best / sqrt(spread)
    half_width = factor * slope_uncertainty
    return Trend(
        slope=slope,
        slope_uncertainty=slope_uncertainty,
        slope_low=slope - half_width,
        slope_high=slope + half_width,
        centre=centre,
        centre_flow=centre_flow,
        centre_uncertainty=stretch * best / sqrt(total),
        factor=factor,
        count=count,
        freedom=dof,
    )


def flow_at(line: Trend, time: float) -> tuple[float, float]:
    """Flow on the line at a time, and its standard uncertainty.

    Args:
        line: The trend.
        time: Time [s], -1e11 to 1e11, from the same start as the readings'.

    Returns:
        Flow [m3/s], which may be negative far outside the readings, and its standard
        uncertainty [m3/s].

    Raises:
        OutOfRange: The time is outside its range.

    Source:
        Q = Qc + b (t - tc), u² = uc² + (ub (t - tc))²: weighted least squares, whose two parts are
        independent about the centre; any textbook of statistics.

    Example:
        The same line a month later:

        >>> month = 30 * 86400.0
        >>> times = [0.0, month, 2 * month, 3 * month]
        >>> line = trend(times, [1.0e-3, 0.9e-3, 0.8e-3, 0.7e-3], [2e-5] * 4, 0.95)
        >>> round(1e3 * flow_at(line, 4 * month)[0], 3)  # L/s
        0.6
    """
    require_within("time", time, -1e11, 1e11, "s")
    away = time - line.centre
    uncertainty = sqrt(line.centre_uncertainty**2 + (line.slope_uncertainty * away) ** 2)
    return line.centre_flow + line.slope * away, uncertainty


def leaving(line: Trend, limit: float) -> Leaving | None:
    """When the flow passes a limit, if it is sure to be on its way there.

    Args:
        line: The trend.
        limit: The end of the band that the flow is heading for [m3/s], 0 to 1e6.

    Returns:
        The times [s], from the readings' start; none when the slope's interval holds 0, for
        then no date can be given. A time before the last reading says that the limit is passed.

    Raises:
        OutOfRange: The limit is outside its range.

    Source:
        Where the line and the ends of its interval cross the limit: E. C. Fieller, Some problems in
        interval estimation, J. R. Stat. Soc. B 16 (1954) 175-185, from memory.

    Example:
        When it passes 0.5 L/s:

        >>> month = 30 * 86400.0
        >>> times = [0.0, month, 2 * month, 3 * month]
        >>> line = trend(times, [1.0e-3, 0.9e-3, 0.8e-3, 0.7e-3], [2e-5] * 4, 0.95)
        >>> round(leaving(line, 0.5e-3).likely / month, 2)  # months
        5.0
    """
    require_within("end of the wanted range", limit, 0.0, 1e6, "m3/s")
    if line.slope_low <= 0.0 <= line.slope_high:
        return None
    gap = limit - line.centre_flow
    half_width = line.factor * line.centre_uncertainty
    half_width_slope = line.factor * line.slope_uncertainty
    # (gap - slope x)^2 = half_width^2 + (half_width_slope x)^2; slope^2 is the larger, so both
    # roots are real.
    square = line.slope**2 - half_width_slope**2
    middle = line.slope * gap
    root = sqrt(max(0.0, middle**2 - square * (gap**2 - half_width**2)))
    return Leaving(
        likely=line.centre + gap / line.slope,
        earliest=line.centre + (middle - root) / square,
        latest=line.centre + (middle + root) / square,
    )
