"""Put nonsense into everything that is read from outside; print cases, times and memory.

What is accepted is then used: computed, drawn, printed, exported, backed up and restored.

Run from the project's folder: `.venv/bin/python tests/bench/fuzz.py [cases] [into]`, so many
for each of: a backup file, a link, a scanned code, a typed amount (20,000, and all, without them).
It runs the tests of `tests/store/test_fuzz.py` and `tests/test_units_fuzz.py`; what they find wrong
ends it. "Computing" is the part of the worst case in which the core was at work on it.
"""

import functools
import importlib.util
import os
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

TESTS = Path(__file__).parent.parent
INTO = {
    "backup file": (
        "store/test_fuzz.py",
        (
            "test_any_bytes",
            "test_any_documents",
            "test_documents_at_the_ends_of_what_is_allowed",
            "test_a_good_file_with_one_value_changed",
            "test_a_good_file_cut_or_spoilt",
        ),
    ),
    "link": (
        "store/test_fuzz.py",
        (
            "test_any_text_as_a_link",
            "test_any_bytes_as_the_packed_part",
            "test_any_document_well_packed",
            "test_a_plan_at_the_ends_of_what_is_allowed",
        ),
    ),
    "scanned code": ("store/test_fuzz.py", ("test_a_scanned_code_read_wrong",)),
    "typed amount": (
        "test_units_fuzz.py",
        (
            "test_any_text",
            "test_pieces_of_amounts",
            "test_an_amount_that_was_shown_for_editing_is_read_again",
        ),
    ),
}


def loaded(path: Path, cases: int) -> ModuleType:
    """A module of tests that tries so many cases in each."""
    os.environ["FUZZ_CASES"] = str(cases)
    sys.path.insert(0, str(TESTS / "store"))
    spec = importlib.util.spec_from_file_location(path.stem, path)
    if spec is None or spec.loader is None:
        sys.exit(f"{path} is not there")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def peak() -> float:
    """The most memory that this process has held so far [MB]."""
    held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return held / (1e6 if sys.platform == "darwin" else 1e3)


def timed(test: Callable[..., Any], times: list[tuple[float, float]]) -> Callable[..., Any]:
    """The test of one case, with the seconds noted that it took, and those that it computed."""

    @functools.wraps(test)
    def run(*values: Any, **named: Any) -> Any:
        begun, computed = time.perf_counter(), time.thread_time()
        try:
            return test(*values, **named)
        finally:
            times.append((time.perf_counter() - begun, time.thread_time() - computed))

    return run


def main() -> None:
    """Print the table."""
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    print(
        f"{'into':14}{'cases':>8}{'minutes':>9}{'median':>10}{'worst case':>12}{'computing':>12}"
        f"{'memory':>11}"
    )
    total = 0
    for into, (path, names) in INTO.items():
        if sys.argv[2:] and into not in sys.argv[2:]:
            continue
        module = loaded(TESTS / path, -(-wanted // len(names)))
        times: list[tuple[float, float]] = []
        before, begun = peak(), time.perf_counter()
        for name in names:
            test = getattr(module, name)
            test.hypothesis.inner_test = timed(test.hypothesis.inner_test, times)
            test()
        minutes = (time.perf_counter() - begun) / 60
        total += len(times)
        waited, computed = (sorted(one) for one in zip(*times, strict=True))
        print(
            f"{into:14}{len(times):8,}{minutes:9.1f}{waited[len(waited) // 2] * 1e3:7.2f} ms"
            f"{waited[-1] * 1e3:9.0f} ms{computed[-1] * 1e3:9.0f} ms{peak() - before:+8.0f} MB",
            flush=True,
        )
    print(f"{total:,} cases: each a clear error or a correct result, and nothing stored half")


if __name__ == "__main__":
    main()
