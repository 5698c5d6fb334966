"""Readings of a circuit fitted together, and what they predict."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, log, sqrt
from typing import Literal

from pondapp.core.base.errors import require_above
from pondapp.core.calibration.agreement import agreement
from pondapp.core.calibration.fit import (
    CLOSE,
    ROUGH,
    Fitted,
    Model,
    Row,
    covariance_of,
    farthest_good,
    fit,
    narrowed,
)
from pondapp.core.calibration.scene import Moved, Scene, Unknown, moved_flows
from pondapp.core.calibration.strain import USUAL, off_entered, strained_by, widened_by
from pondapp.core.hydraulics.run import MOST_FLOW
from pondapp.core.measuring.student_t import MOST_DOF

MODEL_SCATTER = 0.01
"""Standard deviation of a flow about the best model of it, as a share [-]: level of the pond, water
and leaves from day to day. A rule of thumb; it keeps a reading from counting for more than the
model can hold, and is well below what a bucket can tell."""


ROUNDS = 3
"""How often it is looked again for what does not fit: once what did not is out, more may show."""
_NEAR = 0.1  # of what was read: below, and where a branch is dry, no logarithm leads back

Verdict = Literal["fits", "slip", "before", "open", "against"]
"""Of a reading: it stands alone among its like; it is from before a change that nobody logged; it
and its like leave open what holds; it cannot be brought together with the rest."""


@dataclass(frozen=True, slots=True)
class Datum:
    """A flow that was read.

    Attributes:
        key: Who reads it may find it by.
        scene: Place of its scene among the scenes.
        end: Place of the branch in the scene; None for the flow of the pump.
        flow: Flow [m3/s], above 0.
        share: Its own standard uncertainty over the flow [-], what its container adds left out.
        container: Place of what is unknown of its container; None where nothing is.
        freedom: Degrees of freedom of its uncertainty [-].
        state: What it has in common with readings that are to agree with it; empty for none.
    """

    key: str
    scene: int
    end: int | None
    flow: float
    share: float
    container: int | None = None
    freedom: int = MOST_DOF
    state: str = ""

    @property
    def doubt(self) -> float:
        """Standard uncertainty of its logarithm, with that of any model [-]."""
        return hypot(self.share, MODEL_SCATTER)


@dataclass(frozen=True, slots=True)
class Predicted:
    """A flow as the readings let expect it.

    Attributes:
        flow: Flow [m3/s].
        uncertainty: Its standard uncertainty [m3/s].
        row: How it moves with each unknown's deviations.
    """

    flow: float
    uncertainty: float
    row: Row


@dataclass(frozen=True, slots=True)
class Calibrated:
    """Unknowns of a circuit as readings left them.

    Attributes:
        unknowns: What was known beforehand, as far as the readings let it be known so well.
        data: The readings, oldest first.
        fitted: The best fit.
        verdicts: Of each reading, whether it fits.
        strained: Places of unknowns that are farther from what was entered than can be.
    """

    unknowns: tuple[Unknown, ...]
    data: tuple[Datum, ...]
    fitted: Fitted
    verdicts: tuple[Verdict, ...] = ()
    strained: tuple[int, ...] = ()

    @property
    def values(self) -> tuple[float, ...]:
        """Value of each unknown, as its own kind is counted."""
        return values_at(self.unknowns, self.fitted.at)

    def off(self, which: int) -> float:
        """Logarithm of what a reading says over what the fit says [-]."""
        told = self.fitted.residuals[which] * self.data[which].doubt
        if told >= log(_NEAR):
            return -told
        return -log(_NEAR * max(_NEAR, 1.0 + told - log(_NEAR)))

    def deviation(self, place: int) -> float:
        """Standard uncertainty of an unknown, as its own kind is counted."""
        return self.unknowns[place].deviation * sqrt(self.fitted.covariance[place][place])

    def by_deviations(self, row: Row) -> Row:
        """Slopes over the unknowns as slopes over their deviations."""
        return {place: slope * self.unknowns[place].deviation for place, slope in row.items()}

    def share_from_data(self, row: Row) -> float:
        """Share of what is known of a number that readings brought [-], by its slopes."""
        before = sum(slope * slope for slope in row.values())
        return max(0.0, 1.0 - self.fitted.variance(row) / before) if before else 0.0

    def beside(self, more: Sequence[Unknown]) -> "Calibrated":
        """The same with unknowns besides of which no reading says anything."""
        fitted, size, added = self.fitted, len(self.unknowns), len(more)
        rows = [(*row, *[0.0] * added) for row in fitted.covariance]
        rows += [tuple(float(j == size + i) for j in range(size + added)) for i in range(added)]
        at = (*fitted.at, *[0.0] * added)
        return replace(
            self,
            unknowns=(*self.unknowns, *more),
            fitted=replace(fitted, at=at, covariance=tuple(rows)),
        )

    def predicted(
        self, scene: Scene, fixed: float = 0.0
    ) -> tuple[tuple[Predicted, ...], Predicted]:
        """Flows of all branches in a scene and that of the pump, with what is not known of them.

        Raises:
            PondError: The circuit cannot be balanced.
        """
        ends, whole = moved_flows(scene, self.values, fixed)
        return tuple(self._predicted(one) for one in ends), self._predicted(whole)

    def _predicted(self, moved: Moved) -> Predicted:
        row = self.by_deviations(moved.row)
        return Predicted(moved.flow, sqrt(max(0.0, self.fitted.variance(row))), row)

    def narrowed(self, wanted: Predicted, read: Predicted, share: float) -> float:
        """Standard uncertainty of a prediction [m3/s] once a flow is read, known to such a share.

        Raises:
            OutOfRange: The flow that is to be read is none.
        """
        doubt = hypot(share, MODEL_SCATTER) * read.flow
        return sqrt(narrowed(self.fitted.covariance, wanted.row, read.row, doubt))

    def correlated(self, one: Predicted, other: Predicted) -> float:
        """Covariance of two predictions, in the product of their units."""
        return covariance_of(self.fitted.covariance, one.row, other.row)


def values_at(unknowns: Sequence[Unknown], at: Sequence[float]) -> tuple[float, ...]:
    """Values of unknowns at so many deviations from what was entered.

    Args:
        unknowns: What was known beforehand.
        at: Deviations [-].

    Returns:
        Values, as each one's kind is counted [-].

    Source:
        Definition.

    Example:
        >>> values_at([Unknown("lift", 1.0, 0.05)], [2.0])
        (1.1,)
    """
    return tuple(u.mean + u.deviation * x for u, x in zip(unknowns, at, strict=True))


def calibrated(
    unknowns: Sequence[Unknown], scenes: Sequence[Scene], data: Sequence[Datum], chance: float
) -> Calibrated:
    """Fit the unknowns of a circuit to readings of its flows.

    Readings of one state that do not agree count less, by the rules of agreement. Where all that
    fits is farther from what was entered than chance allows, what was entered is taken as so much
    less sure, and the fit says where it is strained.

    Args:
        unknowns: What is known beforehand.
        scenes: The circuit at the times of the readings.
        data: The readings, oldest first.
        chance: Chance of calling good readings wrong [-], 1e-6 to 0.5.

    Returns:
        The fit; with no reading, what was known beforehand.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: Nothing fits.

    Source:
        As fit, with the residuals ln(c Q(θ) / Q_read) / u of every reading; c is the marked over
        the true content of its container. Bonferroni's bound over all readings.

    Example:
        A fall gives a tenth less than worked out; its hose loses more than was thought:

        >>> from pondapp.core.calibration.scene import End
        >>> from pondapp.core.hydraulics.network import Outlet
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> from pondapp.core.hydraulics.run import Run
        >>> end = End(Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0), loss=((0, 1.0),))
        >>> scene = Scene(LabelCurve(4.0, 2e-3), (), (), None, None, (), (end,), 1e-6)
        >>> read = Datum("first", 0, 0, 1.36e-3, 0.01)
        >>> found = calibrated([Unknown("loss", 0.0, 0.5)], [scene], [read], 0.01)
        >>> round(found.values[0], 2), round(found.deviation(0), 2)
        (0.87, 0.09)
    """
    for datum in data:
        require_above("flow", datum.flow, 0.0, MOST_FLOW, "m3/s")
    entered, scenes, data = tuple(unknowns), tuple(scenes), tuple(data)
    each = chance / max(1, len(data))
    weights, verdicts = [1.0] * len(data), tuple[Verdict, ...]()
    found = _first(entered, _model(entered, scenes, data), data, each)
    for _ in range(ROUNDS):
        known = weights
        weights, verdicts = _agreed(data, found, each)
        if weights == known:
            break
        found = _refit(found, entered, entered, scenes, data, weights, ROUGH)
    widened, off = entered, off_entered(entered, entered, found)
    strained = strained_by(off, len(data), chance)
    for _ in range(ROUNDS if strained else 0):
        before, widened = widened, widened_by(entered, off, len(data))
        found = _refit(found, before, widened, scenes, data, weights, ROUGH)
        off = off_entered(entered, widened, found)
    strained = strained and strained_by(off, len(data), chance)
    found = _refit(found, widened, widened, scenes, data, weights, CLOSE)
    for _ in range(ROUNDS):
        limits = [farthest_good(each, datum.freedom) for datum in data]
        against = [
            i
            for i, limit in enumerate(limits)
            if verdicts[i] in ("fits", "against")
            # Where the fit reaches a reading, what was entered is off, and not the reading.
            and abs(found.residuals[i]) * sqrt(weights[i]) > limit
            and abs(found.misfits[i]) > limit
        ]
        if not against:
            break
        for i in against:
            weights[i] = 1.0 / found.misfits[i] ** 2
        verdicts = tuple("against" if i in against else one for i, one in enumerate(verdicts))
        here = _refit(found, widened, widened, scenes, data, weights, CLOSE)
        anew = fit(_model(widened, scenes, data), len(widened), weights)
        found = min(here, anew, key=lambda one: one.cost)  # what drew it may have led astray
    return Calibrated(widened, data, found, verdicts, strained)


def _model(unknowns: Sequence[Unknown], scenes: Sequence[Scene], data: Sequence[Datum]) -> Model:
    """Residuals of all readings at so many deviations of each unknown."""

    def model(at: Sequence[float]) -> list[tuple[float, Row]]:
        values = values_at(unknowns, at)
        moved = [moved_flows(scene, values) for scene in scenes]
        found: list[tuple[float, Row]] = []
        for datum in data:
            ends, whole = moved[datum.scene]
            one = whole if datum.end is None else ends[datum.end]
            content = 1.0 if datum.container is None else max(_NEAR, 1 + values[datum.container])
            flow, moves = (one.flow, one.row) if one.flow > 0.0 else (-one.lack, _less(one))
            share, doubt = content * flow / datum.flow, datum.doubt
            off, steep = _logarithm(share)
            times = steep * content / datum.flow / doubt
            row = {
                place: slope * times * unknowns[place].deviation for place, slope in moves.items()
            }
            if datum.container is not None:
                other = unknowns[datum.container].deviation
                row[datum.container] = steep * share / content / doubt * other
            found.append((off / doubt, row))
        return found

    return model


def _less(one: Moved) -> Row:
    return {place: -slope for place, slope in one.lack_row.items()}


def _logarithm(share: float) -> tuple[float, float]:
    """Logarithm of a flow over what was read, and its slope; far below it goes on straight."""
    if share >= _NEAR:
        return log(share), 1.0 / share
    return log(_NEAR) + share / _NEAR - 1.0, 1.0 / _NEAR


def _first(unknowns: Sequence[Unknown], model: Model, data: Sequence[Datum], each: float) -> Fitted:
    """The first fit; where it does not reach a reading, the better one of two.

    While a valve is open its loss hardly moves a flow. So a fit that begins there may not find that
    it was nearly shut, and bends everything else.
    """
    size = len(unknowns)
    found = fit(model, size, close=ROUGH)
    reached = all(
        abs(off) <= farthest_good(each, datum.freedom)
        for off, datum in zip(found.residuals, data, strict=True)
    )
    if reached:
        return found
    shut = [USUAL if one.open else 0.0 for one in unknowns]
    other = fit(model, size, start=shut, close=ROUGH)
    return min(found, other, key=lambda one: one.cost)


def _refit(
    found: Fitted,
    before: Sequence[Unknown],
    unknowns: Sequence[Unknown],
    scenes: Sequence[Scene],
    data: Sequence[Datum],
    weights: Sequence[float],
    close: float,
) -> Fitted:
    """The fit once more, from where it stands, with other weights or deviations."""
    start = [
        x * old.deviation / new.deviation
        for x, old, new in zip(found.at, before, unknowns, strict=True)
    ]
    return fit(_model(unknowns, scenes, data), len(unknowns), weights, start, close)


def _agreed(
    data: Sequence[Datum], found: Fitted, each: float
) -> tuple[list[float], tuple[Verdict, ...]]:
    """How much each reading counts beside those of its state, and what that makes of it."""
    weights = [1.0] * len(data)
    verdicts: list[Verdict] = ["fits"] * len(data)
    states: dict[str, list[int]] = {}
    for i, datum in enumerate(data):
        if datum.state:
            states.setdefault(datum.state, []).append(i)
    for mine in states.values():
        doubts = [data[i].doubt for i in mine]
        offs = [-found.residuals[i] * doubt for i, doubt in zip(mine, doubts, strict=True)]
        # What few fills told of their scatter is the least sure in a comparison.
        limit = farthest_good(each, min(data[i].freedom for i in mine))
        said = agreement(offs, doubts, limit)
        less: Verdict = "slip" if said.kind == "slips" else "before"
        for i, weight in zip(mine, said.weights, strict=True):
            weights[i] = weight
            if said.kind == "open":
                verdicts[i] = "open"
            elif weight < 1.0:
                verdicts[i] = less
    return weights, tuple(verdicts)
