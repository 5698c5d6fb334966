"""Which Box this device has."""

import os
import sys
from pathlib import Path

from pondapp.store.box import Box
from pondapp.store.folder_box import FolderBox


def home_folder() -> Path:
    """The folder for what is saved on a desktop: PONDAPP_HOME, else the system's own place."""
    chosen = os.environ.get("PONDAPP_HOME")
    if chosen:
        return Path(chosen).expanduser()
    import platformdirs  # only here: the browser never needs it

    return platformdirs.user_data_path("pondapp", appauthor=False)


async def this_device() -> Box:
    """The box to use here; it is opened by its first use."""
    if sys.platform == "emscripten":
        # Files written in the browser are gone after a reload.
        from pondapp.store.browser_box import BrowserBox

        return BrowserBox()
    return FolderBox(home_folder())
