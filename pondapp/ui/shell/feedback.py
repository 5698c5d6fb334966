"""A short sound and a buzz when the stopwatch starts and stops, where the browser has them."""

from pondapp.store.browser import page
from pondapp.ui.shell.session_context import session_now

PATIENCE = 2.0  # seconds


async def give(cue: str) -> None:
    """Give a cue, "start" or "stop", as the reader wants it; a device that cannot stays silent."""
    aids = session_now().preferences.aids
    if aids.sound or aids.vibration:
        await page.ask("cue", PATIENCE, cue=cue, sound=aids.sound, vibration=aids.vibration)
