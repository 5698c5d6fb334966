"""A short sound and a buzz when the stopwatch starts and stops, where the browser has them."""

from pondapp.store.browser import page

PATIENCE = 2.0  # seconds


async def give(cue: str) -> None:
    """Give a cue, "start" or "stop"; a device that cannot stays silent."""
    await page.ask("cue", PATIENCE, cue=cue)
