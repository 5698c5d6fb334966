"""The pondapp command: build the site, serve it on this computer, open it."""

import argparse
import json
import sys
import webbrowser

HOSTING = """To use it on a phone, copy build/site to any static web host that answers over HTTPS
(any folder of it will do), open that address on the phone once, and add it to the home screen.
Loopback addresses work on this computer only."""


def _arguments(words: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="pondapp", description=__doc__, epilog=HOSTING)
    parser.add_argument(
        "verb",
        nargs="?",
        default="open",
        choices=("open", "build", "serve", "schema"),
        help="open: build when the sources changed, serve, open a browser (default); "
        "schema: print the JSON Schema of a backup file",
    )
    parser.add_argument("--port", type=int, default=8000, help="0 takes any free one")
    parser.add_argument("--no-browser", action="store_true", help="only print the address")
    return parser.parse_args(words)


def main(words: list[str] | None = None) -> int:
    """Do what the words say; the result is the exit code."""
    from pondapp.models import backup
    from pondapp.web import places, serve, site  # the browser's copy has no such package

    wanted = _arguments(words)
    if wanted.verb == "schema":
        print(json.dumps(backup.schema(), indent=1))
        return 0

    def announce(address: str) -> None:
        print(f"pondapp is at {address}  (Ctrl+C ends it)\n\n{HOSTING}", flush=True)
        if wanted.verb == "open" and not wanted.no_browser:
            webbrowser.open(address)

    try:
        if wanted.verb == "build" or (wanted.verb == "open" and not site.is_current()):
            print("Building the site ...", flush=True)
            files = site.build(compress=wanted.verb == "build")
            print(f"{len(files)} files in {places.SITE.relative_to(places.ROOT)}")
        if wanted.verb != "build":
            if not (places.SITE / "sw.js").exists():
                raise places.BuildError("nothing is built yet: python -m pondapp build")
            serve.serve_until_interrupted(places.SITE, wanted.port, announce)
    except places.BuildError as problem:
        print(f"pondapp: {problem}", file=sys.stderr)
        return 1
    except OSError as problem:
        print(f"pondapp: {problem}; another --port may help", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
