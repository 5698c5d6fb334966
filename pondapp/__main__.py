"""The pondapp command: serve the app on this computer, open it, and put it on a host."""

import argparse
import errno
import json
import sys
import webbrowser
from importlib import util
from io import TextIOWrapper

from pondapp.web import hosted, places, serve, stamp  # the browser's copy has no such package

HOSTING = f"""To use it on a phone, copy {places.SITE}
to any static web host that answers over HTTPS (any folder of it will do), open that address on the
phone once, and add it to the home screen. Loopback addresses work on this computer only."""

MOST_PORTS = 65_535

FOR_BUILDING = ("brotli", "fontTools", "flet_web", "pydantic")


def _arguments(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="pondapp",
        description=__doc__,
        epilog=HOSTING,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument(
        "verb",
        nargs="?",
        default="open",
        choices=("open", "build", "serve", "check", "schema"),
        help="open: serve and open a browser (default); serve: only serve; "
        "build: make the site from the sources; check ADDRESS: tell whether a host serves the site "
        "right, and what to do if not; schema: print the JSON Schema of a backup file",
    )
    parser.add_argument("address", nargs="?", default="", help="of the site on a host, for check")
    parser.add_argument("--port", type=int, default=8000, help="0 takes any free one")
    parser.add_argument(
        "--host", default=serve.LOOPBACK, help="behind a proxy that adds HTTPS: 0.0.0.0"
    )
    parser.add_argument(
        "--path", default="/", help="behind a proxy that passes a folder on: /that/folder/"
    )
    parser.add_argument("--no-browser", action="store_true", help="only print the address")
    found = parser.parse_args(words)
    if bool(found.address) != (found.verb == "check"):
        parser.error("check, and nothing else, takes an address: pondapp check https://…/")
    if not 0 <= found.port <= MOST_PORTS:
        parser.error(f"--port takes a number from 0 to {MOST_PORTS}, not {found.port}")
    found.path = f"/{found.path.strip('/')}/".replace("//", "/")
    return found


def _build(compress: bool) -> None:
    if places.SITE != places.BUILT:
        raise places.BuildError(f"the site came with this package, built: {places.SITE}")
    if missing := [name for name in FOR_BUILDING if util.find_spec(name) is None]:
        raise places.BuildError(f"building needs {missing[0].lower()}: pip install -e .[build]")
    from pondapp.web import site  # only here: serving needs the standard library alone

    print("Building the site ...", flush=True)
    files = site.build(compress)
    print(f"{len(files)} files in {places.SITE}")


def _serve(host: str, port: int, path: str, browser: bool) -> None:
    def announce(address: str) -> None:
        print(f"pondapp is at {address}  (Ctrl+C ends it)\n\n{HOSTING}", flush=True)
        if browser:
            webbrowser.open(address)

    if not (places.SITE / "sw.js").exists():
        raise places.BuildError("nothing is built yet: python -m pondapp build")
    try:
        serve.serve_until_interrupted(places.SITE, port, announce, path, host)
    except OSError as problem:
        if problem.errno != errno.EADDRINUSE:
            why = problem.strerror or problem
            raise places.BuildError(f"nothing can be served at {host}: {why}") from problem
        raise places.BuildError(
            f"port {port} is in use, perhaps by the app itself; --port {port + 1} takes another, "
            "where a browser has nothing of what it saved here"
        ) from problem


def main(words: list[str] | None = None) -> int:
    """Do what the words say; the result is the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a folder's name may have what a terminal has not
            stream.reconfigure(errors="backslashreplace")
    wanted = _arguments(words)
    try:
        if wanted.verb == "schema":
            if util.find_spec("pydantic") is None:
                raise places.BuildError("the schema needs pydantic: pip install pydantic")
            from pondapp.models import backup  # only here: it is slow to come

            print(json.dumps(backup.schema(), indent=1))
        elif wanted.verb == "check":
            lines, works = hosted.report(wanted.address)
            print("\n".join(lines))
            return 0 if works else 1
        elif wanted.verb == "build":
            _build(compress=True)
        else:
            if wanted.verb == "open" and places.SITE == places.BUILT and not stamp.is_current():
                _build(compress=False)
            browser = wanted.verb == "open" and not wanted.no_browser
            _serve(wanted.host, wanted.port, wanted.path, browser)
    except (places.BuildError, OSError) as problem:
        print(f"pondapp: {problem}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
