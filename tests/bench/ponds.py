"""Random ponds through every answer, as many as one likes: python tests/bench/ponds.py 3000.

Prints what is broken, by invariant, with the number of the pond, from which it can be made again
(tests/answers/random_ponds.py).
"""

import sys
from collections import defaultdict
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "answers"))

from invariants import RULES, audit


def main() -> int:
    """Audit so many ponds and print what was found."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    found: dict[str, list[str]] = defaultdict(list)
    start = perf_counter()
    for number in range(first, first + count):
        try:
            for one in audit(number):
                found[one.rule].append(f"pond {number}: {one.what}")
        except Exception as error:  # noqa: BLE001 - any error is a finding, and the rest go on
            found["No error but a refusal with a sentence"].append(f"pond {number}: {error!r}")
    print(f"{count} ponds, {len(RULES)} invariants, {perf_counter() - start:.0f} s")
    for rule, cases in found.items():
        print(f"{rule}: broken {len(cases)} times")
        print("\n".join(f"    {case}" for case in cases[:5]))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
