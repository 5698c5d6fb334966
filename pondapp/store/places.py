"""Which Box this device has."""

import os
import sys
from pathlib import Path

from pondapp.store.box import Box


async def this_device() -> Box:
    """The browser's storage in a browser, else a folder where the platform wants data."""
    if sys.platform == "emscripten":
        from pondapp.store.browser_box import BrowserBox

        return await BrowserBox.open("pondapp")
    from platformdirs import user_data_path

    from pondapp.store.folder_box import FolderBox

    return FolderBox(Path(os.environ.get("PONDAPP_HOME") or user_data_path("pondapp")))
