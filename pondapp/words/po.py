"""Reads the catalogues as they are written, in gettext's .po format.

Babel makes and checks them. Reading what Babel wrote takes few lines, and so neither a build nor
a start from the sources needs it.
"""

import json
import re
from collections.abc import Iterable
from pathlib import Path

from pondapp.words import ENGLISH

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


def compiled(paths: Iterable[Path]) -> dict[str, bytes]:
    """What the site holds in place of these files, by name.

    The English texts stand in one list, and those of each language, in the same order, in another:
    with its English beside it in each file, every text of every language would be kept twice.
    """
    catalogues = {path.stem: read(path) for path in paths}
    texts = sorted(set().union(*catalogues.values()))
    lists = {code: [known.get(text) for text in texts] for code, known in catalogues.items()}
    return {
        f"{code}.json": json.dumps(one, ensure_ascii=False, separators=(",", ":")).encode()
        for code, one in {ENGLISH.code: texts, **lists}.items()
    }
