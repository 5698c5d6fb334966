"""Live histories by chance of two phones that exchange backup files in any order.

Run from the project's folder: `.venv/bin/python tests/bench/merging.py [histories]`. It ends with
an error at the first one in which something is lost, or the two do not end equal.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

from two_phones import STEPS, kept, live


def main() -> None:
    """Live them, and print what there was of it."""
    histories = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    begun = time.monotonic()
    lived = [live(seed) for seed in range(histories)]
    took = time.monotonic() - begun
    files = sum(len(one.exchange.files) for one in lived)
    documents = [list(kept(one.phones[0])) for one in lived]
    twice = sum(any("-" in key for key in keys if key.startswith("pond/")) for keys in documents)
    print(f"{histories} histories of {STEPS} steps, {files} files, {took:.0f} s")
    print(f"all end equal, nothing lost; a pond is kept twice in {twice}")


if __name__ == "__main__":
    main()
