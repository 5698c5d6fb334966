"""What the built site was made from, to know whether it is of the present sources.

Needs the standard library alone: who makes the wheel asks it before anything is installed.
"""

import hashlib

from pondapp.web import places


def sources() -> str:
    """Hash of all that the site is made from; the lock names the version of the client too."""
    digest = hashlib.sha256()
    parts = [places.LOCK, *places.PACKAGE.rglob("*.py"), *places.ICONS.glob("*.png")]
    parts += places.SCREENSHOTS.glob("*.png")
    parts += (places.PACKAGE / "licences").glob("*.txt")
    parts += (places.PACKAGE / "words").glob("*.po")
    parts += [path for path in places.TEMPLATES.iterdir() if path.is_file()]
    for path in sorted(parts):
        digest.update(f"{path.relative_to(places.ROOT).as_posix()}\0".encode())
        digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()


def put(made_of: str) -> None:
    """Note what the site was built from: `sources()` as they were when the build began."""
    places.CACHE.mkdir(parents=True, exist_ok=True)
    (places.CACHE / "built-from").write_text(made_of)


def is_current() -> bool:
    """Whether the built site is of the present sources."""
    noted = places.CACHE / "built-from"
    return (places.SITE / "sw.js").exists() and noted.exists() and noted.read_text() == sources()
