"""What a flow meter shows."""

from pondapp.answers.measuring.flow import Measured
from pondapp.answers.methods.estimates import judged
from pondapp.answers.methods.method import Entered, Known, MethodKind
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.working import ENTERED, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.estimate import Factor, flow_estimate
from pondapp.core.measuring.uncertainty import rectangular
from pondapp.models.reading import MeterReading, NothingComes, Steadiness


class _Meter(MethodKind[MeterReading]):
    stored = MeterReading
    name = "Flow meter"

    def measured(
        self, method: MeterReading, band: FlowBand | None, rules: MeasuringAssumptions,
        _steadiness: Steadiness | None, /,
    ) -> Measured:  # fmt: skip
        shown = Factor(
            Term("Q", "flow on the meter", method.flow_m3_s, "m3/s"),
            1.0,
            rectangular(method.tolerance * method.flow_m3_s),
        )
        flow = flow_estimate(method.flow_m3_s, (shown,), rules.coverage, "Q as shown", ENTERED)
        return judged(flow, band, rules)

    def usual(self, rules: Assumptions, /) -> Known:
        return {"meter_tolerance": rules.measuring.flow_meter_tolerance}

    def made(self, _entered: Entered, known: Known, /) -> MeterReading | NothingComes | None:
        shown = known.get("meter_flow")
        if shown is None:
            return None
        if shown == 0.0:
            return NothingComes(seen="meter")
        return MeterReading(flow_m3_s=shown, tolerance=known["meter_tolerance"])


KIND = _Meter()
