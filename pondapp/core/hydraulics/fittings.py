"""Loss coefficients of what sits in a run: K in h = K v² / 2g.

Handbooks differ by a factor of two to five for the same part. Where a choice was needed the table
holds the figure for plain plastic parts; every entry says where it is from.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from pondapp.core.base.errors import OutOfRange, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Source

HANDBOOK = Source("table as in chemical engineers' handbooks, seen in a copy", "published")
TOOLBOX = Source("engineeringtoolbox.com, minor loss coefficients of pipes", "published")
LMNO = Source("lmnoeng.com, table of loss coefficients", "published")
TEXTBOOK = Source("sharp edge or free jet; agreed by Crane, Idelchik and Blevins", "published")
NETWORKS = Source("typical coefficients for water networks, seen in a copy", "published")
LECTURE = Source("Engineering Fluid Mechanics (bookboon.com), table 2.1", "published")
CRANE_FOOT = Source(
    "Crane TP-410: 420 or 75 f_T in a bore of 41 mm, as in fluids 1.3.1", "computed"
)
NARROW_TAIL = Source("a bore narrowed to four fifths, by Rennels, Borda and Carnot", "computed")

Group = Literal["bends", "tees", "valves", "joints"]


@dataclass(frozen=True, slots=True)
class Fitting:
    """A part of a run.

    Attributes:
        key: Name that does not change when the words do.
        label: What it is, for the screen.
        loss: Loss coefficient on the speed in the run's bore [-].
        source: Where the coefficient is from.
        group: What it stands with on a shelf.
    """

    key: str
    label: str
    loss: float
    source: Source
    group: Group


# Plain parts are glued or pushed on; a thread leaves a ridge in the bore.
FITTINGS: Mapping[str, Fitting] = MappingProxyType(
    {
        part.key: part
        for part in (
            Fitting("inlet", "Inlet with a sharp edge", 0.5, TEXTBOOK, "valves"),
            Fitting("outlet", "Outlet into open water or air", 1.0, TEXTBOOK, "valves"),
            Fitting("elbow_90", "Elbow 90°", 0.75, HANDBOOK, "bends"),
            Fitting("elbow_90_long", "Long bend 90°", 0.45, HANDBOOK, "bends"),
            Fitting("elbow_45", "Elbow 45°", 0.35, HANDBOOK, "bends"),
            Fitting("elbow_90_threaded", "Elbow 90°, threaded", 1.5, LMNO, "bends"),
            Fitting("elbow_90_threaded_long", "Long bend 90°, threaded", 0.7, LMNO, "bends"),
            Fitting("elbow_45_threaded", "Elbow 45°, threaded", 0.4, LMNO, "bends"),
            Fitting("elbow_90_flanged", "Elbow 90°, flanged", 0.3, TOOLBOX, "bends"),
            Fitting("tee_through", "T-piece, straight through", 0.2, TOOLBOX, "tees"),
            Fitting("tee_branch", "T-piece, into the branch", 1.0, TOOLBOX, "tees"),
            Fitting(
                "tee_through_threaded", "T-piece, straight through, threaded", 0.9, TOOLBOX, "tees"
            ),
            Fitting(
                "tee_branch_threaded", "T-piece, into the branch, threaded", 2.0, TOOLBOX, "tees"
            ),
            Fitting("wye_through", "Wye 45°, straight through", 0.3, NETWORKS, "tees"),
            Fitting("wye_branch", "Wye 45°, into the branch", 0.5, NETWORKS, "tees"),
            Fitting("ball_valve", "Ball valve, open", 0.05, TOOLBOX, "valves"),
            Fitting("gate_valve", "Gate valve, open", 0.15, TOOLBOX, "valves"),
            Fitting("globe_valve", "Globe valve, open", 10.0, TOOLBOX, "valves"),
            Fitting("check_valve", "Check valve with a flap", 2.0, LMNO, "valves"),
            Fitting("check_valve_disc", "Check valve with a spring", 10.0, HANDBOOK, "valves"),
            Fitting("strainer", "Strainer, clean", 2.0, LECTURE, "valves"),
            Fitting(
                "foot_valve", "Foot valve with strainer and flap, clean", 1.5, CRANE_FOOT, "valves"
            ),
            Fitting(
                "foot_valve_disc", "Foot valve with strainer and spring, clean", 8.4, CRANE_FOOT,
                "valves",
            ),
            Fitting("meter", "Water meter", 7.0, TOOLBOX, "valves"),
            Fitting("coupling", "Coupling or union", 0.04, HANDBOOK, "joints"),
            Fitting("union_threaded", "Union, threaded", 0.08, TOOLBOX, "joints"),
            Fitting("hose_tail", "Hose tail", 0.88, NARROW_TAIL, "joints"),
            Fitting("reducer", "Reducer from one size wider", 0.23, NARROW_TAIL, "joints"),
            Fitting("widening", "Widening to the next size", 0.13, NARROW_TAIL, "joints"),
        )
    }
)  # fmt: skip


def fittings_loss(counts: Mapping[str, int]) -> float:
    """Sum of the loss coefficients of the parts of a run.

    Args:
        counts: How many of each part by its key [-], each 0 to 1000.

    Returns:
        Sum of loss coefficients on the speed in the run [-].

    Raises:
        OutOfRange: There is no such part, or a count is outside its range.

    Source:
        K = Σ n K_i: losses of fittings add (common assumption, good some ten bores apart);
        coefficients as named in FITTINGS.

    Example:
        Inlet, two elbows and the outlet:

        >>> fittings_loss({"inlet": 1, "elbow_90": 2, "outlet": 1})
        3.0
    """
    total = 0.0
    for key, count in counts.items():
        if key not in FITTINGS:
            raise OutOfRange("there is no fitting called {key}", key=key)
        require_within(
            phrase("number of parts ({part})", part=FITTINGS[key].label), count, 0, 1000, "-"
        )
        total += count * FITTINGS[key].loss
    return total
