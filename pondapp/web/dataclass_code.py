"""The code that dataclasses write for themselves, compiled when the site is built.

The browser's own Python reads all modules once and tells the texts that dataclasses had compiled;
these are compiled as any source is. `templates/early.py` takes them at a start. A text that is not
among them is compiled then, as ever.
"""

import hashlib
import json
import marshal
import zlib
from collections.abc import Callable, Mapping

from pondapp.web import bundle, compiled, places

INSIDE = "/dataclasses/"  # compile.py knows the texts by it
HEAD = 16  # bytes of a compiled file before its code: a version, a flag and a hash


def texts(site: Mapping[str, bytes], modules: Mapping[str, bytes]) -> list[str]:
    """What dataclasses of these modules have compiled, on a site that is whole but for them.

    Kept by content, so that only an edit of a module runs a browser. Raises NotCompiled.
    """
    page = {
        name: (places.TEMPLATES / template).read_bytes()
        for name, template in ((compiled.PAGE, "record.html"), ("record.js", "record.js"))
    }
    ahead = {
        "read_ahead.pyc": modules["ahead.pyc"],
        "ahead.py": (places.TEMPLATES / "record.py").read_bytes(),
    }
    of_packages = {path: data for path, data in modules.items() if "/" in path}
    files = {
        **{path: data for path, data in site.items() if path != "start.bin"},
        **page,
        "pack.bin": bundle.pack({**of_packages, **ahead}),
    }
    digest = hashlib.sha256(bundle.pack(files)).hexdigest()
    kept = places.CACHE / "compiled" / f"{digest}.json"
    if not kept.exists():
        rest = {path: data for path, data in modules.items() if path != "ahead.pyc"}
        files["pack.bin"] = bundle.pack({**rest, **ahead})
        places.keep(kept, compiled.answer({**files, "start.bin": site["start.bin"]}))
    return [str(text) for text in json.loads(kept.read_bytes())]


def packed(
    written: list[str], translate: Callable[[Mapping[str, bytes]], Mapping[str, bytes]]
) -> bytes:
    """The file that templates/early.py reads."""
    digests = {_digest(text): text.encode() for text in written}
    made = translate({f"{INSIDE}{name.hex()}.py": text for name, text in digests.items()})
    codes = {name: made[f"{INSIDE}{name.hex()}.py"][HEAD:] for name in sorted(digests)}
    # In the second form of marshal, which does not depend on who else holds a part.
    return zlib.compress(marshal.dumps(codes, 2), 9)


def _digest(text: str) -> bytes:
    return hashlib.blake2b(text.encode(), digest_size=8).digest()
