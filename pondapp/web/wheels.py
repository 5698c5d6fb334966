"""Fetch the wheels that the lock names, and accept no other bytes."""

import hashlib
import re
import subprocess
import sys
from pathlib import Path

from pondapp.web.places import BuildError

# The browser's Python, as wheel names spell it.
TARGET = (
    "--platform",
    "pyemscripten_2026_0_wasm32",
    "--python-version",
    "3.14",
    "--implementation",
    "cp",
    "--abi",
    "cp314",
)
LINE = re.compile(r"(?P<name>[a-z0-9-]+)==(?P<version>\S+) --hash=sha256:(?P<hash>[0-9a-f]{64})")


def locked(lock: Path) -> dict[str, tuple[str, str]]:
    """Version and sha256 of each package of the lock."""
    found = {}
    for line in lock.read_text(encoding="utf-8").splitlines():
        if not line or line.startswith("#"):
            continue
        match = LINE.fullmatch(line)
        if match is None:
            raise BuildError(f"{lock.name}: not a name, version and hash: {line!r}")
        found[match["name"]] = (match["version"], match["hash"])
    return found


def _present(folder: Path, wanted: set[str]) -> dict[str, Path]:
    """Wheels of the folder whose bytes are wanted, by hash."""
    hashes = {hashlib.sha256(path.read_bytes()).hexdigest(): path for path in folder.glob("*.whl")}
    return {digest: path for digest, path in hashes.items() if digest in wanted}


def fetch(lock: Path, folder: Path) -> list[Path]:
    """All wheels of the lock, from the folder if they are there and through pip if not."""
    wanted = {digest for _, digest in locked(lock).values()}
    folder.mkdir(parents=True, exist_ok=True)
    present = _present(folder, wanted)
    if present.keys() != wanted:
        command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps"]
        command += ["--require-hashes", "--only-binary", ":all:", *TARGET]
        command += ["--dest", str(folder), "--requirement", str(lock)]
        if subprocess.run(command, check=False).returncode:
            raise BuildError("the browser's packages could not be fetched: is there a network?")
        present = _present(folder, wanted)
    if present.keys() != wanted:
        raise BuildError(f"some wheels of {lock.name} are missing after the download")
    return sorted(present.values(), key=lambda path: path.name)
