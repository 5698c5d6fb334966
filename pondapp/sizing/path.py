"""The water path: the lines as drawn, or the ones to suppose while none is drawn."""

from pondapp.models.circuit import Branch as Branch
from pondapp.models.circuit import Fed as Fed
from pondapp.models.circuit import HighFlowFilter, Lip
from pondapp.models.circuit import Line as Line
from pondapp.models.circuit import Pump as Pump
from pondapp.models.pond import Pond
from pondapp.sizing.targets import PUMP
from pondapp.words import t


def lines_of(pond: Pond) -> tuple[Line, ...]:
    """The pond's lines; where none is drawn yet, one pump that feeds everything.

    Falls stand behind the first high-flow filter, as such a filter usually feeds a waterfall;
    every other thing has a branch of its own.
    """
    if pond.lines:
        return pond.lines
    box = next((thing for thing in pond.fed if isinstance(thing, HighFlowFilter)), None)
    falls = [thing for thing in pond.fed if isinstance(thing, Lip)] if box else []
    branches = [
        Branch(
            id=f"to-{thing.id}",
            name=t("To {thing}", thing=thing.name),
            feeds=(thing.id, *(fall.id for fall in falls)) if thing is box else (thing.id,),
        )
        for thing in pond.fed
        if thing not in falls
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


def thing_of(pond: Pond, thing_id: str) -> Fed | None:
    """The thing of that id."""
    return next((thing for thing in pond.fed if thing.id == thing_id), None)


def branch_of(pond: Pond, thing_id: str) -> Branch | None:
    """The branch that feeds a thing; none where it is not on the water path."""
    branches = (branch for line in lines_of(pond) for branch in line.branches)
    return next((branch for branch in branches if thing_id in branch.feeds), None)


def left_dry(pond: Pond) -> tuple[Fed, ...]:
    """The things that no branch feeds."""
    return tuple(thing for thing in pond.fed if branch_of(pond, thing.id) is None)
