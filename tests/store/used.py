"""Whatever was taken in is used as the screens use it: computed, drawn, printed, moved on.

It runs in any Python, so that the browser's own can be asked too.
"""

import asyncio
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

from pondapp.answers.care import due
from pondapp.answers.fish import stock
from pondapp.answers.log import charts, log, trend, water_tests
from pondapp.answers.log.dates import calendar_marks, moment_text
from pondapp.answers.log.log_table import log_table
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.plumbing.plumbing import line_answer
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps import health
from pondapp.answers.pumps.pumps import shelf
from pondapp.answers.sharing.html_report import plan_page
from pondapp.answers.shopping.shopping import bill
from pondapp.answers.water.basin_outline import basin_picture
from pondapp.answers.water.volume import volume_of
from pondapp.core.base.errors import PondError
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.store import backup, link
from pondapp.store.backup_file import whole
from pondapp.store.documents import list_all

NOW = datetime(2026, 5, 6, tzinfo=UTC)


def answered(ask: Callable[[], Any]) -> Any:
    """An answer, or None where the answer is a clear sentence."""
    try:
        return ask()
    except PondError:
        return None


def use_pond(pond: Pond, items: Sequence[log.LogItem]) -> None:
    """Ask of a pond what its screens ask."""
    readings = [item for item in items if isinstance(item, Reading)]
    for ask in (volume_of, _pictures):
        answered(lambda ask=ask: ask(pond.water))  # type: ignore[misc]
    worked = WorkedPond(pond)
    for about in ("targets", "plan", "wanted"):
        answered(lambda about=about: getattr(worked, about))  # type: ignore[misc]
    answered(lambda: bill(worked))
    for grown in (False, True):
        answered(lambda grown=grown: stock.stock(worked, grown=grown))  # type: ignore[misc]
    flows = answered(lambda: worked.planned)
    for line in lines_of(pond):
        if flows is not None:
            answered(lambda line=line: shelf(worked, line, flows.flows))  # type: ignore[misc]
            answered(lambda line=line: line_answer(worked, line, flows.flows))  # type: ignore[misc]
        for valves in ("open", "kept", "other"):
            answered(
                lambda line=line, valves=valves: health.health(worked, line, readings, valves)  # type: ignore[misc]
            )
    answered(lambda: due.due(pond, items, NOW))
    for system in ("metric", "us", "imperial"):
        page = answered(lambda system=system: plan_page(worked, readings, system, NOW))  # type: ignore[misc]
        assert page is None or page.lstrip().lower().startswith("<!doctype")
    address = answered(lambda: link.link(pond, "https://ponds.example/"))
    if address:
        assert link.unpacked(address.rpartition("/")[2]).name == pond.name


def _pictures(water: Any) -> None:
    for basin in getattr(water, "basins", ()):
        basin_picture(basin)


def use_log(pond: Pond | None, items: Sequence[log.LogItem]) -> None:
    """Draw a log: its months, its table, its charts."""
    for item in items:
        assert moment_text(log.moment(item))
    assert sum(len(part) for _, part in log.by_month(items)) == len(items)
    log.searched(items, "a 2025", None)
    for system in ("metric", "us"):
        table = log_table(items, {}, system)
        assert table.count(b"\r\n") >= len(items)
    if pond is not None:
        for place in charts.places_in(items):
            answered(lambda place=place: charts.flow_chart(WorkedPond(pond), place, items, None))  # type: ignore[misc]
            answered(lambda place=place: trend.place_trend(pond, place, place, None, items))  # type: ignore[misc]
        for key in charts.values_read(items):
            answered(lambda key=key: charts.water_chart(pond, key, items, None))  # type: ignore[misc]
        for item in items:
            if isinstance(item, Entry) and isinstance(item.what, WaterTest):
                test = item.what
                answered(lambda test=test: water_tests.read_test(test, pond))  # type: ignore[misc]
    if items:
        first, last = log.moment(items[-1]), log.moment(items[0])
        assert len(calendar_marks(first, last, 6)) < 20


async def use(store: Any) -> None:
    """Use all that a device holds, then move it to another by a backup."""
    ponds = {pond.id: pond for pond in (await list_all(store, "pond", Pond)).documents}
    readings = (await list_all(store, "reading", Reading)).documents
    entries = (await list_all(store, "entry", Entry)).documents
    held: Mapping[str, list[log.LogItem]] = {
        pond_id: [] for pond_id in (*ponds, *(item.pond_id for item in (*readings, *entries)))
    }
    for item in (*readings, *entries):
        held[item.pond_id].append(item)
    for pond_id, items in held.items():
        ordered = log.newest_first(items)
        if pond := ponds.get(pond_id):
            use_pond(pond, ordered)
        use_log(ponds.get(pond_id), ordered)
    data = await whole(backup.everything(store, NOW))
    other = type(store)()
    look = await backup.preview(other, data)
    assert (look.complete, look.touched) == (True, False)
    await backup.restore(other, look, "replace", NOW)
    here = {key for key, _ in await store.items() if not key.startswith("before/")}
    assert {key for key, _ in await other.items() if not key.startswith("before/")} == here
    again = await backup.preview(other, data)
    assert again.count("new") == again.count("changed") == again.count("only here") == 0


def used(store: Any) -> None:
    """The same, at once."""
    asyncio.run(use(store))
