"""Live histories by chance, and print what was acknowledged and is lost.

Run from the project's folder: `.venv/bin/python tests/bench/histories.py [histories] [first seed]`.
They are lived on this computer: the app's own session, units, links and documents, two tabs over
one storage in memory, with faults put in. The deeds of a seed are always the same; the exit status
is 1 if anything is lost.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))
sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

from histories import Here, live

from pondapp.state import tabs

STEPS = 60


def main() -> int:
    """Print the figures."""
    histories = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    tabs.PAUSE = 0.001
    begun, acknowledged, lost = time.monotonic(), 0, 0
    for seed in range(first, first + histories):
        device = Here()
        model = live(device, random.Random(seed), STEPS)
        device.close()
        acknowledged += model.acknowledged
        lost += bool(model.lost)
        for one in model.lost:
            print(f"LOST in history {seed}, {one}", flush=True)
    print(
        f"{histories} histories of {STEPS} steps, {acknowledged} deeds acknowledged, {lost} with "
        f"a loss; {(time.monotonic() - begun) / 60:.1f} min"
    )
    return 1 if lost else 0


if __name__ == "__main__":
    sys.exit(main())
