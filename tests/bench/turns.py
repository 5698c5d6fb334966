"""How many turns a valve takes until it is right: python tests/bench/turns.py [valves of a kind].

By the table and then by feel, by what the turns made so far say, and by that with the place of the
handle noted too. Half of all valves are right after the first turn, which all three make alike:
median and ninth decile are of the others.
"""

import statistics
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "answers"))

from turning import KINDS, MOST_TURNS, by_table_and_feel, by_turns, turns_until_right

READERS = (
    ("table and feel", by_table_and_feel, False),
    ("turns", by_turns, False),
    ("turns and handle", by_turns, True),
)


def main() -> None:
    """Print a line for each kind of valve and each reader."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 400
    print(f"{'valve':16} {'reader':17} {'mean':>5} {'median':>7} {'p90':>4} {'never':>6}")
    for kind in KINDS:
        for name, reader, noted in READERS:
            turns = [turns_until_right(kind, n, reader, noted=noted) for n in range(count)]
            late = sorted(one for one in turns if one > 1)
            never = sum(one == MOST_TURNS for one in turns)
            print(
                f"{kind:16} {name:17} {statistics.mean(turns):5.2f} "
                f"{statistics.median(late):7g} {late[int(0.9 * len(late))]:4} {never:6}"
            )


if __name__ == "__main__":
    main()
