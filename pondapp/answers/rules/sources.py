"""Where each formula of the core is from, by subject."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pondapp.answers.waterfall import water_sheet
from pondapp.core.base.working import Source
from pondapp.core.calibration import fit
from pondapp.core.dosing import dechlorinator, evaporation, leak, mixing, water_change
from pondapp.core.filters import bed, bed_loss, uv_lamp
from pondapp.core.hydraulics import bores, fittings, network, odds, pump_curve, run
from pondapp.core.measuring import (
    budget,
    estimate,
    other_methods,
    pooling,
    scatter,
    timed_flow,
    trend,
    verdict,
)
from pondapp.core.spillway import channel, weirs
from pondapp.core.stock import (
    ammonia,
    balance,
    biomass,
    nitrification,
    oxygen,
    respiration,
    still_water,
)
from pondapp.core.volume import fill_methods, layers, liner


@dataclass(frozen=True, slots=True)
class Formula:
    """Something that is worked out or looked up, and by whose formula or table."""

    what: str
    source: Source


def _looked_up(what: str, sources: Iterable[Source]) -> tuple[Formula, ...]:
    """A table whose rows are from several places: each place once."""
    return tuple(Formula(what, source) for source in dict.fromkeys(sources))


FORMULAS: Mapping[str, tuple[Formula, ...]] = {
    "Water": (
        Formula("Volume of a basin with shelves and sloping sides", layers.PRISMOIDAL),
        Formula("Volume from the rise of salt", fill_methods.DILUTION),
        Formula("How sure a measured volume is", fill_methods.PROPAGATION),
        Formula("Length of liner over a sloping side", liner.SLOPE),
    ),
    "Filters and waterfalls": (
        Formula("Gaps in gravel by its grain size", bed.GRAINS),
        Formula("Head over a bed of gravel", bed_loss.ERGUN),
        Formula("Dose of UV-C that water gets from a lamp", uv_lamp.RADIAL),
        Formula("Sheet over a sharp lip as wide as its channel", weirs.REHBOCK),
        Formula("Thickness of a sheet at its edge", water_sheet.FREE_FALL),
        Formula("How deep and fast a stream runs", channel.MANNING),
        *_looked_up("Roughness of a stream's bed", (bed.source for bed in channel.BEDS.values())),
        Formula("Shallow water among stones", channel.SHALLOW),
    ),
    "Pipes and pumps": (
        Formula("Friction in a pipe", run.DARCY),
        Formula("Loss of bends and valves", run.MINOR),
        *_looked_up("Loss coefficients", (part.source for part in fittings.FITTINGS.values())),
        *_looked_up("Bores of hose and pipe", (size.source for size in bores.SIZES)),
        Formula("How branches share the flow", network.BALANCE),
        Formula("Pump curve from its label", pump_curve.LABEL),
        Formula("Pump curve from printed points", pump_curve.PRINTED),
        Formula("A pump at another speed", pump_curve.SPEED),
        Formula("How sure it is that a pump is enough", odds.SPREAD),
    ),
    "Measuring": (
        Formula("Flow from a volume and a time", timed_flow.DEFINITION),
        Formula("Mean of several fills", timed_flow.GUM_REPEATS),
        Formula("Fills and container taken together", timed_flow.GUM_COMBINED),
        Formula("Scatter that is expected of a fill", scatter.EXPECTED),
        Formula("Expected and seen scatter as one", scatter.POOLED),
        Formula("How much the expected scatter counts", scatter.OWN),
        Formula("Interval of a flow", timed_flow.INTERVAL),
        Formula("Interval of a flow by other ways", estimate.COMBINED),
        Formula("Whether a flow is right", verdict.CONFORMITY),
        Formula("Several readings as one", pooling.WEIGHTED),
        Formula("What limits how sure a reading is", budget.SHARES),
        Formula("Volume by weight", other_methods.WEIGHING),
        Formula("Trend of the readings", trend.LINE),
        Formula("What the readings tell", fit.SQUARES),
        Formula("How sure that is", fit.PROPAGATED),
    ),
    "Fish": (
        Formula("Weight of a fish from its length", biomass.FULTON),
        Formula("Oxygen that fish use", respiration.RESPIRATION),
        Formula("Ammonia from feed", balance.NITROGEN_SHARE),
        Formula("Ammonia from fish that are not fed", ammonia.UNFED),
        Formula("Oxygen that the filter uses", balance.STOICHIOMETRY),
        Formula("Ammonia in the pond", ammonia.MASS_BALANCE),
        Formula("Share of ammonia that is toxic", ammonia.EMERSON),
        *_looked_up("Area of filter media", (one.source for one in nitrification.MEDIA.values())),
        Formula("What filter media take out", nitrification.RATES),
        Formula("Oxygen that water can hold", oxygen.BENSON_KRAUSE),
        Formula("Oxygen at another air pressure", oxygen.PRESSURE_FORM),
        Formula("Air pressure at a height", oxygen.ICAO),
        Formula("Oxygen that a fall brings in", oxygen.FALL),
        Formula("Oxygen through the surface", oxygen.TRANSFER),
    ),
    "Care": (
        Formula("What changes of water leave of something", water_change.MASS_BALANCE),
        Formula("Temperature after a water change", mixing.HEAT_BALANCE),
        Formula("Ammonia that chloramine leaves", dechlorinator.STOICHIOMETRY),
        Formula("Vapour that air can hold", evaporation.VAPOUR),
        Formula("What the air takes of open water", evaporation.TRANSFER_TO_AIR),
        Formula("What a bucket says of a pond", leak.BUCKET),
        Formula("How sure a test for a leak is", leak.DOUBT),
        Formula("How long the oxygen of still water lasts", still_water.STILL),
    ),
}
