"""`pondapp check` finds each thing that a host may do wrong, and says what to do about it."""

import gzip
import json
import shutil
import ssl
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from pondapp import __main__ as command
from pondapp.web import hosted, precache, serve

FOLDER = "/pond/"
FILES = {
    "index.html": b"<html><script src=start.js></script>",
    "start.js": b"start()",
    "main.dart.mjs": b"export {}" * 20_000,
    "main.dart.wasm": b"\0asm" * 50_000,
    "pack.bin": b"pack" * 50_000,
    "icons/icon-32.png": b"png",
}
HASHES = {path: precache.sha256(data) for path, data in FILES.items()}
WORKER = f'const VERSION = "1";\nconst FILES = {json.dumps(HASHES)}; // path: sha256\n'.encode()
PAGE = hosted.Answer(200, {"content-type": "text/html"}, FILES["index.html"], 1)
CERTIFICATE = Path(__file__).parent / "loopback.pem"  # and its key, known to everybody


class Host:
    """Answers as it should until a test changes how."""

    def __init__(self) -> None:
        self.files = {**FILES, "sw.js": WORKER}
        self.headers = dict(serve.HEADERS)
        self.types = dict(precache.TYPES)
        self.leads: dict[str, str] = {}
        self.for_nothing = 404
        self.packs: Callable[[str], bool] = lambda accepted: "gzip" in accepted
        self.names_versions = True
        host = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                if self.path in host.leads:
                    self.send_response(302)
                    self.send_header("Location", host.leads[self.path])
                    self.end_headers()
                    return
                inside = self.path.removeprefix(FOLDER) or "index.html"
                there = self.path.startswith(FOLDER) and inside in host.files
                body = host.files[inside if there else "index.html"]
                self.send_response(200 if there else host.for_nothing)
                ending = inside.rpartition(".")[2] if there else "html"
                self.send_header("Content-Type", host.types.get(ending, "application/octet-stream"))
                for name, value in host.headers.items():
                    self.send_header(name, value)
                if host.names_versions:
                    self.send_header("ETag", '"1"')
                if host.packs(self.headers["Accept-Encoding"]):
                    body = gzip.compress(body)
                    self.send_header("Content-Encoding", "gzip")
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - as above
                pass

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}{FOLDER}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()


@pytest.fixture
def host() -> Iterator[Host]:
    made = Host()
    yield made
    made.server.shutdown()
    made.server.server_close()


def test_a_host_that_does_all_right_is_told_so(host: Host) -> None:
    lines, works = hosted.report(host.address)
    assert works
    assert [line for line in lines[:-1] if not line.startswith("right: ")] == []
    assert "right: all 6 files, each as it was built" in lines
    assert lines[-1] == "The app works from there."


def no_wasm(host: Host) -> None:
    host.types["wasm"] = "application/octet-stream"


def modules_as_text(host: Host) -> None:
    host.types["mjs"] = "text/plain"


def page_as_text(host: Host) -> None:
    host.types["html"] = "text/plain"


def worker_as_text(host: Host) -> None:
    host.types["js"] = "text/plain"


def worker_elsewhere(host: Host) -> None:
    host.leads[f"{FOLDER}sw.js"] = "/sw.js"


def no_worker(host: Host) -> None:
    del host.files["sw.js"]


def other_worker(host: Host) -> None:
    host.files["sw.js"] = b"// cleaned up"


def file_missing(host: Host) -> None:
    del host.files["pack.bin"]


def file_changed(host: Host) -> None:
    host.files["index.html"] += b"<script src=counter.js></script>"


def no_evaluation(host: Host) -> None:
    host.headers["Content-Security-Policy"] = "default-src 'self'; style-src 'self' 'unsafe-inline'"


def sandboxed(host: Host) -> None:
    host.headers["Content-Security-Policy"] = f"{precache.POLICY}; sandbox allow-scripts"


def packs_for_all(host: Host) -> None:
    host.packs = bool  # whatever it names


def without_slash(host: Host) -> None:
    host.for_nothing = 200


@pytest.mark.parametrize(
    ("spoil", "said", "to_do"),
    [
        (no_wasm, 'main.dart.wasm comes as "application/octet-stream"', "is application/wasm"),
        (modules_as_text, 'main.dart.mjs comes as "text/plain"', ".mjs is text/javascript"),
        (page_as_text, 'the page comes as "text/plain"', ".html is text/html"),
        (worker_as_text, 'sw.js comes as "text/plain"', ".js is text/javascript"),
        (worker_elsewhere, "sw.js leads on to another address", "at its own address"),
        (no_worker, "sw.js answers with status 404", "Copy all of the built site"),
        (other_worker, "sw.js is not the one that was built", "change no file"),
        (file_missing, "not there: pack.bin", "Copy all of the built site anew"),
        (file_changed, "not as built: index.html", "switch off whatever"),
        (no_evaluation, "forbids what the app needs: script-src lacks 'wasm-unsafe-eval'", "Send:"),
        (sandboxed, "puts the page into a sandbox", "Leave the word sandbox out"),
        (packs_for_all, "is sent packed to who did not ask", "Accept-Encoding"),
        (without_slash, "without its last slash shows the page too", "with a slash at its end"),
    ],
)
def test_what_keeps_the_app_from_working_is_wrong(
    host: Host, spoil: Callable[[Host], None], said: str, to_do: str
) -> None:
    spoil(host)
    found = [one for one in hosted.look(host.address) if one.grade == "wrong"]
    assert any(said in one.what and to_do in one.remedy for one in found), found
    assert all(one.remedy for one in found)
    assert not hosted.report(host.address)[1]


def plain_headers(host: Host) -> None:
    host.headers = {}


def never_packed(host: Host) -> None:
    host.packs = "nothing".__eq__


def kept_for_a_year(host: Host) -> None:
    host.headers["Cache-Control"] = "public, max-age=31536000, immutable"


def without_versions(host: Host) -> None:
    host.names_versions = False


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (plain_headers, "no Content-Security-Policy header"),
        (plain_headers, "no header X-Content-Type-Options, no Referrer-Policy"),
        (never_packed, "1 MB are sent unpacked: main.dart.mjs and 2 more"),
        (kept_for_a_year, "for more than a day without asking"),
        (without_versions, "neither ETag nor Last-Modified"),
    ],
)
def test_what_only_makes_it_slower_or_less_safe_could_be_better(
    host: Host, spoil: Callable[[Host], None], said: str
) -> None:
    spoil(host)
    found = list(hosted.look(host.address))
    assert any(one.grade == "better" and said in one.what and one.remedy for one in found), found
    assert hosted.report(host.address)[1], "the app works all the same"


def test_a_page_for_every_address_could_be_better(host: Host) -> None:
    host.for_nothing = 200
    found = [one.what for one in hosted.look(host.address) if one.grade == "better"]
    assert found == ["the host answers with a page for files that are not there"]


def test_nobody_there_or_somebody_else_is_said(host: Host) -> None:
    lines, works = hosted.report(f"{host.address}none/")
    assert (works, lines[0][-26:]) == (False, "/none/ answers with status 404"[-26:])
    host.files["index.html"] = b"<html>It works!"
    assert "not that of the app" in hosted.report(host.address)[0][0]
    host.server.shutdown()
    host.server.server_close()
    assert "cannot be reached: " in hosted.report(host.address)[0][0]
    assert "cannot be reached: " in hosted.report("no such host.invalid")[0][0]


def test_https_needs_a_certificate_that_is_trusted(
    host: Host, monkeypatch: pytest.MonkeyPatch
) -> None:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(CERTIFICATE)
    host.server.socket = context.wrap_socket(host.server.socket, server_side=True)
    secure = host.address.replace("http:", "https:")
    lines, works = hosted.report(secure)
    assert not works
    assert "its certificate is not one that browsers take: " in lines[0]
    monkeypatch.setenv("SSL_CERT_FILE", str(CERTIFICATE))
    lines, works = hosted.report(secure)
    assert works, lines
    assert lines[0] == "right: HTTPS, with a certificate that browsers take"


def test_http_is_enough_for_this_computer_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hosted, "ask", lambda *_, **__: PAGE)
    (found,) = [one for one in hosted.look("http://example.org/pond/") if "HTTPS" in one.what]
    assert (found.grade, "no HTTPS" in found.what) == ("wrong", True)
    assert "certificate" in found.remedy
    (found,) = [one for one in hosted.look("http://localhost:8000/") if "HTTPS" in one.what]
    assert found.grade == "right"


def test_http_that_leads_on_is_followed(monkeypatch: pytest.MonkeyPatch) -> None:
    on = hosted.Answer(301, {"location": "https://example.org/pond/"}, b"", 0)
    monkeypatch.setattr(
        hosted, "ask", lambda address, **_: PAGE if address.startswith("https:") else on
    )
    first, second, *_ = hosted.look("http://example.org/pond/")
    assert first.what == "http://example.org/pond/ leads on to HTTPS"
    assert second.what.startswith("HTTPS")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("example.org", "https://example.org/"),
        ("example.org/pond", "https://example.org/pond/"),
        ("https://example.org/pond/index.html", "https://example.org/pond/"),
        ("https://example.org/#/measure", "https://example.org/"),
        ("localhost:8000", "http://localhost:8000/"),
        ("127.0.0.1:8000/a", "http://127.0.0.1:8000/a/"),
    ],
)
def test_an_address_is_taken_as_it_is_meant(typed: str, meant: str) -> None:
    assert hosted.folder(typed) == meant


def test_the_command_prints_it_and_its_code_says_whether_it_works(
    host: Host, capsys: pytest.CaptureFixture[str]
) -> None:
    assert command.main(["check", host.address]) == 0
    assert "The app works from there." in capsys.readouterr().out
    no_wasm(host)
    assert command.main(["check", host.address]) == 1
    assert "WRONG: main.dart.wasm" in capsys.readouterr().out
    for words in (["check"], ["serve", host.address]):
        with pytest.raises(SystemExit):
            command.main(words)
        assert "takes an address" in capsys.readouterr().err


@pytest.mark.parametrize("typed", ["https://[::1", "file:///etc/", "ftp://example.org/", "ht tp:/"])
def test_what_is_no_address_of_the_web_is_said_to_be_none(typed: str) -> None:
    (found,) = hosted.look(typed)
    assert (found.grade, "cannot be reached: " in found.what) == ("wrong", True)


def test_a_page_that_leads_to_what_is_no_address_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    on = hosted.Answer(301, {"location": "https://[oops"}, b"", 0)
    ask = hosted.ask
    monkeypatch.setattr(
        hosted, "ask", lambda address, **_: on if "example" in address else ask(address)
    )
    assert "cannot be reached: " in list(hosted.look("http://example.org/"))[-1].what


@pytest.mark.parametrize("port", ["-1", "65536"])
def test_a_port_that_there_is_none_of_is_said(
    port: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit):
        command.main(["serve", "--port", port])
    assert f"a number from 0 to 65535, not {port}" in capsys.readouterr().err


def test_the_schema_says_what_it_needs(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command.util, "find_spec", lambda _: None)
    assert command.main(["schema"]) == 1
    assert "pip install pydantic" in capsys.readouterr().err


def test_a_terminal_without_the_letters_of_a_folder_gets_the_address(tmp_path: Path) -> None:
    shutil.copytree(Path(command.__file__).parent / "web", tmp_path / "Öfen" / "pondapp" / "web")
    for name in ("__init__.py", "__main__.py"):
        shutil.copy(Path(command.__file__).with_name(name), tmp_path / "Öfen" / "pondapp" / name)
    done = subprocess.run(
        [sys.executable, "-m", "pondapp", "--help"], cwd=tmp_path / "Öfen",
        env={"PYTHONIOENCODING": "ascii"}, capture_output=True, text=True,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert "\\xd6fen" in done.stdout
