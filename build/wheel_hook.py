"""Puts the built site into the wheel: who installs it has no network to build one from."""

import sys
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

PACKED = (".br", ".gz")  # for hosts; on one's own computer they only cost room


class SiteHook(BuildHookInterface):
    """Hatchling asks it before each wheel."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Name the files of the site; an editable wheel has none, since its sources build it."""
        if version == "editable":
            return
        sys.path.insert(0, self.root)
        from pondapp.web import places, stamp  # they need nothing that is installed

        if not stamp.is_current():
            sys.exit("The site in build/site is not of these sources: python -m pondapp build")
        inside = places.PACKED_IN.relative_to(places.ROOT)
        for path in sorted(places.SITE.rglob("*")):
            if path.is_file() and path.suffix not in PACKED:
                target = inside / path.relative_to(places.SITE)
                build_data["force_include"][str(path)] = target.as_posix()
