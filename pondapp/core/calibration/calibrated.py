"""Readings of a circuit fitted together, and what they predict."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

from pondapp.core.base.errors import require_above
from pondapp.core.calibration.fit import Fitted, Row, covariance_of, fit, narrowed
from pondapp.core.calibration.scene import Moved, Scene, Unknown, moved_flows
from pondapp.core.hydraulics.run import MOST_FLOW
from pondapp.core.measuring.student_t import MOST_DOF

MODEL_SCATTER = 0.01
"""Standard deviation of a flow about the best model of it, as a share [-]: level of the pond, water
and leaves from day to day. A rule of thumb; it keeps a reading from counting for more than the
model can hold, and is well below what a bucket can tell."""


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
    """

    key: str
    scene: int
    end: int | None
    flow: float
    share: float
    container: int | None = None
    freedom: int = MOST_DOF


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
        unknowns: What was known beforehand.
        data: The readings.
        fitted: The best fit.
    """

    unknowns: tuple[Unknown, ...]
    data: tuple[Datum, ...]
    fitted: Fitted

    @property
    def values(self) -> tuple[float, ...]:
        """Value of each unknown, as its own kind is counted."""
        return values_at(self.unknowns, self.fitted.at)

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

    def outliers(self) -> tuple[str, ...]:
        """Keys of the readings that do not fit the rest and count less."""
        found = zip(self.data, self.fitted.weights, strict=True)
        return tuple(one.key for one, weight in found if weight < 1.0)

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
        doubt = sqrt(share * share + MODEL_SCATTER**2) * read.flow
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

    Args:
        unknowns: What is known beforehand.
        scenes: The circuit at the times of the readings.
        data: The readings.
        chance: Chance of calling any good reading one that does not fit [-], 1e-6 to 0.5.

    Returns:
        The fit; with no reading, what was known beforehand.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: Nothing fits.

    Source:
        As fit, with the residuals (c Q(θ) / Q_read - 1) / u of every reading; c is the marked over
        the true content of its container.

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
    unknowns, scenes, data = tuple(unknowns), tuple(scenes), tuple(data)

    def model(at: Sequence[float]) -> list[tuple[float, Row]]:
        values = values_at(unknowns, at)
        moved = [moved_flows(scene, values) for scene in scenes]
        found: list[tuple[float, Row]] = []
        for datum in data:
            ends, whole = moved[datum.scene]
            one = whole if datum.end is None else ends[datum.end]
            content = 1.0 if datum.container is None else 1.0 + values[datum.container]
            doubt = sqrt(datum.share**2 + MODEL_SCATTER**2)
            times = content / datum.flow / doubt
            row = {
                place: slope * times * unknowns[place].deviation for place, slope in one.row.items()
            }
            if datum.container is not None:
                other = unknowns[datum.container].deviation
                row[datum.container] = one.flow / datum.flow / doubt * other
            found.append(((content * one.flow / datum.flow - 1.0) / doubt, row))
        return found

    freedoms = [datum.freedom for datum in data]
    return Calibrated(unknowns, data, fit(model, len(unknowns), chance, freedoms))
