"""A Box of files in a folder."""

import os
from pathlib import Path
from urllib.parse import quote, unquote


class FolderBox:
    """One file per key; a file is replaced whole, never written into."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        folder.mkdir(parents=True, exist_ok=True)

    def _path(self, key: str) -> Path:
        return self._folder / f"{quote(key, safe='')}.json"

    async def items(self, prefix: str) -> dict[str, str]:
        """All texts whose key begins so."""
        found = ((unquote(path.stem), path) for path in sorted(self._folder.glob("*.json")))
        return {
            key: path.read_text(encoding="utf-8", errors="replace")
            for key, path in found
            if key.startswith(prefix)
        }

    async def put(self, key: str, text: str) -> None:
        """Keep a text."""
        path = self._path(key)
        temporary = path.with_suffix(".part")
        with temporary.open("w", encoding="utf-8") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        temporary.replace(path)

    async def delete(self, key: str) -> None:
        """Forget a text."""
        self._path(key).unlink(missing_ok=True)
