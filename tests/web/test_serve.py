"""The server answers as a good static host does, and only with files of its folder."""

import http.client
import socket
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from pondapp import __main__ as command
from pondapp.web import places, serve


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    site = tmp_path / "site"
    site.mkdir()
    (tmp_path / "secret.txt").write_text("secret")
    (tmp_path / "site-secret.txt").write_text("secret")
    (site / "index.html").write_text("<p>hello")
    (site / "a.wasm").write_bytes(b"plain")
    (site / "a.wasm.br").write_bytes(b"packed")
    (site / "b.js").write_bytes(b"plain")
    (site / "b.js.gz").write_bytes(b"zipped")
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


@pytest.mark.parametrize(
    ("accepted", "encoding"),
    [
        ("gzip, br", "br"),
        ("br;q=1.0, gzip;q=0.5", "br"),
        ("gzip, br;q=0", None),  # named, and refused
        ("gzip, br; q=0.0", None),
        ("brotli", None),
        ("", None),
    ],
)
def test_packed_only_for_who_takes_it(address: str, accepted: str, encoding: str | None) -> None:
    _, headers, body = ask(address, "/sub/a.wasm", Accept_Encoding=accepted)
    assert headers.get("content-encoding") == encoding
    assert body == (b"packed" if encoding else b"plain")
    assert headers["vary"] == "Accept-Encoding"


def test_what_was_not_packed_the_best_way_is_sent_packed_another_way(address: str) -> None:
    found = {
        accepted: ask(address, "/sub/b.js", Accept_Encoding=accepted)
        for accepted in ("br, gzip", "br", "gzip;q=0")
    }
    assert {key: body for key, (_, _, body) in found.items()} == {
        "br, gzip": b"zipped", "br": b"plain", "gzip;q=0": b"plain",
    }  # fmt: skip
    assert found["br, gzip"][1]["content-encoding"] == "gzip"


def test_every_answer_is_asked_for_anew_and_kept_to_this_site(address: str) -> None:
    for path in ("/sub/", "/sub/a.wasm"):
        _, headers, _ = ask(address, path)
        assert headers["cache-control"] == "no-cache"  # no file has a hash in its name
        assert headers["etag"]
        assert headers["cross-origin-opener-policy"] == "same-origin"
        assert headers["cross-origin-resource-policy"] == "same-origin"
        assert headers["referrer-policy"] == "no-referrer"
        assert "frame-ancestors 'none'" in headers["content-security-policy"]


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_nothing_but_reading_is_done(address: str, method: str) -> None:
    status, headers, _ = ask(address, "/sub/", method)
    assert (status, headers["allow"]) == (405, "GET, HEAD")
    assert ask(address, "/sub/", "BREW")[0] == 501


@pytest.mark.parametrize(
    ("sent", "answered"),
    [
        (b"GET /sub/ HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n", b" 200 "),
        (b"GET //[ HTTP/1.1\r\nConnection: close\r\n\r\n", b" 404 "),
        (b"GET /sub/" + b"a" * 5000 + b" HTTP/1.1\r\nConnection: close\r\n\r\n", b" 404 "),
        (b"GET /sub/%ff%fe HTTP/1.1\r\nConnection: close\r\n\r\n", b" 404 "),
        (b"GET " + b"a" * 70_000 + b" HTTP/1.1\r\n\r\n", b" 414 "),
        (b"GET /sub/ HTTP/1.1\r\n" + b"X: y\r\n" * 200 + b"\r\n", b" 431 "),
        (b"GET /sub/ HTTP/9.9\r\n\r\n", b" 505 "),
        (b"nonsense\r\n\r\n", b"400"),
        (b"\x16\x03\x01\x02\x00\x01\r\n\r\n", b"400"),
        (b"POST /sub/ HTTP/1.1\r\nContent-Length: 4\r\n\r\nGET ", b" 405 "),
    ],
)
def test_every_kind_of_request_has_an_answer(address: str, sent: bytes, answered: bytes) -> None:
    netloc = urlsplit(address)
    with socket.create_connection((netloc.hostname, netloc.port), timeout=10) as connection:
        connection.sendall(sent)
        got = b""
        with suppress(ConnectionResetError):  # more was sent than was read
            while more := connection.recv(65536):
                got += more
    assert answered in got[:600]


def test_slow_connections_are_bounded_and_keep_nobody_out(address: str) -> None:
    netloc = urlsplit(address)
    slow = [
        socket.create_connection((netloc.hostname, netloc.port), timeout=10)
        for _ in range(serve.MOST + 20)
    ]
    for connection in slow:
        with suppress(OSError):
            connection.sendall(b"GET /sub/ HT")
    assert ask(address, "/sub/")[0] == 200
    ended = 0
    for connection in slow:
        connection.settimeout(0.01)
        with suppress(TimeoutError):
            try:
                ended += connection.recv(10) == b""
            except ConnectionResetError:
                ended += 1
        connection.close()
    assert ended >= 20


def test_a_connection_that_says_nothing_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    assert 5 <= serve.IDLE <= 60
    monkeypatch.setattr(serve, "IDLE", 1)
    server, hasty = serve.server(Path(), 0)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    netloc = urlsplit(hasty)
    with socket.create_connection((netloc.hostname, netloc.port), timeout=10) as connection:
        assert connection.recv(10) == b""
    server.shutdown()
    server.server_close()


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
    assert status == 404
    assert b"secret" not in body
    assert b"Not Found" in body


def test_only_this_computer_is_served(address: str) -> None:
    assert address.startswith("http://127.0.0.1:")
    bound, _ = serve.server(Path(), 0)
    assert bound.server_address[0] == "127.0.0.1"
    bound.server_close()


@pytest.mark.parametrize("host", ["::1", "[::1]"])
def test_an_address_of_ipv6_is_served_and_told_in_brackets(host: str, tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("<p>hello")
    try:
        server, address = serve.server(tmp_path, 0, "/", host)
    except OSError:
        pytest.skip("this computer has no IPv6")
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        assert address == f"http://[::1]:{server.server_address[1]}/"
        assert ask(address, "/")[2] == b"<p>hello"
    finally:
        server.shutdown()
        server.server_close()


@pytest.mark.parametrize("host", ["2001:db8::1", "192.0.2.1", "no.such.host.invalid"])
def test_where_nothing_can_be_served_is_a_sentence(
    host: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sw.js").write_text("")
    monkeypatch.setattr(places, "SITE", tmp_path)
    assert command.main(["serve", "--port", "0", "--host", host]) == 1
    said = capsys.readouterr().err
    assert said.startswith(f"pondapp: nothing can be served at {host}: ")
    assert "Errno" not in said
    assert len(said.splitlines()) == 1
