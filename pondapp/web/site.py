"""All files of the site from the client, the wheels, the app and our templates."""

import gzip
import hashlib
import json
import shutil
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from pondapp.models import backup
from pondapp.web import (
    bundle,
    check,
    compiled,
    dataclass_code,
    icons,
    library,
    page_words,
    patch,
    places,
    precache,
    stamp,
    wheels,
)

# What the app needs of the client, as it is there.
TAKEN = (
    "main.dart.mjs",
    "assets/AssetManifest.bin",
    "assets/AssetManifest.bin.json",
    "assets/NOTICES",
    "assets/fonts/roboto.woff2",
    "assets/packages/wakelock_plus/assets/no_sleep.js",
    "assets/shaders/ink_sparkle.frag",
    "assets/shaders/stretch_effect.frag",
    "canvaskit/skwasm.js",
    "canvaskit/skwasm.wasm",
    "canvaskit/canvaskit.js",
    "canvaskit/canvaskit.wasm",
    "pyodide/pyodide.asm.mjs",
    "pyodide/pyodide.asm.wasm",
)
# What boot.js is made of: one file is one question to the host less for each.
BOOT = (
    "openings.js",
    "watch.js",
    "snapshot.js",
    "system.js",
    "ask.js",
    "offline.js",
    "zoom.js",
    "aimed.js",
    "turned.js",
    "boot.js",
)
COMPRESSED = {".js", ".mjs", ".wasm", ".json", ".html", ".bin", ".zip", ".otf", ".frag", ""}
COMPRESSED.add(".webmanifest")

Translate = Callable[[Mapping[str, bytes]], Mapping[str, bytes]]
Texts = Callable[[Mapping[str, bytes], Mapping[str, bytes]], list[str]]


def _template(name: str) -> str:
    return (places.TEMPLATES / name).read_text(encoding="utf-8")


def _python(inside: str, files: Mapping[str, bytes], ahead: Translate | None) -> dict[str, bytes]:
    """Files below a folder of the browser, with compiled ones in place of their sources."""
    if ahead is None:
        return dict(files)
    made = ahead({f"{inside}{path}": data for path, data in files.items() if path.endswith(".py")})
    rest = {path: data for path, data in files.items() if not path.endswith(".py")}
    return rest | {f"{path.removeprefix(inside)}c": data for path, data in made.items()}


def site_files(
    app: Mapping[str, bytes], ahead: Translate | None = None, texts: Texts | None = None
) -> dict[str, bytes]:
    """Path and bytes of every file.

    `app` is what the pack holds beside the packages; `ahead` compiles all Python of the site,
    which is left in sources without it, and `texts` tells what dataclasses would have compiled.
    """
    client = places.client()
    files = {path: (client / path).read_bytes() for path in TAKEN}
    for name in ("main.dart.wasm", "main.dart.js"):
        files[name] = patch.screen_program(name, (client / name).read_bytes())
    files["flutter_bootstrap.js"] = patch.bootstrap((client / "flutter_bootstrap.js").read_bytes())
    files["pyodide/pyodide.mjs"] = patch.runtime((client / "pyodide/pyodide.mjs").read_bytes())
    manifest = "assets/FontManifest.json"
    files[manifest] = patch.font_manifest((client / manifest).read_bytes())
    font = "assets/fonts/MaterialIcons-Regular.otf"
    files[font] = icons.font((client / font).read_bytes(), app.values())
    files[patch.RIVE_STANDIN] = _template("rive_native.js").encode()

    fetched = wheels.fetch(places.LOCK, places.CACHE / "wheels")
    carried = {**bundle.package_files(fetched), **app}
    libraries = {
        path: f"libraries/{Path(path).name}.wasm" for path in carried if path.endswith(".so")
    }
    files |= {name: carried.pop(path) for path, name in libraries.items()}
    for path, sources in ((icons.NUMBERS, app.values()), (icons.OTHER_NUMBERS, ())):
        carried[path] = icons.numbers(carried[path], sources)
    zipped = library.sources((client / "pyodide/python_stdlib.zip").read_bytes())
    with ThreadPoolExecutor() as both:  # two browsers, where each would leave a core idle
        pack = both.submit(_python, bundle.INSIDE, carried, ahead)
        standard = both.submit(_python, library.INSIDE, zipped, ahead)
    always, modules = bundle.in_two(pack.result())
    files["start.bin"] = bundle.pack(always)
    files["pyodide/python_stdlib.zip"] = library.stored(standard.result())

    info = json.loads((client / "pyodide/pyodide-lock.json").read_bytes())["info"]
    worker = _template("worker.js")

    def worker_of(python: str) -> bytes:
        return precache.fill(
            "worker.js", worker, {"LOCK_INFO": info, "LIBRARIES": libraries, "PYTHON": python}
        )

    if ahead and texts and "ahead.py" in app:
        alone = {path: data for path, data in files.items() if precache.PYTHON.match(path)}
        told = texts({**alone, "worker.js": worker_of("")}, modules)
        modules["early.bin"] = dataclass_code.packed(told, ahead)
    files["pack.bin"] = bundle.pack(modules)

    for icon in sorted(places.ICONS.glob("*.png")):
        files[f"icons/{icon.name}"] = icon.read_bytes()
    for picture in sorted(places.SCREENSHOTS.glob("*.png")):
        files[f"{precache.SCREENSHOTS}{picture.name}"] = picture.read_bytes()
    files["manifest.webmanifest"] = _template("manifest.webmanifest").encode()
    files["backup.schema.json"] = json.dumps(backup.schema(), indent=1).encode()
    start, pad = _template("start.js"), _template("pad.js")
    files["start.js"] = precache.fill(
        "start.js", start, {"WORDS": page_words.table(start), "DECIMALS": page_words.DECIMALS}
    )
    files["pad.js"] = precache.fill("pad.js", pad, {"WORDS": page_words.table(pad)})
    files["index.html"] = precache.fill(
        "index.html", _template("index.html"), {"CSP": precache.POLICY}
    )
    python = precache.python_version(files, worker)
    files["worker.js"] = worker_of(python)
    safe = _template("safe.js")
    files["safe.js"] = precache.fill(
        "safe.js", safe, {"PYTHON": python, "WORDS": page_words.table(safe)}
    )
    boot = "".join(_template(name) for name in BOOT)
    sizes = precache.start_bytes({**files, "boot.js": boot.encode()})
    files["boot.js"] = precache.fill(
        "boot.js", boot,
        {"START_BYTES": sizes, "PYTHON": python, "WORDS": page_words.table(boot)},
    )  # fmt: skip
    files["sw.js"] = precache.service_worker(_template("sw.js"), files)
    check.check(files)
    return files


def _brotli(data: bytes) -> bytes:
    """Best compression, kept by content: it takes a minute and most files never change."""
    import brotli  # type: ignore[import-untyped]  # only a full build needs it

    kept = places.CACHE / "brotli" / hashlib.sha256(data).hexdigest()
    if not kept.exists():
        places.keep(kept, brotli.compress(data, quality=11, lgwin=24))
    return kept.read_bytes()


def write(files: Mapping[str, bytes], folder: Path, compress: bool) -> None:
    """Write the site beside the old one, then put it in the old one's place.

    Each file bears the time of its writing: hosts tell a new sw.js from the old one by that and by
    its length, which stays.
    """
    fresh = folder.with_name(f"{folder.name}.new")
    shutil.rmtree(fresh, ignore_errors=True)
    for path, data in files.items():
        target = fresh / path
        target.parent.mkdir(parents=True, exist_ok=True)
        kinds = {"": data}
        if compress and target.suffix in COMPRESSED and len(data) > 1000:
            kinds[".br"] = _brotli(data)
            kinds[".gz"] = gzip.compress(data, 9, mtime=0)
        for ending, content in kinds.items():
            target.with_name(target.name + ending).write_bytes(content)
    shutil.rmtree(folder, ignore_errors=True)
    fresh.rename(folder)


def best_files(app: Mapping[str, bytes], tell: Callable[[str], object]) -> dict[str, bytes]:
    """All files, compiled ahead where this computer can; `tell` hears when it cannot."""
    try:
        return site_files(app, compiled.compiled, dataclass_code.texts)
    except compiled.NotCompiled as reason:
        tell(f"Python is left in sources, which start more slowly: {reason}")
        return site_files(app)


def build(compress: bool = True, tell: Callable[[str], object] = print) -> dict[str, bytes]:
    """Make the site and remember what it was made from."""
    made_of = stamp.sources()  # before the first is read: one may change while this builds
    files = best_files(bundle.app_files(places.PACKAGE), tell)
    write(files, places.SITE, compress)
    if compress:
        check.check_sent(files, places.SITE)
    stamp.put(made_of)
    return files
