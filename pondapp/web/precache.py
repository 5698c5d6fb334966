"""The list of files with their hashes, and the templates that hold it."""

import hashlib
import json
import re
from collections.abc import Mapping

from pondapp.web.places import BuildError

# Files that only one of the two renderers needs.
ONLY = {
    "skwasm": (
        "main.dart.wasm",
        "main.dart.mjs",
        "canvaskit/skwasm.js",
        "canvaskit/skwasm.wasm",
    ),
    "canvaskit": ("main.dart.js", "canvaskit/canvaskit.js", "canvaskit/canvaskit.wasm"),
}

# On the site for whoever asks, but not kept on the device: licence texts, the format of a backup
# file, pictures of the app, and the keeper itself.
NOT_KEPT = ("assets/NOTICES", "backup.schema.json", "sw.js")
SCREENSHOTS = "screenshots/"  # for the system's own question whether to install the app

# Kept for offline use, but not loaded on the way to the first screen.
LATER = re.compile(
    r"^(sw\.js|safe\.js|manifest\.webmanifest|icons/|screenshots/|assets/NOTICES|backup\.schema|assets/shaders/)"
)

# What the browser's Python is made of.
PYTHON = re.compile(r"^(start\.bin$|pack\.bin$|pyodide/|libraries/)")

TYPES = {
    "html": "text/html; charset=utf-8",
    "js": "text/javascript; charset=utf-8",
    "mjs": "text/javascript; charset=utf-8",
    "css": "text/css; charset=utf-8",
    "json": "application/json",
    "webmanifest": "application/manifest+json",
    "wasm": "application/wasm",
    "png": "image/png",
    "svg": "image/svg+xml",
    "woff2": "font/woff2",
    "otf": "font/otf",
    "ttf": "font/ttf",
    "zip": "application/zip",
    "txt": "text/plain; charset=utf-8",
}

# Programs from this site only; WebAssembly is compiled, text never run as a program. The screen's
# engine sets styles from its program, which is what 'unsafe-inline' allows here.
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; "
    "connect-src 'self' data: blob:; img-src 'self' data: blob:; font-src 'self' data:; "
    "style-src 'self' 'unsafe-inline'; manifest-src 'self'; base-uri 'self'; form-action 'none'; "
    "object-src 'none'"
)


def is_kept(path: str) -> bool:
    """Whether a file belongs to what a device keeps, with one renderer at least."""
    return path not in NOT_KEPT and not path.startswith(SCREENSHOTS)


def sha256(data: bytes) -> str:
    """Hash in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def fill(name: str, template: str, places: Mapping[str, object]) -> bytes:
    """Put values into @NAME@ (text) and /*@NAME@*/ {} (data); each place must be there."""
    for key, value in places.items():
        data = json.dumps(value, separators=(",", ":"), sort_keys=True, ensure_ascii=False)
        old, new = (f"@{key}@", value) if isinstance(value, str) else (f"/*@{key}@*/ {{}}", data)
        if old not in template:
            raise BuildError(f"{name}: no place for {key}")
        template = template.replace(old, new)
    if left := re.search(r"@[A-Z]+(_[A-Z]+)*@", template):
        raise BuildError(f"{name}: {left[0]} was not filled")
    return template.encode()


def python_version(files: Mapping[str, bytes], worker: str) -> str:
    """Hash of all that the memory of a started Python depends on."""
    parts = {path: sha256(data) for path, data in sorted(files.items()) if PYTHON.match(path)}
    return sha256(json.dumps([worker, parts]).encode())[:16]


def start_bytes(files: Mapping[str, bytes]) -> dict[str, int]:
    """Bytes on the way to the first screen, by renderer, for the progress shown.

    Those of "modules" are among them but for a start from a snapshot.
    """
    sizes = {"modules": len(files["pack.bin"])}
    for renderer in ONLY:
        others = {path for name, paths in ONLY.items() if name != renderer for path in paths}
        sizes[renderer] = sum(
            len(data)
            for path, data in files.items()
            if path not in others and not LATER.match(path)
        )
    return sizes


def service_worker(template: str, files: Mapping[str, bytes]) -> bytes:
    """sw.js for these files: its version is the hash of all of them and of itself."""
    for paths in ONLY.values():
        if missing := [path for path in paths if path not in files]:
            raise BuildError(f"the client has no {missing[0]}")
    hashes = {path: sha256(files[path]) for path in sorted(files) if is_kept(path)}
    version = sha256(json.dumps([template, hashes, POLICY, TYPES, ONLY]).encode())[:16]
    return fill(
        "sw.js",
        template,
        {"VERSION": version, "FILES": hashes, "ONLY": ONLY, "TYPES": TYPES, "CSP": POLICY},
    )
