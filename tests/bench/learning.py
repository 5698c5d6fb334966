"""Simulated ponds learned from their readings: python tests/bench/learning.py [ponds] [readings].

Prints in how many cases parameters and predictions lie within their 95 % intervals, how far
predictions are off beside those of what was entered, and how long a fit takes.
"""

import sys
from collections import defaultdict
from pathlib import Path
from statistics import median
from time import process_time

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "answers"))

from learning_ponds import NOW, Found, chance_of_so_few, judged, pairs, truth

from pondapp.answers.learning.learning import learn
from pondapp.answers.pond import WorkedPond

ALL, TURNED = "all predictions", "turned"


def main() -> None:
    """Print a line for each kind of parameter and prediction."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    readings = int(sys.argv[2]) if len(sys.argv) > 2 else 10
    unlike = float(sys.argv[3]) if len(sys.argv) > 3 else 1.0
    off: dict[str, list[float]] = defaultdict(list)
    errors: dict[str, list[tuple[float, float]]] = defaultdict(list)
    outliers = refused = 0
    all_found: list[Found] = []
    for number in range(count):
        made = truth(number, readings=readings, unlike=unlike)
        try:
            found = judged(made)
        except Exception as problem:  # noqa: BLE001 - counted and shown
            refused += 1
            print(f"pond {number}: {problem!r}")
            continue
        outliers += found.outliers > 0
        all_found.append(found)
        for kind, deviations in found.parameters:
            off[kind].append(abs(deviations) / 1.959964)
        for kind, halves, error, by_plan in found.predictions:
            off[kind].append(abs(halves))
            off[ALL].append(abs(halves))
            if kind != TURNED:  # the plan says nothing of that
                errors[kind].append((error, by_plan))
                errors[ALL].append((error, by_plan))
    print(f"{count} ponds, {readings} readings each, {refused} refused, {outliers} with outliers")
    for kind, halves in off.items():
        inside = sum(one <= 1.0 for one in halves) / len(halves)
        line = f"{kind:16} {len(halves):6} {100.0 * inside:6.1f} % inside"
        if kind in errors:
            ours = median(one for one, _ in errors[kind])
            plans = median(other for _, other in errors[kind])
            worse = sum(one > other for one, other in errors[kind]) / len(errors[kind])
            line += f"{100 * ours:7.1f} % off, plan {100 * plans:5.1f} %, worse {100 * worse:.0f} %"
        print(line)
    for kind in sorted(errors.keys() - {ALL}):
        better, worse = pairs(all_found, kind)
        chance = chance_of_so_few(better, better + worse)
        print(f"{kind}: nearer than the plan in {better} ponds, farther in {worse}, "
              f"chance of so few {chance:.2g}")  # fmt: skip
    made = truth(3, readings=50)
    worked = WorkedPond(made.pond)
    times = []
    for _ in range(15):
        start = process_time()
        learn(worked, made.line, made.log, {}, NOW)
        times.append(process_time() - start)
    print(f"a fit of 50 readings, four branches: {1000 * median(times):.0f} ms of the processor")


if __name__ == "__main__":
    main()
