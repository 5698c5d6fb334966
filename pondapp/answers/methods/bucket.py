"""Bucket and stopwatch: fills of a container whose content is known."""

from pondapp.answers.measuring.aims import ENOUGH_FILLS, fill_aim
from pondapp.answers.measuring.flow import Measured, fills_flow, measured
from pondapp.answers.methods.method import Entered, Known, MethodKind
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.timed_flow import TimedFlow
from pondapp.core.measuring.verdict import FillWindow
from pondapp.models.reading import Bucket, Steadiness


class _Bucket(MethodKind[Bucket]):
    stored = Bucket
    name = "Bucket and stopwatch"
    timed = True
    runs = ENOUGH_FILLS

    def measured(
        self, method: Bucket, band: FlowBand | None, rules: MeasuringAssumptions,
        steadiness: Steadiness | None, /,
    ) -> Measured | None:  # fmt: skip
        return measured(method.container, method.fills, band, rules, steadiness)

    def flow_by_times(
        self, method: Bucket, rules: MeasuringAssumptions, steadiness: Steadiness | None, /
    ) -> TimedFlow | None:
        return fills_flow(method.container, method.fills, rules, steadiness)

    def made(self, entered: Entered, _known: Known, /) -> Bucket | None:
        if entered.container is None:
            return None
        return Bucket(container=entered.container, fills=tuple(entered.fills))

    def amount_timed(self, entered: Entered, /) -> float | None:
        return entered.container.volume_m3 if entered.container else None

    def window(
        self,
        entered: Entered,
        band: FlowBand,
        rules: Assumptions,
        steadiness: Steadiness | None = None,
    ) -> FillWindow | None:
        if entered.container is None:
            return None
        right = fill_aim(entered.container, band, rules.measuring, steadiness)
        return FillWindow(right.shortest, right.aim, right.longest)

    def even_times(self, method: Bucket, /) -> list[float]:
        return [fill.seconds for fill in method.fills if not fill.excluded]


KIND = _Bucket()
