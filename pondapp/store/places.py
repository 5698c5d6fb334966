"""Where this device stores everything."""

import os
import sys
from pathlib import Path

from pondapp.store.key_value_store import KeyValueStore


def home_folder() -> Path:
    """The folder for what is saved on a desktop: PONDAPP_HOME, else the system's own place."""
    chosen = os.environ.get("PONDAPP_HOME")
    if chosen:
        return Path(chosen).expanduser()
    import platformdirs  # only here: the browser never needs it

    return platformdirs.user_data_path("pondapp", appauthor=False)


async def this_device() -> KeyValueStore:
    """The store to use here; it is opened by its first use."""
    if sys.platform == "emscripten":
        # Files written in the browser are gone after a reload.
        from pondapp.store.browser.browser_store import BrowserStore

        return BrowserStore()
    from pondapp.store.folder_store import FolderStore  # only here: the browser never needs it

    return FolderStore(home_folder())
