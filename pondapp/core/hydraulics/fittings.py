"""Loss coefficients of what sits in a run: K in h = K v² / 2g.

Handbooks differ by a factor of two to five for the same part. Where a choice was needed the table
holds the figure for plain plastic parts; every entry says where it is from.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Source
from pondapp.core.hydraulics.friction import factor

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
        Losses of fittings add (common assumption, good some ten bores apart); coefficients as
        named in FITTINGS.
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


def sudden_expansion_loss(bore: float, next_bore: float) -> float:
    """Loss where a bore opens at once into a wider one.

    Args:
        bore: The narrow bore, first in the flow [m], above 0 to 5.
        next_bore: The wide bore [m], from the narrow one to 5.

    Returns:
        Loss coefficient on the speed in the narrow bore [-].

    Raises:
        OutOfRange: A bore is outside its range.

    Source:
        Borda and Carnot, (1 - A1/A2)²; any textbook of hydraulics.
    """
    require_above("narrow bore", bore, 0.0, 5.0, "m")
    require_within("wide bore", next_bore, bore, 5.0, "m")
    return float((1.0 - (bore / next_bore) ** 2) ** 2)


def sudden_contraction_loss(bore: float, next_bore: float) -> float:
    """Loss where a bore narrows at once.

    Args:
        bore: The wide bore, first in the flow [m], above 0 to 5.
        next_bore: The narrow bore [m], above 0 to the wide one.

    Returns:
        Loss coefficient on the speed in the narrow bore [-].

    Raises:
        OutOfRange: A bore is outside its range.

    Source:
        D. C. Rennels, H. M. Hudson, Pipe Flow (2012), sharp contraction, as coded in fluids 1.3.1.
    """
    require_above("wide bore", bore, 0.0, 5.0, "m")
    require_above("narrow bore", next_bore, 0.0, bore, "m")
    beta = next_bore / bore
    jet = 1.0 + 0.622 * (1.0 - 0.215 * beta**2 - 0.785 * beta**5)  # speed where it is narrowest
    return float(0.0696 * (1.0 - beta**5) * jet**2 + (jet - 1.0) ** 2)


def fully_turbulent_factor(bore: float) -> float:
    """Friction factor of clean steel pipe in fully turbulent flow, the yardstick of some tables.

    Args:
        bore: Inner diameter [m], 0.005 to 1.

    Returns:
        Darcy friction factor f_T [-].

    Raises:
        OutOfRange: The bore is outside its range.

    Source:
        Crane TP-410, factor f_T, as fitted in fluids 1.3.1 (ft_Crane).
    """
    require_within("bore", bore, 0.005, 1.0, "bore")
    return factor(7.5e6 * bore, 3.4126825352925e-5 * bore**-1.0112)


def loss_by_multiple(multiple: float, bore: float) -> float:
    """Loss of a part that a table gives as a multiple of f_T: 30 for an elbow, 3 a ball valve.

    Args:
        multiple: Equivalent length over bore [-], 0 to 1000.
        bore: Inner diameter [m], 0.005 to 1.

    Returns:
        Loss coefficient [-].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Crane TP-410, K = n f_T.
    """
    require_within("equivalent length over bore", multiple, 0.0, 1000.0, "-")
    return multiple * fully_turbulent_factor(bore)


def _checked_tee(branch_share: float, branch_bore: float, run_bore: float) -> float:
    """Area of the branch over that of the run."""
    require_within("share of the branch in the flow", branch_share, 0.0, 1.0, "-")
    require_above("bore of the run", run_bore, 0.0, 2.0, "m")
    require_within("bore of the branch", branch_bore, 0.2 * run_bore, run_bore, "m")
    return (branch_bore / run_bore) ** 2


def tee_branch_loss(branch_share: float, branch_bore: float, run_bore: float) -> float:
    """Loss of the water that leaves a 90° tee by its branch.

    Args:
        branch_share: Flow of the branch over the flow that arrives [-], 0 to 1.
        branch_bore: Bore of the branch [m], a fifth of the run's to the run's.
        run_bore: Bore of the run [m], above 0 to 2.

    Returns:
        Loss coefficient on the speed of the water that arrives [-].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Crane TP-410 (2009), diverging tee, with errata, as coded in fluids 1.3.1.
    """
    area = _checked_tee(branch_share, branch_bore, run_bore)
    turn = 1.0 if branch_bore / run_bore <= 2.0 / 3.0 else 0.3
    jump = 1.0 if area <= 2.0 / 3.0 else 1.0 + 0.3 * branch_share**2
    return float(jump * (1.0 + turn * (branch_share / area) ** 2))


def tee_run_loss(branch_share: float, branch_bore: float, run_bore: float) -> float:
    """Loss of the water that passes straight through a dividing tee or wye.

    Args:
        branch_share: Flow of the branch over the flow that arrives [-], 0 to 1.
        branch_bore: Bore of the branch [m], a fifth of the run's to the run's.
        run_bore: Bore of the run [m], above 0 to 2.

    Returns:
        Loss coefficient on the speed of the water that arrives [-]; below 0 where the water that
        goes on gains head from the slow water that leaves.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Crane TP-410 (2009), diverging tee and wye, as coded in fluids 1.3.1.
    """
    area = _checked_tee(branch_share, branch_bore, run_bore)
    lean = 2.0 * branch_share - 1.0
    gain = 0.4 if area <= 0.4 else (2.0 if branch_share <= 0.5 else 0.3) * lean
    return gain * branch_share**2
