"""Asks a host for the site as a browser does, and says in sentences what is right and what is not.

Only what the site itself names is asked for: the page, its list of files, and each of those once.
"""

import http.client
import re
import ssl
import zlib
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from json import loads
from typing import Literal
from urllib import error, request
from urllib.parse import urlsplit

from pondapp.web.precache import POLICY, TYPES, sha256
from pondapp.web.serve import HEADERS

Grade = Literal["right", "better", "wrong"]

PATIENCE = 30  # seconds for one answer
AT_ONCE = 4  # as the service worker asks
LONG_KEPT = 86_400  # seconds; browsers themselves keep no list of files longer
WORTH_PACKING = 100_000  # bytes
LOOPBACK = re.compile(r"^(localhost|127(\.\d+){3}|\[::1\])$")
FILES = re.compile(r"\bFILES = (\{[^{}]*\});")
# Browsers refuse a program or a page of another type. WebAssembly starts a second sooner by it.
SCRIPTS = ("js", "mjs")
NEEDED = {**{ending: TYPES[ending] for ending in SCRIPTS}, "wasm": TYPES["wasm"]}
SCRIPT_TYPES = ("text/javascript", "application/javascript", "application/x-javascript")
# Where a policy has no directive of its own, another one stands in.
STANDS_IN = {"worker-src": "script-src"}
# What the page has no need of, but a good host sends.
SAFER = ("X-Content-Type-Options", "Referrer-Policy", "Cross-Origin-Opener-Policy")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was looked at.

    Attributes:
        grade: Whether it is right, could be better, or keeps the app from working.
        what: What was seen, as a sentence.
        remedy: What to do about it.
    """

    grade: Grade
    what: str
    remedy: str = ""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a host sent; `status` is 0 when it sent nothing, and `body` then says why."""

    status: int
    headers: Mapping[str, str]
    body: bytes
    sent: int

    def header(self, name: str) -> str:
        """A header of the answer, or nothing."""
        return self.headers.get(name.lower(), "")

    @property
    def kind(self) -> str:
        """The type of what was sent, without its character set."""
        return self.header("Content-Type").partition(";")[0].strip().lower()


class _Stay(request.HTTPRedirectHandler):
    """A redirect is an answer like any other."""

    def redirect_request(self, *args: object) -> None:
        """Go nowhere."""


def _unpacked(body: bytes, encoding: str) -> bytes:
    if encoding != "gzip":
        return body
    try:
        return zlib.decompress(body, zlib.MAX_WBITS | 16)
    except zlib.error:
        return body


def ask(address: str, accept: str = "gzip") -> Answer:
    """The answer to one request, unpacked."""
    opener = request.build_opener(_Stay)
    told = {"Accept-Encoding": accept, "User-Agent": "pondapp"}
    try:
        if not address.startswith(("http://", "https://")):
            raise ValueError("it is no address of the web, which begins with https://")
        try:
            got = opener.open(request.Request(address, headers=told), timeout=PATIENCE)
        except error.HTTPError as refused:
            got = refused
        with got:
            body = got.read()
            headers = {name.lower(): value for name, value in got.headers.items()}
            status = int(got.status)
    except (OSError, http.client.HTTPException, ValueError) as problem:
        return Answer(0, {}, _why(problem).encode(), 0)
    return Answer(status, headers, _unpacked(body, headers.get("content-encoding", "")), len(body))


def _why(problem: Exception) -> str:
    reason = problem.reason if isinstance(problem, error.URLError) else problem
    if isinstance(reason, ssl.SSLCertVerificationError):
        return f"its certificate is not one that browsers take: {reason.verify_message}"
    if isinstance(reason, TimeoutError):
        return f"it does not answer within {PATIENCE} seconds"
    return str(reason) or type(reason).__name__


def folder(typed: str) -> str:
    """The address of the folder that somebody means: with a scheme, and a slash at its end."""
    if "://" not in typed:
        host = re.split(r"[/:]", typed)[0]
        typed = f"{'http' if LOOPBACK.match(host) else 'https'}://{typed}"
    plain = re.split(r"[?#]", typed)[0].removesuffix("index.html")
    return plain if plain.endswith("/") else f"{plain}/"


def look(typed: str) -> Iterator[Finding]:
    """Look at everything, one finding after the other; the first that stops all is the last."""
    address = folder(typed)
    page = ask(address)
    if 300 <= page.status < 400 and page.header("Location").startswith("https://"):
        yield Finding("right", f"{address} leads on to HTTPS")
        address = folder(page.header("Location"))
        page = ask(address)
    if page.status != 200 or b"start.js" not in page.body:
        yield _not_there(address, page)
        return
    yield _secure(address)
    yield from _slash(address)
    if page.kind != "text/html":
        yield Finding(
            "wrong",
            f'the page comes as "{page.kind}", so browsers show its text',
            "Tell the server that .html is text/html.",
        )
    yield from _policy(page)
    yield from _safer(page)
    worker = ask(f"{address}sw.js")
    yield from _offline(worker)
    listed = FILES.search(worker.body.decode(errors="replace"))
    if worker.status != 200 or listed is None:
        return
    hashes: dict[str, str] = loads(listed[1])
    with ThreadPoolExecutor(AT_ONCE) as several:
        answers = dict(
            zip(hashes, several.map(lambda path: ask(f"{address}{path}"), hashes), strict=True)
        )
    yield from _whole(hashes, answers)
    there = {path: answer for path, answer in answers.items() if answer.status == 200}
    yield from _types(there)
    yield from _packing(address, there)
    yield from _kept({"index.html": page, "sw.js": worker, **there})
    yield from _nothing(address)


def _not_there(address: str, page: Answer) -> Finding:
    if page.status == 0:
        return Finding(
            "wrong",
            f"{address} cannot be reached: {page.body.decode()}",
            "See whether the address is right and the server runs.",
        )
    if page.status == 200:
        return Finding(
            "wrong",
            f"at {address} is a page, but not that of the app",
            "Copy all of the built site into that folder, or give the address of its folder.",
        )
    return Finding(
        "wrong",
        f"{address} answers with status {page.status}",
        "Copy all of the built site into that folder, and let a folder answer with its index.html.",
    )


def _secure(address: str) -> Finding:
    parts = urlsplit(address)
    if parts.scheme == "https":
        return Finding("right", "HTTPS, with a certificate that browsers take")
    if LOOPBACK.match(parts.netloc.rpartition(":")[0] or parts.netloc):
        return Finding(
            "right", "without HTTPS, which is enough on this computer, but not for a phone"
        )
    return Finding(
        "wrong",
        "no HTTPS: browsers neither install the app from there nor let it work offline",
        "Get a certificate for the host, and let http addresses lead on to https.",
    )


def _slash(address: str) -> Iterator[Finding]:
    if urlsplit(address).path == "/":
        return
    bare = ask(address.removesuffix("/"))
    if bare.status == 200:
        yield Finding(
            "wrong",
            "the address without its last slash shows the page too, which finds no file from there",
            "Let the address of a folder lead on to the one with a slash at its end.",
        )


def _sources(policy: str) -> dict[str, set[str]]:
    """The directives of a policy, by name."""
    words = [part.split() for part in policy.lower().split(";") if part.strip()]
    return {name: set(allowed) for name, *allowed in words}


def _policy(page: Answer) -> Iterator[Finding]:
    sent = page.header("Content-Security-Policy")
    if not sent:
        yield Finding(
            "better",
            "no Content-Security-Policy header; the page has a policy of its own, which cannot "
            "keep other sites from framing it",
            f"Send: Content-Security-Policy: {HEADERS['Content-Security-Policy']}",
        )
        return
    theirs = _sources(sent)
    for name, wanted in _sources(POLICY).items():
        stand_in = theirs.get(STANDS_IN.get(name, ""), theirs.get("default-src"))
        allowed = theirs.get(name, stand_in if name.endswith("-src") else None)
        if allowed is None or "*" in allowed or wanted == {"'none'"}:
            continue
        lacking = wanted - allowed
        if "'unsafe-eval'" in allowed:
            lacking -= {"'wasm-unsafe-eval'"}
        if lacking:
            yield Finding(
                "wrong",
                f"the host's Content-Security-Policy forbids what the app needs: {name} lacks "
                f"{' '.join(sorted(lacking))}",
                f"Send: Content-Security-Policy: {HEADERS['Content-Security-Policy']}",
            )
            return
    if "sandbox" in theirs:
        yield Finding(
            "wrong",
            "the host's Content-Security-Policy puts the page into a sandbox",
            "Leave the word sandbox out of it.",
        )
        return
    yield Finding("right", "a Content-Security-Policy that lets the app work")


def _safer(page: Answer) -> Iterator[Finding]:
    lacking = [name for name in SAFER if not page.header(name)]
    if lacking:
        sent = "; ".join(f"{name}: {HEADERS[name]}" for name in lacking)
        yield Finding("better", f"no header {', no '.join(lacking)}", f"Send: {sent}")
    else:
        yield Finding("right", "the headers that keep other sites out")


def _offline(worker: Answer) -> Iterator[Finding]:
    """The scope: a service worker looks after the folder that it lies in, redirected nowhere."""
    if 300 <= worker.status < 400:
        yield Finding(
            "wrong",
            "sw.js leads on to another address, and browsers take no service worker from there",
            "Let sw.js be answered at its own address.",
        )
    elif worker.status != 200:
        yield Finding(
            "wrong",
            f"sw.js answers with status {worker.status}: the app cannot work offline",
            "Copy all of the built site, sw.js too, into one folder.",
        )
    elif FILES.search(worker.body.decode(errors="replace")) is None:
        yield Finding(
            "wrong",
            "sw.js is not the one that was built",
            "Copy the built site anew, and let the host change no file of it.",
        )
    elif worker.kind not in SCRIPT_TYPES:
        yield Finding(
            "wrong",
            f'sw.js comes as "{worker.kind}", which browsers take for no program: nothing is kept',
            "Tell the server that .js is text/javascript.",
        )
    else:
        yield Finding("right", "a service worker whose scope is the whole folder")


def _named(paths: Iterable[str]) -> str:
    listed = sorted(paths)
    return listed[0] if len(listed) == 1 else f"{listed[0]} and {len(listed) - 1} more"


def _whole(hashes: Mapping[str, str], answers: Mapping[str, Answer]) -> Iterator[Finding]:
    missing = [path for path, answer in answers.items() if answer.status != 200]
    changed = [
        path
        for path, answer in answers.items()
        if answer.status == 200 and sha256(answer.body) != hashes[path]
    ]
    if missing:
        yield Finding(
            "wrong",
            f"not there: {_named(missing)}",
            "Copy all of the built site anew: all files, at once.",
        )
    if changed:
        yield Finding(
            "wrong",
            f"not as built: {_named(changed)}",
            "Copy the site anew; if that does not help, the host or a proxy changes files: switch "
            "off whatever makes pages smaller, adds to them or rewrites them.",
        )
    if not missing and not changed:
        yield Finding("right", f"all {len(answers)} files, each as it was built")


def _types(answers: Mapping[str, Answer]) -> Iterator[Finding]:
    by_kind: dict[tuple[str, str], list[str]] = {}
    for path, answer in answers.items():
        ending = path.rpartition(".")[2]
        fits = SCRIPT_TYPES if ending in SCRIPTS else (NEEDED.get(ending),)
        if ending in NEEDED and answer.kind not in fits:
            by_kind.setdefault((ending, answer.kind), []).append(path)
    for (ending, kind), paths in sorted(by_kind.items()):
        wanted = NEEDED[ending].partition(";")[0]
        yield Finding(
            "wrong",
            f'{_named(paths)} comes as "{kind}", where browsers ask for {wanted}',
            f"Tell the server that .{ending} is {wanted}.",
        )
    if not by_kind:
        yield Finding("right", "the types of programs and of WebAssembly")


def _packing(address: str, answers: Mapping[str, Answer]) -> Iterator[Finding]:
    large = {
        path: answer
        for path, answer in answers.items()
        if len(answer.body) > WORTH_PACKING and path.rpartition(".")[2] in {*NEEDED, "bin", "zip"}
    }
    if not large:
        return
    smallest = min(large, key=lambda path: len(large[path].body))
    plain = ask(f"{address}{smallest}", accept="identity")
    if plain.header("Content-Encoding") not in ("", "identity"):
        yield Finding(
            "wrong",
            f"{smallest} is sent packed to who did not ask for that",
            "Send a packed twin only to who names its packing in Accept-Encoding.",
        )
        return
    best = ask(f"{address}{smallest}", accept="br").header("Content-Encoding") == "br"
    loose = [path for path, answer in large.items() if answer.sent >= len(answer.body)]
    if loose and not best:
        size = sum(len(large[path].body) for path in loose) / 1e6
        yield Finding(
            "better",
            f"{size:.0f} MB are sent unpacked: {_named(loose)}",
            "Let the server send the .br or .gz twin of a file, or pack .js, .mjs, .wasm, .bin and "
            ".zip itself; a first visit is then three to four times as quick.",
        )
    else:
        yield Finding("right", f"files are sent packed{' in the best way' if best else ''}")


def _kept(answers: Mapping[str, Answer]) -> Iterator[Finding]:
    long_kept, unnamed = [], []
    for path, answer in answers.items():
        control = answer.header("Cache-Control").lower()
        age = re.search(r"(?<![\w-])max-age=(\d+)", control)
        if "immutable" in control or (age and int(age[1]) > LONG_KEPT):
            long_kept.append(path)
        if not (answer.header("ETag") or answer.header("Last-Modified")):
            unnamed.append(path)
    if long_kept:
        yield Finding(
            "better",
            f"browsers are told to keep {_named(long_kept)} for more than a day without asking: "
            "a new version may come late",
            "Send: Cache-Control: no-cache",
        )
    if unnamed:
        yield Finding(
            "better",
            f"{_named(unnamed)} has neither ETag nor Last-Modified, so it is sent whole each time",
            "Let the server send an ETag.",
        )
    if not long_kept and not unnamed:
        yield Finding("right", "files are kept, and asked for anew")


def _nothing(address: str) -> Iterator[Finding]:
    none = ask(f"{address}there-is-no-such-file")
    if none.status == 200:
        yield Finding(
            "better",
            "the host answers with a page for files that are not there",
            "Let it answer with status 404; the app has no addresses but that of its folder.",
        )


SAID: dict[Grade, str] = {"right": "right", "better": "could be better", "wrong": "WRONG"}


def report(typed: str) -> tuple[list[str], bool]:
    """The findings as lines to read, and whether the app works from there."""
    findings = list(look(typed))
    lines = []
    for one in findings:
        lines.append(f"{SAID[one.grade]}: {one.what}")
        if one.remedy:
            lines.append(f"    {one.remedy}")
    works = all(one.grade != "wrong" for one in findings)
    lines.append(
        "The app works from there." if works else "The app does not work from there as it should."
    )
    return lines, works
