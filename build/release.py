"""Make a release: the wheel, the site as an archive, the list of what is in it, and checksums.

The same sources give the same bytes each time: what is dated bears SOURCE_DATE_EPOCH, or else the
time of the last commit. Needs the extras `build` and `release`, which build/dev.py installs.
"""

import hashlib
import os
import subprocess
import sys
import tomllib
import zipfile
from datetime import UTC, datetime
from pathlib import Path
from uuid import NAMESPACE_URL, uuid5

from pondapp.store import shipped
from pondapp.web import places, stamp, wheels

FOLDER = places.ROOT / "build" / "release"
OLDEST = 315_532_800  # 1980, the first time a zip can hold
PACKED = (".br", ".gz", ".png", ".woff2")
SUMS = "SHA256SUMS"

NEXT = """
What to do next:
  1. Open it once more: python -m pondapp serve, and on a phone by a cable.
  2. Tag the commit and push the tag: git tag v{version} && git push origin v{version}
  3. Make a release of that tag on your host of repositories, with the files above. The workflow
     .github/workflows/pages.yml then puts the site on the pages of that host; or unpack the site's
     archive on any other host, all files at once.
  4. Ask that host whether it serves it right: python -m pondapp check ADDRESS
"""


def git(*words: str) -> str:
    """What git says of the sources; nothing where there is no git, or they are no repository."""
    command = ["git", *words]
    try:
        return subprocess.run(command, cwd=places.ROOT, capture_output=True, text=True).stdout
    except OSError:
        return ""


def when() -> int:
    """Seconds since 1970 that everything of this release is dated by."""
    told = os.environ.get("SOURCE_DATE_EPOCH", "") or git("log", "-1", "--format=%ct")
    try:
        return max(int(told or OLDEST), OLDEST)
    except ValueError as problem:
        raise places.BuildError(f"SOURCE_DATE_EPOCH is no number: {told}") from problem


def doubts() -> str:
    """Why nobody could make the same bytes again, in a sentence; nothing where anybody could."""
    if not git("log", "-1", "--format=%ct"):
        return "Git tells of no commit that these sources are of."
    if git("status", "--porcelain"):
        return "The sources have changes that are in no commit: commit them, and make it again."
    return ""


def version() -> str:
    """The version, when all three places name the same."""
    project = tomllib.loads((places.ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    changes = (places.ROOT / "assets" / "CHANGELOG.md").read_text(encoding="utf-8")
    newest = next(line[3:] for line in changes.splitlines() if line.startswith("## "))
    named = {project["version"], shipped.VERSION, newest}
    if len(named) > 1:
        raise places.BuildError(f"pyproject.toml, shipped.py, CHANGELOG.md name {sorted(named)}")
    return shipped.VERSION


def wheel(root: Path, folder: Path, date: int) -> None:
    """Make the wheel of the sources in a folder."""
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", folder]
    surroundings = {**os.environ, "SOURCE_DATE_EPOCH": str(date)}
    if subprocess.run([*command, root], env=surroundings).returncode:
        raise places.BuildError("the wheel could not be made; pip said why above")


def archive(site: Path, target: Path, date: int) -> None:
    """Put a site into a zip, in the order of its names."""
    moment = datetime.fromtimestamp(date, UTC).timetuple()[:6]
    with zipfile.ZipFile(target, "w") as made:
        for path in sorted(path for path in site.rglob("*") if path.is_file()):
            entry = zipfile.ZipInfo(path.relative_to(site).as_posix(), moment)
            entry.external_attr = 0o100644 << 16
            entry.create_system = 3  # as Unix makes it, on any system
            way = zipfile.ZIP_STORED if path.suffix in PACKED else zipfile.ZIP_DEFLATED
            made.writestr(entry, path.read_bytes(), way, 9)


def bill(date: int) -> str:
    """The list of what ships, as CycloneDX 1.6 in JSON."""
    from cyclonedx.contrib.license.factories import LicenseFactory
    from cyclonedx.model import HashAlgorithm, HashType
    from cyclonedx.model.bom import Bom, BomMetaData
    from cyclonedx.model.component import Component, ComponentType
    from cyclonedx.output import make_outputter
    from cyclonedx.schema import OutputFormat, SchemaVersion
    from packageurl import PackageURL

    locked = wheels.locked(places.LOCK)
    licence = LicenseFactory().make_from_string

    def component(part: shipped.Shipped) -> Component:
        _, digest = locked.get(part.name, ("", ""))
        package = "flet-web" if part == shipped.CLIENT else part.name
        known = digest or part == shipped.CLIENT
        address = PackageURL("pypi", None, package, part.version) if known else None
        return Component(
            name=package,
            version=part.version,
            type=ComponentType.LIBRARY,
            bom_ref=f"{part.key}@{part.version}",
            purl=address,
            licenses=[licence(part.licence)],
            hashes=[HashType(alg=HashAlgorithm.SHA_256, content=digest)] if digest else [],
        )

    own, *others = (component(part) for part in shipped.SHIPPED)
    own.type = ComponentType.APPLICATION
    own.hashes.clear()
    bom = Bom(components=others)
    bom.metadata = BomMetaData(component=own, timestamp=datetime.fromtimestamp(date, UTC))
    bom.serial_number = uuid5(NAMESPACE_URL, f"{stamp.sources()} {date}")
    bom.register_dependency(own, others)
    writer = make_outputter(bom, OutputFormat.JSON, SchemaVersion.V1_6)
    return writer.output_as_string(indent=1) + "\n"


def files_of(folder: Path) -> list[Path]:
    """The files of a release; a folder beside them, such as an unpacked site, is none of it."""
    return sorted(path for path in folder.iterdir() if path.is_symlink() or path.is_file())


def sums(folder: Path) -> str:
    """The checksums of all files of a folder, as sha256sum reads them."""
    return "".join(
        f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.name}\n"
        for path in files_of(folder)
        if path.name != SUMS
    )


def make(folder: Path) -> None:
    """Make all of it from the built site."""
    named, date = f"pondapp-{version()}", when()
    folder.mkdir(parents=True, exist_ok=True)
    for old in files_of(folder):
        old.unlink()
    wheel(places.ROOT, folder, date)
    archive(places.SITE, folder / f"{named}-site.zip", date)
    (folder / f"{named}.cdx.json").write_text(bill(date), encoding="utf-8")
    (folder / SUMS).write_text(sums(folder), encoding="utf-8")


def main() -> int:
    """Build the site when that is needed, make the release, and say what to do next."""
    try:
        version()
        if not (stamp.is_current() and (places.SITE / "pack.bin.br").exists()):
            from pondapp.web import site

            print("Building the site, each file packed as well as can be: minutes ...", flush=True)
            site.build()
        print("Making the release ...", flush=True)
        make(FOLDER)
    except places.BuildError as problem:
        print(f"release: {problem}", file=sys.stderr)
        return 1
    for path in files_of(FOLDER):
        print(f"  {path.stat().st_size / 1e6:6.2f} MB  {path.relative_to(places.ROOT)}")
    if doubt := doubts():
        print(f"\nNot to be given to others as it is. {doubt}")
    print(NEXT.format(version=version()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
