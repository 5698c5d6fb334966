"""Modules that no snapshot holds, since nobody read them ahead.

A start from a snapshot has no files of modules: those that it needs run already. What the app
reads besides, such as a codec in an error's way, is brought when it is first asked for. Where that
fails, the module is missing for now, as any other may be, and the next one asked for tries again.
"""

import importlib
import sys
from collections.abc import Sequence
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder
from types import ModuleType


class LateModules(MetaPathFinder):
    """Asked for a module when nobody else has it; it brings the files of all, once."""

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """Where it is; None if it is none of the app's. Raises ImportError when none come."""
        sys.meta_path.remove(self)  # what is read on the way is not asked of it
        import flet_js  # the page's, which is another one in each start

        if not flet_js.bringModules():  # no network, and the browser dropped the file
            sys.meta_path.append(self)
            raise ImportError(f"the files of modules do not come: {fullname}", name=fullname)
        importlib.invalidate_caches()
        return PathFinder.find_spec(fullname, path, target)


def bring_when_asked() -> None:
    """Have the files of modules brought; for a memory that is taken up without them."""
    sys.meta_path.append(LateModules())
