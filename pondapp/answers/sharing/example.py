"""An invented pond to look round in: nobody built it, nobody measured it."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pipe, Pump
from pondapp.models.entry import Cleaning, Entry
from pondapp.models.fish import FishGroup
from pondapp.models.pond import OwnItem, Pond, Shopping
from pondapp.models.reading import Band, Bucket, Container, Fill, Reading
from pondapp.models.water import Basin, Drawn, Ellipse, Shelf
from pondapp.words import t

EXAMPLE = "invented-example"

_BUCKET = Container(
    id="example-bucket", name="Bucket, 10 L mark", volume_m3=0.010, tolerance_m3=0.0002
)
_TUB = Container(id="example-tub", name="Tub, 40 L", volume_m3=0.040, tolerance_m3=0.001)

# Days before today, place, container, fill times [s], note. The flow through the box weakens until
# the pump is cleaned, so that there is a trend to see.
_TAKEN: Sequence[tuple[int, str, Container, tuple[float, ...], str]] = (
    (70, "bog", _BUCKET, (21.4, 20.9, 21.6), ""),
    (70, "box", _TUB, (24.6, 25.1, 24.8), "First day, pump new"),
    (42, "box", _TUB, (27.3, 27.9, 27.5), ""),
    (21, "box", _TUB, (33.2, 32.6, 33.4), "The fall looks thin"),
    (20, "box", _TUB, (25.2, 25.6, 25.0), "After cleaning the pump"),
    (6, "bog", _BUCKET, (23.1, 22.7, 23.4), ""),
    (6, "box", _TUB, (26.0, 26.5, 26.2), ""),
)
_CLEANED = timedelta(days=20, hours=2)
"""Before today: the pump, and the box's reading after it says what that brought."""


def example_pond() -> Pond:
    """The pond: drawn, plumbed, stocked, with pumps to choose from."""
    hose = "hose, mm"
    basin = Basin(
        id="basin",
        name=t("Pond"),
        outline=Ellipse(length_m=3.2, width_m=2.2),
        depth_m=0.8,
        side_slope=0.3,
        shelves=(Shelf(depth_m=0.25, width_m=0.3),),
    )
    bog = Branch(
        id="to-bog",
        name=t("To the bog"),
        pipe=Pipe(series=hose, size="25 mm", length_m=3.0, fittings={"elbow_90": 1}),
        lift_m=0.4,
        valve="ball",
        feeds=("bog",),
    )
    fall = Branch(
        id="to-fall",
        name=t("To the waterfall"),
        pipe=Pipe(series=hose, size="40 mm", length_m=4.0, fittings={"elbow_90": 2}),
        lift_m=0.9,
        valve="ball",
        feeds=("box", "lip"),
    )
    line = Line(
        id="line",
        name=t("Pump"),
        pump_id="middle",
        main=Pipe(series=hose, size="50 mm", length_m=2.0),
        branches=(bog, fall),
    )
    lph = 1 / 3.6e6
    return Pond(
        id=EXAMPLE,
        name=t("Alder Corner (invented example)"),
        water=Drawn(basins=(basin,)),
        fish=(
            FishGroup(
                id="goldfish", name=t("Goldfish"), count=9, length_m=0.10, grown_length_m=0.18
            ),
        ),
        fed=(
            BogFilter(id="bog", name=t("Bog filter"), bed_volume_m3=0.25),
            HighFlowFilter(id="box", name=t("Filter box"), media_volume_m3=0.05),
            Lip(id="lip", name=t("Slate lip"), width_m=0.40, fall_m=0.5),
        ),
        lines=(line,),
        pumps=(
            Pump(id="small", name=t("Small pump"), max_flow_m3_s=6000 * lph, max_head_m=2.2,
                 power_w=40, price=85),
            Pump(id="middle", name=t("Mid-size pump"), max_flow_m3_s=12000 * lph, max_head_m=4.0,
                 power_w=85, price=140),
            Pump(id="large", name=t("Large pump"), max_flow_m3_s=16000 * lph, max_head_m=5.0,
                 power_w=180, price=190),
        ),
        shopping=Shopping(own=(OwnItem(id="clips", name=t("Hose clips"), quantity=6),)),
    )  # fmt: skip


def example_readings(now: datetime) -> tuple[Reading, ...]:
    """What was measured there in the weeks before `now`, equally invented."""
    from pondapp.answers.features.targets import targets  # the first screen does not wait for it

    found = targets(example_pond())
    readings: list[Reading] = []
    for number, (days, place_id, container, times, note) in enumerate(_TAKEN):
        place = found.place(place_id)
        if place is None:
            raise LookupError(place_id)
        band = place.band
        readings.append(
            Reading(
                id=f"{EXAMPLE}-{number}",
                pond_id=EXAMPLE,
                place_id=place_id,
                place_name=place.name,
                taken_at=now - timedelta(days=days),
                method=Bucket(
                    container=container.model_copy(update={"name": t(container.name)}),
                    fills=tuple(Fill(seconds=seconds, typed=True) for seconds in times),
                ),
                band=Band(low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high),
                note=t(note),
            )
        )
    return tuple(readings)


def example_entries(now: datetime) -> tuple[Entry, ...]:
    """What was done there in those weeks."""
    when, what = now - _CLEANED, Cleaning(part="pump")
    return (Entry(id=f"{EXAMPLE}-cleaned", pond_id=EXAMPLE, when=when, what=what),)
