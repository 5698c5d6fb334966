"""Sources compiled ahead by the browser's own Python, where this computer has a browser.

A start then skips the compiler, which is most of a start. A build without a browser is the same
site with sources in it: slower to start, otherwise alike.
"""

import hashlib
import json
import os
import shutil
import subprocess
import tempfile
import threading
import time
from collections.abc import Mapping
from http.server import BaseHTTPRequestHandler
from pathlib import Path

from pondapp.web import bundle, places, precache, serve

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
FLAGS = ("--headless=new", "--disable-gpu", "--no-first-run", "--disable-background-networking")
PATIENCE = 180  # seconds that a browser gets; it needs about ten
PAGE = "compile.html"
RUNTIME = (
    "pyodide/pyodide.mjs",
    "pyodide/pyodide.asm.mjs",
    "pyodide/pyodide.asm.wasm",
    "pyodide/python_stdlib.zip",
)


class NotCompiled(Exception):
    """No browser did the work, and the message says why."""


def browser() -> str | None:
    """A browser that can run without a window."""
    return next(filter(None, map(shutil.which, BROWSERS)), None)


def compiled(sources: Mapping[str, bytes]) -> dict[str, bytes]:
    """Compiled form of each source; the keys are the paths that an error message will show.

    Kept by content, so that an edit compiles one file. Raises NotCompiled.
    """
    client = places.client()
    tool = hashlib.sha256((places.TEMPLATES / "compile.py").read_bytes())
    tool.update((client / "pyodide/pyodide.asm.wasm").read_bytes())

    def kept(path: str) -> Path:
        digest = tool.copy()
        digest.update(path.encode() + b"\0" + sources[path])
        return places.CACHE / "compiled" / digest.hexdigest()

    kept_at = {path: kept(path) for path in sources}
    missing = {path: sources[path] for path in sources if not kept_at[path].exists()}
    if missing:
        made = _by_browser(missing)
        if made.keys() != missing.keys():
            raise NotCompiled("the browser's answer is not whole")
        for path, data in made.items():
            places.keep(kept_at[path], data)
    return {path: kept_at[path].read_bytes() for path in sources}


def _by_browser(sources: Mapping[str, bytes]) -> dict[str, bytes]:
    info = json.loads((places.client() / "pyodide/pyodide-lock.json").read_bytes())["info"]
    script = (places.TEMPLATES / "compile.js").read_text(encoding="utf-8")
    files = {
        **{path: (places.client() / path).read_bytes() for path in RUNTIME},
        **{name: (places.TEMPLATES / name).read_bytes() for name in (PAGE, "compile.py")},
        "compile.js": precache.fill("compile.js", script, {"LOCK_INFO": info}),
        "sources.bin": bundle.pack(sources),
    }
    return bundle.unpack(answer(files))


def answer(files: Mapping[str, bytes]) -> bytes:
    """What the page among these files sends back. Raises NotCompiled."""
    program = browser()
    if program is None:
        raise NotCompiled("no Chromium or Chrome on this computer")
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as temporary:
        folder = Path(temporary) / "site"
        for path, data in files.items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_bytes(data)
        return _sent(program, folder, Path(temporary) / "profile")


def _sent(program: str, folder: Path, profile: Path) -> bytes:
    """What the page in this folder sends back."""
    answered = threading.Event()
    answer: dict[str, bytes] = {}

    def receive(handler: BaseHTTPRequestHandler) -> None:
        body = handler.rfile.read(int(handler.headers["Content-Length"]))
        answer[handler.path] = body
        handler.send_response(204)
        handler.end_headers()
        answered.set()

    server, address = serve.server(folder)
    server.RequestHandlerClass = type(
        "Receiving", (serve.handler(folder, "/"),), {"do_POST": receive}
    )
    threading.Thread(target=server.serve_forever, daemon=True).start()
    # The system's administrator has no sandbox to give; the page is ours alone.
    rights = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    with server:
        process = subprocess.Popen(
            [program, *FLAGS, *rights, f"--user-data-dir={profile}", f"{address}{PAGE}"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            end = time.monotonic() + PATIENCE
            while not answered.wait(0.2) and process.poll() is None and time.monotonic() < end:
                pass
        finally:
            process.terminate()
            process.wait()
            server.shutdown()
    if "/compiled.bin" not in answer:
        reason = answer.get("/failed", b"it did not answer").decode(errors="replace")
        raise NotCompiled(f"{Path(program).name}: {reason.strip().splitlines()[-1]}")
    return answer["/compiled.bin"]
