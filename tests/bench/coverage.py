"""Prints how often intervals of timed fills hold the true flow, by simulation.

`python tests/bench/coverage.py [readings per cell]`: first over all flows that vary by 0 to 3 % and
reactions of 0.05 to 0.2 s, for each number of fills and each fill time; then cell by cell; then at
places whose earlier readings taught how much they scatter.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "answers"))

from coverage_table import FILLS, REACTIONS, SECONDS, VARIATIONS, after_earlier, cell, population


def said(share: float) -> str:
    """A share in per cent, marked where it lies outside 93 to 98."""
    return f"{100 * share:6.1f}{' ' if 0.93 <= share <= 0.98 else '*'}"


def main(trials: int) -> None:
    """Print the three tables."""
    print("Over flows varying by 0 to 3 % and reactions of 0.05 to 0.2 s, per cent held:")
    print("fills " + "".join(f"{seconds:6.0f} s" for seconds in SECONDS))
    for fills in FILLS:
        row = (said(population(fills, seconds, 4 * trials)) + " " for seconds in SECONDS)
        print(f"{fills:5d} " + "".join(row))
    print("\nCell by cell (* outside 93 to 98): a few fills cannot know how much this one varies.")
    print("fills varies reacts " + "".join(f"{seconds:6.0f} s" for seconds in SECONDS))
    outside = 0
    for fills in FILLS:
        for variation in VARIATIONS:
            for reaction in REACTIONS:
                found = [cell(fills, s, variation, reaction, trials) for s in SECONDS]
                outside += sum(not 0.93 <= share <= 0.98 for share in found)
                row = "".join(said(share) + " " for share in found)
                print(f"{fills:5d} {100 * variation:4.0f} % {reaction:5.2f}s {row}")
    cells = len(FILLS) * len(VARIATIONS) * len(REACTIONS) * len(SECONDS)
    print(f"{outside} of {cells} cells lie outside 93 to 98.")
    print("\nThree fills of 12 s after so many earlier readings there, and the mean half width:")
    for sets in (0, 1, 3, 10):
        share, width = after_earlier(sets, 3, 12.0, 4 * trials)
        print(f"{sets:5d} {said(share)} {100 * width:5.1f} %")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
