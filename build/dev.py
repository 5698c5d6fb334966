"""Set up and run pondapp from a fresh clone, with nothing but Python 3.11+.

python3 build/dev.py open [args]   build, serve and open the app: installs only what that needs
python3 build/dev.py test          style, types, imports, unit and browser tests
python3 build/dev.py release       wheel, site archive, bill of materials and checksums
python3 build/dev.py words         bring the catalogues up to the texts of the sources
"""

import sys

# Before all else: an older Python has not even what is imported below.
if sys.version_info < (3, 11):  # noqa: UP036
    sys.exit(f"pondapp needs Python 3.11 or newer; this is {sys.version.split()[0]}")

import hashlib
import os
import re
import shutil
import subprocess
import time
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
LOCK = ROOT / "build" / "site-requirements.txt"
# Of what the lock names, what building needs on this computer too; none of them asks for more.
FOR_BUILDING = (
    "annotated-types", "pydantic", "pydantic-core", "typing-extensions", "typing-inspection",
)  # fmt: skip
FETCH = "from pondapp.web import places, wheels; wheels.fetch(places.LOCK, places.CACHE / 'wheels')"
SCRIPTS = {"words": "build/catalogue.py", "release": "build/release.py"}
# A browser test waits as much as it works; with more than two the phones of a test get too slow.
TWO_AT_ONCE = ("-n", "2", "--dist", "worksteal")
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
# The other engines of phones: a program of each, and the package of Debian that has it.
ENGINES = {"firefox-esr": "firefox-esr", "WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb"}


def run(*command: str | Path, **options: object) -> bool:
    """Run a command in the project's folder and say whether it went well."""
    print("$", *command, flush=True)
    return subprocess.run([str(part) for part in command], cwd=ROOT, **options).returncode == 0


def apt_install(*packages: str) -> bool:
    """Install Debian packages where this user may; False where not."""
    if not shutil.which("apt-get") or not hasattr(os, "geteuid"):
        return False
    sudo = [] if os.geteuid() == 0 else ["sudo", "-n"]
    if sudo and not shutil.which("sudo"):
        return False
    run(*sudo, "apt-get", "update", "-qq")
    return run(*sudo, "apt-get", "install", "-y", "-qq", *packages, stdout=subprocess.DEVNULL)


def make_venv() -> None:
    """Make .venv; on a Debian without python3-venv, install that or borrow the system's pip."""
    if PYTHON.exists() and run(PYTHON, "-m", "pip", "--version", stdout=subprocess.DEVNULL):
        return
    if run(sys.executable, "-m", "venv", "--clear", VENV):
        return
    version = f"{sys.version_info.major}.{sys.version_info.minor}"
    apt_install(f"python{version}-venv")
    if run(sys.executable, "-m", "venv", "--clear", VENV):
        return
    if run(sys.executable, "-m", "venv", "--clear", "--without-pip", VENV) and run(
        sys.executable, "-m", "pip", "--python", PYTHON, "install", "-q", "pip"
    ):
        return
    sys.exit("No virtual environment could be made. On Debian: sudo apt install python3-venv")


def is_done(what: str) -> bool:
    """Whether this was installed for the present state of the project's files."""
    stamp = VENV / f"installed-for-{what}"
    return stamp.exists() and stamp.read_text() == wanted()


def note_done(what: str) -> None:
    """Note what was installed for the present state of the project's files."""
    (VENV / f"installed-for-{what}").write_text(wanted())


def wanted() -> str:
    """Hash of the files that say what is to be installed."""
    return hashlib.sha256((ROOT / "pyproject.toml").read_bytes() + LOCK.read_bytes()).hexdigest()


def requirements() -> list[str]:
    """What building and serving need, complete: nobody has to look for what these need in turn."""
    locked = re.findall(r"^([a-z-]+)(==\S+)", LOCK.read_text(encoding="utf-8"), re.MULTILINE)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    mine = [f"{name}{version}" for name, version in locked if name in FOR_BUILDING]
    return [*project["optional-dependencies"]["build"], *mine]


def install_for_opening() -> None:
    """Install what builds the site, and fetch beside it what goes into the site."""
    if is_done("opening") or is_done("tests"):
        return
    started = time.monotonic()

    def tell(step: int, doing: str) -> None:
        print(f"{step} of 3, {time.monotonic() - started:3.0f} s: {doing}", flush=True)

    tell(1, "a private environment, .venv")
    make_venv()
    needed = requirements()
    tell(2, f"{len(needed)} packages that build the app, and those that go into it")
    fetching = subprocess.Popen([PYTHON, "-c", FETCH], cwd=ROOT)
    quick = ("--no-deps", "--no-compile")  # and not quiet: it shows how far each download is
    if not run(PYTHON, "-m", "pip", "install", *quick, *needed) or fetching.wait():
        fetching.kill()
        sys.exit("The packages could not be installed: is there a network?")
    tell(3, "the app itself, half a minute the first time")
    note_done("opening")


def install_for_tests() -> None:
    """Install pondapp and its tools into .venv, once for each state of the project's files."""
    make_venv()
    if is_done("tests"):
        return
    if not run(PYTHON, "-m", "pip", "install", "-q", "-e", ".[build,release,test]"):
        sys.exit("The packages could not be installed: is there a network?")
    note_done("tests")


def find_browser() -> None:
    """Install the browsers of the tests that are not there; they say what to do if that fails."""
    if not any(shutil.which(name) for name in BROWSERS) and not apt_install("chromium"):
        run(PYTHON, "-m", "playwright", "install", "chromium")
    lacking = [package for name, package in ENGINES.items() if not shutil.which(name)]
    if lacking:
        apt_install(*lacking)


def test() -> int:
    """Everything that must pass before a commit is main."""
    find_browser()
    if not run(PYTHON, "-c", FETCH):  # once, before two processes want it
        sys.exit("The packages of the app could not be fetched: is there a network?")
    checks = (
        ("-m", "ruff", "check", "."),
        ("-m", "ruff", "format", "--check", "."),
        ("-m", "mypy"),
        ("-c", "from importlinter.cli import lint_imports_command as c; c()"),
        ("-m", "pytest", "-q", *TWO_AT_ONCE),
    )
    failed = [check for check in checks if not run(PYTHON, *check)]
    for check in failed:
        print("FAILED:", *check)
    return len(failed)


def main() -> int:
    """Do what the first argument says."""
    verb, rest = (sys.argv[1:2] or ["help"])[0], sys.argv[2:]
    if verb not in ("open", "test", "release", "words"):
        print(__doc__)
        return 2
    if verb == "open":
        install_for_opening()
        return 0 if run(PYTHON, "-m", "pondapp", *rest) else 1
    install_for_tests()
    if verb in SCRIPTS:
        return 0 if run(PYTHON, SCRIPTS[verb]) else 1
    return test()


if __name__ == "__main__":
    sys.exit(main())
