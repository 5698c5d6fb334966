"""Set up and run pondapp from a fresh clone, with nothing but Python 3.11+.

python3 build/dev.py open [args]   build, serve and open the app
python3 build/dev.py test          style, types, imports, unit and browser tests
python3 build/dev.py words         bring the catalogues up to the texts of the sources
"""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")


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


def install() -> None:
    """Install pondapp and its test tools into .venv, once for each state of pyproject.toml."""
    make_venv()
    wanted = hashlib.sha256((ROOT / "pyproject.toml").read_bytes()).hexdigest()
    stamp = VENV / "installed-for"
    if stamp.exists() and stamp.read_text() == wanted:
        return
    if not run(PYTHON, "-m", "pip", "install", "-q", "-e", ".[test]"):
        sys.exit("The packages could not be installed: is there a network?")
    stamp.write_text(wanted)


def find_browser() -> None:
    """Install a browser for the tests when there is none; they say what to do if that fails."""
    if any(shutil.which(name) for name in BROWSERS):
        return
    if not apt_install("chromium"):
        run(PYTHON, "-m", "playwright", "install", "chromium")


def test() -> int:
    """Everything that must pass before a commit is main."""
    find_browser()
    checks = (
        ("-m", "ruff", "check", "."),
        ("-m", "ruff", "format", "--check", "."),
        ("-m", "mypy"),
        ("-c", "from importlinter.cli import lint_imports_command as c; c()"),
        ("-m", "pytest", "-q"),
    )
    failed = [check for check in checks if not run(PYTHON, *check)]
    for check in failed:
        print("FAILED:", *check)
    return len(failed)


def main() -> int:
    """Do what the first argument says."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this file runs before anything is checked
        sys.exit(f"pondapp needs Python 3.11 or newer; this is {sys.version.split()[0]}")
    verb, rest = (sys.argv[1:2] or ["help"])[0], sys.argv[2:]
    if verb not in ("open", "test", "words"):
        print(__doc__)
        return 2
    install()
    if verb == "test":
        return test()
    if verb == "words":
        return 0 if run(PYTHON, "build/catalogue.py") else 1
    return 0 if run(PYTHON, "-m", "pondapp", *rest) else 1


if __name__ == "__main__":
    sys.exit(main())
