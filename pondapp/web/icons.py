"""The icon font with the icons in use, and their numbers: of all there are, 600 kB are kept."""

import io
import json
import re
from collections.abc import Iterable

from fontTools import subset  # type: ignore[import-untyped]
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from pondapp.web.places import BuildError

NAMED = re.compile(rb"\bIcons\.([A-Z][A-Z0-9_]*)")
# Where the framework looks up the number of an icon by its name; of the other set we name none.
NUMBERS = "flet/controls/material/icons.json"
OTHER_NUMBERS = "flet/controls/cupertino/cupertino_icons.json"
STYLES = ("baseline", "outlined", "rounded", "sharp")

# What the screen's own controls draw without being asked: back, open, sort, select, clear, choose.
CONTROLS = re.findall(
    r"\w+",
    """
    access_time add arrow_back arrow_back_ios arrow_back_ios_new arrow_downward
    arrow_drop_down arrow_drop_up arrow_forward arrow_forward_ios arrow_upward calendar_today
    cancel check check_box check_box_outline_blank chevron_left chevron_right clear close
    content_copy content_cut content_paste delete done drag_handle edit error error_outline
    expand_less expand_more first_page info keyboard keyboard_arrow_down keyboard_arrow_left
    keyboard_arrow_right keyboard_arrow_up last_page menu more_horiz more_vert
    radio_button_checked radio_button_unchecked refresh remove schedule search select_all
    unfold_more visibility visibility_off warning
    """,
)


def named(sources: Iterable[bytes]) -> set[str]:
    """Glyphs of the icons that the app's sources name."""
    found = set()
    for source in sources:
        for name in NAMED.findall(source):
            glyph = name.decode().lower()
            found.add(glyph if glyph.endswith(STYLES[1:]) else f"{glyph}_baseline")
    return found


def numbers(whole: bytes, sources: Iterable[bytes]) -> bytes:
    """The numbers of the icons that these sources name, out of the framework's table of all."""
    names = sorted({name.decode() for source in sources for name in NAMED.findall(source)})
    known = json.loads(whole)
    if missing := [name for name in names if name not in known]:
        raise BuildError(f"the framework has no icon {missing[0]}")
    return json.dumps({name: known[name] for name in names}, separators=(",", ":")).encode()


def font(whole: bytes, sources: Iterable[bytes]) -> bytes:
    """The font with these sources' icons and those of the controls."""
    loaded = TTFont(io.BytesIO(whole), recalcTimestamp=False)
    there = set(loaded.getGlyphOrder())
    wanted = named(sources)
    if missing := sorted(wanted - there):
        raise BuildError(f"the icon font has no {missing[0]}")
    wanted |= {f"{name}_{style}" for name in CONTROLS for style in STYLES} & there
    options = subset.Options(notdef_outline=True, recalc_timestamp=False, glyph_names=False)
    cutter = subset.Subsetter(options)
    characters = {code for code, glyph in loaded.getBestCmap().items() if glyph in wanted}
    cutter.populate(unicodes=characters | {0x20})
    cutter.subset(loaded)
    made = io.BytesIO()
    loaded.save(made)
    return made.getvalue()
