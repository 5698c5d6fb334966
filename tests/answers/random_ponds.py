"""Random ponds such as people build, each with its log, made from a number and always alike.

Nothing here is a real pond. Sizes, flows and habits are drawn from what is sold and built; now and
then something is missing, odd or out of proportion, as it is in gardens.
"""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from pondapp.answers.planning.on_branch import passed
from pondapp.core.hydraulics.bores import SERIES, sizes
from pondapp.models.circuit import (
    BogFilter,
    Branch,
    HighFlowFilter,
    Jet,
    Line,
    Lip,
    OwnFilter,
    Pipe,
    Pump,
    Skimmer,
    Stream,
    WaterFeature,
)
from pondapp.models.entry import Cleaning, Entry, FreeNote, WaterTest
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Band,
    Bucket,
    Container,
    Fill,
    LevelDrop,
    MeterReading,
    Method,
    NothingComes,
    Reading,
)
from pondapp.models.tuned import FlowAt, FlowSet
from pondapp.models.water import (
    Basin,
    Circle,
    Corners,
    Drawn,
    Ellipse,
    LShape,
    MeasuredVolume,
    Offsets,
    Outline,
    Rectangle,
    Shelf,
    TypedVolume,
    Water,
)

LPH = 1 / 3.6e6
NOW = datetime(2026, 7, 1, 12, 0, tzinfo=UTC)
FITTINGS = ("elbow_90", "elbow_45", "tee_branch")


@dataclass(frozen=True, slots=True)
class Kept:
    """A pond with all that was written down about it."""

    pond: Pond
    readings: tuple[Reading, ...]
    entries: tuple[Entry, ...]


def _log_between(rng: Random, low: float, high: float) -> float:
    return float(f"{low * (high / low) ** rng.random():.3g}")


def _outline(rng: Random) -> Outline:
    long = _log_between(rng, 1.5, 12.0)
    wide = round(long * rng.uniform(0.35, 1.0), 2)
    kind = rng.randrange(6)
    if kind == 0:
        return Rectangle(length_m=long, width_m=wide)
    if kind == 1:
        return Circle(diameter_m=wide)
    if kind == 2:
        return Ellipse(length_m=long, width_m=wide)
    if kind == 3:
        cut = rng.uniform(0.2, 0.7)
        return LShape(length_m=long, width_m=wide, cut_length_m=cut * long, cut_width_m=cut * wide)
    if kind == 4:
        widths = tuple(round(wide * rng.uniform(0.4, 1.0), 2) for _ in range(rng.randint(3, 9)))
        return Offsets(spacing_m=round(long / len(widths), 2), widths_m=widths)
    return Corners(points_m=((0.0, 0.0), (long, 0.0), (long * 0.9, wide), (0.1 * long, wide * 0.8)))


def _water(rng: Random) -> Water:
    if rng.random() < 0.4:
        return TypedVolume(volume_m3=_log_between(rng, 0.1, 80.0))
    return Drawn(basins=tuple(_basin(rng, number) for number in range(rng.choice((1, 1, 1, 2)))))


def _basin(rng: Random, number: int) -> Basin:
    depth = _log_between(rng, 0.2, 2.0)
    shelf = depth > 0.5 and rng.random() < 0.4
    return Basin(
        id=f"basin{number}",
        name=f"Basin {number}",
        outline=_outline(rng),
        depth_m=depth,
        side_slope=rng.choice((0.0, 0.0, 0.1, 0.1, 0.2, 0.8)),  # now and then too much
        shelves=(Shelf(depth_m=0.25, width_m=0.25),) if shelf else (),
    )


def _band(rng: Random) -> Band | None:
    if rng.random() > 0.1:
        return None
    low = _log_between(rng, 200.0, 8000.0) * LPH
    high = low * rng.uniform(1.0, 4.0)
    return Band(
        low_m3_s=low,
        target_m3_s=rng.uniform(low, high),
        high_m3_s=high if rng.random() < 0.7 else None,
    )


def _feature(rng: Random, number: int, volume: float) -> WaterFeature:
    kind = rng.choice(("bog", "bog", "high_flow", "lip", "lip", "jet", "skimmer", "stream", "own"))
    key, name, band = f"f{number}", f"{kind} {number}", _band(rng)
    if kind == "bog":
        bed = volume * _log_between(rng, 0.03, 0.4)
        return BogFilter(id=key, name=name, band=band, bed_volume_m3=bed)
    if kind == "high_flow":
        media = rng.choice((None, _log_between(rng, 0.01, 0.5)))
        return HighFlowFilter(id=key, name=name, band=band, media_volume_m3=media)
    if kind == "lip":
        fall = rng.choice((None, _log_between(rng, 0.1, 2.0)))
        width = _log_between(rng, 0.1, 1.2)
        return Lip(id=key, name=name, band=band, width_m=width, fall_m=fall)
    if kind == "jet":
        return Jet(id=key, name=name, band=band, flow_m3_s=_log_between(rng, 200, 3000) * LPH)
    if kind == "own":
        return OwnFilter(id=key, name=name, band=band, flow_m3_s=_log_between(rng, 100, 6000) * LPH)
    if kind == "stream":
        return _stream(rng, key, name, band)
    return Skimmer(id=key, name=name, band=band, opening_m=_log_between(rng, 0.1, 0.5))


def _stream(rng: Random, key: str, name: str, band: Band | None) -> Stream:
    """A stream; some are steeper than a stream can be, or have pools longer than it."""
    sizes: dict[str, Any] = {}
    if rng.random() < 0.5:
        sizes["pools"] = rng.randint(0, 6)
    if rng.random() < 0.8:
        sizes |= {
            "pool_length_m": _log_between(rng, 0.3, 3.0),
            "pool_width_m": _log_between(rng, 0.3, 3.0),
            "pool_depth_m": _log_between(rng, 0.05, 0.6),
            "weir_width_m": _log_between(rng, 0.1, 2.0),
        }
    return Stream(
        id=key, name=name, band=band, length_m=_log_between(rng, 1, 30),
        width_m=_log_between(rng, 0.2, 2.0), fall_m=_log_between(rng, 0.05, 3.0),
        bed=rng.choice(("liner", "gravel", "cobbles", "boulders")),
        freeboard_m=rng.choice((None, _log_between(rng, 0.02, 0.3))),
        inlet_depth_m=rng.choice((None, _log_between(rng, 0.05, 1.0))), **sizes,
    )  # fmt: skip


def _pipe(rng: Random) -> Pipe | None:
    if rng.random() < 0.25:
        return None
    series = rng.choice(SERIES)
    size = rng.choice([one for one in sizes(series) if 0.012 < one.bore < 0.12])
    fittings = {name: rng.randint(1, 4) for name in rng.sample(FITTINGS, rng.randint(0, 3))}
    length = _log_between(rng, 0.5, 25.0)
    return Pipe(series=series, size=size.name, length_m=length, fittings=fittings)


def _pump(rng: Random, number: int) -> Pump:
    flow, head = _log_between(rng, 800, 30000) * LPH, _log_between(rng, 0.8, 12.0)
    points: tuple[tuple[float, float], ...] = ()
    if rng.random() < 0.25:
        shares = (0.0, 0.3, 0.6, rng.choice((0.8, 1.0)))
        points = tuple((share * flow, head * (1.0 - share**1.6)) for share in shares)
    known = rng.random()
    return Pump(
        id=f"pump{number}",
        name=f"Pump {number}",
        max_flow_m3_s=None if known < 0.05 else flow,
        max_head_m=None if known < 0.15 else head,
        power_w=rng.choice((None, _log_between(rng, 5, 500))),
        price=rng.choice((None, _log_between(rng, 30, 600))),
        adjustable=rng.random() < 0.3,
        points=points,
    )


def _lines(rng: Random, fed: tuple[WaterFeature, ...], pumps: tuple[Pump, ...]) -> tuple[Line, ...]:
    if rng.random() < 0.2:
        return ()
    left = [feature.id for feature in fed]
    rng.shuffle(left)
    lines = []
    for number in range(rng.choice((1, 1, 1, 2))):
        branches = []
        for place in range(rng.randint(1, 4)):
            feeds = tuple(left.pop() for _ in range(min(len(left), rng.choice((1, 1, 2, 3)))))
            past = tuple(item for item in feeds if rng.random() < 0.2)
            branches.append(
                Branch(
                    id=f"b{number}{place}",
                    name=f"Branch {number}{place}",
                    pipe=_pipe(rng),
                    lift_m=rng.choice((None, 0.0, _log_between(rng, 0.1, 3.0))),
                    valve=rng.choice(("none", "ball", "gate")),
                    feeds=feeds,
                    bypass=past,
                )
            )
        lines.append(
            Line(
                id=f"line{number}",
                name=f"Line {number}",
                pump_id=rng.choice((None, *(pump.id for pump in pumps))),
                main=_pipe(rng),
                hours_per_day=rng.choice((24.0, 24.0, 24.0, 8.0)),
                branches=tuple(branches),
            )
        )
    return tuple(lines)


def _fish(rng: Random) -> tuple[FishGroup, ...]:
    return tuple(
        FishGroup(
            id=f"fish{number}",
            name=f"Fish {number}",
            count=rng.randint(1, 40),
            length_m=_log_between(rng, 0.03, 0.7),
            grown_length_m=rng.choice((None, _log_between(rng, 0.1, 0.8))),
        )
        for number in range(rng.choice((0, 0, 1, 1, 2)))
    )


def _method(rng: Random, flow: float) -> Method:
    kind = rng.randrange(10)
    if kind == 0:
        return NothingComes()
    if kind == 1:
        return MeterReading(flow_m3_s=flow, tolerance=rng.choice((0.02, 0.05, 0.2)))
    vary = rng.choice((0.0, 0.02, 0.1))

    def fills(seconds: float) -> tuple[Fill, ...]:
        return tuple(
            Fill(seconds=max(0.2, seconds * (1.0 + rng.gauss(0.0, vary)) + rng.gauss(0.0, 0.1)))
            for _ in range(rng.randint(1, 5))
        )

    if kind == 2:
        return LevelDrop(
            area_m2=2.0, area_tolerance_m2=0.1, drop_m=0.1, level_tolerance_m=0.001,
            fills=fills(0.2 / flow),
        )  # fmt: skip
    volume = rng.choice((0.009, 0.010, 0.040))
    container = Container(id="c", name="Bucket", volume_m3=volume, tolerance_m3=0.02 * volume)
    return Bucket(container=container, fills=fills(volume / flow))


def _sets(rng: Random, pond: Pond) -> tuple[FlowSet, ...]:
    """Now and then the flows of a line as they were when it was tuned, or its pump clean."""
    found = []
    for line in pond.lines:
        if rng.random() < 0.3:
            flows = {
                passed(branch)[-1] if passed(branch) else branch.id: _log_between(rng, 300, 9000)
                for branch in line.branches
            }
            places = tuple(
                FlowAt(
                    place_id=place, place_name=place, reading_id="old", flow_m3_s=flow * LPH,
                    half_width_m3_s=0.03 * flow * LPH,
                )
                for place, flow in flows.items()
            )  # fmt: skip
            at = NOW - timedelta(hours=_log_between(rng, 1.0, 9000.0))
            found.append(FlowSet(line_id=line.id, at=at, places=places))
    return tuple(found)


def _readings(rng: Random, pond: Pond) -> tuple[Reading, ...]:
    places = [feature.id for feature in pond.fed]
    places += [branch.id for line in pond.lines for branch in line.branches]
    places += [line.id for line in pond.lines]
    if not places or rng.random() < 0.2:
        return ()
    readings = []
    for number in range(rng.choice((1, 3, 8, 20))):
        place, flow = rng.choice(places), _log_between(rng, 100, 20000) * LPH
        low = flow * rng.uniform(0.5, 1.5)
        band = Band(low_m3_s=low, target_m3_s=low * 1.2, high_m3_s=rng.choice((None, low * 2.0)))
        readings.append(
            Reading(
                id=f"r{number}",
                pond_id=pond.id,
                place_id=place,
                place_name=place,
                taken_at=NOW - timedelta(hours=_log_between(rng, 0.1, 9000.0)),
                method=_method(rng, flow),
                band=rng.choice((None, band)),
            )
        )
    return tuple(sorted(readings, key=lambda one: one.taken_at, reverse=True))


def _with_another(rng: Random, readings: tuple[Reading, ...]) -> tuple[Reading, ...]:
    """Now and then the newest flow was read an hour before too, and was another."""
    if not readings or readings[0].method.kind == "nothing" or rng.random() > 0.3:
        return readings
    newest = readings[0]
    flow = _log_between(rng, 100, 20000) * LPH
    hour = timedelta(hours=1)
    method = MeterReading(flow_m3_s=flow, tolerance=0.03)
    before = {"id": "before", "taken_at": newest.taken_at - hour, "method": method}
    found = (*readings, newest.model_copy(update=before))
    return tuple(sorted(found, key=lambda one: one.taken_at, reverse=True))


def _entries(rng: Random, pond: Pond) -> tuple[Entry, ...]:
    entries = []
    for number in range(rng.choice((0, 1, 3))):
        test = WaterTest(
            temperature_c=rng.choice((None, round(rng.uniform(1, 32), 1))),
            ph=rng.choice((None, round(rng.uniform(6, 9.5), 1))),
            total_ammonia_kg_m3=rng.choice((None, 0.0, rng.uniform(0, 3e-3))),
            nitrite_kg_m3=rng.choice((None, rng.uniform(0, 1e-3))),
            nitrate_kg_m3=rng.uniform(0, 0.1),
            oxygen_kg_m3=rng.choice((None, rng.uniform(2e-3, 14e-3))),
        )
        what = rng.choice((test, test, Cleaning(part="pump"), FreeNote()))
        entries.append(
            Entry(
                id=f"e{number}",
                pond_id=pond.id,
                when=NOW - timedelta(hours=_log_between(rng, 1.0, 9000.0)),
                what=what,
                note="Invented",
            )
        )
    return tuple(sorted(entries, key=lambda one: one.when, reverse=True))


def random_pond(number: int) -> Kept:
    """The pond of a number, with its log."""
    rng = Random(number)
    water = _water(rng)
    volume = water.volume_m3 if isinstance(water, TypedVolume) else 5.0
    fed = tuple(_feature(rng, place, volume) for place in range(rng.choice((0, 1, 2, 3, 4, 6))))
    pumps = tuple(_pump(rng, place) for place in range(rng.choice((0, 1, 2, 4))))
    pond = Pond(
        id="pond",
        name=f"Invented pond {number}",
        water=water,
        measured_volume=MeasuredVolume(volume_m3=volume, how="salt")
        if rng.random() < 0.1
        else None,
        water_temperature_c=round(rng.uniform(0, 34), 1),
        altitude_m=rng.choice((0.0, 300.0, 2500.0)),
        fish=_fish(rng),
        fed=fed,
        lines=_lines(rng, fed, pumps),
        pumps=pumps,
    )
    readings, entries = _readings(rng, pond), _entries(rng, pond)
    readings = _with_another(Random(-1 - number), readings)
    sets = {"tuned": _sets(rng, pond), "clean": _sets(rng, pond)}
    return Kept(pond.model_copy(update=sets), readings, entries)
