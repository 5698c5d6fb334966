"""What a nominal size means: the bore of hoses and pipes as they are sold."""

from dataclasses import dataclass

from pondapp.core.base.errors import NoSolution, OutOfRange, require_above
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import Source

_MM = 1e-3
_INCH = 0.0254


@dataclass(frozen=True, slots=True)
class Size:
    """A size on the shelf.

    Attributes:
        series: Which series it belongs to.
        name: What is printed on it.
        bore: Inner diameter [m].
        source: Where the bore is from.
    """

    series: str
    name: str
    bore: float
    source: Source


# Each printed size lies inside the limits of its nominal size: 12.5 for 13 mm, 76 for 75 mm.
_HOSE = Source("hose is sold by its bore: EN ISO 1307:2008, limits of each size", "published")
_SCHEDULE = Source("ASME B36.10M nominal bore, as in fluids 1.3.1", "computed")
# 110 mm has the wall of the newer EN ISO 1452, as shops print it: 4.2 mm in place of 5.3.
_METRIC = Source(
    "outside diameter less two walls: DIN 8062, 16 bar up to 25 mm, above it 10 bar", "published"
)


def _make(series: str, unit: float, source: Source, *sizes: tuple[str, float]) -> tuple[Size, ...]:
    return tuple(Size(series, name, bore * unit, source) for name, bore in sizes)


SIZES: tuple[Size, ...] = (
    *_make(
        "hose, mm", _MM, _HOSE,
        *((f"{mm} mm", float(mm)) for mm in (13, 16, 19, 20, 25, 32, 38, 40, 50, 63, 75)),
    ),
    *_make(
        "hose, in", _INCH, _HOSE,
        ("1/2 in", 0.5), ("5/8 in", 0.625), ("3/4 in", 0.75), ("1 in", 1.0), ("1 1/4 in", 1.25),
        ("1 1/2 in", 1.5), ("2 in", 2.0), ("3 in", 3.0),
    ),
    *_make(
        "PVC pipe, schedule 40", _MM, _SCHEDULE,
        ("1/2 in", 15.76), ("3/4 in", 20.96), ("1 in", 26.64), ("1 1/4 in", 35.08),
        ("1 1/2 in", 40.94), ("2 in", 52.48), ("2 1/2 in", 62.68), ("3 in", 77.92),
        ("4 in", 102.26),
    ),
    *_make(
        "PVC pressure pipe, mm outside", _MM, _METRIC,
        ("20 mm", 17.0), ("25 mm", 21.2), ("32 mm", 28.4), ("40 mm", 36.2), ("50 mm", 45.2),
        ("63 mm", 57.0), ("75 mm", 67.8), ("90 mm", 81.4), ("110 mm", 101.6),
    ),
)  # fmt: skip
"""All sizes, narrow to wide within a series."""

SERIES: tuple[str, ...] = tuple(dict.fromkeys(size.series for size in SIZES))


def sizes(series: str) -> tuple[Size, ...]:
    """All sizes of a series, narrow to wide.

    Args:
        series: Name of the series, one of SERIES.

    Returns:
        The sizes, each with its bore [m].

    Raises:
        OutOfRange: There is no such series.

    Source:
        As named in each size; measure the bore where it matters, ribbed hose above all.

    Example:
        >>> [size.name for size in sizes("hose, mm")][:4]
        ['13 mm', '16 mm', '19 mm', '20 mm']
    """
    found = tuple(size for size in SIZES if size.series == series)
    if not found:
        raise OutOfRange("there is no series of sizes called {series}", series=series)
    return found


def bore_of(series: str, name: str) -> float:
    """The bore behind a printed size.

    Args:
        series: Name of the series, one of SERIES.
        name: Printed size, such as "1 1/2 in" or "40 mm".

    Returns:
        Inner diameter [m].

    Raises:
        OutOfRange: There is no such series, or no such size in it.

    Source:
        As named in each size.

    Example:
        >>> round(1000.0 * bore_of("hose, in", "1 1/2 in"), 1)  # mm
        38.1
    """
    for size in sizes(series):
        if size.name == name:
            return size.bore
    raise OutOfRange("there is no size {name} in {series}", name=name, series=series)


def size_for(series: str, bore: float) -> Size:
    """The narrowest size of a series that is at least so wide.

    Args:
        series: Name of the series, one of SERIES.
        bore: Wanted inner diameter [m], above 0 to 2.

    Returns:
        The size, with its bore [m].

    Raises:
        OutOfRange: There is no such series, or the bore is outside its range.
        NoSolution: The widest size of the series is narrower.

    Source:
        Look-up in SIZES.

    Example:
        The hose that is at least 30 mm wide:

        >>> size_for("hose, mm", 0.030).name
        '32 mm'
    """
    require_above("wanted bore", bore, 0.0, 2.0, "bore")
    found = sizes(series)
    for size in found:
        if size.bore >= bore:
            return size
    raise NoSolution(
        "the widest size of {series} is {widest}; {bore} is wanted: lay two side by side",
        series=series,
        widest=Amount(found[-1].bore, "bore"),
        bore=Amount(bore, "bore"),
    )
