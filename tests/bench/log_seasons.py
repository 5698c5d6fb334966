"""Invented seasons of a log, as texts by key, and how they get into a browser's storage."""

import random
from datetime import UTC, datetime, timedelta

from pondapp.models.base import Stored
from pondapp.models.circuit import BogFilter, Lip
from pondapp.models.entry import (
    Cleaning,
    Dose,
    Entry,
    Feed,
    FishChange,
    FreeNote,
    WaterChange,
    WaterTest,
    What,
)
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Fill, Reading
from pondapp.models.water import TypedVolume

BUCKET = Container(id="bucket9", name="Bucket, 9 L mark", volume_m3=0.009, tolerance_m3=0.0002)
PLACES = {"bog": ("Bog filter", 2.0e-4), "lip": ("Waterfall lip", 1.1e-3)}
BANDS = {
    "bog": Band(low_m3_s=1.1e-4, target_m3_s=1.7e-4, high_m3_s=3.3e-4),
    "lip": Band(low_m3_s=6e-4, target_m3_s=1.1e-3, high_m3_s=2.2e-3),
}
CLEANED_EVERY = 40.0  # days
LONGEST = 700.0  # days that a log reaches back
PUT = """async (pairs) => {
    const asked = indexedDB.open(pondappName("data"), 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("texts");
    await new Promise((done, failed) => { asked.onsuccess = done; asked.onerror = failed; });
    const change = asked.result.transaction("texts", "readwrite");
    for (const [key, text] of pairs) change.objectStore("texts").put(text, key);
    await new Promise((done, failed) => { change.oncomplete = done; change.onabort = failed; });
    asked.result.close();
}"""
"""Script for the page: put the pairs into the app's storage."""


def pond(number: int) -> Pond:
    """One invented pond."""
    return Pond(
        id=f"pond{number}", name=f"Invented {number}", water=TypedVolume(volume_m3=1.0),
        fed=(BogFilter(id="bog", name="Bog filter", bed_volume_m3=0.1),
             Lip(id="lip", name="Waterfall lip", width_m=0.3)),
    )  # fmt: skip


def _what(rng: random.Random, number: int) -> What:
    kinds: tuple[What, ...] = (
        WaterTest(
            temperature_c=round(rng.uniform(8, 26), 1), ph=round(rng.uniform(7, 8.6), 1),
            total_ammonia_kg_m3=round(rng.choice((0, 0, 1e-4, 2.5e-4, 5e-4)), 6),
            nitrite_kg_m3=round(rng.choice((0, 0, 1e-4, 3e-4)), 6),
            nitrate_kg_m3=rng.choice((0.01, 0.02, 0.04)),
            oxygen_kg_m3=round(rng.uniform(5.5e-3, 10e-3), 5),
        ),
        WaterChange(volume_m3=rng.choice((0.1, 0.15, 0.2))),
        Feed(amount_kg=rng.choice((0.01, 0.02, 0.03))),
        FreeNote(),
        Dose(what="Bacteria", amount="2 caps"),
        FishChange(change=rng.choice(("added", "lost")), what="Goldfish", count=rng.randint(1, 5)),
    )  # fmt: skip
    return kinds[(number - number // 3) % len(kinds)]


def log_of(pond_id: str, count: int, now: datetime) -> list[Stored]:
    """So many items up to now; the flow falls until the pump is cleaned."""
    days = min(LONGEST, 2.0 * count)
    rng = random.Random(f"{pond_id}{count}")
    made: list[Stored] = []
    step = days / count
    since = 0.0
    for number in range(count):
        away = days - number * step
        when = now - timedelta(days=away)
        since += step
        if since >= CLEANED_EVERY:
            since = 0.0
            made.append(
                Entry(id=f"c{number}", pond_id=pond_id, when=when, what=Cleaning(part="pump"))
            )
        elif number % 3 == 0:
            place = "bog" if number % 2 else "lip"
            name, clean = PLACES[place]
            flow = clean * (1 - 0.008 * since)
            seconds = [round(0.009 / flow * rng.gauss(1, 0.01), 2) for _ in range(3)]
            made.append(
                Reading(
                    id=f"r{number}", pond_id=pond_id, place_id=place, place_name=name,
                    taken_at=when, band=BANDS[place], note="Windy" if number % 5 == 0 else "",
                    method=Bucket(
                        container=BUCKET, fills=tuple(Fill(seconds=each) for each in seconds)
                    ),
                )
            )  # fmt: skip
        else:
            what = _what(rng, number)
            note = "Heron seen, net put back" if what.kind == "note" else ""
            made.append(Entry(id=f"e{number}", pond_id=pond_id, when=when, what=what, note=note))
    return made


def texts(ponds: int, items: int, now: datetime | None = None) -> dict[str, str]:
    """So many ponds that share so many items, by the key under which each text is stored."""
    now = now or datetime.now(UTC)
    found: dict[str, str] = {}
    for number in range(ponds):
        made = pond(number)
        found[f"pond/{made.storage_key()}"] = made.model_dump_json()
        for item in log_of(made.id, items // ponds, now):
            kind = "reading" if isinstance(item, Reading) else "entry"
            found[f"{kind}/{item.storage_key()}"] = item.model_dump_json()
    return found
