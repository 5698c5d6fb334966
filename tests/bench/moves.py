"""One move of what if on the example pond, from the change to the picture, and what readings tell.

Runs as it is in CPython and in the browser's Python: it needs pondapp, the standard library, and
the simulated ponds of learning_ponds.py.
"""

from collections.abc import Callable
from datetime import UTC, datetime
from statistics import median
from time import process_time

import learning_ponds

from pondapp.answers.learning.learning import learn
from pondapp.answers.learning.page import told_of
from pondapp.answers.picture.picture import picture
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_entries, example_pond, example_readings
from pondapp.answers.what_if.changes import NOTHING, Changes
from pondapp.answers.what_if.start import as_read
from pondapp.answers.what_if.trial import Trial

WIDTH = 358.0  # of a picture on a phone
FITS = 10
BEGINS = "what if opened, with readings"


def moves(turn: int) -> dict[str, Changes]:
    """A change of each sort, another one in each turn: nobody profits from a kept answer."""
    share = 0.2 + 0.7 * ((turn * 0.37) % 1.0)
    return {
        "valve": NOTHING.put("opened", "to-bog", share),
        "lift": NOTHING.put("lift", "to-fall", 2.0 * share),
        "pump": NOTHING.put("pump", "line", "large").put("opened", "to-fall", share),
        "lip": NOTHING.put("width", "lip", share),
        "season": NOTHING.put("warmth", "pond", 30.0 * share),
    }


def spent(work: Callable[[], object]) -> float:
    """Milliseconds of the processor; in the browser, which tells none, of the clock."""
    start = process_time()
    work()
    return 1000.0 * (process_time() - start)


def _drawn(trial: Trial, changes: Changes) -> None:
    state = trial.state(changes)
    picture(state.worked, state.places, WIDTH, carried=state.flows)


def report(turns: int) -> dict[str, float]:
    """Milliseconds of a move, of so many turns, and of a fit, of a few: the median, the fastest."""
    took: dict[str, list[float]] = {}
    now, pond = datetime.now(UTC), example_pond()
    log = (*example_readings(now), *example_entries(now))
    for _ in range(FITS):
        took.setdefault(BEGINS, []).append(
            spent(lambda: as_read(WorkedPond(pond), log, {}, now).now)
        )
    trial = Trial(WorkedPond(pond))
    _ = trial.now
    for turn in range(turns):
        for name, changes in moves(turn).items():
            took.setdefault(name, []).append(spent(lambda tried=changes: _drawn(trial, tried)))
    made = learning_ponds.truth(3, readings=50)
    large = WorkedPond(made.pond)
    for _ in range(FITS):
        worked = WorkedPond(pond)
        took.setdefault("learned, the example", []).append(
            spent(lambda known=worked: told_of(known, known.lines[0], log, {}, now))
        )
        took.setdefault("a fit of 50 readings", []).append(
            spent(lambda: learn(large, made.line, made.log, {}, learning_ponds.NOW))
        )
    told = {"median": median, "fastest": min}
    return {f"{name}, {how}": of(found) for name, found in took.items() for how, of in told.items()}
