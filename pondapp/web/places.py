"""Where the sources of the site lie, and where it is built."""

import importlib.util
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
PACKAGE = ROOT / "pondapp"
ICONS = ROOT / "assets" / "icons"
SCREENSHOTS = ROOT / "assets" / "screenshots" / "manifest"
LOCK = ROOT / "build" / "site-requirements.txt"
CACHE = ROOT / "build" / "cache"
SITE = ROOT / "build" / "site"
TEMPLATES = Path(__file__).resolve().parent / "templates"


class BuildError(Exception):
    """The site cannot be built, and the message says why."""


def client() -> Path:
    """Folder of the prebuilt web client, found without running any of its package's code."""
    spec = importlib.util.find_spec("flet_web")
    if spec is None or spec.origin is None:
        raise BuildError("the package flet-web is not installed: pip install -e .")
    return Path(spec.origin).parent / "web"
