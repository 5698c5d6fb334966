"""Reads the catalogues as they are written, in gettext's .po format.

Babel makes and checks them. Reading what Babel wrote takes few lines, and so neither a build nor
a start from the sources needs it.
"""

import json
import re
from pathlib import Path

# A string may go on over several lines; its escapes are those of JSON.
LINE = re.compile(r'(?P<keyword>msgid_plural|msgid|msgstr)?(?:\[\d\])? ?(?P<text>".*")')


def read(path: Path) -> dict[str, str | list[str]]:
    """Translations by the English text; the forms of a counted text by its singular.

    The head of the file and what is not translated are left out.
    """
    found: dict[str, str | list[str]] = {}
    for entry in path.read_text(encoding="utf-8").split("\n\n"):
        parts: dict[str, list[str]] = {}
        forms: list[str] = []
        for line in entry.splitlines():
            if match := LINE.fullmatch(line):
                if match["keyword"]:
                    forms = parts.setdefault(match["keyword"], [])
                    forms.append("")
                forms[-1] += json.loads(match["text"])
        text, translated = "".join(parts.get("msgid", ())), parts.get("msgstr", [])
        if text and all(translated):
            found[text] = translated if "msgid_plural" in parts else translated[0]
    return found


def compiled(path: Path) -> bytes:
    """What the site holds in place of the file."""
    return json.dumps(read(path), ensure_ascii=False, separators=(",", ":")).encode()
