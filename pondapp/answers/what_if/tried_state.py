"""A pond in one state: what flows where, what that costs, and how each place is by it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pondapp.answers.fish.stock import Stock
from pondapp.answers.picture.states import PlaceState
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.pond import WorkedPond
from pondapp.answers.waterfall.water_sheet import Sheet
from pondapp.core.base.messages import Message
from pondapp.core.measuring.spread import Spread
from pondapp.models.circuit import Line, Pump


@dataclass(frozen=True, slots=True)
class CalculatedFlow:
    """A flow as the circuit gives it, and how far it may be off."""

    flow: float
    low: float
    high: float
    uncertainty: float | None = None
    """Its standard uncertainty [m3/s], where readings tell it; else it lies anywhere between."""
    open: bool = False
    """Whether readings contradict each other there, and nobody can tell which holds."""

    @property
    def spread(self) -> Spread:
        """What is known of it."""
        if self.uncertainty is not None:
            return Spread(self.flow, self.uncertainty)
        half = max(self.high - self.flow, self.flow - self.low)
        return Spread(self.flow, tolerance=half)


@dataclass(frozen=True, slots=True)
class LineState:
    """A pump and what it gives.

    Attributes:
        line: Its line.
        pump: The pump; None while none is chosen.
        speed: Share of its full speed [-].
        flow: What it gives; None where that cannot be told.
        head: Its head [m].
        power: What it takes from the mains [W]; None while its watts are not entered.
        per_year: What that costs in a year, in the owner's currency.
        network: The circuit behind it.
        reasons: Why a flow cannot be told, or which ends stay dry.
        read: Whether all of its readings tell its flows, else what was entered.
    """

    line: Line
    pump: Pump | None
    speed: float
    flow: CalculatedFlow | None
    head: float | None
    power: float | None
    per_year: float | None
    network: LineNetwork | None
    reasons: tuple[Message, ...] = ()
    read: bool = False


@dataclass(frozen=True, slots=True)
class TriedState:
    """Everything about a pond in one state.

    Attributes:
        worked: The pond in that state.
        lines: Each pump.
        branches: The flow of each branch, by its id; none where it cannot be told.
        sheets: The water over each lip that has any, by the lip's id.
        places: How each part of the picture is, by its id.
        stock: Fish, filter and oxygen; None without fish, or where that cannot be reckoned.
        stock_doubts: Why it cannot be, or why it is not sure that it is enough.
        opened: How far each valve is open, as a share of its handle's way, by branch.
    """

    worked: WorkedPond
    lines: tuple[LineState, ...]
    branches: Mapping[str, CalculatedFlow]
    sheets: Mapping[str, Sheet]
    places: Mapping[str, PlaceState]
    stock: Stock | None
    stock_doubts: tuple[Message, ...]
    opened: Mapping[str, float]

    @property
    def flows(self) -> dict[str, float]:
        """The flow of each branch [m3/s], by id."""
        return {key: one.flow for key, one in self.branches.items()}

    def line(self, line_id: str) -> LineState:
        """One of its pumps."""
        return next(one for one in self.lines if one.line.id == line_id)

    @property
    def power(self) -> float | None:
        """Watts of all pumps; None unless all are known."""
        return _whole(line.power for line in self.lines)

    @property
    def per_year(self) -> float | None:
        """Money of all pumps in a year; None unless all are known."""
        return _whole(line.per_year for line in self.lines)

    def flow_at(self, key: str) -> CalculatedFlow | None:
        """The flow at a pump, a branch or a feature; None where it cannot be told."""
        line, branch_id = self._place(key)
        if line is None:
            return None
        return self.branches.get(branch_id) if branch_id else line.flow

    def read_at(self, key: str) -> bool:
        """Whether readings tell the flow at a part, else what was entered."""
        line, _ = self._place(key)
        return line is not None and line.read

    def _place(self, key: str) -> tuple[LineState | None, str]:
        """The line of a pump, a branch or a feature, and its branch; none of a pump."""
        for line in self.lines:
            if line.line.id == key:
                return line, ""
            for branch in line.line.branches:
                if key == branch.id or key in branch.feeds:
                    return line, branch.id
        return None, ""


def _whole(amounts: Iterator[float | None]) -> float | None:
    found = list(amounts)
    known = [one for one in found if one is not None]
    return sum(known) if known and len(known) == len(found) else None
