"""The water path: the lines as drawn, or the ones to assume while none is drawn."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pondapp.answers.features.kinds import PUMP, kind_of
from pondapp.core.assumptions.plumbing import PlumbingAssumptions
from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.circuit.edits import free_name
from pondapp.models.circuit import Branch as Branch
from pondapp.models.circuit import Line as Line
from pondapp.models.circuit import Pump as Pump
from pondapp.models.circuit import WaterFeature as WaterFeature
from pondapp.models.pond import Pond
from pondapp.words import t

LIFT_RULE, LENGTH_RULE = "plumbing.assumed_lift", "plumbing.assumed_length"
DOUBT_RULE = "pumps.lift_doubt"
USUAL_LIFT = PlumbingAssumptions().assumed_lift


def lines_of(pond: Pond) -> tuple[Line, ...]:
    """The pond's lines; where none is drawn yet, one pump that feeds everything.

    Falls stand behind the first high-flow filter, as such a filter usually feeds a waterfall;
    every other feature has a branch of its own.
    """
    if pond.lines:
        return pond.lines
    box = next((feature for feature in pond.fed if kind_of(feature).takes_falls), None)
    falls = [feature for feature in pond.fed if kind_of(feature).falls] if box else []
    branches = [
        Branch(
            id=f"to-{feature.id}",
            name=t("To {thing}", thing=feature.name),
            feeds=(feature.id, *(fall.id for fall in falls)) if feature is box else (feature.id,),
        )
        for feature in pond.fed
        if feature not in falls
    ]
    straight = Branch(id="return", name=t("Straight return"))
    pump_id = pond.pumps[0].id if pond.pumps else None
    return (
        Line(id=PUMP, name=t("Pump"), pump_id=pump_id, branches=tuple(branches) or (straight,)),
    )


def pump_of(pond: Pond, line: Line) -> Pump | None:
    """The pump that was chosen for a line."""
    return next((pump for pump in pond.pumps if pump.id == line.pump_id), None)


def line_name(pond: Pond, line: Line) -> str:
    """A line goes by its own name, or by its pump's while nobody has named it."""
    pump = pump_of(pond, line)
    return pump.name if pump and line.name in ("Pump", t("Pump")) else line.name


def feature_of(pond: Pond, feature_id: str) -> WaterFeature | None:
    """The feature of that id."""
    return next((feature for feature in pond.fed if feature.id == feature_id), None)


def branch_of(pond: Pond, feature_id: str) -> Branch | None:
    """The branch that feeds a feature; none where it is not on the water path."""
    branches = (branch for line in lines_of(pond) for branch in line.branches)
    return next((branch for branch in branches if feature_id in branch.feeds), None)


def left_dry(pond: Pond) -> tuple[WaterFeature, ...]:
    """The features that no branch feeds."""
    return tuple(feature for feature in pond.fed if branch_of(pond, feature.id) is None)


def fall_height(pond: Pond, branch: Branch) -> float | None:
    """Height [m] of the highest fall that a branch feeds; none where no fall's height is known."""
    features = (feature_of(pond, item) for item in branch.feeds)
    heights = (kind_of(feature).fall(feature) for feature in features if feature)
    return max((height for height in heights if height), default=None)


def assumed_lift(pond: Pond, branch: Branch) -> tuple[float, bool]:
    """The lift of a branch [m], and whether it is only assumed since nobody entered it.

    A fall's water starts at least as high as it falls, so the height of the branch's fall is
    assumed where it is known, and the rule's usual lift elsewhere.
    """
    if branch.lift_m is not None:
        return branch.lift_m, False
    usual = pond.assumptions.get(LIFT_RULE, USUAL_LIFT)
    return fall_height(pond, branch) or usual, True


def lift_conflict(pond: Pond, branch: Branch) -> Message | None:
    """Why its lift cannot be as entered: water never starts lower than it falls."""
    fall = fall_height(pond, branch)
    doubt = pond.assumptions.get(DOUBT_RULE, PumpAssumptions().lift_doubt)
    if fall is None or branch.lift_m is None or fall <= branch.lift_m + doubt:
        return None
    return Message(
        "{branch}: {lift} of lift, but its water falls {fall}: one of the two is wrong",
        {
            "branch": branch.name,
            "lift": Amount(branch.lift_m, "m"),
            "fall": Amount(fall, "m"),
        },
    )


def assumed_length(pond: Pond) -> float:
    """Length [m] of the hose that counts where none is entered."""
    return pond.assumptions.get(LENGTH_RULE, PlumbingAssumptions().assumed_length)


@dataclass(frozen=True, slots=True)
class Assumed:
    """Something that nobody has entered, what counts instead, and where it can be entered."""

    line_id: str
    part_id: str
    """The branch's id; of a pump's power the pump's id."""
    what: str
    """"run" for lift or hose, "power" for the watts of the chosen pump."""
    message: Message


def assumed_of(pond: Pond, line: Line) -> tuple[Assumed, ...]:
    """What is only assumed about a line: lift and hose of each branch, power of its pump.

    A lift that a fall contradicts is no better than one that nobody entered.
    """
    found = []
    length = assumed_length(pond)
    for branch in line.branches:
        lift, guessed = assumed_lift(pond, branch)
        values: dict[str, Amount | str] = {
            "branch": branch.name,
            "lift": Amount(lift, "m"),
            "length": Amount(length, "m"),
        }
        if conflict := lift_conflict(pond, branch):
            told = conflict
        elif guessed and branch.pipe is None:
            told = Message("{branch}: assuming {lift} of lift and {length} of hose", values)
        elif guessed:
            told = Message("{branch}: assuming {lift} of lift", values)
        elif branch.pipe is None:
            told = Message("{branch}: assuming {length} of hose", values)
        else:
            continue
        found.append(Assumed(line.id, branch.id, "run", told))
    pump = pump_of(pond, line)
    if pump is not None and pump.power_w is None:
        told = Message("{pump}: its watts are not entered", {"pump": pump.name})
        found.append(Assumed(line.id, pump.id, "power", told))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Names:
    """What sentences and screens call the parts of a water path, by id; nothing goes by them."""

    lines: Mapping[str, str]
    branches: Mapping[str, str]
    features: Mapping[str, str]


def _told_apart(pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """Names by id; where two of a sort have one name, the second is told by a number behind it."""
    given: dict[str, str] = {}
    for item_id, name in pairs:
        given[item_id] = free_name(name, given.values())
    return given


def names_of(pond: Pond) -> Names:
    """What to call everything on a pond's water path, so that its owner knows which is meant."""
    lines = lines_of(pond)
    return Names(
        lines=_told_apart((line.id, line_name(pond, line)) for line in lines),
        branches=_told_apart(
            (branch.id, branch.name) for line in lines for branch in line.branches
        ),
        features=_told_apart((feature.id, feature.name) for feature in pond.fed),
    )
