"""A plain server on the loopback address, as a good static host would answer."""

import re
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
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


def find(folder: Path, prefix: str, target: str) -> Path | None:
    """The file a request means, or None when there is none inside the folder."""
    path = unquote(urlsplit(target).path)
    if not path.startswith(prefix) or "\0" in path or "\\" in path:
        return None
    inside = path.removeprefix(prefix)
    root = folder.resolve()
    found = (root / (f"{inside}index.html" if path.endswith("/") else inside)).resolve()
    if not found.is_relative_to(root) or not found.is_file():
        return None
    return found


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

        def answer(self, with_body: bool) -> None:
            found = find(folder, prefix, self.path)
            if found is None:
                self.send_response(404)
                self.send_header("Content-Length", "0")
                self.end_headers()
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

    def handle_error(self, request: object, client_address: object) -> None:
        """Let a broken connection pass and show the rest."""
        import sys

        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def server(folder: Path, port: int = 0, prefix: str = "/") -> tuple[QuietServer, str]:
    """A server that is bound but not yet running, and its address."""
    bound = QuietServer(("127.0.0.1", port), handler(folder, prefix))
    return bound, f"http://127.0.0.1:{bound.server_address[1]}{prefix}"


def serve_until_interrupted(
    folder: Path, port: int, started: Callable[[str], object], prefix: str = "/"
) -> None:
    """Serve in this thread; `started` is told the address."""
    bound, address = server(folder, port, prefix)
    with bound:
        started(address)
        try:
            bound.serve_forever()
        except KeyboardInterrupt:
            return
