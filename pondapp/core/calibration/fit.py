"""Unknowns fitted to readings: what was entered holds until readings say otherwise.

Each unknown is told as standard deviations from what was entered, so that what is known beforehand
is the unit matrix, nothing ever has no solution, and what no reading touches stays as it was.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.working import Source
from pondapp.core.measuring.student_t import MOST_DOF, NORMAL, t_factor

Row = Mapping[int, float]
"""How a number changes with each unknown, by its place; those that do not matter left out."""
Matrix = list[list[float]]
Model = Callable[[Sequence[float]], Sequence[tuple[float, Row]]]
"""Residuals by standard uncertainties, each with its row, at so many deviations of each unknown."""

_MOST_STEPS = 60
_LONGEST = 4.0  # deviations in one step: farther off nothing is straight
CLOSE, ROUGH = 1e-7, 0.02
"""Last step of a fit, and of one that is looked at for what does not fit, in deviations [-]."""
_HALVINGS = 8
_ROUNDING = 1e-11
_USUAL, _RARE = 0.95, 0.999  # by what Student's t is wider far out, where it agrees in the middle
SQUARES = Source(
    "least squares with what was entered as prior (Gauss-Newton; any textbook of inverse problems)",
    "computed",
)
PROPAGATED = Source("law of propagation, JCGM 100:2008, 5.2.2", "from memory")


@dataclass(frozen=True, slots=True)
class Fitted:
    """The unknowns that fit best.

    Attributes:
        at: Each in standard deviations from what was entered [-].
        covariance: Of those [-]; the unit matrix where nothing was learned.
        weights: Of each residual [-]: 1 as read, less where it counts less.
        misfits: Each residual over what it may be by the rest [-].
        residuals: Each as it is [-].
    """

    at: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    weights: tuple[float, ...]
    misfits: tuple[float, ...]
    residuals: tuple[float, ...]

    @property
    def cost(self) -> float:
        """What was made least: squares over readings and unknowns [-]."""
        read = zip(self.weights, self.residuals, strict=True)
        return sum(w * r * r for w, r in read) + sum(x * x for x in self.at)

    def from_data(self, place: int) -> float:
        """Share of what is known of an unknown that readings brought [-], 0 to 1."""
        return min(1.0, max(0.0, 1.0 - self.covariance[place][place]))

    def variance(self, row: Row) -> float:
        """Variance of a number that changes so with the unknowns."""
        return covariance_of(self.covariance, row, row)


def covariance_of(covariance: Sequence[Sequence[float]], one: Row, other: Row) -> float:
    """Covariance of two numbers that depend on the same unknowns.

    Args:
        covariance: That of the unknowns [-].
        one: How the one changes with each unknown.
        other: How the other does.

    Returns:
        Covariance [-], or in the product of both units.

    Source:
        JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.2.2 (law of
        propagation).

    Example:
        >>> covariance_of([[1.0, 0.5], [0.5, 1.0]], {0: 1.0}, {1: 2.0})
        1.0
    """
    return sum(a * b * covariance[i][j] for i, a in one.items() for j, b in other.items())


def lower_root(matrix: Sequence[Sequence[float]]) -> Matrix:
    """The lower triangle L of a symmetric positive matrix with L Lᵀ = A.

    Args:
        matrix: Symmetric, positive definite [-].

    Returns:
        The triangle [-].

    Raises:
        NoSolution: The matrix is not positive definite.

    Source:
        Cholesky's method; any textbook of numerical analysis.

    Example:
        >>> lower_root([[4.0, 2.0], [2.0, 5.0]])
        [[2.0, 0.0], [1.0, 2.0]]
    """
    size = len(matrix)
    lower = [[0.0] * size for _ in range(size)]
    for i in range(size):
        mine = lower[i]
        for j in range(i):
            other = lower[j]
            over = sum(map(_times, mine[:j], other[:j]))
            mine[j] = (matrix[i][j] - over) / other[j]
        left = matrix[i][i] - sum(part * part for part in mine[:i])
        if not left > 0.0:
            raise NoSolution("the readings cannot be fitted: their numbers are too far apart")
        mine[i] = sqrt(left)
    return lower


def _times(one: float, other: float) -> float:
    return one * other


def solved(lower: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The x of L Lᵀ x = b.

    Args:
        lower: The triangle L [-].
        right: The right side b [-].

    Returns:
        x [-].

    Source:
        Forward and back substitution; any textbook of numerical analysis.

    Example:
        >>> solved([[2.0, 0.0], [1.0, 2.0]], [8.0, 14.0])
        [0.75, 2.5]
    """
    found: list[float] = []
    for row, value in zip(lower, right, strict=True):
        found.append((value - sum(map(_times, row, found))) / row[len(found)])
    size = len(found)
    for i in range(size - 1, -1, -1):
        found[i] /= lower[i][i]
        mine, row = found[i], lower[i]
        for j in range(i):
            found[j] -= row[j] * mine
    return found


def inverse(lower: Sequence[Sequence[float]]) -> Matrix:
    """The inverse of L Lᵀ.

    Args:
        lower: The triangle L [-].

    Returns:
        The inverse [-].

    Source:
        Substitution, column by column; any textbook of numerical analysis.

    Example:
        >>> inverse([[2.0, 0.0], [0.0, 4.0]])
        [[0.25, 0.0], [0.0, 0.0625]]
    """
    size = len(lower)
    return [solved(lower, [float(i == j) for i in range(size)]) for j in range(size)]


def _normal(
    found: Sequence[tuple[float, Row]], weights: Sequence[float], at: Sequence[float]
) -> tuple[Matrix, list[float]]:
    """Lower triangle of the matrix, and right side, of the next step."""
    size = len(at)
    matrix = [[float(i == j) for j in range(size)] for i in range(size)]
    right = [-one for one in at]
    for (residual, row), weight in zip(found, weights, strict=True):
        parts: list[tuple[int, float]] = []  # the lower triangle is all that is asked for
        for i, slope in sorted(row.items()):
            parts.append((i, slope))
            mine, scaled = matrix[i], weight * slope
            right[i] -= scaled * residual
            for j, other in parts:
                mine[j] += scaled * other
    return matrix, right


def _cost(
    found: Sequence[tuple[float, Row]], weights: Sequence[float], at: Sequence[float]
) -> float:
    told = sum(w * r * r for (r, _), w in zip(found, weights, strict=True))
    return told + sum(one * one for one in at)


def _descend(
    model: Model, weights: Sequence[float], start: Sequence[float], close: float
) -> tuple[list[float], Sequence[tuple[float, Row]], Matrix]:
    """The best place from a start, the residuals there, and the triangle of its matrix."""
    at = list(start)
    found = model(at)
    cost = _cost(found, weights, at)
    for _ in range(_MOST_STEPS):
        matrix, right = _normal(found, weights, at)
        lower = lower_root(matrix)
        step = solved(lower, right)
        longest = max((abs(one) for one in step), default=0.0)
        if longest < close:
            break
        share = min(1.0, _LONGEST / longest)
        for _ in range(_HALVINGS):
            tried = [a + share * s for a, s in zip(at, step, strict=True)]
            new = model(tried)
            new_cost = _cost(new, weights, tried)
            if new_cost <= cost * (1.0 + _ROUNDING):
                break
            share *= 0.5
        else:
            break  # as near as floats allow
        at, found, cost = tried, new, new_cost
    return at, found, lower


def fit(
    model: Model,
    unknowns: int,
    weights: Sequence[float] | None = None,
    start: Sequence[float] | None = None,
    close: float = CLOSE,
) -> Fitted:
    """The unknowns that fit readings and what was entered best, and how sure they are.

    Args:
        model: Residuals over their standard uncertainties, and their slopes.
        unknowns: How many there are [-].
        weights: Of each residual [-], above 0 to 1; else all count as read.
        start: Where to begin, in deviations [-]; else at what was entered.
        close: Last step, in deviations [-], above 0.

    Returns:
        The best fit, in standard deviations from what was entered [-].

    Raises:
        NoSolution: Numbers are so far apart that nothing fits.

    Source:
        Least Σ w r² + Σ x² by Gauss-Newton steps; covariance (I + JᵀWJ)⁻¹: A. Tarantola, Inverse
        Problem Theory (2005), 3.2, from memory. Deleted residuals r / √(1 - h): R. D. Cook,
        S. Weisberg, Residuals and Influence in Regression (1982), 2.2, from memory.

    Example:
        One unknown known to 1, and a reading of it that says 2 and is known to 1 as well:

        >>> found = fit(lambda x: [(x[0] - 2.0, {0: 1.0})], 1)
        >>> round(found.at[0], 3), round(found.covariance[0][0], 3)
        (1.0, 0.5)
    """
    at = list(start or [0.0] * unknowns)
    counted = list(weights or [1.0] * len(model(at)))
    at, found, lower = _descend(model, counted, at, close)
    covariance = inverse(lower)
    misfits = [_misfit(one, w, covariance) for one, w in zip(found, counted, strict=True)]
    residuals = tuple(residual for residual, _ in found)
    return Fitted(
        tuple(at), tuple(map(tuple, covariance)), tuple(counted), tuple(misfits), residuals
    )  # fmt: skip


def farthest_good(chance: float, freedom: int = MOST_DOF) -> float:
    """How many standard uncertainties a good reading is off but by such a chance.

    Args:
        chance: The chance, either way [-], 1e-9 to 0.5.
        freedom: Degrees of freedom of its uncertainty [-], 1 to 1000: farther if few fills told it.

    Returns:
        Standard uncertainties [-].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Normal distribution, widened as Student's t is far out, where both agree in the middle.

    Example:
        >>> round(farthest_good(0.05), 2)
        1.96
    """
    require_within("chance that is asked for", chance, 1e-9, 0.5, "-")
    known = NORMAL.inv_cdf(1.0 - 0.5 * chance)
    if freedom >= MOST_DOF:
        return known
    told, normal = (
        t_factor(_RARE, dof) / t_factor(_USUAL, dof) for dof in (freedom, MOST_DOF)
    )  # fmt: skip
    return known * told / normal


def _misfit(one: tuple[float, Row], weight: float, covariance: Matrix) -> float:
    """A residual by what it may be if the others are right: as if it had been left out."""
    residual, row = one
    leverage = covariance_of(covariance, row, row)
    # With a weight w in the fit: leaving it out divides the residual by 1 - w h, and what it may
    # then be is its own variance 1 and that of the rest, h / (1 - w h).
    left = max(1e-9, 1.0 - weight * leverage)
    return residual / left / sqrt(1.0 + leverage / left)


def narrowed(
    covariance: Sequence[Sequence[float]], wanted: Row, reading: Row, uncertainty: float
) -> float:
    """Variance of a number once one more reading is taken.

    Args:
        covariance: That of the unknowns now [-].
        wanted: How the number changes with each unknown.
        reading: How what is read changes with each.
        uncertainty: Standard uncertainty of the reading, in its unit, above 0 to 1e6.

    Returns:
        The variance then, in the number's unit squared.

    Raises:
        OutOfRange: The uncertainty is outside its range.

    Source:
        v' = v - c² / (u² + r): one step of G. J. Bierman, Factorization Methods for Discrete
        Sequential Estimation (1977), II, from memory; the reading's own result does not matter.

    Example:
        A number known to 1 is read to 1:

        >>> narrowed([[1.0]], {0: 1.0}, {0: 1.0}, 1.0)
        0.5
    """
    require_above("standard uncertainty", uncertainty, 0.0, 1e6, "m3/s")
    now = covariance_of(covariance, wanted, wanted)
    both = covariance_of(covariance, wanted, reading)
    own = covariance_of(covariance, reading, reading)
    return max(0.0, now - both * both / (uncertainty * uncertainty + own))
