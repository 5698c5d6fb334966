"""Edits to the client's own files. Each one fails loudly when its text is not found."""

import json
import re

from pondapp.web.places import BuildError

# The client looks here for an animation runtime. A path of the same length within our site takes
# its place, because the compiled client stores the length in front of the text.
RIVE = b"https://cdn.jsdelivr.net/npm/@rive-app/flutter-native-wasm@44.0.0/"
RIVE_FOLDER = "unused".ljust(len(RIVE) - 1, "-")
RIVE_STANDIN = f"{RIVE_FOLDER}/wasm/rive_native.js"

# Where the client would ask for the glyphs that its fonts lack, had it no other setting.
FONTS = b"https://fonts.gstatic.com/s/"
FONTS_HERE = b"assets/fonts/".ljust(len(FONTS) - 1, b"-") + b"/"

# The client writes a viewport of its own, which forbids to zoom. The same number of letters again.
VIEWPORT = b"width=device-width, initial-scale=1.0, maximum-scale=1.0, user-scalable=no"
VIEWPORT_HERE = b"width=device-width, initial-scale=1.0".ljust(len(VIEWPORT))


def replace(name: str, data: bytes, old: bytes, new: bytes) -> bytes:
    """Replace a text that occurs exactly once."""
    if (count := data.count(old)) != 1:
        raise BuildError(f"{name}: {old[:60]!r} occurs {count} times, not once; review the edit")
    return data.replace(old, new)


def screen_program(name: str, data: bytes) -> bytes:
    """main.dart.wasm and main.dart.js: no other host is asked, and the reader may zoom."""
    data = replace(name, data, RIVE, f"{RIVE_FOLDER}/".encode())
    data = replace(name, data, VIEWPORT, VIEWPORT_HERE)
    return replace(name, data, FONTS, FONTS_HERE)


def bootstrap(data: bytes) -> bytes:
    """flutter_bootstrap.js: no service worker but ours, one build of each renderer, our start."""
    name = "flutter_bootstrap.js"
    data, count = re.subn(rb"\n\s*serviceWorkerSettings: \{[^{}]*\},", b"", data)
    if count != 1:
        raise BuildError(f"{name}: serviceWorkerSettings occurs {count} times, not once")
    data = replace(name, data, b"//# sourceMappingURL=flutter.js.map\n", b"")
    data = replace(name, data, b"https://www.gstatic.com/flutter-canvaskit", b"canvaskit")
    return replace(
        name,
        data,
        b"assetBase: flet.assetBase\n",
        b'assetBase: flet.assetBase,\n    canvasKitVariant: "full"\n',
    )


def runtime(data: bytes) -> bytes:
    """pyodide.mjs: packages come from our pack alone, never from the runtime's usual host."""
    return replace("pyodide.mjs", data, b"https://cdn.jsdelivr.net/pyodide/v", b"./none/v")


def font_manifest(data: bytes) -> bytes:
    """FontManifest.json: the icons and Roboto; formulas and another platform's icons stay out."""
    kept = [font for font in json.loads(data) if font["family"] == "MaterialIcons"]
    if len(kept) != 1:
        raise BuildError("FontManifest.json: no MaterialIcons")
    kept.insert(0, {"family": "Roboto", "fonts": [{"asset": "fonts/roboto.woff2"}]})
    return json.dumps(kept, separators=(",", ":")).encode()
