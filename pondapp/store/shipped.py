"""What ships to the browser beside the app's own code, under which licence, and its text."""

import sys
from dataclasses import dataclass
from importlib import util
from pathlib import Path

from pondapp.store.browser.page import address, file_of_site
from pondapp.store.key_value_store import StoreError

VERSION = "0.1.0"
LICENCES = Path(__file__).parent.parent / "licences"
NOTICES = "assets/NOTICES"
RULE = "-" * 80  # between two notices of the client


@dataclass(frozen=True, slots=True)
class Shipped:
    """A part of what ships."""

    name: str
    version: str
    licence: str
    file: str = ""
    """Its text among our own, where the part brings none."""

    @property
    def key(self) -> str:
        """The name as an address holds it."""
        return self.name.lower().replace(" ", "-")


CLIENT = Shipped("Flet web client", "1.0.5", "Apache-2.0, BSD-3-Clause, MIT and others")

SHIPPED = (
    Shipped("pondapp", VERSION, "MIT", "mit.txt"),
    CLIENT,
    Shipped("Pyodide", "2026_0", "MPL-2.0", "mpl-2.0.txt"),
    Shipped("CPython", "3.14.2", "PSF-2.0", "psf-2.0.txt"),
    Shipped("annotated-types", "0.8.0", "MIT"),
    Shipped("flet", "1.0.5", "Apache-2.0", "apache-2.0.txt"),
    Shipped("flexcache", "0.3", "BSD-3-Clause"),
    Shipped("flexparser", "0.4", "BSD-3-Clause"),
    Shipped("msgpack", "1.2.4", "Apache-2.0", "apache-2.0.txt"),
    Shipped("pint", "0.25.3", "BSD-3-Clause"),
    Shipped("platformdirs", "4.14.8", "MIT"),
    Shipped("pydantic", "2.14.4", "MIT"),
    Shipped("pydantic-core", "2.50.5", "MIT"),
    Shipped("repath", "0.9.0", "MIT"),
    Shipped("segno", "1.6.6", "BSD-3-Clause"),
    Shipped("six", "1.17.0", "MIT"),
    Shipped("typing-extensions", "4.16.0", "PSF-2.0"),
    Shipped("typing-inspection", "0.4.5", "MIT"),
)


def _beside_package(part: Shipped) -> str:
    """The text that a package brings with it; on a desktop it may be of another version."""
    stem = part.name.replace("-", "_")
    for folder in filter(None, sys.path):
        for path in sorted(Path(folder).glob(f"{stem}-*.dist-info/**/LICEN[CS]E*")):
            return path.read_text(encoding="utf-8")
    raise StoreError("the licence of {name} is not on this device", name=part.name)


async def _notices() -> str:
    """The client's own file of notices: kept by the browser, beside the client on a desktop."""
    if address():
        found = await file_of_site(NOTICES)
        if found is None:
            raise StoreError("the licence of {name} is not on this device", name=CLIENT.name)
        return found
    spec = util.find_spec("flet_web")
    if spec is None or spec.origin is None:
        raise StoreError("the licence of {name} is not on this device", name=CLIENT.name)
    return (Path(spec.origin).parent / "web" / NOTICES).read_text(encoding="utf-8")


async def texts_of(part: Shipped) -> tuple[tuple[str, str], ...]:
    """The licence texts of a part: what each covers, and the text.

    Raises:
        StoreError: A text is not on this device.
    """
    if part == CLIENT:
        return notices(await _notices())
    if part.file:
        text = (LICENCES / part.file).read_text(encoding="utf-8")
    else:
        text = _beside_package(part)
    return ((part.name, text),)


def notices(text: str) -> tuple[tuple[str, str], ...]:
    """The notices of the client: names of the parts that each covers, and its text."""
    found = []
    for notice in text.split(f"\n{RULE}\n"):
        names, _, words = notice.strip().partition("\n\n")
        found.append((", ".join(names.split("\n")), words))
    return tuple(found)
