"""Where the sources of the site lie, and where it is built."""

import importlib.util
import tempfile
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent
ROOT = PACKAGE.parent
ICONS = ROOT / "assets" / "icons"
SCREENSHOTS = ROOT / "assets" / "screenshots" / "manifest"
LOCK = ROOT / "build" / "site-requirements.txt"
CACHE = ROOT / "build" / "cache"
BUILT = ROOT / "build" / "site"
PACKED_IN = PACKAGE / "site"  # the wheel carries the site here, since its readers cannot build
SITE = BUILT if LOCK.exists() else PACKED_IN
TEMPLATES = Path(__file__).resolve().parent / "templates"


class BuildError(Exception):
    """The site cannot be built, and the message says why."""


def client() -> Path:
    """Folder of the prebuilt web client, found without running any of its package's code."""
    spec = importlib.util.find_spec("flet_web")
    if spec is None or spec.origin is None:
        raise BuildError("the package flet-web is not installed: pip install -e .[build]")
    return Path(spec.origin).parent / "web"


def keep(path: Path, data: bytes) -> None:
    """Put a file into the cache, whole or not at all: two builds may run at once.

    Args:
        path: Where it is to be; its name tells its content.
        data: What it holds.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as unfinished:
        unfinished.write(data)
    Path(unfinished.name).replace(path)
