"""The server answers as a good static host does, and only with files of its folder."""

import http.client
import threading
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from pondapp.web import serve


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    site = tmp_path / "site"
    site.mkdir()
    (tmp_path / "secret.txt").write_text("secret")
    (tmp_path / "site-secret.txt").write_text("secret")
    (site / "index.html").write_text("<p>hello")
    (site / "a.wasm").write_bytes(b"plain")
    (site / "a.wasm.br").write_bytes(b"packed")
    (site / "link.txt").symlink_to(tmp_path / "secret.txt")
    server, address = serve.server(site, 0, "/sub/")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield address
    server.shutdown()
    server.server_close()


def ask(
    address: str, path: str, method: str = "GET", **headers: str
) -> tuple[int, dict[str, str], bytes]:
    connection = http.client.HTTPConnection(urlsplit(address).netloc, timeout=10)
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    connection.request(method, path, headers=named)
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    return answer.status, {k.lower(): v for k, v in answer.getheaders()}, body


def test_folder_is_its_index_with_policy(address: str) -> None:
    status, headers, body = ask(address, "/sub/")
    assert (status, body) == (200, b"<p>hello")
    assert headers["content-type"] == "text/html; charset=utf-8"
    assert "default-src 'none'" in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"


def test_wasm_type_is_exact_and_packed_only_if_accepted(address: str) -> None:
    status, headers, body = ask(address, "/sub/a.wasm")
    assert (status, headers["content-type"], body) == (200, "application/wasm", b"plain")
    assert "content-encoding" not in headers
    _, headers, body = ask(address, "/sub/a.wasm", Accept_Encoding="gzip, br")
    assert (headers["content-encoding"], body) == ("br", b"packed")
    assert headers["content-type"] == "application/wasm"


def test_unchanged_file_is_not_sent_again(address: str) -> None:
    _, headers, _ = ask(address, "/sub/")
    status, _, body = ask(address, "/sub/", If_None_Match=headers["etag"])
    assert (status, body) == (304, b"")


def test_head_sends_no_body(address: str) -> None:
    status, headers, body = ask(address, "/sub/", "HEAD")
    assert (status, headers["content-length"], body) == (200, "8", b"")


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/index.html",
        "/sub/none.txt",
        "/sub/../secret.txt",
        "/sub/%2e%2e/secret.txt",
        "/sub/..%2fsecret.txt",
        "/sub/..%2fsite-secret.txt",
        "/sub/%2fetc/passwd",
        "/sub/..%5csecret.txt",
        "/sub/%00",
        "/sub/link.txt",
    ],
)
def test_nothing_outside_the_folder_is_served(address: str, path: str) -> None:
    status, _, body = ask(address, path)
    assert (status, body) == (404, b"")


def test_only_this_computer_is_served(address: str) -> None:
    assert address.startswith("http://127.0.0.1:")
