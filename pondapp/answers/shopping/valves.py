"""Valves to buy where none was entered: a line that divides is tuned by them."""

from collections.abc import Iterator

from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.plumbing.pipe_names import pipe_size
from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.needed import Needed
from pondapp.answers.tuning.tune import order
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Line

BY_ITSELF = 0.02
"""Of the head at the T-piece, that a branch may take less than the neediest and still need no
valve: nobody sets one closer. A rule of thumb."""


def valves_to_add(worked: WorkedPond) -> Iterator[Needed]:
    """A valve for each branch that has none and would take the water of the others.

    Raises:
        PondError: No flow is planned, or a circuit cannot be counted.
    """
    for line in worked.lines:
        if len(line.branches) < 2:
            continue
        network = worked.network(line, worked.planned.flows)
        runs = {run.key: run for run in network.branches}
        for key in _too_much(worked, line, network):
            run = runs[key]
            if any(part.endswith("valve") for part in (*run.own, *run.valve)):
                continue
            yield Needed(
                f"valve-for.{key}",
                "parts",
                Message(
                    "Valve for {name}, {size}", {"name": run.name, "size": pipe_size(run.pipe)}
                ),
                1.0,
                remark=Message(
                    "Without one more water goes this way than is wanted; tuning sets it. If it "
                    "has one, enter that under Hose, lift and fittings."
                ),
            )


def _too_much(worked: WorkedPond, line: Line, network: LineNetwork) -> list[str]:
    """Branches that carry more than they are to, as long as nothing holds them back."""
    wet = {key for key, flow in network.flows.items() if flow > 0.0}
    if pump_of(worked.pond, line) is not None:
        try:
            turns = order(worked, line).turns
        except PondError:  # the heads still say which takes least
            turns = ()
        if turns:
            return [turn.key for _, turn in turns if turn.throttles]
    starts = {key: head for key, head in network.needs.at_start.items() if key in wet}
    most = max(starts.values(), default=0.0)
    return [key for key, head in starts.items() if head < (1.0 - BY_ITSELF) * most]
