"""A plain server, as a good static host would answer; on this computer alone, unless told else."""

import re
import socket
import threading
from collections.abc import Callable
from contextlib import suppress
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from pondapp.web.precache import POLICY, TYPES, sha256

HEADERS = {
    "Content-Security-Policy": f"{POLICY}; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",  # no other site's window can reach into ours
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-cache",  # keep, but ask each time: the hashes decide what is new
    "Vary": "Accept-Encoding",
}
ENCODINGS = (("br", ".br"), ("gzip", ".gz"))
OTHERS = ("POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT")  # known, not for files
LOOPBACK = "127.0.0.1"
IDLE = 20  # seconds without a byte after which a connection ends
MOST = 64  # connections at once; a browser takes six


def find(folder: Path, prefix: str, target: str) -> Path | None:
    """The file a request means, or None when there is none inside the folder."""
    try:
        path = unquote(urlsplit(target).path)
    except ValueError:  # brackets that are no address
        return None
    if not path.startswith(prefix) or "\0" in path or "\\" in path:
        return None
    inside = path.removeprefix(prefix)
    root = folder.resolve()
    try:
        found = (root / (f"{inside}index.html" if path.endswith("/") else inside)).resolve()
        return found if found.is_relative_to(root) and found.is_file() else None
    except OSError:  # a name that no file can have
        return None


def accepts(header: str, encoding: str) -> bool:
    """Whether an Accept-Encoding header takes an encoding: "br;q=0" names it and refuses it."""
    for part in header.split(","):
        name, _, quality = part.partition(";")
        if name.strip().lower() == encoding:
            return not re.fullmatch(r"\s*q\s*=\s*0(\.0*)?\s*", quality)
    return False


def handler(folder: Path, prefix: str) -> type[BaseHTTPRequestHandler]:
    """Request handler for a folder, served below a path prefix that ends in a slash."""

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"
        timeout = IDLE

        def parse_request(self) -> bool:
            """Take a request apart; its connection is no longer one that only waits."""
            whole = super().parse_request()
            if whole and isinstance(self.server, QuietServer):
                self.server.busy(self.connection)
            if whole and not hasattr(self, f"do_{self.command}"):
                self.close_connection = True  # whatever else was sent with it
                self.send_error(405 if self.command in OTHERS else 501)
                return False
            return whole

        def end_headers(self) -> None:
            if self.command in OTHERS:
                self.send_header("Allow", "GET, HEAD")
            super().end_headers()

        def answer(self, with_body: bool) -> None:
            found = find(folder, prefix, self.path)
            if found is None:
                self.send_error(404)
                return
            kind = TYPES.get(found.suffix[1:], "application/octet-stream")
            accepted = self.headers.get("Accept-Encoding", "")
            encoding = ""
            for name, ending in ENCODINGS:
                packed = found.with_name(found.name + ending)
                if accepts(accepted, name) and packed.is_file():
                    found, encoding = packed, name
                    break
            body = found.read_bytes()
            tag = f'"{sha256(body)[:32]}"'
            unchanged = self.headers.get("If-None-Match") == tag
            self.send_response(304 if unchanged else 200)
            for name, value in HEADERS.items():
                self.send_header(name, value)
            self.send_header("ETag", tag)
            self.send_header("Content-Type", kind)
            if encoding:
                self.send_header("Content-Encoding", encoding)
            if not unchanged:
                self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            if with_body and not unchanged:
                self.wfile.write(body)

        def do_GET(self) -> None:
            self.answer(with_body=True)

        def do_HEAD(self) -> None:
            self.answer(with_body=False)

        def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - as the base class
            """Say nothing: the address is what the terminal is for."""

    return Handler


class QuietServer(ThreadingHTTPServer):
    """A browser that goes away in the middle of an answer is not worth a traceback."""

    daemon_threads = True

    def __init__(self, address: tuple[str, int], *args: Any) -> None:
        if ":" in address[0]:
            self.address_family = socket.AF_INET6
        super().__init__(address, *args)
        self._lock = threading.Lock()
        self._waiting: dict[Any, None] = {}  # connections without a whole request, oldest first
        self._open = 0

    def busy(self, connection: Any) -> None:
        """A connection has sent a whole request."""
        with self._lock:
            self._waiting.pop(connection, None)

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer in a thread of its own; past the limit the one that waited longest has to go."""
        with self._lock:
            full = self._open >= MOST
            slowest = next(iter(self._waiting), request) if full else None
            self._waiting.pop(slowest, None)
            self._waiting[request] = None
            self._open += 1
        if slowest is request:  # all others are being answered
            self.shutdown_request(request)
            return
        if slowest is not None:
            with suppress(OSError):
                slowest.shutdown(socket.SHUT_RDWR)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        """Forget a connection that has ended."""
        with self._lock:
            self._waiting.pop(request, None)
            self._open -= 1
        super().shutdown_request(request)

    def handle_error(self, request: object, client_address: object) -> None:
        """Let a broken connection pass and show the rest."""
        import sys

        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def server(
    folder: Path, port: int = 0, prefix: str = "/", host: str = LOOPBACK
) -> tuple[QuietServer, str]:
    """A server that is bound but not yet running, and its address."""
    host = host.removeprefix("[").removesuffix("]")  # as an address has those of IPv6
    bound = QuietServer((host, port), handler(folder, prefix))
    named = f"[{host}]" if ":" in host else host
    return bound, f"http://{named}:{bound.server_address[1]}{prefix}"


def serve_until_interrupted(
    folder: Path,
    port: int,
    started: Callable[[str], object],
    prefix: str = "/",
    host: str = LOOPBACK,
) -> None:
    """Serve in this thread; `started` is told the address."""
    bound, address = server(folder, port, prefix, host)
    with bound:
        started(address)
        try:
            bound.serve_forever()
        except KeyboardInterrupt:
            return
