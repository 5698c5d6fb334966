"""The built site asks no other host, names only files it has, and keeps its budget."""

import json
import re
import zlib
from collections.abc import Mapping
from pathlib import Path

from pondapp.web import precache
from pondapp.web.places import BuildError

KEPT_AT_MOST = 45_000_000  # bytes on the device, with either renderer
# Where no browser could compile Python ahead, sources with their comments ship instead.
KEPT_IN_SOURCES = 46_000_000
SENT_AT_MOST = 11_000_000  # bytes of a first visit, compressed, with either renderer
FILES_AT_MOST = 35  # of a first visit, with either renderer: each is a question to the host
# Bytes of a first visit as a quick test packs them, since the best compression takes minutes.
ZIPPED_AT_MOST = 14_900_000

# Addresses that are never asked: names of formats, and help that an error message points to.
OUR_OWN = (
    "index.html", "start.js", "pad.js", "boot.js", "safe.js", "worker.js", "sw.js",
    "manifest.webmanifest",
)  # fmt: skip
ASKED_HOSTS = re.compile(
    rb"https?://(?:cdn\.jsdelivr\.net|unpkg\.com|www\.gstatic\.com|fonts\.gstatic\.com"
    rb"|fonts\.googleapis\.com|pypi\.org|files\.pythonhosted\.org)"
)
# The other renderer's default, overridden by canvasKitBaseUrl in boot.js and refused by the policy.
OVERRIDDEN = {"main.dart.js": rb"https://www\.gstatic\.com/flutter-canvaskit/[0-9a-f]{40}/"}


def check(files: Mapping[str, bytes]) -> None:
    """Refuse a site that breaks a rule."""
    for path in OUR_OWN:
        if re.search(rb"https?://", files[path]):
            raise BuildError(f"{path} names an address of another host")
    for path, data in files.items():
        if path in ("start.bin", "pack.bin", "assets/NOTICES", "pyodide/python_stdlib.zip"):
            continue  # texts and sources; their requests are refused by the policy
        rest = re.sub(OVERRIDDEN[path], b"", data) if path in OVERRIDDEN else data
        if found := ASKED_HOSTS.search(rest):
            raise BuildError(f"{path} would ask {found[0].decode()}")
    if "flutter_service_worker.js" in files:
        raise BuildError("flutter_service_worker.js would replace our service worker")
    manifest = json.loads(files["manifest.webmanifest"])
    shortcuts = [icon["src"] for entry in manifest["shortcuts"] for icon in entry["icons"]]
    pictures = [one["src"] for one in (*manifest["icons"], *manifest["screenshots"])]
    for picture in pictures + shortcuts:
        if picture not in files:
            raise BuildError(f"the manifest names {picture}, which is not there")
    most = KEPT_AT_MOST if b'"main.pyc"' in files.get("start.bin", b"") else KEPT_IN_SOURCES
    for renderer in precache.ONLY:
        if (count := len(_kept(files, renderer))) > FILES_AT_MOST:
            raise BuildError(f"{renderer}: {count} files to keep; the budget is {FILES_AT_MOST}")
        if (size := kept_bytes(files, renderer)) > most:
            raise BuildError(f"{renderer}: {size:,} bytes to keep; the budget is {most:,}")


def kept_bytes(files: Mapping[str, bytes], renderer: str) -> int:
    """Bytes that a device with this renderer keeps."""
    return sum(len(files[path]) for path in _kept(files, renderer))


def check_zipped(files: Mapping[str, bytes]) -> None:
    """Refuse a site whose first visit is over the budget even when it is packed in haste."""
    sizes = {path: len(zlib.compress(data, 6)) for path, data in files.items()}
    for renderer in precache.ONLY:
        if (size := sum(sizes[path] for path in _kept(files, renderer))) > ZIPPED_AT_MOST:
            raise BuildError(
                f"{renderer}: {size:,} bytes, zipped; the budget is {ZIPPED_AT_MOST:,}"
            )


def check_sent(files: Mapping[str, bytes], folder: Path) -> None:
    """Refuse a compressed site whose first visit is over the budget."""
    for renderer in precache.ONLY:
        size = 0
        for path in _kept(files, renderer):
            packed = folder / f"{path}.br"
            size += (packed if packed.exists() else folder / path).stat().st_size
        if size > SENT_AT_MOST:
            raise BuildError(f"{renderer}: {size:,} bytes to send; the budget is {SENT_AT_MOST:,}")


def _kept(files: Mapping[str, bytes], renderer: str) -> list[str]:
    others = {path for name, paths in precache.ONLY.items() if name != renderer for path in paths}
    return [path for path in files if path not in others and precache.is_kept(path)]
