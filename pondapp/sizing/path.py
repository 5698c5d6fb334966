"""The water path: the lines as drawn, or the ones to suppose while none is drawn."""

from pondapp.models.circuit import Branch, HighFlowFilter, Line, Lip
from pondapp.models.pond import Pond


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
            name=f"To {thing.name}",
            feeds=(thing.id, *(fall.id for fall in falls)) if thing is box else (thing.id,),
        )
        for thing in pond.fed
        if thing not in falls
    ]
    straight = Branch(id="return", name="Straight return")
    pump_id = pond.pumps[0].id if pond.pumps else None
    return (Line(id="line", name="Pump", pump_id=pump_id, branches=tuple(branches) or (straight,)),)
