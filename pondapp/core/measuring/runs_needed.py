"""How many more fills settle the question, and how long a fill must last."""

from collections.abc import Sequence
from math import ceil, sqrt

from pondapp.core.errors import NoSolution, require_above, require_within
from pondapp.core.measuring.student_t import interval_half_width
from pondapp.core.measuring.timed_flow import believed_scatter, timed_flow
from pondapp.core.measuring.verdict import judge


def more_runs_to_decide(
    times: Sequence[float],
    volume: float,
    volume_half_width: float,
    reaction_sd: float,
    coverage: float,
    band_low: float,
    band_high: float | None,
    most_runs: float,
) -> int:
    """How many more fills would probably settle whether the flow is in the band.

    Supposes that the fills to come have the mean and the scatter of those already timed.

    Args:
        times: Fill times so far [s], each above 0 to 86400.
        volume: What the container holds [m3], above 0 to 100.
        volume_half_width: Half width of its tolerance [m3], 0 to the volume.
        reaction_sd: Standard deviation of one start-stop pair [s], 0 to 10.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.
        most_runs: Most fills in all that anyone will time [-], 1 to 1000.

    Returns:
        Number of further fills [-]; 0 when the question is settled already.

    Raises:
        NotEnoughReadings: There is no fill yet.
        NoSolution: The container's tolerance alone reaches over a limit, or more fills than
            the most would be needed.
        OutOfRange: An argument is outside its range.

    Source:
        The interval of the timed flow, solved for the number of fills.
    """
    require_within("most fills", most_runs, 1.0, 1000.0, "-")
    now = timed_flow(times, volume, volume_half_width, reaction_sd, coverage)
    if judge(now.low, now.high, band_low, band_high).kind != "undecided":
        return 0
    count = len(times)
    scatter, dof = believed_scatter(times, reaction_sd)
    # A single fill shows no scatter of its own; the ones to come are then believed at the floor.
    by_floor = count == 1 or scatter <= reaction_sd

    def decided(fills: int, spread: float) -> bool:
        freedom = dof if fills == count else (2 * fills - 1 if by_floor else fills - 1)
        half = now.flow * interval_half_width(
            spread / sqrt(fills) / now.mean_time, freedom, volume_half_width / volume, coverage
        )
        verdict = judge(max(0.0, now.flow - half), now.flow + half, band_low, band_high)
        return verdict.kind != "undecided"

    if not decided(max(2, count), 0.0):
        raise NoSolution(
            "no number of fills can settle this: the container is not known well enough, or the "
            "flow is right at a limit; weigh the container's water or use a bigger one"
        )
    for fills in range(max(2, count + 1), int(most_runs) + 1):
        if decided(fills, scatter):
            return fills - count
    raise NoSolution(
        "even {count} fills would not settle this; use a bigger container",
        count=str(int(most_runs)),
    )


def fill_time_for(relative_uncertainty: float, reaction_sd: float, runs: int) -> float:
    """How long a fill must last for its timing to be good enough.

    Args:
        relative_uncertainty: Wanted standard uncertainty of the mean time over it [-], above 0
            to 1.
        reaction_sd: Standard deviation of one start-stop pair [s], 0 to 10.
        runs: Number of fills [-], 1 to 1000.

    Returns:
        Shortest fill time [s].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 100:2008, 4.2.3 (mean of repeats), solved for the time.
    """
    require_above("wanted uncertainty", relative_uncertainty, 0.0, 1.0, "-")
    require_within("reaction scatter", reaction_sd, 0.0, 10.0, "s")
    require_within("number of fills", runs, 1, 1000, "-")
    return reaction_sd / sqrt(runs) / relative_uncertainty


def runs_for(relative_uncertainty: float, scatter: float, mean_time: float) -> int:
    """How many fills bring the timing to a wanted uncertainty.

    Args:
        relative_uncertainty: Wanted standard uncertainty of the mean time over it [-], 1e-4 to 1.
        scatter: Standard deviation of one fill [s], 0 to 1e4.
        mean_time: Mean fill time [s], 0.01 to 86400.

    Returns:
        Number of fills [-], 1 and up.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 100:2008, 4.2.3 (mean of repeats), solved for the number.
    """
    require_within("wanted uncertainty", relative_uncertainty, 1e-4, 1.0, "-")
    require_within("scatter", scatter, 0.0, 1e4, "s")
    require_within("mean fill time", mean_time, 0.01, 86400.0, "s")
    return max(1, ceil((scatter / mean_time / relative_uncertainty) ** 2))
